"""Short answers in two columns, each with its state; a long one takes the whole width."""

from dataclasses import dataclass, replace

from benchassist.records.ink import (
    BODY,
    LEFT,
    RIGHT,
    SMALL,
    SMALL_SOFT,
    SMALL_STRONG,
    UNIT,
    WIDTH,
    state_colour,
)
from benchassist.records.paper import Block, paragraph
from benchassist.records.pen import Pen
from benchassist.verdicts.finding import State

_GUTTER = 80.0
"""From the start of a cell to its text: room for the mark and the word."""

_COLUMN = (WIDTH - 2 * UNIT) / 2
_STARTS = (LEFT, LEFT + _COLUMN + 2 * UNIT)
_MOST_LINES = 4
"""A text of more lines than this in half the width takes the whole."""


@dataclass(frozen=True, slots=True)
class Cell:
    """One answer: its text and, where it was judged, its state and the state's word."""

    text: str
    word: str = ""
    state: State | None = None


def draw_state(pen: Pen, x: float, top: float, state: State, word: str) -> None:
    """A state's mark and word at the start of a row."""
    pen.mark(x + 5, top + 7, 4, state)
    pen.text(x + 14, top + 9.7, word, replace(SMALL_STRONG, colour=state_colour(state)))


def cell_blocks(pen: Pen, cells: tuple[Cell, ...]) -> tuple[Block, ...]:
    """The cells from left to right and down, long ones after the short ones."""
    room = _COLUMN - _GUTTER
    wrapped = [(cell, pen.wrap(cell.text, SMALL, room)) for cell in cells]
    short = [each for each in wrapped if len(each[1]) <= _MOST_LINES]
    long = [cell for cell, lines in wrapped if len(lines) > _MOST_LINES]
    pairs = [tuple(short[start : start + 2]) for start in range(0, len(short), 2)]
    wide = [
        block for cell in long for block in told_block(pen, cell.word, cell.text, cell.state)
    ]
    return (*(_pair(pair) for pair in pairs), *wide)


def _pair(pair: tuple[tuple[Cell, tuple[str, ...]], ...]) -> Block:
    def draw(pen: Pen, top: float) -> None:
        for x, (cell, lines) in zip(_STARTS, pair, strict=False):
            if cell.state:
                draw_state(pen, x, top, cell.state, cell.word)
            for number, line in enumerate(lines):
                pen.text(x + _GUTTER, top + 9.7 + number * SMALL.leading, line, SMALL)

    height = max(len(lines) for _, lines in pair) * SMALL.leading + 3
    return Block(max(height, BODY.leading), draw)


def told_block(pen: Pen, word: str, text: str, state: State | None = None) -> tuple[Block, ...]:
    """A text over the whole width, with a word in the gutter before it."""
    x = LEFT + _GUTTER
    lines = paragraph(pen, text, SMALL, x=x, room=RIGHT - x)

    def draw(pen: Pen, top: float) -> None:
        if state:
            draw_state(pen, LEFT, top, state, word)
        else:
            pen.text(LEFT + 14, top + 9.7, word, SMALL_SOFT)
        lines[0].draw(pen, top + 2)

    first = Block(SMALL.leading + 2, draw, keeps=lines[0].keeps)
    return (first, *(_lowered(line) for line in lines[1:]), Block(1))


def _lowered(line: Block) -> Block:
    return replace(line, draw=lambda pen, top: line.draw(pen, top + 2))
