"""Lens meters in the window: their steps, and a daily check that tells the truth."""

from decimal import Decimal

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QLabel, QLineEdit, QPushButton, QWidget

from benchassist.job.instrument import Instrument, Speech
from benchassist.job.order import Design
from benchassist.job.readings import DisplayAdd, DisplayReading
from benchassist.store.instruments import MeterCheck, load_checks
from benchassist.ui.actions import Command
from benchassist.ui.demo import OPTICIAN
from benchassist.ui.meter_check import CheckSheet
from benchassist.ui.meters import MetersSheet
from benchassist.verdicts.finding import State
from tests.ui.workplace import Workplace, said

NEXT, BACK = "Next", "Back"


def button(sheet: QWidget, words: str) -> QPushButton:
    """The visible button that begins with these words."""
    return next(
        one
        for one in sheet.findChildren(QPushButton)
        if one.isVisible() and one.text().replace("&", "").startswith(words)
    )


def push(sheet: QWidget, words: str) -> None:
    """Presses the visible button that begins with these words."""
    button(sheet, words).click()
    QApplication.processEvents()


def told(sheet: QWidget) -> str:
    """Everything that the sheet's visible labels say."""
    return " ".join(one.text() for one in sheet.findChildren(QLabel) if one.isVisible())


def new_meter(full: Workplace, speech: str, step: str) -> CheckSheet:
    """Names a new meter and begins its check."""
    full.shell.do(Command.METERS)
    sheet = full.shell.findChild(MetersSheet)
    assert sheet is not None
    name = sheet.findChild(QLineEdit)
    assert name is not None
    name.setText("Bench 2")
    push(sheet, speech)
    push(sheet, step)
    push(sheet, "New")
    check = full.shell.findChild(CheckSheet)
    assert check is not None
    QApplication.processEvents()
    return check


def walk(full: Workplace, check: CheckSheet, zero: str, line: str, *known: str) -> None:
    """Does a display's check up to its last step, by keyboard where something is typed."""
    push(check, NEXT)
    full.hands.type(zero)
    push(check, line)
    push(check, NEXT)
    full.hands.type(*(known or ("", "")))


def the_check(full: Workplace) -> MeterCheck:
    (kept,) = load_checks(full.desk.store.folder)
    return kept


@pytest.mark.parametrize(
    ("speech", "words", "step"),
    [
        ("Manual", "0.12 D", "0.125"),
        ("Manual", "0.25 D", "0.25"),
        ("Digital", "0.01 D", "0.01"),
        ("Digital", "0.06 D", "0.0625"),
        ("Digital", "0.12 D", "0.125"),
        ("Digital", "0.25 D", "0.25"),
    ],
)
def test_the_step_of_a_new_meter_is_chosen(
    full: Workplace, speech: str, words: str, step: str
) -> None:
    check = new_meter(full, speech, words)
    asked: list[MeterCheck] = []
    check.checked.connect(asked.append)
    push(check, NEXT)
    if speech == "Manual":
        push(check, "Focused")
        push(check, NEXT)
    full.hands.type("0")
    push(check, "Along")
    push(check, NEXT)
    full.hands.type("", "")
    push(check, "May be used")
    push(check, NEXT)
    assert asked[0].step == Decimal(step)
    assert full.desk.session.meter is not None
    assert full.desk.session.meter.step == Decimal(step)


def test_the_steps_are_those_of_the_kind_of_meter(full: Workplace) -> None:
    full.shell.do(Command.METERS)
    sheet = full.shell.findChild(MetersSheet)
    assert sheet is not None

    def offered() -> list[str]:
        buttons = sheet.findChildren(QPushButton) if sheet else []
        return [one.text() for one in buttons if one.isVisible() and " D" in one.text()]

    assert [words[:4] for words in offered()] == ["0.01", "0.06", "0.12", "0.25"]
    push(sheet, "Manual")
    assert [words[:4] for words in offered()] == ["0.12", "0.25"]
    sheet.close()


def test_a_display_reads_the_zero_as_it_shows_it(full: Workplace) -> None:
    check = new_meter(full, "Digital", "0.06")
    walk(full, check, ".06", "Along", "-5", "-4.93")
    push(check, "May be used")
    push(check, NEXT)
    kept = the_check(full)
    assert (kept.zero, kept.known_read) == (Decimal("0.0625"), Decimal("-4.9375"))
    assert kept.accepted


@pytest.mark.parametrize(
    ("zero", "line", "known", "words"),
    [
        ("-.12", "Along", (), "Without a lens it shows \N{MINUS SIGN}0.12 D"),
        (
            "0",
            "Across",
            (),
            "The target lies across the 180 line: have the axis scale serviced.",
        ),
        ("0", "Along", ("-5", "-5.25"), "The known lens reads \N{MINUS SIGN}0.25 D off"),
    ],
)
def test_a_meter_with_a_fault_cannot_be_accepted(
    full: Workplace, zero: str, line: str, known: tuple[str, ...], words: str
) -> None:
    check = new_meter(full, "Digital", "0.01")
    walk(full, check, zero, line, *known)
    assert words in told(check)
    assert not button(check, "May be used").isEnabled()
    assert button(check, "Not to be used").isChecked()
    push(check, NEXT)
    assert not the_check(full).accepted
    assert full.desk.meters()[0].checked is None


def test_an_eyepiece_that_is_not_focused_is_no_check(full: Workplace) -> None:
    check = new_meter(full, "Manual", "0.12")
    push(check, NEXT)
    push(check, "Not focused")
    push(check, NEXT)
    assert "The eyepiece is not focused" in told(check)
    push(check, BACK)
    push(check, "Focused")
    push(check, NEXT)
    assert "The eyepiece is not focused" not in told(check)
    check.close()


