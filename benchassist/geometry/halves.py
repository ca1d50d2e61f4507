"""The two halves of a frame in space as lines to be drawn, laid on its rigid points."""

from dataclasses import dataclass
from math import dist

from benchassist.geometry.figure import Point, Polyline
from benchassist.geometry.frame_state import FrameState, HalfPoints, Made, frame_points
from benchassist.geometry.outline import edge_at, offset, side_at
from benchassist.geometry.plan import FrontPlan
from benchassist.geometry.solid import Line, Move, Place, moved
from benchassist.optics.eye import Eye

_CURVE_MM = 95.0
"""Radius of the front surface as drawn, mm."""

_BEFORE_BEND, _AFTER_BEND = 7.0, 11.0
"""How far before and behind its corner a bend is drawn round, mm."""

_PAD_TALL = 10.0
"""From top to bottom of a pad as drawn from above and aside, mm."""


@dataclass(frozen=True, slots=True)
class Half:
    """One half of the frame in space.

    Attributes:
        eye: which half.
        rim: the closed middle line of the rim.
        lens: the closed outline of the lens.
        upright: the front from its lowest to its highest point.
        level: the front from the nose to the hinge.
        pad: the pad from its front to its rear edge.
        marks: the nasal and the temporal mark on the lens.
        temple: the temple from hinge to tip, its bend drawn round.
        folded: the shaft from hinge to bend when the temple is folded.
        hinge: the joint.
        bend: where the bend begins.
        tip: the end of the temple.
    """

    eye: Eye
    rim: Line
    lens: Line
    upright: Line
    level: Line
    pad: Line
    marks: Line
    temple: Line
    folded: tuple[Place, Place]
    hinge: Place
    bend: Place
    tip: Place

    def moved(self, move: Move) -> "Half":
        """The half after a motion of all of it."""
        front = (self.rim, self.lens, self.upright, self.level)
        rim, lens, upright, level = (moved(line, move) for line in front)
        pad, marks, temple = (moved(line, move) for line in (self.pad, self.marks, self.temple))
        folded = (move(self.folded[0]), move(self.folded[1]))
        places = (move(self.hinge), move(self.bend), move(self.tip))
        return Half(self.eye, rim, lens, upright, level, pad, marks, temple, folded, *places)

    def shaft(self, share: float) -> Place:
        """A place on the shaft, at a share of the way from hinge to bend."""
        return along(self.hinge, self.bend, share)


def halves(plan: FrontPlan, state: FrameState) -> tuple[Half, Half]:
    """The right and the left half of a frame."""
    points = frame_points(state)
    right, left = (_half(plan, state.made, points.half(eye)) for eye in Eye)
    return right, left


def pose(made: Made, points: HalfPoints) -> Move:
    """The motion from a half that is flat and level to where a frame has it.

    Its axes are read off the ends of the lens box, so that what is drawn goes with them.
    """
    out = -points.eye.nasal_sign
    ends = (points.nasal, points.temporal)
    start, end = ends if out > 0 else (ends[1], ends[0])
    across = _scaled(_from(start, end), 1 / made.a)
    up = _scaled(_from(points.bottom, points.top), 1 / made.b)
    forwards = _cross(across, up)
    middle = along(start, end, 0.5)
    centre_x = out * (made.dbl + made.a) / 2

    def posed(place: Place) -> Place:
        x, y, z = place[0] - centre_x, place[1], place[2]
        a, b, c = (
            m + x * i + y * j + z * k
            for m, i, j, k in zip(middle, across, up, forwards, strict=True)
        )
        return a, b, c

    return posed


def _half(plan: FrontPlan, made: Made, points: HalfPoints) -> Half:
    outline = plan.outline()
    outer = offset(outline, plan.rim)
    hinge_y = 0.26 * plan.height
    nose_x = side_at(outer, hinge_y, is_nasal=True)
    end_x = side_at(outer, hinge_y, is_nasal=False)
    low, high = (edge_at(outer, 0.0, is_upper=upper) for upper in (False, True))
    move = pose(made, points)

    def laid(line: Polyline) -> Line:
        return moved(_lifted(plan, points.eye, line), move)

    return Half(
        points.eye,
        laid(offset(outline, plan.rim / 2)),
        laid(outline),
        laid(_steps((0.0, low), (0.0, high))),
        (*laid(_steps((nose_x, hinge_y), (end_x, hinge_y))), points.hinge),
        _pad(points, move),
        (points.nasal_mark, points.temporal_mark),
        _temple(points),
        (points.hinge, along(points.hinge, points.folded, dist(points.hinge, points.bend))),
        points.hinge,
        points.bend,
        points.tip,
    )


def _pad(points: HalfPoints, move: Move) -> Line:
    """A pad about its middle, square to the front and splayed outwards behind."""
    flat_origin = move((0.0, 0.0, 0.0))
    back = _from(flat_origin, move((0.0, 0.0, -_PAD_TALL / 2)))
    out = _from(flat_origin, move((-points.eye.nasal_sign * 1.6, 0.0, 0.0)))
    rear = _sum(points.pad, _sum(back, out))
    front = _from(_sum(back, out), points.pad)
    return front, rear


def _steps(start: Point, end: Point, count: int = 12) -> Polyline:
    return tuple(
        (
            start[0] + (end[0] - start[0]) * step / count,
            start[1] + (end[1] - start[1]) * step / count,
        )
        for step in range(count + 1)
    )


def _lifted(plan: FrontPlan, eye: Eye, points: Polyline) -> Line:
    """A line of one lens laid on the curved front."""
    lifted = []
    for point in points:
        x, y = plan.place(eye, point)
        lifted.append((x, y, -(point[0] ** 2 + point[1] ** 2) / (2 * _CURVE_MM)))
    return tuple(lifted)


def _temple(points: HalfPoints) -> Line:
    """Shaft and end of one temple, joined by a round bend."""
    hinge, corner, tip = points.hinge, points.bend, points.tip
    shaft, end = dist(hinge, corner), dist(corner, tip)
    start = along(corner, hinge, min(_BEFORE_BEND / shaft, 0.5) if shaft else 0.0)
    stop = along(corner, tip, min(_AFTER_BEND / end, 0.5) if end else 0.0)
    bend = []
    for step in range(9):
        t = step / 8
        bend.append(along(along(start, corner, t), along(corner, stop, t), t))
    return (hinge, along(hinge, start, 0.5), *bend, tip)


def along(start: Place, end: Place, share: float) -> Place:
    """The place at a share of the way from start to end."""
    x, y, z = (a + (b - a) * share for a, b in zip(start, end, strict=True))
    return x, y, z


def _from(start: Place, end: Place) -> Place:
    return end[0] - start[0], end[1] - start[1], end[2] - start[2]


def _sum(one: Place, other: Place) -> Place:
    return one[0] + other[0], one[1] + other[1], one[2] + other[2]


def _scaled(place: Place, by: float) -> Place:
    return place[0] * by, place[1] * by, place[2] * by


def _cross(one: Place, other: Place) -> Place:
    return (
        one[1] * other[2] - one[2] * other[1],
        one[2] * other[0] - one[0] * other[2],
        one[0] * other[1] - one[1] * other[0],
    )
