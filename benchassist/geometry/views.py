"""The spectacles seen from the front, above, the side or on the table, a fault enlarged."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from math import atan2, cos, degrees, radians, sin

from benchassist.geometry.fault import Fault, Kind, Motion, Piece, factor_for, kind_of, share_of
from benchassist.geometry.figure import Figure, Point, Polyline, Spot, Stroke
from benchassist.geometry.front import front_view
from benchassist.geometry.outline import curve
from benchassist.geometry.plan import FrontPlan
from benchassist.geometry.solid import (
    Line,
    Move,
    Place,
    Side,
    moved,
    out_of_place,
    shift,
    side_of,
    turn,
)
from benchassist.optics.eye import Eye

_YAW, _PITCH = radians(33.0), radians(21.0)
"""From where the table is looked at: from the front, a little aside and above."""

_CUT = 62.0
"""How much of each temple is drawn in the view from above, mm."""

_LENS_PARTS = frozenset(
    {"lens", "centre", "cross", "arc", "engraving", "level", "near-circle", "segment"}
    | {"segment-band"}
)

Look = Callable[[Place], Point]


def view(plan: FrontPlan, name: str, fault: Fault | None = None) -> Figure:
    """The named view, with the fault drawn where the view can show it.

    `Figure.factor` states how many times larger than measured the fault is drawn. Strokes named
    'ghost' show where the moved parts should be; an open stroke named 'gap' spans the fault.
    The side is seen from the wearer's right, from above the wearer's face looks down the sheet.

    Raises:
        ValueError: there is no view of that name.
    """
    kind = kind_of(fault)
    if kind is None or kind.view != name:
        fault = kind = None
    if name == "front":
        return _front(plan, fault, kind)
    true = tuple(side_of(plan, eye) for eye in Eye)
    if name == "table":
        return _table(true, fault, kind)
    if name not in {"top", "side"}:
        raise ValueError(f"there is no view named {name}")
    bent = true
    if fault and kind:
        bent = tuple(out_of_place(side, fault, kind) for side in true)
    ghosts = tuple(good for good, bad in zip(true, bent, strict=True) if good != bad)
    draw = _from_above if name == "top" else _from_side
    figure = draw(bent, ghosts)
    return _with_factor(figure, fault, kind)


def _with_factor(figure: Figure, fault: Fault | None, kind: Kind | None) -> Figure:
    if fault is None or kind is None:
        return figure
    return replace(figure, factor=float(factor_for(fault, kind)))


def _front(plan: FrontPlan, fault: Fault | None, kind: Kind | None) -> Figure:
    figure = front_view(plan)
    if fault is None or kind is None:
        return figure
    strokes: list[Stroke] = []
    ghosts: list[Stroke] = []
    moves = {eye: _front_move(plan, eye, fault, kind) for eye in Eye}
    for stroke in figure.strokes:
        if stroke.eye is None and kind.piece is Piece.HALF:
            strokes.append(_sheared(stroke, moves))
        elif stroke.eye is None or not _is_moved(stroke, kind) or moves[stroke.eye] is None:
            strokes.append(stroke)
        else:
            move = moves[stroke.eye]
            strokes.append(replace(stroke, points=_flat(stroke.points, move)))
            if stroke.name == ("pad" if kind.piece is Piece.PAD else "lens"):
                ghosts.append(replace(stroke, name="ghost"))
    spots = tuple(_moved_spot(spot, moves, kind) for spot in figure.spots)
    return Figure("front", (*strokes, *ghosts), spots, float(factor_for(fault, kind)))


def _is_moved(stroke: Stroke, kind: Kind) -> bool:
    if kind.piece is Piece.LENS:
        return stroke.name in _LENS_PARTS
    if kind.piece is Piece.PAD:
        return stroke.name == "pad"
    return stroke.name != "box"


def _front_move(plan: FrontPlan, eye: Eye, fault: Fault, kind: Kind) -> Move | None:
    amount = share_of(fault, kind, eye) * factor_for(fault, kind)
    if not amount:
        return None
    if kind.motion is Motion.TURN_Z:
        x, y = plan.place(eye, (0.0, 0.0))
        return turn(kind.motion, amount, (x, y, 0.0))
    return shift(0.0, amount, 0.0)


def _flat(points: Polyline, move: Move | None) -> Polyline:
    if move is None:
        return points
    return tuple(move((x, y, 0.0))[:2] for x, y in points)


def _sheared(stroke: Stroke, moves: dict[Eye, Move | None]) -> Stroke:
    """The bridge between two halves that moved: each end goes with its half."""
    reach = max(abs(x) for x, _ in stroke.points)
    points = []
    for x, y in stroke.points:
        share = (1 + x / reach) / 2
        right = _flat(((x, y),), moves[Eye.RIGHT])[0][1]
        left = _flat(((x, y),), moves[Eye.LEFT])[0][1]
        points.append((x, right + (left - right) * share))
    return replace(stroke, points=tuple(points))


def _moved_spot(spot: Spot, moves: dict[Eye, Move | None], kind: Kind) -> Spot:
    eye = next((eye for eye in Eye if spot.name.startswith(f"{eye}.")), None)
    if eye is None or kind.piece is not Piece.HALF:
        return spot
    return replace(spot, at=_flat((spot.at,), moves[eye])[0])


def _from_above(sides: tuple[Side, ...], ghosts: tuple[Side, ...]) -> Figure:
    def look(place: Place) -> Point:
        return place[0], -place[2]

    strokes = [_stroke("ghost", line, look) for side in ghosts for line in _plan_lines(side)]
    strokes += [_stroke("temple-line", _cut(side), look, side.eye) for side in sides]
    strokes += [_stroke("pad-line", _pad_plan(side), look, side.eye) for side in sides]
    strokes.append(_bridge(sides, look, 5.0))
    for side in sides:
        strokes.append(_stroke("front-line", side.level, look, side.eye))
        strokes.append(_stroke("lens-line", _lens_level(side), look, side.eye))
    spots = [Spot("bridge", _middle_of(sides, look, 5.0)), Spot("pads", (0.0, 14.0))]
    spots += [spot for side in sides for spot in _spots(side, look, _cut(side))]
    spots.append(Spot("front", (0.0, -14.0)))
    return Figure("top", tuple(strokes), tuple(spots))


def _plan_lines(side: Side) -> tuple[Line, ...]:
    return side.level, _cut(side)


def _cut(side: Side) -> Line:
    """The temple from its hinge to where the view from above cuts it short."""
    (x0, y0, z0), (x1, y1, z1) = side.temple[0], side.temple[side.bend]
    share = _CUT / (z0 - z1)
    return tuple(
        (x0 + (x1 - x0) * part, y0 + (y1 - y0) * part, z0 + (z1 - z0) * part)
        for part in (0.0, share / 2, share)
    )


def _lens_level(side: Side) -> Line:
    return side.level[1:-3]


def _pad_plan(side: Side) -> Line:
    x, y, z = side.pad[0]
    inward = side.eye.nasal_sign
    return ((x - 1.5 * inward, y, z + 2.5), (x + 0.5 * inward, y, z - 5.0))


def _from_side(sides: tuple[Side, ...], ghosts: tuple[Side, ...]) -> Figure:
    def look(place: Place) -> Point:
        return place[2], place[1]

    strokes = []
    for ghost in ghosts:
        strokes += [_stroke("ghost", line, look) for line in (ghost.upright, ghost.temple)]
    for side, prefix in zip(reversed(sides), ("far-", ""), strict=True):
        strokes.append(_stroke(f"{prefix}temple-line", side.temple, look, side.eye))
        strokes.append(_stroke(f"{prefix}front-line", side.upright, look, side.eye))
        strokes.append(_stroke(f"{prefix}lens-line", side.upright[1:-1], look, side.eye))
    spots = [spot for side in sides for spot in _spots(side, look, side.temple)]
    bridge = look(sides[0].level[0])
    spots += [Spot("bridge", (bridge[0] + 3.0, bridge[1])), Spot("pads", (-4.0, -4.0))]
    low = look(sides[0].upright[0])
    spots.append(Spot("front", (low[0] + 8.0, low[1])))
    return Figure("side", tuple(strokes), tuple(spots))


def _spots(side: Side, look: Look, temple: Line) -> list[Spot]:
    places = {
        "rim": side.upright[0],
        "endpiece": side.level[-1],
        "temple": temple[1],
        "bend": temple[min(side.bend, len(temple) - 1)],
        "tip": temple[-1],
        "surface": side.upright[len(side.upright) // 2],
    }
    return [Spot(f"{side.eye}.{name}", look(place)) for name, place in places.items()]


def _stroke(
    name: str, line: Line, look: Look, eye: Eye | None = None, *, is_closed: bool = False
) -> Stroke:
    return Stroke(name, tuple(look(place) for place in line), eye, is_closed)


def _bridge(sides: tuple[Side, ...], look: Look, bulge: float) -> Stroke:
    start, end = (side.level[0] for side in sides)
    lift = (bulge / 0.75,)
    first = (start[0] * 0.5, start[1] + 2.0, start[2] + lift[0])
    second = (end[0] * 0.5, end[1] + 2.0, end[2] + lift[0])
    points = curve(look(start), look(first), look(second), look(end))
    return Stroke("bridge-line", points)


def _middle_of(sides: tuple[Side, ...], look: Look, bulge: float) -> Point:
    points = _bridge(sides, look, bulge).points
    return points[len(points) // 2]


@dataclass(frozen=True, slots=True)
class _Stand:
    """How the frame stands on the table: upside down or not, and what touches behind."""

    is_inverted: bool

    def settle(self, sides: tuple[Side, ...]) -> Move:
        """The motion that brings front and temples down onto the table, y = 0."""
        side = sides[0]
        front, back = self._contacts(side)
        angle = degrees(atan2(front[1] - back[1], front[2] - back[2]))
        level = turn(Motion.TURN_X, angle, front)
        over = turn(Motion.TURN_Z, 180.0 if self.is_inverted else 0.0, (0.0, 0.0, 0.0))
        height = over(level(front))[1]
        down = shift(0.0, -height, 0.0)
        return lambda place: down(over(level(place)))

    def _contacts(self, side: Side) -> tuple[Place, Place]:
        if self.is_inverted:
            return side.upright[-1], side.temple[side.bend]
        return side.upright[0], side.temple[-1]

    def contact(self, side: Side) -> Place:
        """What should touch the table behind."""
        return self._contacts(side)[1]


def _table(true: tuple[Side, ...], fault: Fault | None, kind: Kind | None) -> Figure:
    stand = _Stand(is_inverted=kind is not None and kind.name == "table-inverted")
    settle = stand.settle(true)
    bent = true
    lifted: Eye | None = None
    if fault and kind:
        lifted = _lifted_eye(fault, stand)
        size = abs(fault.value) * (-1 if stand.is_inverted else 1)
        bent = tuple(out_of_place(side, Fault(fault.kind, size, lifted), kind) for side in true)
    strokes = [_table_top(), *_contact_shadows(bent, stand, settle)]
    strokes += [
        _stroke("temple-line", moved(side.temple, settle), _aslant, side.eye)
        for side in sorted(bent, key=lambda one: -settle(one.level[-1])[0])
    ]
    for side in bent:
        strokes += _standing(side, settle)
    strokes.append(_bridge_standing(bent, settle))
    spots = [
        spot
        for side in bent
        for spot in _spots(side, lambda place: _aslant(settle(place)), side.temple)
    ]
    middle = tuple(_aslant(settle(side.level[0])) for side in bent)
    bridge = ((middle[0][0] + middle[1][0]) / 2, (middle[0][1] + middle[1][1]) / 2)
    spots += [Spot("bridge", bridge), Spot("pads", bridge), Spot("front", bridge)]
    for side in bent:
        if side.eye is lifted:
            x, y, z = settle(stand.contact(side))
            strokes.append(Stroke("gap", (_aslant((x, 0.0, z)), _aslant((x, y, z))), side.eye))
    return _with_factor(Figure("table", tuple(strokes), tuple(spots)), fault, kind)


def _lifted_eye(fault: Fault, stand: _Stand) -> Eye:
    """Which side stands off: by the fault's eye, else by the sign of the gap."""
    if fault.eye is not None:
        return fault.eye
    positive = Eye.RIGHT if stand.is_inverted else Eye.LEFT
    return positive if fault.value > 0 else positive.other