def test_one_goes_back_and_reads_the_zero_again(full: Workplace) -> None:
    check = new_meter(full, "Digital", "0.01")
    walk(full, check, "-.12", "Along")
    for _ in range(3):
        push(check, BACK)
    full.hands.letters(".02")
    full.hands.type("")
    assert "Without a lens it shows" not in told(check)
    push(check, NEXT)
    full.hands.type("", "")
    assert button(check, "May be used").isEnabled()
    push(check, "May be used")
    push(check, NEXT)
    assert (the_check(full).zero, the_check(full).accepted) == (Decimal("0.02"), True)


def test_a_remark_is_kept_with_the_check(full: Workplace) -> None:
    check = new_meter(full, "Digital", "0.01")
    walk(full, check, "-.12", "Along")
    full.hands.press(Qt.Key.Key_Tab)
    full.hands.type("Sent to the maker.")
    assert the_check(full).remark == "Sent to the maker."
    assert not the_check(full).accepted


def test_half_a_known_lens_is_asked_for(full: Workplace) -> None:
    check = new_meter(full, "Digital", "0.01")
    walk(full, check, "0", "Along", "-5", "")
    assert "Enter both powers" in told(check)
    check.close()


def test_readings_on_a_meter_that_failed_are_marked(full: Workplace) -> None:
    check = new_meter(full, "Digital", "0.01")
    walk(full, check, "0", "Along")
    push(check, "May be used")
    push(check, NEXT)
    full.desk.keep_check(
        the_check(full).with_(zero=Decimal("0.20"), at=full.desk.session.now())
    )
    full.shell.activateWindow()
    QApplication.processEvents()
    full.shell.to_tray()
    full.hands.type("FH-2611-060")
    full.shell.go_to("right.distance")
    full.hands.type("-2", "-.5", "90")
    trace = next(one for one in full.standing.findings if one.key == "right.meter")
    assert "not checked" in trace.sentence
    assert "not checked" in said(full)
    (line,) = (one for one in full.desk.record().findings if one.key == "right.meter")
    assert "not checked" in line.sentence


def use(full: Workplace, step: str, *, speech: Speech = Speech.DISPLAY) -> None:
    """Takes up a lens meter that passed its check."""
    full.desk.keep_check(
        MeterCheck(
            instrument=f"{speech} {step}",
            speech=speech,
            step=Decimal(step),
            at=full.desk.session.now(),
            person=OPTICIAN,
            axis_line=True,
            accepted=True,
        )
    )


@pytest.mark.parametrize(
    ("step", "typed", "read"),
    [
        ("0.125", "-2.62", "-2.625"),
        ("0.125", "-262", "-2.625"),
        ("0.0625", "-2.06", "-2.0625"),
        ("0.0625", "-2,18", "-2.1875"),
        ("0.25", "-2.75", "-2.75"),
        ("0.01", "-2.62", "-2.62"),
    ],
)
def test_what_a_display_in_steps_shows_is_read_exactly(
    full: Workplace, step: str, typed: str, read: str
) -> None:
    use(full, step)
    full.hands.type("FH-2611-060")
    full.shell.go_to("right.distance")
    full.hands.type(typed, "-.5", "90")
    (reading,) = full.job.now.right.distance
    assert isinstance(reading, DisplayReading)
    assert (reading.sphere, reading.axis) == (Decimal(read), Decimal(90))
    field = full.shell.findChildren(QLineEdit)
    shown = typed.replace(",", ".").replace("-262", "-2.62").replace("-", "\N{MINUS SIGN}")
    assert shown in [one.text() for one in field if one.isVisible()]


def test_an_eighth_on_such_a_display_lies_on_its_limit(full: Workplace) -> None:
    use(full, "0.125")
    full.hands.type("FH-2611-060")
    full.shell.do(Command.GUARD)
    full.shell.go_to("right.distance")
    full.hands.type("-2.12", "-.5", "90")
    states = {one.key: one.state for one in full.standing.findings}
    assert states["right.meridian-high"] is State.WITHIN


def test_a_reading_is_corrected_in_the_steps_of_its_own_meter(full: Workplace) -> None:
    use(full, "0.125")
    full.hands.type("FH-2611-060")
    full.shell.go_to("right.distance")
    full.hands.type("-2.12", "-.5", "90")
    use(full, "0.01")
    full.shell.go_to("right.prism")
    full.shell.go_to("right.distance")
    full.hands.type("-2.37")
    (reading,) = full.job.now.right.distance
    assert isinstance(reading, DisplayReading)
    assert reading.sphere == Decimal("-2.375")


def test_an_addition_is_read_in_steps_too(full: Workplace) -> None:
    use(full, "0.125")
    full.hands.type("FH-2611-060")
    order = full.job.order.with_(design=Design.BIFOCAL)
    full.desk.session.propose(full.job.with_(order=order))
    full.shell.go_to("right.near")
    full.hands.type("1.87")
    reading = full.job.now.right.near[-1]
    assert isinstance(reading, DisplayAdd)
    assert reading.shown == Decimal("1.875")


def test_a_known_meter_says_its_step(full: Workplace) -> None:
    use(full, "0.0625")
    sheet = MetersSheet(full.desk.meters(), "", full.shell)
    (line,) = [sheet._list.item(0).text()]  # noqa: SLF001  (what the list says)
    assert line.endswith("steps of 0.06 D")
    assert isinstance(full.desk.session.meter, Instrument)
