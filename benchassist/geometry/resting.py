"""How rigid points come to rest on a plate, and what stands off it.

A rigid body on a flat plate touches at three points (or more, when it is true). They are a
triangle of its points with two properties: no other point lies beyond its plane, and the load
stands over it. Finding that triangle needs no small angles and no formula of the bench.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import combinations
from math import dist, sqrt

from benchassist.geometry.frame_state import FramePoints
from benchassist.geometry.possible import Impossible
from benchassist.geometry.solid import Place
from benchassist.optics.eye import Eye

_TOUCHING = 1e-7
"""A gap of a millionth of a hair, mm, is a touch: only what floats lose."""

_STEEPEST = 0.5
"""A plate more than 60 degrees from where it was expected is another side of the body."""


@dataclass(frozen=True, slots=True)
class Rest:
    """A body at rest.

    Attributes:
        away: unit vector square to the plate, from the plate towards the body.
        heights: height of every point over the plate by its name, mm; of those that can touch
            none is below zero.
    """

    away: Place
    heights: Mapping[str, float]

    @property
    def touching(self) -> tuple[str, ...]:
        """The names of the points that touch."""
        return tuple(name for name, height in self.heights.items() if height <= _TOUCHING)


def rest(
    points: Mapping[str, Place],
    load: Place,
    away: Place,
    also: Mapping[str, Place] | None = None,
) -> Rest:
    """The rest of rigid points on a flat plate.

    Args:
        points: places that can touch, mm, by their names; at least three.
        load: where the weight or the pressing finger acts; it pushes square to the plate.
        away: about which way the body lies from the plate, a unit vector.
        also: places that cannot touch and whose height is wanted too.

    Raises:
        Impossible: no three points carry the load: the body tips over.
    """
    for names in combinations(points, 3):
        first, second, third = (points[name] for name in names)
        square = _square_to(first, second, third, away)
        if square is None:
            continue
        heights = {name: _dot(_from(first, at), square) for name, at in points.items()}
        carries = _is_over(load, (first, second, third), square)
        if carries and min(heights.values()) >= -_TOUCHING:
            others = {name: _dot(_from(first, at), square) for name, at in (also or {}).items()}
            return Rest(square, {n: max(0.0, high) for n, high in heights.items()} | others)
    raise Impossible(f"no three of {', '.join(points)} carry the load: the body tips over")


@dataclass(frozen=True, slots=True)
class TableRest:
    """A frame on the table.

    Attributes:
        rims: height of the touching place of each rim over the table, mm.
        behind: height of each temple where it should touch, mm.
        run: from the line through both rim places to the lower of the two temple places, mm,
            along the table.
    """

    rims: Mapping[Eye, float]
    behind: Mapping[Eye, float]
    run: float


def upright(points: FramePoints) -> TableRest:
    """The frame on its lower rims and its tips, by its own weight.

    Raises:
        Impossible: the frame tips over.
    """
    return _on_table(points, "bottom", "tip", (0.0, 1.0, 0.0))


def inverted(points: FramePoints) -> TableRest:
    """The frame upside down on its upper rims and the beginnings of its bends.

    Raises:
        Impossible: the frame tips over.
    """
    return _on_table(points, "top", "bend", (0.0, -1.0, 0.0))


def _on_table(points: FramePoints, before: str, behind: str, away: Place) -> TableRest:
    rims, temples = points.both(before), points.both(behind)
    places = {f"{eye} rim": at for eye, at in rims.items()}
    places |= {f"{eye} temple": at for eye, at in temples.items()}
    stand = rest(places, points.centre_of_mass, away)
    gaps = {eye: stand.heights[f"{eye} temple"] for eye in Eye}
    touching = temples[min(gaps, key=lambda eye: gaps[eye])]
    run = _from_line(rims[Eye.RIGHT], rims[Eye.LEFT], touching, stand.away)
    return TableRest({eye: stand.heights[f"{eye} rim"] for eye in Eye}, gaps, run)


def _from(start: Place, end: Place) -> Place:
    return end[0] - start[0], end[1] - start[1], end[2] - start[2]


def _dot(one: Place, other: Place) -> float:
    return one[0] * other[0] + one[1] * other[1] + one[2] * other[2]


def _cross(one: Place, other: Place) -> Place:
    return (
        one[1] * other[2] - one[2] * other[1],
        one[2] * other[0] - one[0] * other[2],
        one[0] * other[1] - one[1] * other[0],
    )


def _square_to(first: Place, second: Place, third: Place, away: Place) -> Place | None:
    """The unit vector square to three points on the body's side; None where it is another."""
    x, y, z = _cross(_from(first, second), _from(first, third))
    length = sqrt(x * x + y * y + z * z)
    if length < _TOUCHING:
        return None
    upright_share = _dot((x, y, z), away) / length
    if abs(upright_share) < _STEEPEST:
        return None
    signed = length if upright_share > 0 else -length
    return x / signed, y / signed, z / signed


def _is_over(load: Place, corners: tuple[Place, Place, Place], square: Place) -> bool:
    """Whether the load, seen along the square, lies within the triangle."""
    first, second, third = corners
    turns = [
        _dot(_cross(_from(start, end), _from(start, load)), square)
        for start, end in ((first, second), (second, third), (third, first))
    ]
    return min(turns) >= -_TOUCHING or max(turns) <= _TOUCHING


def _from_line(start: Place, end: Place, at: Place, square: Place) -> float:
    """How far a place is from a line, both seen along the square."""
    along, there = _from(start, end), _from(start, at)
    return abs(_dot(_cross(along, there), square)) / dist(start, end)
