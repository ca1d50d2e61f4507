"""Lines in space as the strokes and spots of a view, and what points a fault out."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from math import hypot

from benchassist.geometry.fault import Drawn, Part
from benchassist.geometry.figure import Note, Point, Spot, Stroke
from benchassist.geometry.halves import Half, along
from benchassist.geometry.outline import curve
from benchassist.geometry.solid import Line, Place
from benchassist.optics.eye import Eye

Look = Callable[[Place], Point]
"""How a view projects a place in space onto the sheet."""

Halves = tuple[Half, Half]
"""The right and the left half."""

_BULGE = 5.0
"""How far the bridge stands out before its ends, mm."""

_BEYOND = 7.0
"""How far a line that points out a fault is drawn beyond what it is laid along, mm."""

_ABOVE = 9.0
"""How far over the shafts the step between two bends is drawn, mm."""

CUT = 62.0
"""How much of each temple is drawn in the view from above, mm."""


@dataclass(frozen=True, slots=True)
class Pointed:
    """Lines that point out faults, and the sizes that stand beside them."""

    strokes: tuple[Stroke, ...] = ()
    notes: tuple[Note, ...] = ()


def spots_of(half: Half, look: Look, end: Place | None = None) -> list[Spot]:
    """Where things are looked at on one half; the temple ends early where `end` is given."""
    places = {
        "rim": half.upright[0],
        "endpiece": half.level[-1],
        "temple": along(half.hinge, end or half.bend, 0.5),
        "bend": end or half.bend,
        "tip": end or half.tip,
        "centre": half.upright[len(half.upright) // 2],
        "surface": half.upright[3 * len(half.upright) // 4],
    }
    return [Spot(f"{half.eye}.{name}", look(place)) for name, place in places.items()]


def seen(
    name: str, line: Line, look: Look, eye: Eye | None = None, *, is_closed: bool = False
) -> Stroke:
    """A line in space as a stroke of the view."""
    return Stroke(name, tuple(look(place) for place in line), eye, is_closed)


def bridge_of(halves: Halves, look: Look) -> Stroke:
    """The bridge between the nasal ends of two halves."""
    start, end = (half.level[0] for half in halves)
    lift = _BULGE / 0.75
    first = (start[0] * 0.5, start[1] + 2.0, start[2] + lift)
    second = (end[0] * 0.5, end[1] + 2.0, end[2] + lift)
    points = curve(look(start), look(first), look(second), look(end))
    return Stroke("bridge-line", points)


def cut_at(half: Half) -> Place:
    """Where the view from above cuts a temple short."""
    return half.shaft(min(CUT / max(half.hinge[2] - half.bend[2], CUT), 1.0))


_PLACES: Mapping[str, Callable[[Half], Place]] = {
    "skew": lambda half: half.upright[-1],
    "plane-step": lambda half: half.level[len(half.level) // 2],
    "pads": lambda half: along(half.pad[0], half.pad[1], 0.5),
    "pad-stand": lambda half: along(half.pad[0], half.pad[1], 0.5),
    "bend-start": lambda half: half.bend,
}
"""Between which places of the halves a step is seen."""

_LINES: Mapping[str, Callable[[Half], tuple[Place, Place]]] = {
    "rotation": lambda half: (half.marks[0], half.marks[-1]),
    "x-ing": lambda half: (half.upright[0], half.upright[-1]),
    "face-form": lambda half: (half.level[0], half.level[-2]),
    "open-angle": lambda half: (half.hinge, cut_at(half)),
    "pantoscopic": lambda half: (half.hinge, half.bend),
    "bend-drop": lambda half: (half.bend, half.tip),
    "fold": lambda half: half.folded,
}
"""Between which lines of the halves an angle is seen."""


def pointed_out(drawn: Drawn, halves: Halves, look: Look) -> Pointed:
    """The lines and sizes of every fault that is pointed out, but for gaps on the table."""
    strokes: list[Stroke] = []
    notes: list[Note] = []
    for part in drawn.parts:
        if part.is_pointed_out and part.kind.name in _PLACES:
            made = _step(part, halves, look)
        elif part.is_pointed_out and part.kind.name in _LINES:
            made = _angle(part, halves, look)
        else:
            continue
        strokes += made.strokes
        notes += made.notes
    return Pointed(tuple(strokes), tuple(notes))


def _step(part: Part, halves: Halves, look: Look) -> Pointed:
    """A line from the right side across to the left one, and the step that is left there."""
    right, left = (look(_PLACES[part.kind.name](half)) for half in halves)
    words = part.kind.size(part.fault.value)
    if part.kind.name == "bend-start":
        level = max(right[1], left[1]) + _ABOVE
        ends = ((right[0], level), (left[0], level))
        uprights = tuple(Stroke("sight", (at, (at[0], level + 3.0))) for at in (right, left))
        note = Note(words, (max(right[0], left[0]), level))
        return Pointed((*uprights, Stroke("gap", ends)), (note,))
    beyond = _BEYOND if left[0] > right[0] else -_BEYOND
    sight = Stroke("sight", (right, (left[0] + beyond, right[1])))
    gap = Stroke("gap", ((left[0], right[1]), left))
    middle = (right[1] + left[1]) / 2
    return Pointed((sight, gap), (Note(words, (left[0] + beyond, middle)),))


def _angle(part: Part, halves: Halves, look: Look) -> Pointed:
    """A line along both parts, a little longer than they are."""
    shown = [half for half in halves if part.fault.eye in {None, half.eye}]
    lines = [
        _longer(*(look(place) for place in _LINES[part.kind.name](half))) for half in shown
    ]
    strokes = tuple(Stroke("sight", line) for line in lines)
    return Pointed(strokes, (Note(part.kind.size(part.fault.value), lines[-1][1]),))


def _longer(start: Point, end: Point) -> tuple[Point, Point]:
    x, y = end[0] - start[0], end[1] - start[1]
    length = hypot(x, y) or 1.0
    x, y = x / length * _BEYOND, y / length * _BEYOND
    return (start[0] - x, start[1] - y), (end[0] + x, end[1] + y)
