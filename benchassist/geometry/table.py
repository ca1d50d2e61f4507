"""The spectacles on a flat table, upright or upside down."""

from dataclasses import dataclass
from math import atan2, cos, degrees, radians, sin

from benchassist.geometry.fault import Enlarged, Motion
from benchassist.geometry.figure import Figure, Point, Spot, Stroke
from benchassist.geometry.look import bridge_of, seen, spots_of
from benchassist.geometry.solid import (
    Line,
    Move,
    Place,
    Side,
    moved,
    out_of_place,
    shift,
    turn,
)
from benchassist.optics.eye import Eye

_YAW, _PITCH = radians(33.0), radians(21.0)
"""From where the table is looked at: from the front, a little aside and above."""

_CORNERS = ((-84.0, 0.0, 22.0), (84.0, 0.0, 22.0), (84.0, 0.0, -150.0), (-84.0, 0.0, -150.0))


@dataclass(frozen=True, slots=True)
class _Stand:
    """How the frame stands: on lower rims and tips, or on upper rims and shafts."""

    is_inverted: bool

    def behind(self, side: Side) -> Place:
        """The place of a temple that should touch the table."""
        return side.temple[side.bend] if self.is_inverted else side.temple[-1]

    def before(self, side: Side) -> Place:
        """The place of a rim that touches the table."""
        return side.upright[-1] if self.is_inverted else side.upright[0]

    def settle(self, side: Side) -> Move:
        """The motion that brings a true frame down onto the table, y = 0."""
        front, back = self.before(side), self.behind(side)
        angle = degrees(atan2(front[1] - back[1], front[2] - back[2]))
        level = turn(Motion.TURN_X, angle, front)
        over = turn(Motion.TURN_Z, 180.0 if self.is_inverted else 0.0, (0.0, 0.0, 0.0))
        down = shift(0.0, -over(front)[1], 0.0)
        return lambda place: down(over(level(place)))

    def lifted(self, fault: Enlarged) -> Enlarged:
        """The gap drawn whole on the side that stands off, as a turn away from the table.

        Upright, a positive gap lifts the left tip, upside down the right shaft; a fault that
        names its eye lifts that side.
        """
        positive = Eye.RIGHT if self.is_inverted else Eye.LEFT
        by_sign = positive if fault.fault.value > 0 else positive.other
        size = abs(fault.fault.value)
        return fault.on(fault.fault.eye or by_sign, -size if self.is_inverted else size)


def table_view(true: tuple[Side, ...], fault: Enlarged | None) -> Figure:
    """Both halves on the table, seen aslant, with the gap that a fault leaves."""
    stand = _Stand(is_inverted=fault is not None and fault.kind.name == "table-inverted")
    settle = stand.settle(true[0])
    if fault is None:
        return _standing(true, settle, stand)
    lifted = stand.lifted(fault)
    bent = tuple(out_of_place(side, lifted) for side in true)
    figure = _standing(bent, settle, stand)
    gaps = (_gap(stand, side, settle) for side in bent if side.eye is lifted.fault.eye)
    return Figure("table", (*figure.strokes, *gaps), figure.spots, fault.factor)


def _standing(sides: tuple[Side, ...], settle: Move, stand: _Stand) -> Figure:
    def look(place: Place) -> Point:
        return _aslant(settle(place))

    strokes = [seen("table", _CORNERS, _aslant, is_closed=True)]
    strokes += [seen("shadow", _shadow(stand, side, settle), _aslant) for side in sides]
    strokes += [seen("temple-line", side.temple, look, side.eye) for side in sides]
    for side in sides:
        strokes += [
            seen("lens", side.lens, look, side.eye, is_closed=True),
            seen("rim-line", side.rim, look, side.eye, is_closed=True),
            seen("front-line", side.level[-2:], look, side.eye),
        ]
    bridge = bridge_of(sides, look)
    spots = [spot for side in sides for spot in spots_of(side, look, side.temple)]
    middle = bridge.points[len(bridge.points) // 2]
    spots += [Spot(name, middle) for name in ("bridge", "pads", "front")]
    return Figure("table", (*strokes, bridge), tuple(spots))


def _shadow(stand: _Stand, side: Side, settle: Move) -> Line:
    """Where the part of a temple that should touch lies above the table."""
    ground = tuple((x, 0.0, z) for x, _, z in moved(side.temple, settle))
    return ground[: side.bend + 1] if stand.is_inverted else ground


def _gap(stand: _Stand, side: Side, settle: Move) -> Stroke:
    x, y, z = settle(stand.behind(side))
    return Stroke("gap", (_aslant((x, 0.0, z)), _aslant((x, y, z))), side.eye)


def _aslant(place: Place) -> Point:
    """The parallel projection of the table view."""
    x, y, z = place
    across = x * cos(_YAW) + z * sin(_YAW)
    towards = -x * sin(_YAW) + z * cos(_YAW)
    return across, y * cos(_PITCH) - towards * sin(_PITCH)
