"""The frame in space as rigid pieces, each of which can be out of place."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from math import atan2, cos, degrees, radians, sin

from benchassist.geometry.fault import Enlarged, Kind, Motion, Piece
from benchassist.geometry.figure import Point, Polyline
from benchassist.geometry.outline import arc, edge_at, offset, side_at
from benchassist.geometry.plan import FrontPlan
from benchassist.optics.eye import Eye

Place = tuple[float, float, float]
"""x to the right facing the wearer, y up, z out of the front, mm."""

Line = tuple[Place, ...]
Move = Callable[[Place], Place]

BACK_OF_BEND = 0.69
"""The share of a temple that lies before its bend: 100 of 145 mm, a usual length."""

_CURVE_MM = 95.0
"""Radius of the front surface as drawn, mm."""

_TEMPLE, _TILT, _FORM, _DROP, _SPREAD = 145.0, 8.0, 4.0, 45.0, 3.0
"""What is drawn where nothing is ordered: usual sizes, common practice."""


@dataclass(frozen=True, slots=True)
class Side:
    """One half of the frame in space.

    Attributes:
        eye: which half.
        rim: the closed middle line of the rim.
        lens: the closed outline of the lens.
        upright: the lens from its lowest to its highest point.
        level: the front from the nose to the endpiece.
        pad: the pad from top to bottom.
        temple: the temple from hinge to tip.
        bend: the number of the point of `temple` where the bend begins.
    """

    eye: Eye
    rim: Line
    lens: Line
    upright: Line
    level: Line
    pad: Line
    temple: Line
    bend: int

    def moved(self, move: Move) -> "Side":
        """The half after a motion of all of it."""
        parts = (self.rim, self.lens, self.upright, self.level, self.pad, self.temple)
        rim, lens, upright, level, pad, temple = (moved(part, move) for part in parts)
        return Side(self.eye, rim, lens, upright, level, pad, temple, self.bend)


def moved(line: Line, move: Move) -> Line:
    """A line after a motion."""
    return tuple(move(place) for place in line)


def turn(motion: Motion, angle: float, about: Place) -> Move:
    """A turn by degrees about an axis through a place, right-handed."""
    c, s = cos(radians(angle)), sin(radians(angle))

    def turned(place: Place) -> Place:
        x, y, z = (one - centre for one, centre in zip(place, about, strict=True))
        if motion is Motion.TURN_X:
            y, z = c * y - s * z, s * y + c * z
        elif motion is Motion.TURN_Y:
            z, x = c * z - s * x, s * z + c * x
        else:
            x, y = c * x - s * y, s * x + c * y
        return x + about[0], y + about[1], z + about[2]

    return turned


def shift(x: float, y: float, z: float) -> Move:
    """A shift in mm."""
    return lambda place: (place[0] + x, place[1] + y, place[2] + z)


def side_of(plan: FrontPlan, eye: Eye) -> Side:
    """One half of the true frame: tilted and with face form as ordered, or as usual."""
    outline = plan.outline()
    outer = offset(outline, plan.rim)
    hinge_y = 0.26 * plan.height
    end_x = side_at(outer, hinge_y, is_nasal=False) - 4.0
    nose_x = side_at(outer, 0.0, is_nasal=True)
    low, high = (edge_at(outer, 0.0, is_upper=upper) for upper in (False, True))
    level = _steps((nose_x, hinge_y), (end_x, hinge_y))
    pad_x = plan.width / 2 + 0.2 * plan.gap
    pad = _steps((pad_x, -0.02 * plan.height), (pad_x - 1.5, -0.3 * plan.height))
    half = Side(
        eye,
        _lifted(plan, eye, offset(outline, plan.rim / 2)),
        _lifted(plan, eye, outline),
        _lifted(plan, eye, _steps((0.0, low), (0.0, high))),
        _lifted(plan, eye, level),
        moved(_lifted(plan, eye, pad), shift(0, 0, -5.0)),
        (),
        0,
    )
    form = plan.face_form if plan.face_form is not None else _FORM
    tilt = plan.tilt if plan.tilt is not None else _TILT
    nasal: Place = (-eye.nasal_sign * plan.gap / 2, 0.0, 0.0)
    half = half.moved(turn(Motion.TURN_Y, -eye.nasal_sign * form, nasal))
    half = half.moved(turn(Motion.TURN_X, tilt, (0.0, hinge_y, 0.0)))
    temple, bend = _temple(plan, eye, half.level[-1])
    return replace(half, temple=temple, bend=bend)


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


def _temple(plan: FrontPlan, eye: Eye, hinge: Place) -> tuple[Line, int]:
    """Shaft and tip of one temple, and the number of the point where the bend begins."""
    length = plan.temple_length or _TEMPLE
    straight, drop = length * BACK_OF_BEND, length * (1 - BACK_OF_BEND)
    outward = -eye.nasal_sign
    elbow = 14.0
    corner = arc((-straight, -elbow), elbow, 90.0, 90.0 + _DROP, 8)
    end_x, end_y = corner[-1]
    reach = drop - elbow * radians(_DROP)
    tip = (
        end_x - reach * cos(radians(_DROP)),
        end_y - reach * sin(radians(_DROP)),
    )
    profile = ((0.0, 0.0), (-straight / 2, 0.0), *corner, tip)
    spread = sin(radians(_SPREAD))
    line = []
    for number, (back, down) in enumerate(profile):
        inward = 0.10 * (back + straight) if back < -straight else 0.0
        across = outward * (-back * spread + (inward if number > 1 else 0.0))
        line.append((hinge[0] + across, hinge[1] + down, hinge[2] + back))
    return tuple(line), 2


def out_of_place(side: Side, fault: Enlarged) -> Side:
    """The half with what the fault moves of it, a half front, a temple or a tip."""
    amount = fault.amount(side.eye)
    if not amount:
        return side
    kind = fault.kind
    if kind.piece is Piece.HALF:
        return side.moved(_half_move(side, kind.motion, amount))
    start = side.bend if kind.piece is Piece.TIP else 0
    return _temple_moved(side, start, _temple_move(side, kind, amount))


def _half_move(side: Side, motion: Motion, amount: float) -> Move:
    if motion is Motion.SHIFT_Z:
        return shift(0.0, 0.0, amount)
    if motion is Motion.TURN_X:
        return turn(motion, amount, (0.0, 0.0, 0.0))
    return turn(motion, -side.eye.nasal_sign * amount, side.level[0])


def _temple_move(side: Side, kind: Kind, amount: float) -> Move:
    pivot = side.temple[side.bend if kind.piece is Piece.TIP else 0]
    if kind.motion is Motion.TURN_Y:
        return turn(kind.motion, side.eye.nasal_sign * amount, pivot)
    if kind.unit == "mm":
        run = pivot[2] - side.temple[-1 if kind.name == "table-upright" else side.bend][2]
        return turn(kind.motion, degrees(atan2(amount, run)), pivot)
    return turn(kind.motion, -amount, pivot)


def _temple_moved(side: Side, start: int, move: Move) -> Side:
    temple = (*side.temple[:start], *moved(side.temple[start:], move))
    return replace(side, temple=temple)
