"""What a lens carries: centre, segment, cross, engravings, and where each is read."""

from dataclasses import dataclass

from benchassist.geometry.figure import Point, Polyline, Spot, Stroke
from benchassist.geometry.outline import curve, edge_at, side_at
from benchassist.geometry.plan import FrontPlan, Layout
from benchassist.optics.eye import Eye


def layout_strokes(plan: FrontPlan, eye: Eye, outline: Polyline) -> tuple[Stroke, ...]:
    """The marks that the layout of the lens shows or has printed on it."""
    if plan.layout is Layout.CORRIDOR:
        shapes = _corridor(plan, eye, outline)
    elif plan.layout is Layout.PLAIN:
        across, up = plan.reference(eye)
        shapes = _cross("centre", (across, up), 1.6)
    else:
        shapes = _segment(plan, eye)
    return tuple(
        Stroke(name, plan.placed(eye, points), eye, is_closed)
        for name, points, is_closed in shapes
    )


def _cross(name: str, at: Point, reach: float) -> list[tuple[str, Polyline, bool]]:
    x, y = at
    return [
        (name, ((x - reach, y), (x + reach, y)), False),
        (name, ((x, y - reach), (x, y + reach)), False),
    ]


def _ring(name: str, at: Point, radius: float) -> tuple[str, Polyline, bool]:
    x, y = at
    k = 0.5523 * radius
    right = curve((x + radius, y), (x + radius, y + k), (x + k, y + radius), (x, y + radius))
    upper = tuple((2 * x - px, py) for px, py in reversed(right))
    lower = tuple((px, 2 * y - py) for px, py in reversed((*right, *upper)))
    return name, (*right, *upper, *lower), True


def _corridor(plan: FrontPlan, eye: Eye, outline: Polyline) -> list[tuple[str, Polyline, bool]]:
    x, y = plan.reference(eye)
    near = near_point(plan, eye, outline)
    arc = curve(
        (x - 4.2, y + 8.2), (x - 2.4, y + 10.4), (x + 2.4, y + 10.4), (x + 4.2, y + 8.2)
    )
    shapes = _cross("cross", (x, y), 3.0)
    shapes.append(("arc", arc, False))
    shapes.extend(_ring("engraving", at, 1.1) for at in engravings(plan, eye))
    for side in (-1, 1):
        shapes.append(("level", ((x + side * 7, y - 4), (x + side * 13, y - 4)), False))
    shapes.append(_ring("near-circle", near, 3.6))
    return shapes


def _segment(plan: FrontPlan, eye: Eye) -> list[tuple[str, Polyline, bool]]:
    across, top = plan.reference(eye)
    middle = across + plan.near_inset(eye)
    half = (plan.segment_width or 28.0) / 2
    lowest = -plan.height / 2 + 2.5
    depth = min(plan.segment_depth or 0.68 * 2 * half, max(top - lowest, 6.0))
    low = top - depth
    bowl = curve(
        (middle - half, top),
        (middle - half * 1.04, low + depth * 0.28),
        (middle - half * 0.62, low),
        (middle, low),
    )
    mirrored = tuple((2 * middle - x, y) for x, y in reversed(bowl))
    shapes = [("segment", (*bowl, *mirrored), True)]
    if plan.layout is Layout.DOUBLE_SEGMENT:
        band = top - min(7.0, 0.45 * depth)
        edge = side_at(bowl, band, is_nasal=False)
        shapes.append(("segment-band", ((edge, band), (2 * middle - edge, band)), False))
    return shapes


def engravings(plan: FrontPlan, eye: Eye) -> tuple[Point, Point]:
    """The engraved circles of a power-variation lens, temporal and nasal, in the lens.

    34 mm apart and level with the prism reference point 4 mm below the fitting cross: usual
    for most designs, memory; the maker's own chart decides.
    """
    x, y = plan.reference(eye)
    return (x - 17.0, y - 4.0), (x + 17.0, y - 4.0)


def near_point(plan: FrontPlan, eye: Eye, outline: Polyline) -> Point:
    """Where the near addition is read, in the lens, kept 4.5 mm inside its lower edge."""
    x, y = plan.reference(eye)
    across = x + plan.near_inset(eye)
    if plan.layout is Layout.CORRIDOR:
        wanted = y - 16.0
    elif plan.layout is Layout.DOUBLE_SEGMENT:
        wanted = y - 11.5
    else:
        wanted = y - 7.0
    return across, max(wanted, edge_at(outline, across, is_upper=False) + 4.5)


def lens_spots(plan: FrontPlan, eye: Eye, outline: Polyline) -> tuple[Spot, ...]:
    """Where each thing of one lens is read or measured."""
    x, y = plan.reference(eye)
    half_b = plan.height / 2
    near = near_point(plan, eye, outline)
    apart = _APART[plan.layout]
    temporal, nasal = engravings(plan, eye)
    top_left = x + plan.near_inset(eye) - (plan.segment_width or 28.0) / 2
    tilted = temporal if plan.layout is Layout.CORRIDOR else (top_left + 1.5, y)
    places = {
        "distance": (x, y + apart.distance),
        "prism": (x, y + apart.prism),
        "intermediate": ((x + near[0]) / 2, y + apart.intermediate),
        "near": near,
        "engraving": nasal,
        "tilt": tilted,
        "height": (x - HEIGHT_ASIDE, (y - half_b) / 2),
        "surface": (-0.29 * plan.width, 0.27 * plan.height),
        "thickness": (0.18 * plan.width, edge_at(outline, 0.18 * plan.width, is_upper=False)),
        "segment": (near[0] + 6.5, near[1] - 1.0),
        "centre": (x - 6.0, -half_b - CENTRE_DROP),
        "near-centre": (x - 6.0, -half_b - NEAR_DROP),
    }
    inside = {"engraving", "tilt", "distance"}
    return tuple(
        Spot(f"{eye}.{name}", plan.place(eye, _inside(outline, at) if name in inside else at))
        for name, at in places.items()
    )


HEIGHT_ASIDE = 8.0
"""How far temporal of the reference point the height is drawn, mm."""

CENTRE_DROP = 9.0
"""How far below the boxed lens the line of the centration distances is drawn, mm."""

NEAR_DROP = 15.5
"""How far below the boxed lens the line of the near distances is drawn, mm."""


@dataclass(frozen=True, slots=True)
class _Apart:
    """How far above the reference point things are read, mm.

    Of a plain lens distance power and prism are read at one point; their spots are set apart
    so that both can be seen and clicked.
    """

    distance: float
    prism: float
    intermediate: float


_APART = {
    Layout.PLAIN: _Apart(2.6, -4.0, -9.0),
    Layout.SEGMENT: _Apart(11.0, 4.6, -3.0),
    Layout.DOUBLE_SEGMENT: _Apart(11.0, 4.6, -3.4),
    Layout.CORRIDOR: _Apart(7.0, -4.6, -10.0),
}


def _inside(outline: Polyline, at: Point) -> Point:
    """The point, moved level to at least 3 mm inside the outline."""
    low = side_at(outline, at[1], is_nasal=False) + 3.0
    high = side_at(outline, at[1], is_nasal=True) - 3.0
    top = edge_at(outline, min(max(at[0], low), high), is_upper=True) - 3.0
    return min(max(at[0], low), high), min(at[1], top)
