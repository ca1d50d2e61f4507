"""Blocks that follow one another down the pages, and how they break over pages."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from benchassist.records.ink import (
    BODY,
    BODY_BOTTOM,
    BODY_TOP,
    LEAD,
    LEFT,
    LINE,
    RIGHT,
    SMALL_SOFT,
    UNIT,
    WIDTH,
    Face,
)
from benchassist.records.pen import Pen

Draw = Callable[[Pen, float], None]
"""Draws with a pen, its top at so many points from the top of the page."""


def _nothing(_pen: Pen, _top: float) -> None:
    return


@dataclass(frozen=True, slots=True)
class Block:
    """A piece of a page that is never cut.

    Attributes:
        height: points.
        draw: puts it on the page.
        keeps: stays on one page with the block after it.
        head: blocks to repeat above it when it comes first on a page.
        is_gap: only space; left out at the top of a page.
    """

    height: float
    draw: Draw = _nothing
    keeps: bool = False
    head: tuple["Block", ...] = ()
    is_gap: bool = False


Page = tuple[Block, ...]


def gap(height: float, *, keeps: bool = False) -> Block:
    """Empty space that vanishes at the top of a page."""
    return Block(height, keeps=keeps, is_gap=True)


def paginate(blocks: Sequence[Block], room: float = BODY_BOTTOM - BODY_TOP) -> tuple[Page, ...]:
    """The blocks on pages: kept ones stay together, heads are repeated, gaps never lead.

    A run of kept blocks that is taller than a page is cut where the page ends.
    """
    pages: list[list[Block]] = [[]]
    left = room
    for group in _groups(blocks):
        needed = sum(block.height for block in group)
        for number, block in enumerate(group):
            if pages[-1] and (needed if number == 0 else block.height) > left:
                pages.append([])
                left = room
            if block.is_gap and not pages[-1]:
                continue
            placed = (block,) if pages[-1] else (*block.head, block)
            pages[-1] += placed
            left -= sum(each.height for each in placed)
    return tuple(tuple(page) for page in pages if page)


def _groups(blocks: Sequence[Block]) -> tuple[tuple[Block, ...], ...]:
    groups: list[tuple[Block, ...]] = []
    run: list[Block] = []
    for block in blocks:
        run.append(block)
        if not block.keeps:
            groups.append(tuple(run))
            run = []
    return (*groups, tuple(run)) if run else tuple(groups)


def paragraph(
    pen: Pen,
    text: str,
    face: Face = BODY,
    *,
    x: float = LEFT,
    room: float = WIDTH,
) -> tuple[Block, ...]:
    """A text as one block a line; its first two lines and its last two stay together."""
    lines = pen.wrap(text, face, room)
    last = len(lines) - 1

    def line_block(number: int, line: str) -> Block:
        together = number == 0 or number == last - 1
        return Block(
            face.leading,
            lambda pen, top: pen.text(x, top + face.leading * 0.76, line, face),
            keeps=together and number != last,
        )

    return tuple(line_block(number, line) for number, line in enumerate(lines))


def heading(title: str, note: str = "") -> tuple[Block, ...]:
    """A section's title over a hairline, a note at its right; stays with what follows."""

    def draw(pen: Pen, top: float) -> None:
        pen.text(LEFT, top + 12, title, LEAD)
        pen.text_right(RIGHT, top + 12, note, SMALL_SOFT)
        pen.rule(LEFT, top + 18, WIDTH, LINE)

    return (gap(UNIT, keeps=True), Block(21, draw, keeps=True))