def _aslant(place: Place) -> Point:
    """The parallel projection of the table view."""
    x, y, z = place
    across = x * cos(_YAW) + z * sin(_YAW)
    towards = -x * sin(_YAW) + z * cos(_YAW)
    return across, y * cos(_PITCH) - towards * sin(_PITCH)


def _table_top() -> Stroke:
    corners = ((-84.0, 22.0), (84.0, 22.0), (84.0, -150.0), (-84.0, -150.0))
    line = tuple((x, 0.0, z) for x, z in corners)
    return _stroke("table", line, _aslant, is_closed=True)


def _contact_shadows(sides: tuple[Side, ...], stand: _Stand, settle: Move) -> list[Stroke]:
    """Where each temple would touch the table, or hangs above it."""
    shadows = []
    for side in sides:
        ground = tuple((x, 0.0, z) for x, _, z in moved(side.temple, settle))
        touching = ground[: side.bend + 1] if stand.is_inverted else ground
        shadows.append(_stroke("shadow", touching, _aslant, side.eye))
    return shadows


def _standing(side: Side, settle: Move) -> list[Stroke]:
    return [
        _stroke("lens", moved(side.lens, settle), _aslant, side.eye, is_closed=True),
        _stroke("rim-line", moved(side.rim, settle), _aslant, side.eye, is_closed=True),
        _stroke("front-line", moved(side.level[-2:], settle), _aslant, side.eye),
    ]


def _bridge_standing(sides: tuple[Side, ...], settle: Move) -> Stroke:
    return _bridge(sides, lambda place: _aslant(settle(place)), 5.0)
