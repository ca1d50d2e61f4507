"""The frame as the bench measured it, on the paper: each check with its faults enlarged."""

from collections.abc import Callable
from dataclasses import dataclass

from benchassist.geometry.fault import Fault, Faults, caption
from benchassist.geometry.figure import Figure, Point, Stroke
from benchassist.geometry.plan import FrontPlan
from benchassist.geometry.views import view
from benchassist.job.plan import front_plan
from benchassist.records.ink import (
    FRAME,
    LEFT,
    LENS,
    LINE,
    SMALL_SOFT,
    SMALL_STRONG,
    SOFT,
    WHITE,
    WIDTH,
    state_colour,
)
from benchassist.records.paper import Block, heading
from benchassist.records.pen import Pen
from benchassist.records.record import FaultLine, FrameLine, Record
from benchassist.verdicts.finding import State

_TALLEST, _TALLEST_OF_MANY = 84.0, 64.0
"""Height of a picture, and of one of many, points."""

_GUTTER, _TITLE, _WORDS = 18.0, 14.0, 12.0
"""Between two pictures, over one and under one, points."""

_FEW = 4
"""Up to so many single pictures stand two to a line."""

_HAIR = 0.01
"""What rounding may add to the width of a line, points."""

_LARGEST = 1.7
"""The largest scale of a picture, points a mm."""

_NOTE = 9.0
"""Height of a size beside what shows it, points."""

_OUT = state_colour(State.OUTSIDE)
_BARE = frozenset({"near-circle", "engraving", "level", "box", "arc"})
_THICK = {
    "temple-line": (FRAME, 2.4),
    "front-line": (FRAME, 3.2),
    "bridge-line": (FRAME, 2.8),
    "rim-line": (FRAME, 2.2),
    "lens-line": (LENS, 1.3),
    "pad-line": (SOFT, 1.2),
    "far-temple-line": (LINE, 2.2),
    "far-front-line": (LINE, 3.0),
    "far-lens-line": (LENS, 1.0),
    "shadow": (LINE, 1.6),
}
"""Colour and width in mm of what is drawn as a thick line."""


@dataclass(frozen=True, slots=True)
class _Cell:
    """One picture with its words, and how much room it takes, points."""

    title: str
    figure: Figure
    words: str
    width: float
    height: float


def frame_blocks(pen: Pen, record: Record) -> tuple[Block, ...]:
    """The checks of the bench that are outside or were corrected; nothing without any."""
    plan = front_plan(record.order)
    single = sum(not line.before for line in record.frame)
    across, tall = (3, _TALLEST_OF_MANY) if single > _FEW else (2, _TALLEST)
    share = (WIDTH - (across - 1) * _GUTTER) / across
    cells = [_cell(plan, line, share, tall) for line in record.frame]
    rows = tuple(_row(pen, row) for row in _rows(cells))
    return (*heading("The frame as measured", "faults enlarged"), *rows) if rows else ()


def _cell(plan: FrontPlan, line: FrameLine, share: float, tall: float) -> _Cell:
    name = line.prompt.partition(".")[2]
    before = tuple(map(_fault, line.before)) if line.before else None
    faults = Faults(tuple(map(_fault, line.now)), name, before)
    figure = view(plan, line.view, faults)
    width = WIDTH if figure.panels else share
    return _Cell(line.title, figure, caption(faults, line.view), width, tall)


def _fault(line: FaultLine) -> Fault:
    return Fault(line.kind, float(line.value), line.eye, line.is_within)


def _rows(cells: list[_Cell]) -> list[list[_Cell]]:
    """The pictures in their order, single ones side by side."""
    rows: list[list[_Cell]] = []
    for cell in cells:
        if rows and sum(one.width + _GUTTER for one in rows[-1]) + cell.width <= WIDTH + _HAIR:
            rows[-1].append(cell)
        else:
            rows.append([cell])
    return rows


def _row(pen: Pen, cells: list[_Cell]) -> Block:
    told = [pen.wrap(cell.words, SMALL_SOFT, cell.width) for cell in cells]
    words = max(map(len, told)) * SMALL_SOFT.leading
    tall = max(cell.height for cell in cells)

    def draw(pen: Pen, top: float) -> None:
        left = LEFT
        for cell, lines in zip(cells, told, strict=True):
            pen.text(left, top + 9, cell.title, SMALL_STRONG)
            _draw_picture(pen, cell, left, top + _TITLE + _panel_room(cell))
            for number, line in enumerate(lines):
                below = top + _TITLE + tall + _WORDS + number * SMALL_SOFT.leading
                pen.text(left, below, line, SMALL_SOFT)
            left += cell.width + _GUTTER

    return Block(_TITLE + tall + _WORDS + words + 6, draw)


def _panel_room(cell: _Cell) -> float:
    return SMALL_SOFT.leading if cell.figure.panels else 0.0


def _draw_picture(pen: Pen, cell: _Cell, left: float, top: float) -> None:
    low_x, low, high_x, high = cell.figure.bounds
    tall = cell.height - _panel_room(cell)
    scale = min(cell.width / (high_x - low_x), tall / (high - low), _LARGEST)

    def at(point: Point) -> Point:
        return left + (point[0] - low_x) * scale, top + (high - point[1]) * scale

    for stroke in cell.figure.strokes:
        _draw_stroke(pen, stroke, tuple(map(at, stroke.points)), scale)
    _draw_notes(pen, cell, left, at)
    for panel in cell.figure.panels:
        x, _ = at(panel.at)
        pen.text_middle(x, top - 4, panel.words.lower(), SMALL_SOFT)


def _draw_notes(pen: Pen, cell: _Cell, left: float, at: Callable[[Point], Point]) -> None:
    """The sizes beside what shows them, one over another where they would touch."""
    taken: list[tuple[float, float, float]] = []
    for note in cell.figure.notes:
        x, y = at(note.at)
        wide = pen.width(note.words, SMALL_STRONG)
        x = min(x + 4, left + cell.width - wide)
        while any(
            x < end and start < x + wide and abs(y - low) < _NOTE for start, end, low in taken
        ):
            y -= _NOTE
        taken.append((x - 2, x + wide + 2, y))
        pen.block(x - 1, y - _NOTE / 2, wide + 2, _NOTE, WHITE)
        pen.text(x, y + 2.5, note.words, SMALL_STRONG)


def _draw_stroke(pen: Pen, stroke: Stroke, points: tuple[Point, ...], scale: float) -> None:
    closed = (*points, points[0]) if stroke.is_closed else points
    if stroke.name in _BARE:
        return
    if stroke.name in _THICK:
        colour, thick = _THICK[stroke.name]
        pen.stroke(closed, colour, thick * scale)
        return
    match stroke.name:
        case "lens":
            pen.shape(points, fill=LENS, line=FRAME, thickness=0.5)
        case "rim" | "bridge" | "endpiece" | "temple":
            pen.shape(points, fill=FRAME)
        case "ghost":
            pen.stroke(closed, SOFT, 0.5, dashed=True)
        case "gap" | "sight":
            pen.stroke(closed, _OUT, 1.0 if stroke.name == "gap" else 0.6)
        case "table":
            pen.stroke(closed, LINE, 0.6)
        case _:
            pen.stroke(closed, SOFT, 0.5)
