"""Colours, type sizes and measures of the paper; lengths in points."""

from dataclasses import dataclass

from benchassist.verdicts.finding import State

PAGE_WIDTH = 595.28
PAGE_HEIGHT = 841.89
LEFT = 48.0
RIGHT = PAGE_WIDTH - 48.0
WIDTH = RIGHT - LEFT
BODY_TOP = 64.0
BODY_BOTTOM = PAGE_HEIGHT - 52.0
UNIT = 8.0

REGULAR = "Lato"
STRONG = "Lato-SemiBold"

INK = "#1c2830"
SOFT = "#55626b"
LINE = "#cfcabd"
FAINT = "#e6e2d8"
TINT = "#f5f2ea"
ACCENT = "#0f5561"
LENS = "#eef4f3"
FRAME = "#867d71"

_STATE_COLOURS = {
    State.WITHIN: "#00694f",
    State.CLOSE: "#8a5a00",
    State.OUTSIDE: "#a83a00",
    State.MISSING: "#55626b",
    State.NONE: "#55626b",
}


def state_colour(state: State) -> str:
    """The ink of a state: dark bluish green, orange and vermilion after Okabe and Ito.

    Source: Okabe and Ito, Color Universal Design (2008), from memory; the shades are our own,
    darkened to a contrast of at least 4.5:1 on white.
    """
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
