"""The tray, the people, the keys, and what happens when the world or the program fails."""

import sys
from collections.abc import Iterator
from decimal import Decimal
from pathlib import Path
from types import TracebackType

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel, QLineEdit, QPlainTextEdit, QPushButton, QTableView
from pytestqt.qtbot import QtBot

from benchassist.guide.answers import with_answer
from benchassist.job.checks import Answer, Seen
from benchassist.job.document import JobState
from benchassist.job.readings import DrumReading
from benchassist.job.signoff import Outcome, Person, Role, SignOff
from benchassist.people.roles import Act
from benchassist.records.demo import demo_files
from benchassist.store.files import load_job_file
from benchassist.store.jobs import JobStore
from benchassist.store.settings import Workshop, load_settings
from benchassist.ui.actions import ACTIONS, Command
from benchassist.ui.demo import SUPERVISOR
from benchassist.ui.fault import FaultHook, FaultSheet, log_to
from benchassist.ui.inputs.check import CheckInput
from benchassist.ui.inputs.line import Line
from benchassist.ui.keys import KeysSheet
from benchassist.ui.pages.record import RecordPage
from benchassist.ui.people import PeopleSheet
from benchassist.ui.strip import TopStrip
from benchassist.ui.theme import Scheme, Theme
from benchassist.ui.workshop import WorkshopSheet
from benchassist.verdicts.finding import State
from benchassist.wrong import BenchError
from tests.ui.hands import CTRL
from tests.ui.workplace import Workplace, workplace_in


@pytest.fixture
def workplace(light: Theme, tmp_path: Path) -> Iterator[Workplace]:
    with workplace_in(tmp_path, light) as made:
        yield made


def said(workplace: Workplace) -> str:
    """Everything that the visible labels say, and the status line."""
    labels = workplace.shell.findChildren(QLabel)
    shown = [label.text() for label in labels if label.isVisible()]
    return " ".join([*shown, workplace.shell.statusBar().currentMessage()])


def rows(workplace: Workplace) -> list[str]:
    """The job numbers in the tray, from the top."""
    table = workplace.shell.findChild(QTableView)
    assert table is not None
    model = table.model()
    return [str(model.index(row, 0).data()) for row in range(model.rowCount())]


@pytest.fixture
def full(workplace: Workplace) -> Workplace:
    for file in demo_files():
        workplace.put(load_job_file(file))
    workplace.shell.to_tray()
    return workplace


def test_a_scanned_number_opens_its_job(full: Workplace) -> None:
    full.hands.type("FH-2611-052")
    assert full.job.number == "FH-2611-052"


def test_typing_a_name_narrows_the_tray(full: Workplace) -> None:
    full.hands.letters("oduya")
    assert rows(full) == ["FH-2611-041"]


def test_the_arrow_goes_into_the_list_and_enter_opens(full: Workplace) -> None:
    expected = rows(full)[1]
    full.hands.press(Qt.Key.Key_Down)
    full.hands.press(Qt.Key.Key_Down)
    full.hands.press(Qt.Key.Key_Return)
    assert full.job.number == expected


def test_the_state_narrows_the_tray(full: Workplace, qtbot: QtBot) -> None:
    buttons = full.shell.findChildren(QPushButton)
    closed = next(one for one in buttons if one.text() == "Closed")
    QTest.mouseClick(closed, Qt.MouseButton.LeftButton)
    stored = full.desk.store.search(state=JobState.CLOSED)
    assert rows(full) == [row.number for row in stored]


def test_an_unknown_number_gets_a_sentence_and_stays(full: Workplace) -> None:
    full.hands.type("NOT-THERE")
    assert "No job is found for NOT-THERE" in said(full)
    assert full.desk.session.standing is None


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "Type or scan the number of the new job first."),
        ("FH-2611-052", "There is a job FH-2611-052 already"),
        ("#*!", "cannot be a job number"),
    ],
)
def test_a_new_job_needs_a_good_number(full: Workplace, text: str, words: str) -> None:
    full.hands.letters(text)
    full.hands.press(Qt.Key.Key_N, CTRL)
    assert words in said(full)
    assert full.desk.session.standing is None


def test_letters_of_another_case_mean_the_same_job(full: Workplace) -> None:
    full.hands.type("fh-2611-057")
    assert full.job.number == "FH-2611-057"
    full.shell.to_tray()
    full.hands.letters("fh-2611-057")
    full.hands.press(Qt.Key.Key_N, CTRL)
    assert "There is a job FH-2611-057 already" in said(full)


def test_a_scan_opens_a_job_that_the_filter_hides(full: Workplace, qtbot: QtBot) -> None:
    buttons = full.shell.findChildren(QPushButton)
    open_ones = next(one for one in buttons if one.text() == "Open")
    QTest.mouseClick(open_ones, Qt.MouseButton.LeftButton)
    full.shell.do(Command.TRAY)
    full.hands.type("FH-2611-057")
    assert full.job.number == "FH-2611-057"


def test_a_scan_on_the_bench_opens_its_job_and_answers_nothing(
    light: Theme, tmp_path: Path
) -> None:
    with workplace_in(tmp_path, light, patience_ms=200) as bench:
        for file in demo_files():
            bench.put(load_job_file(file))
        bench.shell.open_job("FH-2611-060")
        bench.shell.go_to("surface.scratches")
        before = bench.job
        for letter in "FH-2611-057":
            QTest.keyClicks(bench.hands.focus, letter)
        bench.hands.press(Qt.Key.Key_Return)
        assert bench.job.number == "FH-2611-057"
        assert bench.desk.store.load("FH-2611-060") == before


