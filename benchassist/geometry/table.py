"""The spectacles on a flat table, upright or upside down, as they come to rest there."""

from dataclasses import dataclass
from math import acos, atan2, cos, degrees, hypot, radians, sin

from benchassist.geometry.bent import bent, made_as, solved
from benchassist.geometry.fault import Drawn, Motion, Part
from benchassist.geometry.figure import Figure, Note, Point, Spot, Stroke
from benchassist.geometry.frame_state import FrameState, frame_points
from benchassist.geometry.halves import Half, halves
from benchassist.geometry.look import Halves, bridge_of, seen, spots_of
from benchassist.geometry.plan import FrontPlan
from benchassist.geometry.possible import Impossible
from benchassist.geometry.resting import Rest, rest
from benchassist.geometry.solid import Line, Move, Place, turn
from benchassist.optics.eye import Eye

_YAW, _PITCH = radians(33.0), radians(21.0)
"""From where the table is looked at: from the front, a little aside and above."""

UPRIGHT_SEEN = cos(_PITCH)
"""How much of a height over the table is seen."""

_CORNERS = ((-84.0, 0.0, 26.0), (84.0, 0.0, 26.0), (84.0, 0.0, -150.0), (-84.0, 0.0, -150.0))

_FLAT = 1e-12
_SEEN = 0.4
"""From so many mm on a gap is drawn."""


@dataclass(frozen=True, slots=True)
class _Stand:
    """How the frame stands: on lower rims and tips, or on upper rims and shafts."""

    is_inverted: bool

    def behind(self, half: Half) -> Place:
        """The place of a temple that should touch the table."""
        return half.bend if self.is_inverted else half.tip

    def before(self, half: Half) -> Place:
        """The place of a rim that touches the table."""
        return half.upright[-1] if self.is_inverted else half.upright[0]

    def rest(self, plan: FrontPlan, state: FrameState) -> Rest | None:
        """The frame at rest by its own weight; None where it would tip over."""
        sides = halves(plan, state)
        points = {f"{half.eye} rim": self.before(half) for half in sides}
        points |= {f"{half.eye} temple": self.behind(half) for half in sides}
        away = (0.0, -1.0 if self.is_inverted else 1.0, 0.0)
        try:
            return rest(points, frame_points(state).centre_of_mass, away)
        except Impossible:
            return None

    def gap(self, plan: FrontPlan, state: FrameState) -> float:
        """The gap, mm: positive under the left tip upright or the right shaft upside down."""
        stand = self.rest(plan, state)
        if stand is None:
            return 0.0
        right, left = (stand.heights[f"{eye} temple"] for eye in Eye)
        return right - left if self.is_inverted else left - right

    def settle(self, plan: FrontPlan, state: FrameState) -> Move:
        """The motion that brings the frame down onto the table, y = 0."""
        stand = self.rest(plan, state)
        over = turn(Motion.TURN_Z, 180.0 if self.is_inverted else 0.0, (0.0, 0.0, 0.0))
        level = _levelled(over(stand.away)) if stand else _as_it_is
        touching = [
            place
            for half in halves(plan, state)
            for place in (self.before(half), self.behind(half))
        ]
        down = min(level(over(place))[1] for place in touching) if stand else 0.0

        def settled(place: Place) -> Place:
            x, y, z = level(over(place))
            return x, y - down, z

        return settled


def table_view(plan: FrontPlan, drawn: Drawn) -> Figure:
    """Both halves on the table, seen aslant, with the gaps that the faults leave.

    A gap that was measured there is reached by the temples' angles upside down and by the drop
    of the ends upright: that is what each test is for.
    """
    stand = _Stand(drawn.is_inverted)
    state = bent(made_as(plan), drawn)
    touch = next((part for part in drawn.parts if part.kind.name.startswith("table-")), None)
    if touch is not None:
        number = "pantoscopic" if drawn.is_inverted else "drop"
        state = solved(lambda tried: stand.gap(plan, tried), state, number, _signed(touch))
    settle = stand.settle(plan, state)
    right, left = (half.moved(settle) for half in halves(plan, state))
    figure = _standing((right, left), stand)
    gaps = [gap for half in (right, left) for gap in _gaps(stand, half)]
    notes = _notes(touch, gaps)
    return Figure("table", (*figure.strokes, *gaps), figure.spots, drawn.factor, notes)


def _as_it_is(place: Place) -> Place:
    return place


def _signed(touch: Part) -> float:
    """The gap as `_Stand.gap` has it: a fault that names its eye lifts that side."""
    positive = Eye.RIGHT if touch.kind.name == "table-inverted" else Eye.LEFT
    if touch.fault.eye is None:
        return touch.value
    return abs(touch.value) if touch.fault.eye is positive else -abs(touch.value)


def _levelled(away: Place) -> Move:
    """The shortest turn that makes a direction upright."""
    x, y, z = away
    flat = hypot(x, z)
    if flat < _FLAT:
        return _as_it_is
    angle, heading = degrees(acos(min(max(y, -1.0), 1.0))), degrees(atan2(x, z))
    origin: Place = (0.0, 0.0, 0.0)
    there = turn(Motion.TURN_Y, -heading, origin)
    down = turn(Motion.TURN_X, -angle, origin)
    back = turn(Motion.TURN_Y, heading, origin)
    return lambda place: back(down(there(place)))


def _standing(sides: Halves, stand: _Stand) -> Figure:
    strokes = [seen("table", _CORNERS, _aslant, is_closed=True)]
    strokes += [seen("shadow", _shadow(stand, half), _aslant) for half in sides]
    strokes += [seen("temple-line", half.temple, _aslant, half.eye) for half in sides]
    for half in sides:
        strokes += [
            seen("lens", half.lens, _aslant, half.eye, is_closed=True),
            seen("rim-line", half.rim, _aslant, half.eye, is_closed=True),
            seen("front-line", half.level[-2:], _aslant, half.eye),
        ]
    bridge = bridge_of(sides, _aslant)
    spots = [spot for half in sides for spot in spots_of(half, _aslant)]
    middle = bridge.points[len(bridge.points) // 2]
    spots += [Spot(name, middle) for name in ("bridge", "pads", "front")]
    return Figure("table", (*strokes, bridge), tuple(spots))


def _shadow(stand: _Stand, half: Half) -> Line:
    """Where the part of a temple that should touch lies above the table."""
    line = (half.hinge, half.bend) if stand.is_inverted else half.temple
    return tuple((x, 0.0, z) for x, _, z in line)


def _gaps(stand: _Stand, half: Half) -> list[Stroke]:
    """The gaps under one half: at its temple, and at its rim where that is what lifts."""
    places = (stand.behind(half), stand.before(half))
    return [
        Stroke("gap", (_aslant((x, 0.0, z)), _aslant((x, y, z))), half.eye)
        for x, y, z in places
        if y > _SEEN
    ]


def _notes(touch: Part | None, gaps: list[Stroke]) -> tuple[Note, ...]:
    if touch is None or not touch.is_pointed_out or not gaps:
        return ()
    (x, low), (_, high) = gaps[0].points
    return (Note(touch.kind.size(touch.fault.value), (x, (low + high) / 2)),)


def _aslant(place: Place) -> Point:
    """The parallel projection of the table view."""
    x, y, z = place
    across = x * cos(_YAW) + z * sin(_YAW)
    towards = -x * sin(_YAW) + z * cos(_YAW)
    return across, y * cos(_PITCH) - towards * sin(_PITCH)
