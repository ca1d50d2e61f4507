"""What is said beside an input: the worst first, what is noted besides, nothing too early."""

from dataclasses import replace

from PySide6.QtWidgets import QLabel, QWidget
from pytestqt.qtbot import QtBot

from benchassist.guide.flow import PromptStanding
from benchassist.ui.asking.verdict_words import Notes, VerdictWords
from benchassist.ui.theme import Theme
from benchassist.verdicts.finding import Finding, State
from tests.ui.workplace import Workplace

CAUTION = "One lens carries most of the prism."


def finding(state: State, sentence: str, *, is_told: bool = False) -> Finding:
    key = f"pair.{sentence}"
    return Finding(key, "right.distance", "Prism", state, sentence, is_told=is_told)


def stands(full: Workplace, *findings: Finding, is_done: bool = True) -> PromptStanding:
    full.hands.type("FH-2611-048")
    now = full.standing.prompt("right.distance")
    assert now is not None
    return replace(now, findings=findings, is_done=is_done)


def texts(widget: QWidget) -> list[str]:
    labels = widget.findChildren(QLabel)
    return [label.text() for label in labels if label.text() and label.isVisibleTo(widget)]


def test_the_worst_is_said_and_the_rest_counted(full: Workplace, qtbot: QtBot) -> None:
    worst = finding(State.OUTSIDE, "Axis far off.")
    more = finding(State.OUTSIDE, "Cylinder off.")
    made = VerdictWords()
    qtbot.addWidget(made)
    now = stands(full, finding(State.CLOSE, "Near."), worst, more)
    made.show_findings(now, keeps_quiet=False)
    assert texts(made) == ["Axis far off. And 1 more."]
    made.show_findings(now, keeps_quiet=True)
    assert made.isHidden()


def test_a_key_leads_to_what_may_have_happened(full: Workplace, qtbot: QtBot) -> None:
    made = VerdictWords()
    qtbot.addWidget(made)
    made.show_findings(stands(full, finding(State.WITHIN, "Good.")), keeps_quiet=False)
    assert made.isHidden()
    made.show_asked(is_asked=True)
    assert texts(made) == ["What may have happened: F1"]


def test_cautions_are_noted_where_nothing_is_asked_for(
    full: Workplace, qtbot: QtBot, light: Theme
) -> None:
    made = Notes(light)
    qtbot.addWidget(made)
    plain = finding(State.WITHIN, "Within and no more.")
    for state in (State.WITHIN, State.NONE):
        now = stands(full, plain, finding(state, CAUTION, is_told=True))
        made.show_notes(now, "", keeps_quiet=False)
        assert texts(made) == [f"Noted: {CAUTION}"]
        assert not made.isHidden()
        made.show_notes(now, "", keeps_quiet=True)
        assert made.isHidden()


def test_a_caution_behind_the_worst_is_noted_and_the_worst_not_twice(
    full: Workplace, qtbot: QtBot, light: Theme
) -> None:
    made = Notes(light)
    qtbot.addWidget(made)
    first = finding(State.OUTSIDE, "Far off.", is_told=True)
    second = finding(State.OUTSIDE, CAUTION, is_told=True)
    made.show_notes(stands(full, first, second), "", keeps_quiet=False)
    assert texts(made) == [f"Noted: {CAUTION}"]
