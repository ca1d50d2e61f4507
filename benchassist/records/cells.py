"""Short answers in two columns, each with its state; a long one takes the whole width."""

from collections.abc import Callable, Iterable, Sequence
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

_LABEL = 16.0
"""From the start of an entry to its text: room for a number or a letter."""

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
    """The cells from left to right and down; long ones and an odd one over the whole width."""
    room = _COLUMN - _GUTTER
    wrapped = [(cell, pen.wrap(cell.text, SMALL, room)) for cell in cells]
    short = [one for one in wrapped if len(one[1]) <= _MOST_LINES]
    paired, odd = short[: len(short) // 2 * 2], short[len(short) // 2 * 2 :]
    long = [one for one in wrapped if len(one[1]) > _MOST_LINES]
    alone = (cell for cell, _ in (*odd, *long))
    wide = (told_block(pen, cell.word, cell.text, cell.state) for cell in alone)
    return (
        *_paired([_drawn(cell, lines) for cell, lines in paired]),
        *(block for blocks in wide for block in blocks),
    )


def _drawn(cell: Cell, lines: tuple[str, ...]) -> "_Entry":
    def draw(pen: Pen, x: float, top: float) -> None:
        if cell.state:
            draw_state(pen, x, top, cell.state, cell.word)
        else:
            pen.text(x + 14, top + 9.7, cell.word, SMALL_SOFT)
        for number, line in enumerate(lines):
            pen.text(x + _GUTTER, top + 9.7 + number * SMALL.leading, line, SMALL)

    return _Entry(max(len(lines) * SMALL.leading + 2.5, BODY.leading), draw)


def listed_blocks(pen: Pen, items: Iterable[tuple[str, str]]) -> tuple[Block, ...]:
    """Numbered or lettered texts in two columns, from left to right and down."""
    room = _COLUMN - _LABEL
    return _paired([_listed(label, pen.wrap(text, SMALL, room)) for label, text in items])


def _listed(label: str, lines: tuple[str, ...]) -> "_Entry":
    def draw(pen: Pen, x: float, top: float) -> None:
        pen.text(x, top + 8, label, SMALL_STRONG)
        for number, line in enumerate(lines):
            pen.text(x + _LABEL, top + 8 + number * SMALL.leading, line, SMALL)

    return _Entry(len(lines) * SMALL.leading, draw)


def lettered_blocks(pen: Pen, label: str, text: str) -> tuple[Block, ...]:
    """A lettered text over the whole width, so that an address is not cut."""
    first, *rest = paragraph(pen, text, SMALL, x=LEFT + _LABEL, room=WIDTH - _LABEL)

    def draw(pen: Pen, top: float) -> None:
        pen.text(LEFT, top + SMALL.leading * 0.76, label, SMALL_STRONG)
        first.draw(pen, top)

    return (replace(first, draw=draw), *rest)


@dataclass(frozen=True, slots=True)
class _Entry:
    """What stands in one column of a row: its height and how it is drawn at (x, top)."""

    height: float
    draw: Callable[[Pen, float, float], None]


def _paired(entries: Sequence[_Entry]) -> tuple[Block, ...]:
    pairs = [entries[start : start + 2] for start in range(0, len(entries), 2)]
    return tuple(_pair(pair) for pair in pairs)


def _pair(pair: Sequence[_Entry]) -> Block:
    def draw(pen: Pen, top: float) -> None:
        for x, entry in zip(_STARTS, pair, strict=False):
            entry.draw(pen, x, top)

    return Block(max(entry.height for entry in pair), draw)


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

    first = Block(SMALL.leading, draw, keeps=lines[0].keeps)
    return (first, *(_lowered(line) for line in lines[1:]), Block(3))


def _lowered(line: Block) -> Block:
    return replace(line, draw=lambda pen, top: line.draw(pen, top + 2))
