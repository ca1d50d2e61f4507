"""The record page: what is outside, what may have happened, what is asked for, the papers."""

from dataclasses import replace
from pathlib import Path

import pypdfium2
import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel
from pytestqt.qtbot import QtBot

from benchassist.job.signing import decide
from benchassist.job.signoff import Ask, Outcome
from benchassist.records.return_slip import no_slip
from benchassist.ui.actions import Command
from benchassist.ui.inputs.several import SeveralInput
from benchassist.ui.pages.record import RecordPage
from benchassist.ui.theme import Theme
from benchassist.verdicts.diagnose.diagnose import NOTHING_FITS
from tests.ui.hands import CTRL, ENTER
from tests.ui.workplace import Workplace, press, said

HEADING = "What may have happened (questions, not causes)"


def test_slips_are_asked_on_the_record_page_also_with_the_hint_closed(
    full: Workplace, qtbot: QtBot
) -> None:
    full.desk.change_settings(hint_open=False)
    full.hands.type("FH-2611-055")
    full.shell.go_to("record.outcome")
    qtbot.waitUntil(lambda: HEADING in said(full))
    assert "<b>Horizontal prism by centration</b>  Only half the decentration" in said(full)
    assert f"<b>Horizontal prism imbalance</b>  {NOTHING_FITS}" in said(full)


def test_where_nothing_is_outside_nothing_is_asked(full: Workplace, qtbot: QtBot) -> None:
    full.hands.type("FH-2611-033")
    full.shell.go_to("record.outcome")
    qtbot.wait(80)
    assert HEADING not in said(full)


def test_cautions_are_noted_after_what_is_outside(
    full: Workplace, qtbot: QtBot, light: Theme
) -> None:
    full.hands.type("FH-2611-048")
    standing = full.standing
    told = tuple(
        replace(one, is_told=one.key in {"right.axis", "left.axis"})
        for one in standing.findings
    )
    prompt = standing.prompts[-1].prompt
    page = RecordPage(light)
    qtbot.addWidget(page)
    page.show_standing(replace(standing, findings=told), prompt)
    labels = page.findChildren(QLabel)
    shown = [one.text() for one in labels if one.text() and not one.isHidden()]
    noted = shown.index("Noted")
    axis = [place for place, text in enumerate(shown) if "Axis" in text]
    assert len(axis) == 2
    assert axis[0] < noted < axis[1]
    assert "Left lens" in shown[axis[1]]


def test_what_the_lab_is_asked_for_is_ticked_and_stored(full: Workplace) -> None:
    full.hands.type("FH-2611-048")
    full.shell.go_to("record.outcome")
    assert "What the lab is asked for" not in said(full)
    press(full.shell, "Return to lab")
    assert "What the lab is asked for" in said(full)
    full.hands.press(Qt.Key.Key_Tab)
    full.hands.letters("Axis out.")
    full.hands.press(ENTER)
    full.hands.press(Qt.Key.Key_Space)
    for _ in range(3):
        full.hands.press(Qt.Key.Key_Right)
    full.hands.press(Qt.Key.Key_Space)
    signoff = full.job.now.signoff
    assert (signoff.outcome, signoff.reason) == (Outcome.RETURN, "Axis out.")
    assert signoff.asks == (Ask.REMAKE, Ask.EXPLAIN)
    full.hands.choose(Qt.Key.Key_S)
    assert full.job.now.signoff.dispensed
    (boxes,) = full.shell.findChildren(RecordPage)[0].findChildren(SeveralInput)
    assert not boxes.isEnabled()


def test_a_pair_that_stays_has_no_return_slip_and_it_is_said_why(full: Workplace) -> None:
    full.hands.type("FH-2611-048")
    full.shell.go_to("record.outcome")
    assert no_slip(full.job) in said(full)
    full.hands.press(Qt.Key.Key_R, CTRL)
    assert full.ask.asked == []
    assert full.shell.statusBar().currentMessage() == no_slip(full.job)


@pytest.mark.parametrize(
    ("key", "outcome", "title", "words"),
    [
        (Qt.Key.Key_E, Outcome.RELEASE, "Write the wearer's sheet", "Your new glasses"),
        (Qt.Key.Key_R, Outcome.RETURN, "Write the return slip", "FH-2611-048"),
    ],
)
def test_the_papers_are_written_where_the_person_says(  # noqa: PLR0913, PLR0917
    full: Workplace, tmp_path: Path, key: Qt.Key, outcome: Outcome, title: str, words: str
) -> None:
    full.hands.type("FH-2611-048")
    asks = (Ask.REMAKE,) if outcome is Outcome.RETURN else ()
    assert full.desk.session.propose(decide(full.job, outcome, "Axis out.", asks))
    full.hands.press(key, CTRL)
    assert full.ask.asked == [title]
    pages = pypdfium2.PdfDocument(tmp_path / "record.pdf")
    text = " ".join(page.get_textpage().get_text_range() for page in pages)
    assert words in text
    assert str(tmp_path / "record.pdf") in full.shell.statusBar().currentMessage()


def test_the_buttons_ask_for_the_papers(full: Workplace) -> None:
    full.hands.type("FH-2611-048")
    full.shell.go_to("record.outcome")
    press(full.shell, "Wearer's sheet")
    press(full.shell, "Write the record")
    assert full.ask.asked == ["Write the wearer's sheet", "Write the record"]


def test_without_a_job_there_is_no_paper(full: Workplace) -> None:
    full.shell.do(Command.SHEET)
    assert "Open a job first" in said(full)
