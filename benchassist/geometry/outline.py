"""A plausible lens shape from its boxed dimensions, and smooth curves for the rest."""

from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from math import cos, hypot, pi, sin

from benchassist.geometry.figure import Point, Polyline

_STEPS = 28
"""Points in each quarter of a lens outline."""

_HALVINGS = 14
"""How often the range of the fullness is halved: the diameter is then within 0.01 mm."""

_ROUNDEST = 2.02
_SQUAREST = 14.0


@dataclass(frozen=True, slots=True)
class _Quarter:
    """A quarter of the outline: its centre, its reach and how full it is.

    `across` and `up` say which quarter (+1 nasal, +1 upper); `fullness` multiplies how far the
    exponent of the superellipse lies above 2.
    """

    across: int
    up: int
    fullness: float


_QUARTERS = (
    _Quarter(1, 1, 0.85),
    _Quarter(-1, 1, 1.3),
    _Quarter(-1, -1, 0.95),
    _Quarter(1, -1, 0.8),
)
"""From the nasal side through the top to the temporal side and back below."""


@lru_cache(maxsize=64)
def lens_outline(a: float, b: float, ed: float | None = None) -> Polyline:
    """The outline of a lens about its boxed centre, mm, +x nasal, +y up.

    Four quarters of a superellipse meet smoothly on the four sides of the box, the outermost
    points a little above the middle as on most frames. The fullness is chosen so that twice
    the longest radius from the boxed centre is the effective diameter `ed`; where the box
    cannot take that diameter the nearest possible is drawn. Shape: own, no source; the boxing
    system of ISO 8624 fixes only what it touches.

    Raises:
        ValueError: a side of the box is not above zero.
    """
    if a <= 0 or b <= 0:
        raise ValueError(f"a lens box of {a} x {b} mm holds no lens")
    wanted = (ed if ed is not None else default_ed(a, b)) / 2
    low, high = _ROUNDEST, _SQUAREST
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        if _longest_radius(_outline(a, b, middle)) < wanted:
            low = middle
        else:
            high = middle
    return _outline(a, b, (low + high) / 2)


def default_ed(a: float, b: float) -> float:
    """An effective diameter where none is ordered: halfway from a round to a square shape."""
    longest = max(a, b)
    return longest + 0.3 * (hypot(a, b) - longest)


def effective_diameter(outline: Polyline) -> float:
    """Twice the longest radius from the boxed centre, mm."""
    return 2 * _longest_radius(outline)


def _longest_radius(outline: Polyline) -> float:
    return max(hypot(x, y) for x, y in outline)


def _outline(a: float, b: float, exponent: float) -> Polyline:
    points: list[Point] = []
    for quarter in _QUARTERS:
        points.extend(_quarter_points(a, b, quarter, exponent))
    return tuple(points)


def _quarter_points(a: float, b: float, quarter: _Quarter, exponent: float) -> list[Point]:
    side_y = 0.13 * b / 2
    crown_x = (-0.06 if quarter.up > 0 else 0.08) * a / 2
    reach_x = a / 2 - quarter.across * crown_x
    reach_y = b / 2 - quarter.up * side_y
    n = 2 + (exponent - 2) * quarter.fullness
    points = []
    for step in range(_STEPS):
        share = step / _STEPS if quarter.across == quarter.up else 1 - step / _STEPS
        across, up = cos(share * pi / 2), sin(share * pi / 2)
        radius = (across**n + up**n) ** (-1 / n)
        points.append(
            (
                crown_x + quarter.across * reach_x * radius * across,
                side_y + quarter.up * reach_y * radius * up,
            )
        )
    return points


def offset(outline: Polyline, distance: float) -> Polyline:
    """The closed outline grown by `distance` mm along its outward normals.

    The outline runs counter-clockwise; a negative distance shrinks it.
    """
    count = len(outline)
    grown = []
    for number, (x, y) in enumerate(outline):
        back, ahead = outline[number - 1], outline[(number + 1) % count]
        dx, dy = ahead[0] - back[0], ahead[1] - back[1]
        length = hypot(dx, dy) or 1.0
        grown.append((x + distance * dy / length, y - distance * dx / length))
    return tuple(grown)


def side_at(outline: Polyline, height: float, *, is_nasal: bool) -> float:
    """The x of the outline at a height, on its nasal (+x) or temporal side, mm.

    Heights above or below the outline give the x of its highest or lowest point.
    """
    ys = [y for _, y in outline]
    level = min(max(height, min(ys)), max(ys))
    crossings = []
    for (x0, y0), (x1, y1) in pairwise((*outline, outline[0])):
        if min(y0, y1) <= level <= max(y0, y1):
            share = (level - y0) / (y1 - y0) if y1 != y0 else 0.0
            crossings.append(x0 + share * (x1 - x0))
    return max(crossings) if is_nasal else min(crossings)


def edge_at(outline: Polyline, x: float, *, is_upper: bool) -> float:
    """The y of the outline above or below an x, mm; beyond its sides, of the last point."""
    turned = tuple((y, across) for across, y in outline)
    return side_at(turned, x, is_nasal=is_upper)


def curve(start: Point, first: Point, second: Point, end: Point, steps: int = 16) -> Polyline:
    """Points of the cubic Bezier curve with these four control points, both ends included."""
    points = []
    for step in range(steps + 1):
        t = step / steps
        k0, k1, k2, k3 = (1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3
        points.append(
            (
                k0 * start[0] + k1 * first[0] + k2 * second[0] + k3 * end[0],
                k0 * start[1] + k1 * first[1] + k2 * second[1] + k3 * end[1],
            )
        )
    return tuple(points)


def arc(centre: Point, radius: float, start: float, end: float, steps: int = 24) -> Polyline:
    """Points of a circular arc from angle `start` to `end`, degrees counter-clockwise."""
    angles = [(start + (end - start) * step / steps) * pi / 180 for step in range(steps + 1)]
    return tuple((centre[0] + radius * cos(t), centre[1] + radius * sin(t)) for t in angles)


def ribbon(line: Polyline, widths: tuple[float, ...]) -> Polyline:
    """A closed band along a line, with a width for each of its points, mm."""
    left, right = [], []
    for number, (x, y) in enumerate(line):
        back, ahead = line[max(number - 1, 0)], line[min(number + 1, len(line) - 1)]
        dx, dy = ahead[0] - back[0], ahead[1] - back[1]
        length = hypot(dx, dy) or 1.0
        half = widths[number] / 2
        left.append((x - half * dy / length, y + half * dx / length))
        right.append((x + half * dy / length, y - half * dx / length))
    return (*left, *reversed(right))
