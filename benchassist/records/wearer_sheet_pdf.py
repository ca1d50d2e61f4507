"""The wearer's sheet as a PDF: one page, large type, black on white."""

from dataclasses import dataclass

from benchassist.records.advice import Section
from benchassist.records.ink import PAGE_HEIGHT, PAGE_WIDTH, REGULAR, STRONG, Face
from benchassist.records.paper import Block
from benchassist.records.pen import Pen
from benchassist.records.wearer_sheet import SheetPart, WearerSheet

_BLACK = "#000000"
_LEFT, _TOP = 44.0, 36.0
_WIDTH = PAGE_WIDTH - 2 * _LEFT
_BOTTOM = PAGE_HEIGHT - 34.0

# Sizes for an older reader, who holds the sheet at arm's length. RNIB, Clear Print guidelines
# (from memory): never below 12 pt, 14 pt wherever it can be.
_TITLE = Face(STRONG, 24, 30, _BLACK)
_HEADING = Face(STRONG, 20, 25, _BLACK)
_BODY = Face(REGULAR, 14, 17.5, _BLACK)
_BODY_STRONG = Face(STRONG, 14, 17.5, _BLACK)

_INDENT = 14.0
_BOX = 10.0
"""From the frame of the box to what stands in it."""

_ABOUT_LINES = 2
_CONTACT_LINES = 2
"""The most lines that one item takes before it is cut; the page has only so much room."""


@dataclass(frozen=True, slots=True)
class _Laid:
    """What stands at the top of the page, and what at its foot."""

    body: tuple[Block, ...]
    foot: tuple[Block, ...]

    @property
    def height(self) -> float:
        return sum(block.height for block in (*self.body, *self.foot))


def sheet_pdf(sheet: WearerSheet) -> bytes:
    """The sheet on one page of A4; the same sheet gives the same bytes.

    What does not fit is left out, the least important first; the type never shrinks.
    """
    pen = Pen(sheet.title, sheet.contact[0], " · ".join(sheet.about), sheet.code)
    laid = _laid(pen, fitted(pen, sheet))
    _draw(pen, laid.body, _TOP)
    _draw(pen, laid.foot, _BOTTOM - sum(block.height for block in laid.foot))
    pen.end_page()
    return pen.finish()


def printed(sheet: WearerSheet) -> WearerSheet:
    """The sheet as it is printed: without what does not fit on the page."""
    return fitted(Pen("", "", ""), sheet)


def fitted(pen: Pen, sheet: WearerSheet) -> WearerSheet:
    """The sheet with so much of the least important left out that it fits on one page."""
    while _laid(pen, sheet).height > _BOTTOM - _TOP:
        lines = [line for part in sheet.parts for line in part.lines if line.priority]
        if not lines:
            break
        # Of equals the last one goes, as if they had been counted on.
        least = max(reversed(lines), key=lambda line: line.priority)
        sheet = sheet.without(least.id)
    return sheet


def _draw(pen: Pen, blocks: tuple[Block, ...], top: float) -> None:
    for block in blocks:
        block.draw(pen, top)
        top += block.height


def _laid(pen: Pen, sheet: WearerSheet) -> _Laid:
    urgent = [part for part in sheet.parts if part.section is Section.URGENT]
    others = [part for part in sheet.parts if part.section is not Section.URGENT]
    body = (
        _line(sheet.title, _TITLE, _LEFT),
        *_cut(pen, " · ".join(sheet.about), _BODY, _ABOUT_LINES),
        *(block for part in others for block in _part(pen, part)),
    )
    boxes = tuple(_box(pen, part, sheet.call) for part in urgent)
    return _Laid((*body, Block(6)), (*boxes, *_contact(pen, sheet.contact)))


def _line(text: str, face: Face, x: float) -> Block:
    return Block(
        face.leading, lambda pen, top: pen.text(x, top + face.leading * 0.78, text, face)
    )


def _cut(pen: Pen, text: str, face: Face, most: int) -> tuple[Block, ...]:
    """A text in so many lines at most; an ellipsis stands for what was cut."""
    lines = pen.wrap(text, face, _WIDTH)
    if len(lines) > most:
        last = lines[most - 1]
        while pen.width(f"{last}…", face) > _WIDTH:
            last = last[:-1]
        lines = (*lines[: most - 1], f"{last}…")
    return tuple(_line(line, face, _LEFT) for line in lines)


def _part(pen: Pen, part: SheetPart) -> tuple[Block, ...]:
    rows: list[Block] = [Block(5), _line(part.title, _HEADING, _LEFT)]
    for told in part.lines:
        lines = pen.wrap(told.says, _BODY, _WIDTH - _INDENT)
        rows += (_pointed(line, is_first=at == 0) for at, line in enumerate(lines))
        rows.append(Block(1.5))
    return tuple(rows)


def _pointed(text: str, *, is_first: bool) -> Block:
    """A line of an item, with the point before its first."""

    def draw(pen: Pen, top: float) -> None:
        if is_first:
            pen.block(_LEFT, top + 7, 5, 5, _BLACK)
        pen.text(_LEFT + _INDENT, top + _BODY.leading * 0.78, text, _BODY)

    return Block(_BODY.leading, draw)


def _box(pen: Pen, part: SheetPart, call: str) -> Block:
    """The part that cannot wait, in a frame, its number last and strong."""
    room = _WIDTH - 2 * _BOX
    told = [line for one in part.lines for line in pen.wrap(one.says, _BODY, room)]
    number = pen.wrap(call, _BODY_STRONG, room)
    rows = [(part.title, _HEADING)]
    rows += [(line, _BODY) for line in told] + [(line, _BODY_STRONG) for line in number]
    height = sum(face.leading for _, face in rows) + 1.6 * _BOX

    def draw(pen: Pen, top: float) -> None:
        right, bottom = _LEFT + _WIDTH, top + height
        corners = ((_LEFT, top), (right, top), (right, bottom), (_LEFT, bottom))
        pen.shape(corners, line=_BLACK, thickness=2.0)
        y = top + 0.7 * _BOX
        for text, face in rows:
            pen.text(_LEFT + _BOX, y + face.leading * 0.78, text, face)
            y += face.leading

    return Block(height + 8, draw)


def _contact(pen: Pen, contact: tuple[str, ...]) -> tuple[Block, ...]:
    """The practice: its name strong, the rest under it."""
    name, *rest = contact
    others = (block for text in rest for block in _cut(pen, text, _BODY, _CONTACT_LINES))
    return (*_cut(pen, name, _BODY_STRONG, 1), *others)
