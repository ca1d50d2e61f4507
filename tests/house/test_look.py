"""One file decides how the window looks, and the paper looks like it."""

import re

import pytest

from benchassist.records import ink
from benchassist.ui.theme import LIGHT
from benchassist.verdicts.finding import State


def window_files(program: dict[str, str]) -> dict[str, str]:
    """The files of the window but the one that decides."""
    return {
        path: text
        for path, text in program.items()
        if path.startswith("benchassist/ui/") and path != "benchassist/ui/theme.py"
    }


def test_style_sheets_come_from_the_theme(program: dict[str, str]) -> None:
    assert [p for p, text in window_files(program).items() if "setStyleSheet" in text] == []


def test_colours_come_from_the_theme(program: dict[str, str]) -> None:
    colour = re.compile(
        r"[\"']#[0-9a-fA-F]{3,8}[\"']|QColor\(\s*\d|GlobalColor\.(?!transparent|black)"
    )
    found = {
        path: match.group()
        for path, text in window_files(program).items()
        if (match := colour.search(text))
    }
    assert found == {}


@pytest.mark.parametrize("state", State)
def test_a_state_has_one_colour_on_screen_and_on_paper(state: State) -> None:
    assert ink.state_colour(state) == LIGHT.of_state(state)


def test_the_paper_takes_its_colours_from_the_light_window() -> None:
    pairs = (
        (ink.INK, LIGHT.ink),
        (ink.SOFT, LIGHT.ink_soft),
        (ink.LINE, LIGHT.line),
        (ink.TINT, LIGHT.paper),
        (ink.ACCENT, LIGHT.accent),
        (ink.LENS, LIGHT.lens),
        (ink.FRAME, LIGHT.frame),
    )
    assert [pair for pair in pairs if pair[0] != pair[1]] == []
