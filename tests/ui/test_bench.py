"""What happens on the bench: fields, meters, modes, and what is taken or kept."""

import sys
from decimal import Decimal
from pathlib import Path
from types import TracebackType

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import (
    QLabel,
    QLineEdit,
    QPushButton,
)
from pytestqt.qtbot import QtBot

from benchassist.guide.answers import with_answer
from benchassist.guide.reopening import Done
from benchassist.job.checks import Answer, Seen
from benchassist.job.order import FrameMaterial
from benchassist.job.readings import DrumReading
from benchassist.job.signoff import Outcome, SignOff
from benchassist.people.roles import Act
from benchassist.ui.actions import Command
from benchassist.ui.demo import SUPERVISOR
from benchassist.ui.fault import FaultHook, FaultSheet, log_to
from benchassist.ui.inputs.check import CheckInput
from benchassist.ui.inputs.line import Line
from benchassist.ui.inputs.number import NumberInput
from benchassist.ui.meter_check import CheckSheet
from benchassist.ui.meters import MetersSheet
from benchassist.ui.pages.record import RecordPage
from benchassist.ui.theme import Theme
from benchassist.verdicts.finding import State
from benchassist.wrong import BenchError
from tests.ui.hands import CTRL
from tests.ui.workplace import Workplace, press, said


def _present_error() -> tuple[type[BaseException], BaseException, TracebackType | None]:
    kind, error, trace = sys.exc_info()
    assert kind is not None
    assert error is not None
    return kind, error, trace


def texts(workplace: Workplace) -> list[str]:
    """What the visible fields hold."""
    fields = workplace.shell.findChildren(QLineEdit)
    return [field.text() for field in fields if field.isVisible()]


def test_a_signature_that_the_disk_refuses_is_not_there(
    full: Workplace, monkeypatch: pytest.MonkeyPatch
) -> None:
    full.hands.type("FH-2611-041")
    full.desk.take_over(SUPERVISOR)

    def refuse(*_: object, **__: object) -> None:
        raise BenchError("The disk is full.")

    monkeypatch.setattr(full.desk.store, "append", refuse)
    assert full.desk.session.sign(Act.COUNTERSIGN) == "The disk is full."
    assert full.job.now.signoff.countersigned is None


def test_undo_works_from_within_a_field(full: Workplace) -> None:
    full.hands.type("FH-2611-060")
    full.shell.go_to("right.distance")
    full.hands.type("-2.00")
    assert full.job.now.right.distance
    full.hands.press(Qt.Key.Key_Z, CTRL)
    assert full.job.now.right.distance == ()


def test_a_skipped_prompt_that_is_answered_counts_again(full: Workplace) -> None:
    full.hands.type("FH-2611-060")
    full.shell.go_to("right.prism")
    full.hands.letters("n")
    assert "right.prism" in full.job.now.skipped
    full.shell.go_to("right.prism")
    full.hands.type("1 in", "0")
    assert full.job.now.skipped == {}
    assert len(full.job.now.right.prism) == 1


def test_a_remark_is_shown_to_the_letter(full: Workplace) -> None:
    full.hands.type("FH-2611-060")
    full.shell.go_to("surface.scratches")
    full.hands.letters("f")
    answer = Answer(seen=Seen.FAULT, remark="chip <edge, nasal> 0.5 mm")
    prompt = full.desk.guide.prompt("surface.scratches")
    full.desk.session.propose(with_answer(full.job, prompt, answer))
    full.shell.go_to("record.outcome")
    assert "chip &lt;edge, nasal&gt; 0.5 mm" in said(full)


def test_a_remark_that_is_being_typed_stays_with_its_check(full: Workplace) -> None:
    full.hands.type("FH-2611-060")
    full.shell.go_to("bench.screws")
    full.hands.letters("g")
    full.shell.findChildren(CheckInput)[0].findChildren(Line)[0].setFocus()
    full.hands.letters("one replaced")
    full.hands.press(Qt.Key.Key_7, CTRL)
    answers = full.job.now.bench.answers
    assert answers["screws"] == Answer(seen=Seen.GOOD, remark="one replaced")
    assert full.job.now.fit.answers == {}


@pytest.mark.parametrize("command", [Command.TRAY, Command.EXPORT, Command.PERSON])
def test_what_stands_in_a_field_is_taken_before_it_is_left(
    full: Workplace, command: Command
) -> None:
    full.hands.type("FH-2611-060")
    full.shell.go_to("right.distance")
    full.hands.letters("-4")
    full.shell.do(command)
    job = full.desk.store.load("FH-2611-060")
    assert job.now.right.distance == (DrumReading(sphere_lines=Decimal(-4)),)


