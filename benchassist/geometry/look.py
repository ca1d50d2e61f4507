"""Lines in space as the strokes and spots of a view."""

from collections.abc import Callable

from benchassist.geometry.figure import Point, Spot, Stroke
from benchassist.geometry.outline import curve
from benchassist.geometry.solid import Line, Place, Side
from benchassist.optics.eye import Eye

Look = Callable[[Place], Point]
"""How a view projects a place in space onto the sheet."""

_BULGE = 5.0
"""How far the bridge stands out before its ends, mm."""


def spots_of(side: Side, look: Look, temple: Line) -> list[Spot]:
    """Where things are looked at on one half, its temple drawn as given."""
    places = {
        "rim": side.upright[0],
        "endpiece": side.level[-1],
        "temple": temple[1],
        "bend": temple[side.bend],
        "tip": temple[-1],
        "centre": side.upright[len(side.upright) // 2],
        "surface": side.upright[3 * len(side.upright) // 4],
    }
    return [Spot(f"{side.eye}.{name}", look(place)) for name, place in places.items()]


def seen(
    name: str, line: Line, look: Look, eye: Eye | None = None, *, is_closed: bool = False
) -> Stroke:
    """A line in space as a stroke of the view."""
    return Stroke(name, tuple(look(place) for place in line), eye, is_closed)


def bridge_of(sides: tuple[Side, ...], look: Look) -> Stroke:
    """The bridge between the nasal ends of two halves."""
    start, end = (side.level[0] for side in sides)
    lift = _BULGE / 0.75
    first = (start[0] * 0.5, start[1] + 2.0, start[2] + lift)
    second = (end[0] * 0.5, end[1] + 2.0, end[2] + lift)
    points = curve(look(start), look(first), look(second), look(end))
    return Stroke("bridge-line", points)
