"""The record page: what is outside, what may have happened, and what is noted."""

from dataclasses import replace

from PySide6.QtWidgets import QLabel
from pytestqt.qtbot import QtBot

from benchassist.ui.pages.record import RecordPage
from benchassist.ui.theme import Theme
from benchassist.verdicts.diagnose.diagnose import NOTHING_FITS
from tests.ui.workplace import Workplace, said

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