def test_what_cannot_be_read_keeps_the_window_on_the_job(full: Workplace) -> None:
    full.hands.type("FH-2611-060")
    full.shell.go_to("right.distance")
    full.hands.letters("-99")
    full.shell.do(Command.TRAY)
    assert full.desk.session.standing is not None
    assert not full.shell.close()
    full.hands.press(Qt.Key.Key_Escape)
    full.shell.do(Command.TRAY)
    assert full.desk.session.standing is None


def test_the_reason_on_the_screen_is_the_one_that_is_signed(full: Workplace) -> None:
    full.hands.type("FH-2611-060")
    full.shell.go_to("record.outcome")
    signoff = SignOff(outcome=Outcome.HOLD, reason="old reason")
    full.desk.session.propose(full.job.with_now(full.job.now.with_(signoff=signoff)))
    reason = full.shell.findChildren(RecordPage)[0].findChildren(Line)[0]
    reason.setFocus()
    reason.selectAll()
    full.hands.letters("waits for a case")
    full.hands.choose(Qt.Key.Key_S)
    assert full.job.now.signoff.dispensed is not None
    assert full.job.now.signoff.reason == "waits for a case"


def test_an_order_and_a_name_are_not_skipped(full: Workplace) -> None:
    full.hands.type("FH-2611-060")
    for prompt in ("order.right", "record.outcome"):
        full.shell.go_to(prompt)
        full.shell.do(Command.SKIP)
    assert full.job.now.skipped == {}
    assert "not marked not applicable" in said(full)


def test_a_text_that_the_disk_refuses_stays(
    full: Workplace, monkeypatch: pytest.MonkeyPatch
) -> None:
    full.hands.type("FH-2611-060")
    full.shell.go_to("bench.screws")

    def refuse(*_: object, **__: object) -> None:
        raise BenchError("The disk is full.")

    monkeypatch.setattr(full.desk.store, "append", refuse)
    remark = full.shell.findChildren(CheckInput)[0].findChildren(Line)[0]
    remark.setFocus()
    full.hands.type("a long remark")
    assert remark.text() == "a long remark"
    assert remark.isModified()
    monkeypatch.undo()
    full.hands.press(Qt.Key.Key_Return)
    assert full.job.now.bench.answers["screws"].remark == "a long remark"


def test_the_rule_behind_a_limit_is_shown(full: Workplace) -> None:
    full.hands.type("FH-2611-048")
    full.shell.go_to("right.distance")
    assert "ISO 21987:2017, row" in said(full)
    assert "Evidence: " in said(full)


def test_only_the_materials_of_the_pair_are_told_at_their_care(full: Workplace) -> None:
    full.hands.type("FH-2611-060")
    order = full.job.order
    nylon = order.frame.with_(material=FrameMaterial.NYLON)
    assert full.desk.session.propose(full.job.with_(order=order.with_(frame=nylon)))
    full.shell.go_to("handover.care-material")
    assert "Keep the frame away from heat" in said(full)
    assert "sweat" not in said(full)
    assert "cream" not in said(full)


def test_the_guard_band_can_be_left_out_and_the_record_says_so(full: Workplace) -> None:
    full.hands.type("FH-2611-060")
    full.shell.go_to("right.distance")
    full.hands.type("-2.125", "-2.625", "90")
    states = {one.key: one.state for one in full.standing.findings}
    assert states["right.meridian-high"] is State.CLOSE
    assert "guarded acceptance" in full.desk.record().rule_set.acceptance
    full.shell.do(Command.GUARD)
    states = {one.key: one.state for one in full.standing.findings}
    assert states["right.meridian-high"] is State.WITHIN
    assert "plain acceptance" in full.desk.record().rule_set.acceptance


def test_a_new_meter_is_checked_and_its_zero_taken_off(full: Workplace) -> None:
    full.shell.do(Command.METERS)
    sheet = full.shell.findChild(MetersSheet)
    assert sheet is not None
    name = sheet.findChild(QLineEdit)
    assert name is not None
    name.setText("Bench 2")
    press(sheet, "New")
    check = full.shell.findChild(CheckSheet)
    assert check is not None
    press(check, "Next")
    for text in ("-0.06",):
        field = check.findChildren(NumberInput)[-1]
        field.edit().setText(text)
        field.edit().setModified(True)
        press(check, "Next")
    press(check, "Along the line")
    press(check, "Next")
    press(check, "Next")
    press(check, "May be used today")
    press(check, "Next")
    meters = full.desk.meters()
    assert [(one.name, str(one.zero)) for one in meters] == [("Bench 2", "-0.06")]
    full.shell.activateWindow()
    full.shell.to_tray()
    full.hands.type("FH-2611-060")
    full.shell.go_to("right.distance")
    full.hands.type("-2.12", "-0.50", "90")
    assert list(full.job.now.instruments) == [full.desk.session.meter_key]
    high = next(one for one in full.standing.findings if one.key == "right.meridian-high")
    assert high.found == Decimal("-2.12") - Decimal("0.50") + Decimal("0.06")


