"""The zones of a lens, by how much a mark in them disturbs, and places on it in mm."""

from dataclasses import dataclass
from enum import StrEnum
from itertools import pairwise
from math import hypot

from benchassist.geometry.figure import Point, Polyline
from benchassist.geometry.layout import layout_strokes, near_point
from benchassist.geometry.plan import FrontPlan, Layout
from benchassist.optics.eye import Eye

CENTRAL_WIDTH = 30.0
"""Diameter of the zone about the distance reference point, mm.

The zone of ISO 8980-1, in which a lens may show no defect that can impair vision; outside it
small isolated ones are taken. From memory, the standard was not read.
"""

NEAR_WIDTH = 16.0
"""Diameter of the zone about the near point of a power-variation lens, mm. Own, no source."""

ABOVE_SEGMENT = 5.0
"""How far above the top of a segment the wearer looks into the distance, mm. Own, no source."""

EDGE_BAND = 2.0
"""Width of the band inside the outline that bevel, groove and rim take up, mm. Own."""

REACH = 3.0
"""How far outside the outline a place still means the edge of the lens, mm: about a rim."""

_EXACT = 6
"""Decimals to which distances are compared, mm: a millionth."""


class Zone(StrEnum):
    """A zone of the lens, the one that disturbs most first."""

    CENTRAL = "central"
    NEAR = "near"
    EDGE = "edge"
    OUTER = "outer"


@dataclass(frozen=True, slots=True)
class LensPlace:
    """A place on one lens: mm from its boxed centre, `across` towards the nose and `up`."""

    eye: Eye
    across: float
    up: float

    @property
    def in_lens(self) -> Point:
        """The place as a point of the lens, +x towards the nose."""
        return self.across, self.up


def zone_at(plan: FrontPlan, place: LensPlace) -> Zone:
    """The zone of a place; on the border of two zones it is the one that disturbs more.

    The zones lie about where the lens was ordered to sit, for that is where the eye is. A
    place in the central or near zone belongs to it even close to the rim of a shallow lens.
    """
    outline = plan.outline()
    x, y = distance_point(plan, place.eye)
    if _is_within(hypot(place.across - x, place.up - y), CENTRAL_WIDTH / 2):
        return Zone.CENTRAL
    if _is_near(plan, place, outline):
        return Zone.NEAR
    is_at_edge = _is_within(distance_to(outline, place.in_lens), EDGE_BAND)
    return Zone.EDGE if is_at_edge or not holds(outline, place.in_lens) else Zone.OUTER


def distance_point(plan: FrontPlan, eye: Eye) -> Point:
    """The middle of the central zone, in the lens.

    The ordered optical centre or fitting cross; of a multifocal `ABOVE_SEGMENT` over the top
    of its segment.
    """
    x, y = plan.reference(eye)
    is_segment = plan.layout in {Layout.SEGMENT, Layout.DOUBLE_SEGMENT}
    return x, y + (ABOVE_SEGMENT if is_segment else 0.0)


def _is_near(plan: FrontPlan, place: LensPlace, outline: Polyline) -> bool:
    """In the whole segment of a multifocal, or about the near point of a corridor."""
    if plan.layout is Layout.PLAIN:
        return False
    if plan.layout is Layout.CORRIDOR:
        x, y = near_point(plan, place.eye, outline)
        return _is_within(hypot(place.across - x, place.up - y), NEAR_WIDTH / 2)
    segments = (
        stroke.points
        for stroke in layout_strokes(plan, place.eye, outline)
        if stroke.name == "segment"
    )
    at = plan.place(place.eye, place.in_lens)
    return any(holds(shape, at) or _is_within(distance_to(shape, at), 0) for shape in segments)


def _is_within(distance: float, bound: float) -> bool:
    return round(distance, _EXACT) <= bound


def holds(shape: Polyline, point: Point) -> bool:
    """Whether a point lies inside a closed shape; on its border it may be either."""
    x, y = point
    is_inside = False
    for (x0, y0), (x1, y1) in pairwise((*shape, shape[0])):
        if (y0 > y) != (y1 > y) and x < x0 + (y - y0) / (y1 - y0) * (x1 - x0):
            is_inside = not is_inside
    return is_inside


def distance_to(shape: Polyline, point: Point) -> float:
    """How far a point is from the line around a closed shape, mm."""
    return min(
        hypot(point[0] - x, point[1] - y)
        for x, y in (_nearest(side, point) for side in pairwise((*shape, shape[0])))
    )


def _nearest(side: tuple[Point, Point], point: Point) -> Point:
    (x0, y0), (x1, y1) = side
    dx, dy = x1 - x0, y1 - y0
    length = dx * dx + dy * dy
    share = ((point[0] - x0) * dx + (point[1] - y0) * dy) / length if length else 0.0
    share = min(max(share, 0.0), 1.0)
    return x0 + share * dx, y0 + share * dy


def place_at(plan: FrontPlan, point: Point) -> LensPlace | None:
    """The place on a lens under a point of the front view; None beside both lenses.

    Args:
        plan: the spectacles as drawn.
        point: mm, facing the wearer, from the middle of the bridge, x to the right and y up.
    """
    eye = Eye.RIGHT if point[0] < 0 else Eye.LEFT
    across = eye.nasal_sign * point[0] + (plan.width + plan.gap) / 2
    place = LensPlace(eye, across, point[1])
    return place if is_on_lens(plan, place) else None


def is_on_lens(plan: FrontPlan, place: LensPlace) -> bool:
    """Whether a place lies on the lens or on what its edge reaches."""
    outline = plan.outline()
    return holds(outline, place.in_lens) or distance_to(outline, place.in_lens) <= REACH


def moved(plan: FrontPlan, place: LensPlace, right: float, up: float) -> LensPlace:
    """The place moved over the front view, mm to the observer's right and upwards.

    Beyond the nasal edge it goes on at the nasal edge of the other lens, and nowhere else does
    it leave its lens.
    """
    inwards = right * place.eye.nasal_sign
    wanted = LensPlace(place.eye, place.across + inwards, place.up + up)
    if is_on_lens(plan, wanted):
        return wanted
    is_over_the_nose = inwards > 0
    return LensPlace(place.eye.other, place.across, place.up) if is_over_the_nose else place
