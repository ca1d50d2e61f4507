"""Colours, type sizes and measures of the paper; lengths in points."""

from dataclasses import dataclass

from benchassist.verdicts.finding import State

PAGE_WIDTH = 595.28
PAGE_HEIGHT = 841.89
LEFT = 48.0
RIGHT = PAGE_WIDTH - 48.0
WIDTH = RIGHT - LEFT
BODY_TOP = 60.0
BODY_BOTTOM = PAGE_HEIGHT - 48.0
UNIT = 8.0

REGULAR = "Lato"
STRONG = "Lato-SemiBold"

# The colours are those of the window on its light ground: screen and paper speak alike.
WHITE = "#ffffff"
INK = "#1c2530"
SOFT = "#565f68"
LINE = "#dfd9cd"
FAINT = "#ebe7dd"
TINT = "#f5f2eb"
ACCENT = "#0d5c6b"
LENS = "#e8f1f0"
FRAME = "#8a8174"

_STATE_COLOURS = {
    State.WITHIN: "#00705a",
    State.CLOSE: "#8f6200",
    State.OUTSIDE: "#9c1420",
    State.MISSING: "#59636d",
    State.NONE: "#63676b",
}


def state_colour(state: State) -> str:
    """The ink of a state, as on the screen; its contrast is at least 4.5:1 on white."""
    return _STATE_COLOURS[state]


@dataclass(frozen=True, slots=True)
class Face:
    """A way to set text: font, size and line distance in points, colour."""

    font: str
    size: float
    leading: float
    colour: str = INK


TITLE = Face(STRONG, 20, 24)
LARGE = Face(STRONG, 16, 20)
LEAD = Face(STRONG, 12, 16)
BODY = Face(REGULAR, 9, 12)
BODY_STRONG = Face(STRONG, 9, 12)
BODY_SOFT = Face(REGULAR, 9, 12, SOFT)
SMALL = Face(REGULAR, 7.5, 9.5)
SMALL_STRONG = Face(STRONG, 7.5, 9.5)
SMALL_SOFT = Face(REGULAR, 7.5, 9.5, SOFT)