def test_a_meter_without_a_name_is_not_taken(full: Workplace) -> None:
    full.shell.do(Command.METERS)
    sheet = full.shell.findChild(MetersSheet)
    assert sheet is not None
    press(sheet, "New")
    assert any("name of its own" in label.text() for label in sheet.findChildren(QLabel))
    sheet.close()


def test_what_to_expect_is_said_before_the_reading(full: Workplace) -> None:
    full.hands.type("FH-2611-060")
    full.shell.go_to("right.distance")
    assert "−2.00" in said(full)
    assert "90" in said(full)


def test_read_first_hides_the_order_until_the_reading_is_in(full: Workplace) -> None:
    full.hands.type("FH-2611-060")
    full.shell.go_to("right.distance")
    assert "−2.00" in said(full)
    full.shell.do(Command.READ_FIRST)
    assert "−2.00" not in said(full)
    full.hands.type("-2", "-2.50", "90")
    assert "Ordered  −2.00" in said(full)


def test_an_unexpected_error_is_shown_logged_and_offered_for_copying(
    qtbot: QtBot, light: Theme, tmp_path: Path, caplog: pytest.LogCaptureFixture
) -> None:
    end = log_to(tmp_path)
    hook = FaultHook()
    with qtbot.waitSignal(hook.caught) as caught:
        try:
            _ = 1 / 0
        except ZeroDivisionError:
            hook.on_exception(*_present_error())
    end()
    report = str(caught.args[0])
    assert "ZeroDivisionError" in report
    assert "ZeroDivisionError" in (tmp_path / "benchassist.log").read_text(encoding="utf-8")
    caplog.clear()
    sheet = FaultSheet(report)
    qtbot.addWidget(sheet)
    copy = next(one for one in sheet.findChildren(QPushButton) if "Copy" in one.text())
    copy.click()
    assert QGuiApplication.clipboard().text() == report


def test_a_full_disk_is_a_sentence_and_the_typed_text_stays(
    full: Workplace, monkeypatch: pytest.MonkeyPatch
) -> None:
    full.hands.type("FH-2611-060")
    full.shell.go_to("right.distance")
    before = full.job

    def refuse(*_: object, **__: object) -> None:
        raise BenchError("The disk is full. Make room, then type the last entry again.")

    monkeypatch.setattr(full.desk.store, "append", refuse)
    full.hands.letters("-2.25")
    full.hands.press(Qt.Key.Key_Return)
    assert full.job == before
    assert "The disk is full" in said(full)
    assert any("2.25" in one for one in texts(full))
    monkeypatch.undo()


def test_what_may_have_happened_is_asked_and_never_told_for_a_fact(
    full: Workplace, qtbot: QtBot
) -> None:
    full.hands.type("FH-2611-060")
    full.shell.go_to("right.distance")
    full.hands.type("-2.00", "-2.50", "180")
    assert any(one.key == "right.axis" for one in full.standing.outside)
    qtbot.waitUntil(lambda: "What may have happened" in said(full))
    assert "?" in said(full)
    full.shell.go_to("left.distance")
    assert "What may have happened" not in said(full)


def test_a_house_rule_beside_the_jobs_is_in_force(full: Workplace) -> None:
    (full.desk.store.folder / "house-rules.toml").write_text("not a rule at all")
    full.shell.open_job("FH-2611-060")
    assert full.desk.session.standing is None
    assert "house rules" in said(full).lower()


def test_a_reading_that_a_correction_disturbed_says_why(full: Workplace) -> None:
    full.shell.open_job("FH-2611-060")
    full.shell.go_to("right.distance")
    full.hands.type("-2.00", "-2.50", "90")
    assert full.desk.session.correct(Done("bench.screws", "replace"))
    full.shell.go_to("right.distance")
    title = full.desk.guide.prompt("bench.screws").title
    assert f"Read again: '{title}' was corrected since." in said(full)


def test_the_zero_taken_off_is_told_beside_the_reading(full: Workplace) -> None:
    full.shell.open_job("FH-2611-055")
    full.shell.go_to("right.distance")
    assert "zero error of −0.02 D taken off" in said(full)
