"""The tray, the people, the keys, and what happens when the world or the program fails."""

import sys
from pathlib import Path
from types import TracebackType

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QLabel,
    QLineEdit,
    QPlainTextEdit,
    QPushButton,
    QTableView,
)
from pytestqt.qtbot import QtBot

from benchassist.job.document import JobState
from benchassist.job.signoff import Person, Role
from benchassist.people.roles import Act
from benchassist.records.demo import demo_files, demo_workshop
from benchassist.store.files import load_job_file
from benchassist.store.jobs import JobStore
from benchassist.store.settings import load_settings
from benchassist.ui.actions import ACTIONS, Command
from benchassist.ui.demo import SUPERVISOR
from benchassist.ui.keys import KeysSheet
from benchassist.ui.people import PeopleSheet
from benchassist.ui.strip import TopStrip
from benchassist.ui.theme import Scheme, Theme
from benchassist.ui.workshop import WorkshopSheet
from benchassist.wrong import BenchError
from tests.ui.hands import CTRL
from tests.ui.workplace import Workplace, press, said, workplace_in


def rows(workplace: Workplace) -> list[str]:
    """The job numbers in the tray, from the top."""
    table = workplace.shell.findChild(QTableView)
    assert table is not None
    model = table.model()
    return [str(model.index(row, 0).data()) for row in range(model.rowCount())]


def _present_error() -> tuple[type[BaseException], BaseException, TracebackType | None]:
    kind, error, trace = sys.exc_info()
    assert kind is not None
    assert error is not None
    return kind, error, trace


def texts(workplace: Workplace) -> list[str]:
    """What the visible fields hold."""
    fields = workplace.shell.findChildren(QLineEdit)
    return [field.text() for field in fields if field.isVisible()]


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


def test_an_unknown_scan_leaves_the_bench_as_it_is(light: Theme, tmp_path: Path) -> None:
    with workplace_in(tmp_path, light, patience_ms=200) as bench:
        bench.put(load_job_file(demo_files()[5]))
        bench.shell.open_job("FH-2611-060")
        bench.shell.go_to("surface.scratches")
        before = bench.job
        QTest.keyClicks(bench.hands.focus, "X")
        QTest.keyClicks(bench.hands.focus, "YZ9")
        bench.hands.press(Qt.Key.Key_Return)
        assert bench.job == before
        assert "No job is found for XYZ9" in said(bench)


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
        assert "altered outside Benchassist" in second.desk.record().imprint.damage


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


def test_the_workshop_is_named_on_the_papers(full: Workplace) -> None:
    full.shell.do(Command.WORKSHOP)
    sheet = full.shell.findChild(WorkshopSheet)
    assert sheet is not None
    name, address = sheet.findChild(QLineEdit), sheet.findChild(QPlainTextEdit)
    assert name is not None
    assert address is not None
    name.setText("Alder Lane Opticians")
    address.setPlainText("3 Alder Lane\n\nFernhollow")
    press(sheet, "Plus form")
    press(sheet, "Keep")
    full.shell.open_job("FH-2611-041")
    assert any(one.id == "right.cylinder-form" for one in full.desk.questions())
    workshop = full.desk.record().imprint.workshop
    assert workshop == demo_workshop().with_(
        name="Alder Lane Opticians", address=("3 Alder Lane", "Fernhollow")
    )


def test_a_letter_that_nothing_takes_is_answered(full: Workplace) -> None:
    full.hands.type("FH-2611-060")
    full.shell.go_to("bench.rotation")
    full.hands.letters("x")
    assert "Nothing here takes 'x'. Press ? for all keys." in said(full)