def test_a_beginning_that_fits_several_leaves_the_choice(full: Workplace) -> None:
    full.hands.type("FH-2611-0")
    assert full.desk.session.standing is None
    assert isinstance(full.hands.focus, QTableView)


def test_whoever_takes_over_is_shown_at_once(full: Workplace) -> None:
    full.hands.type("FH-2611-041")
    full.desk.take_over(SUPERVISOR)
    assert full.desk.session.refusal(Act.COUNTERSIGN) == ""
    strip = full.shell.findChild(TopStrip)
    assert strip is not None
    assert any("Priya Nandakumar" in one.text() for one in strip.findChildren(QPushButton))


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


def test_a_damaged_job_is_shown_and_nothing_is_added(light: Theme, tmp_path: Path) -> None:
    job = load_job_file(demo_files()[5])
    with workplace_in(tmp_path, light) as first:
        first.put(job)
    file = tmp_path / "data" / "jobs.sqlite3"
    content = file.read_bytes().replace(b"Samir Oakley-Rao", b"Samir Oakley-Roa")
    file.write_bytes(content)
    with workplace_in(tmp_path, light) as second:
        second.shell.open_job(job.number)
        assert "altered outside Benchassist" in said(second)
        before = second.job
        second.shell.go_to("right.distance")
        second.hands.type("-2.00")
        assert second.job == before
        assert "altered outside Benchassist" in said(second)


def test_a_second_window_is_refused_in_a_sentence(workplace: Workplace, tmp_path: Path) -> None:
    with pytest.raises(BenchError, match="already open"):
        JobStore(tmp_path / "data")


def test_a_back_up_is_a_whole_copy(full: Workplace, tmp_path: Path) -> None:
    (tmp_path / "copy").mkdir()
    full.ask.target = tmp_path / "copy" / "jobs.sqlite3"
    full.shell.do(Command.BACKUP)
    assert "All jobs are backed up" in said(full)
    with JobStore(tmp_path / "copy") as copy:
        assert copy.search() == full.desk.store.search()


def test_the_rule_behind_a_limit_is_shown(full: Workplace) -> None:
    full.hands.type("FH-2611-048")
    full.shell.go_to("right.distance")
    assert "ISO 21987:2017, row" in said(full)
    assert "Evidence: " in said(full)


def test_settings_are_remembered(workplace: Workplace, tmp_path: Path) -> None:
    workplace.shell.do(Command.HINT)
    workplace.shell.do(Command.SCHEME)
    workplace.shell.do(Command.READ_FIRST)
    settings, note = load_settings(tmp_path / "data")
    assert not note
    assert (settings.hint_open, settings.scheme, settings.read_first) == (
        False,
        Scheme.DARK.value,
        True,
    )


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


def test_read_first_hides_the_order_until_the_reading_is_in(full: Workplace) -> None:
    full.hands.type("FH-2611-060")
    full.shell.go_to("right.distance")
    assert "Ordered  −2.00" in said(full)
    full.shell.do(Command.READ_FIRST)
    assert "Ordered  −2.00" not in said(full)
    full.hands.type("-2", "-2.50", "90")
    assert "Ordered  −2.00" in said(full)


def test_the_list_of_keys_has_every_action(qtbot: QtBot, light: Theme) -> None:
    sheet = KeysSheet()
    qtbot.addWidget(sheet)
    words = {label.text() for label in sheet.findChildren(QLabel)}
    assert {one.keys for one in ACTIONS} <= words


def test_every_command_is_done_by_the_window(workplace: Workplace) -> None:
    assert {one.command for one in ACTIONS} == set(Command)
    assert len({one.keys for one in ACTIONS}) == len(ACTIONS)


def test_somebody_new_takes_over(qtbot: QtBot, light: Theme) -> None:
    sheet = PeopleSheet(())
    qtbot.addWidget(sheet)
    add = next(one for one in sheet.findChildren(QPushButton) if "Add" in one.text())
    with qtbot.assertNotEmitted(sheet.chosen):
        add.click()
    sheet.show()
    name = sheet.findChild(QLineEdit)
    assert name is not None
    QTest.keyClicks(name, "Bela Quist")
    with qtbot.waitSignal(sheet.chosen) as caught:
        add.click()
    assert caught.args == [Person(name="Bela Quist", role=Role.TRAINEE)]


def _present_error() -> tuple[type[BaseException], BaseException, TracebackType | None]:
    kind, error, trace = sys.exc_info()
    assert kind is not None
    assert error is not None
    return kind, error, trace


def test_the_workshop_is_named_on_the_papers(full: Workplace) -> None:
    full.shell.do(Command.WORKSHOP)
    sheet = full.shell.findChild(WorkshopSheet)
    assert sheet is not None
    name, address = sheet.findChild(QLineEdit), sheet.findChild(QPlainTextEdit)
    assert name is not None
    assert address is not None
    name.setText("Alder Lane Opticians")
    address.setPlainText("3 Alder Lane\n\nFernhollow")
    keep = sheet.findChild(QPushButton)
    assert keep is not None
    keep.click()
    full.shell.open_job("FH-2611-041")
    workshop = full.desk.record().imprint.workshop
    assert workshop == Workshop(
        name="Alder Lane Opticians", address=("3 Alder Lane", "Fernhollow")
    )


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


def texts(workplace: Workplace) -> list[str]:
    """What the visible fields hold."""
    fields = workplace.shell.findChildren(QLineEdit)
    return [field.text() for field in fields if field.isVisible()]
