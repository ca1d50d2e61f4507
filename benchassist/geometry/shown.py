"""What the bench tools show on a frame in space, before anybody misreads them.

Each function lays the tool against the points of the frame as a person would and takes the
reading from there; none of them turns a formula of `alignment` or `touch` round.
"""

from itertools import product
from math import hypot

from benchassist.geometry.alignment import AlongFront, LeanGaps
from benchassist.geometry.frame_state import FramePoints, HalfPoints
from benchassist.geometry.resting import rest
from benchassist.geometry.solid import Place
from benchassist.optics.eye import Eye

Flat = tuple[float, float]
"""A place as seen from the front or from above: across, and up or forwards, mm."""


def end_heights(points: FramePoints) -> AlongFront:
    """Heights of the ends of both lenses over a straight edge under both lower rims, mm."""
    start, end = (_front(points.half(eye).bottom) for eye in Eye)
    ends = [_over(start, end, _front(place)) for place in _ends(points, "temporal", "nasal")]
    return AlongFront(ends[0], ends[1], ends[2], ends[3])


def edge_gaps(points: FramePoints) -> AlongFront:
    """Gaps in front of a straight edge behind the front, just below the pads, mm.

    The edge is pressed on at the bridge: of all lines through one place of each half it comes
    to lie on the one behind which there is nothing.
    """
    places = [_above(place) for place in _ends(points, "low_temporal", "low_nasal")]
    pairs = product(places[:2], places[2:])
    gaps = max(([_over(*pair, place) for place in places] for pair in pairs), key=min)
    return AlongFront(*(max(0.0, gap) for gap in gaps))


def plate_gaps(points: FramePoints) -> tuple[LeanGaps, LeanGaps]:
    """Gaps of the right and the left lens before one flat plate behind the front, mm.

    The plate is pressed on at the bridge. The two heights are `apart` from each other.

    Raises:
        Impossible: no plate lies behind a front so far out of place.
    """
    touching = {
        f"{eye} {number}": place
        for eye in Eye
        for number, place in enumerate(points.half(eye).plate)
    }
    places = {
        f"{eye} {name}": getattr(points.half(eye), name)
        for eye in Eye
        for name in ("high_reading", "low_reading")
    }
    stand = rest(touching, points.bridge, (0.0, 0.0, 1.0), also=places)
    right, left = (
        LeanGaps(stand.heights[f"{eye} high_reading"], stand.heights[f"{eye} low_reading"])
        for eye in Eye
    )
    return right, left


def apart(half: HalfPoints) -> float:
    """The distance between the two heights of `plate_gaps`, mm."""
    (x, y, z), (u, v, w) = half.high_reading, half.low_reading
    return hypot(x - u, y - v, z - w)


def marks(points: FramePoints, eye: Eye, *, own_rim: bool = False) -> float:
    """The height of the temporal mark of a lens over its nasal one, mm.

    Args:
        points: the frame.
        eye: which lens.
        own_rim: whether the heights are taken over the line between the two ends of the lens's
            own rim; else over a straight edge along both lower rims, which a skewed bridge
            tilts.
    """
    half = points.half(eye)
    if own_rim:
        start, end = sorted((_front(half.nasal), _front(half.temporal)))
    else:
        start, end = (_front(points.half(side).bottom) for side in Eye)
    above = _over(start, end, _front(half.temporal_mark))
    return above - _over(start, end, _front(half.nasal_mark))


def temple_out(points: FramePoints, eye: Eye, back: float) -> float:
    """How far a temple stands outwards, a stated way straight back from its joint, mm.

    Args:
        points: the frame.
        eye: which temple.
        back: mm from the joint, square to the line from hinge to hinge.
    """
    start, end = (_above(points.half(side).hinge) for side in Eye)
    half = points.half(eye)
    hinge, bend = _above(half.hinge), _above(half.bend)
    behind = -_over(start, end, bend)
    across = _along(start, end, bend) - _along(start, end, hinge)
    return -eye.nasal_sign * across * back / behind


def pantoscopic_offset(half: HalfPoints) -> float:
    """How much further forward the top of a rim stands than its bottom, mm.

    A set-square stands on the shaft; forwards is along the shaft.
    """
    rim = [top - bottom for top, bottom in zip(half.top, half.bottom, strict=True)]
    shaft = [hinge - bend for hinge, bend in zip(half.hinge, half.bend, strict=True)]
    return sum(a * b for a, b in zip(rim, shaft, strict=True)) / hypot(*shaft)


def plane_step(points: FramePoints) -> float:
    """How far the left lens plane lies before the right one at the midline, mm.

    At the height of the straight edge: a twisted bridge shows there too, by its lever.
    """
    right, left = (
        _at_midline(_above(points.half(eye).low_temporal), _above(points.half(eye).low_nasal))
        for eye in Eye
    )
    return left - right


def _ends(points: FramePoints, temporal: str, nasal: str) -> tuple[Place, ...]:
    """Four places along the front, from the wearer's right end to the left."""
    outer, inner = points.both(temporal), points.both(nasal)
    return outer[Eye.RIGHT], inner[Eye.RIGHT], inner[Eye.LEFT], outer[Eye.LEFT]


def _front(place: Place) -> Flat:
    return place[0], place[1]


def _above(place: Place) -> Flat:
    return place[0], place[2]


def _over(start: Flat, end: Flat, at: Flat) -> float:
    """How far a place lies over the line from start to end, which runs to the right."""
    across, up = end[0] - start[0], end[1] - start[1]
    return (across * (at[1] - start[1]) - up * (at[0] - start[0])) / hypot(across, up)


def _along(start: Flat, end: Flat, at: Flat) -> float:
    """How far a place lies along the line from start to end."""
    across, up = end[0] - start[0], end[1] - start[1]
    return (across * (at[0] - start[0]) + up * (at[1] - start[1])) / hypot(across, up)


def _at_midline(outer: Flat, inner: Flat) -> float:
    """Where the line through two places meets the midline."""
    return inner[1] - inner[0] * (outer[1] - inner[1]) / (outer[0] - inner[0])
