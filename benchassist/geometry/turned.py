"""The front view with one half, one lens or one pad out of place."""

from dataclasses import replace

from benchassist.geometry.fault import Enlarged, Motion, Piece
from benchassist.geometry.figure import Figure, Polyline, Spot, Stroke
from benchassist.geometry.front import front_view
from benchassist.geometry.plan import FrontPlan
from benchassist.geometry.solid import Move, shift, turn
from benchassist.optics.eye import Eye

_LENS_PARTS = frozenset(
    {"lens", "centre", "cross", "arc", "engraving", "level", "near-circle", "segment"}
    | {"segment-band"}
)

_Moves = dict[Eye, Move]


def turned_front(plan: FrontPlan, fault: Enlarged) -> Figure:
    """The spectacles from the front with the fault drawn, and ghosts of what moved."""
    figure = front_view(plan)
    moves = {eye: move for eye in Eye if (move := _move(plan, eye, fault))}
    piece = fault.kind.piece
    strokes = tuple(_moved(stroke, moves, piece) for stroke in figure.strokes)
    shown = "pad" if piece is Piece.PAD else "lens"
    ghosts = tuple(
        replace(stroke, name="ghost") for stroke in figure.named(shown) if stroke.eye in moves
    )
    spots = figure.spots
    if piece is Piece.HALF:
        spots = tuple(_moved_spot(spot, moves) for spot in spots)
    return Figure("front", (*strokes, *ghosts), spots, fault.factor)


def _move(plan: FrontPlan, eye: Eye, fault: Enlarged) -> Move | None:
    amount = fault.amount(eye)
    if not amount:
        return None
    if fault.kind.motion is Motion.TURN_Z:
        x, y = plan.place(eye, (0.0, 0.0))
        return turn(Motion.TURN_Z, amount, (x, y, 0.0))
    return shift(0.0, amount, 0.0)


def _moved(stroke: Stroke, moves: _Moves, piece: Piece) -> Stroke:
    if stroke.eye is None:
        return _sheared(stroke, moves) if piece is Piece.HALF else stroke
    if stroke.eye not in moves or not _belongs(stroke, piece):
        return stroke
    return replace(stroke, points=_flat(stroke.points, moves[stroke.eye]))


def _belongs(stroke: Stroke, piece: Piece) -> bool:
    """Whether a stroke is part of the piece; the box stays where it was ordered."""
    if piece is Piece.LENS:
        return stroke.name in _LENS_PARTS
    if piece is Piece.PAD:
        return stroke.name == "pad"
    return stroke.name != "box"


def _flat(points: Polyline, move: Move) -> Polyline:
    return tuple(move((x, y, 0.0))[:2] for x, y in points)


def _sheared(stroke: Stroke, moves: _Moves) -> Stroke:
    """The bridge between two halves: each end goes with its half."""
    reach = max(abs(x) for x, _ in stroke.points)
    ends = {eye: move((0.0, 0.0, 0.0))[1] for eye, move in moves.items()}
    right, left = ends.get(Eye.RIGHT, 0.0), ends.get(Eye.LEFT, 0.0)
    points = tuple(
        (x, y + right + (left - right) * (1 + x / reach) / 2) for x, y in stroke.points
    )
    return replace(stroke, points=points)


def _moved_spot(spot: Spot, moves: _Moves) -> Spot:
    eye = next((eye for eye in moves if spot.name.startswith(f"{eye}.")), None)
    return spot if eye is None else replace(spot, at=_flat((spot.at,), moves[eye])[0])
