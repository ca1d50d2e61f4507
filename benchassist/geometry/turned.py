"""The front view of a frame with faults, each part where its half, lens or pad is."""

from dataclasses import dataclass, replace

from benchassist.geometry.bent import bent, made_as, without
from benchassist.geometry.fault import Drawn, Motion
from benchassist.geometry.figure import Figure, Point, Polyline, Spot, Stroke
from benchassist.geometry.frame_state import FrameState, frame_points
from benchassist.geometry.front import front_view
from benchassist.geometry.halves import halves, pose
from benchassist.geometry.look import pointed_out
from benchassist.geometry.plan import FrontPlan
from benchassist.geometry.solid import Move, Place, turn
from benchassist.optics.eye import Eye

_LENS_PARTS = frozenset(
    {"lens", "centre", "cross", "arc", "engraving", "level", "near-circle", "segment"}
    | {"segment-band"}
)
_GHOSTS = frozenset({"lens", "pad"})


def bent_front(plan: FrontPlan, drawn: Drawn) -> Figure:
    """The spectacles from the front, with ghosts of where what is pointed out should be.

    The true lenses are drawn square on: their face form is left out, so that the boxed sizes
    are to scale.
    """
    flat = replace(made_as(plan), face_form=0.0)
    state = bent(flat, drawn)
    good = front_view(plan)
    figure = _placed(plan, good, state)
    aside = _placed(plan, good, bent(flat, without(drawn)))
    pairs = zip(figure.strokes, aside.strokes, strict=True)
    ghosts = tuple(
        replace(true, name="ghost")
        for moved, true in pairs
        if true.name in _GHOSTS and moved != true
    )
    pointed = pointed_out(drawn, halves(plan, state), _flat)
    strokes = (*figure.strokes, *ghosts, *pointed.strokes)
    return Figure("front", strokes, figure.spots, drawn.factor, pointed.notes)


def _flat(place: Place) -> Point:
    return place[0], place[1]


@dataclass(frozen=True, slots=True)
class _SideMoves:
    """How the half, its lens and its pad are out of place."""

    half: Move
    lens: Move
    pad: Move

    def of(self, stroke: Stroke) -> Move:
        """The motion of a stroke; the box of a lens goes with its half."""
        if stroke.name in _LENS_PARTS:
            return self.lens
        return self.pad if stroke.name == "pad" else self.half


def _placed(plan: FrontPlan, good: Figure, state: FrameState) -> Figure:
    points = frame_points(state)
    moves = {
        eye: _side_moves(plan, state, eye, pose(state.made, points.half(eye))) for eye in Eye
    }
    strokes = tuple(
        replace(stroke, points=_moved(stroke.points, moves[stroke.eye].of(stroke)))
        if stroke.eye
        else _between(stroke, moves)
        for stroke in good.strokes
    )
    return Figure("front", strokes, tuple(_moved_spot(spot, moves) for spot in good.spots))


def _side_moves(plan: FrontPlan, state: FrameState, eye: Eye, half: Move) -> _SideMoves:
    side = state.side(eye)
    x, y = plan.place(eye, (0.0, 0.0))
    in_rim = turn(Motion.TURN_Z, side.lens_turn, (x, y, 0.0))
    return _SideMoves(
        half,
        lambda place: half(in_rim(place)),
        lambda place: half((place[0], place[1] + side.pad_up, place[2])),
    )


def _moved(points: Polyline, move: Move) -> Polyline:
    return tuple(_flat(move((x, y, 0.0))) for x, y in points)


def _between(stroke: Stroke, moves: dict[Eye, _SideMoves]) -> Stroke:
    """The bridge between two halves: each end goes with its half."""
    reach = max(abs(x) for x, _ in stroke.points) or 1.0
    right = _moved(stroke.points, moves[Eye.RIGHT].half)
    left = _moved(stroke.points, moves[Eye.LEFT].half)
    points = tuple(
        (a + (c - a) * share, b + (d - b) * share)
        for (x, _), (a, b), (c, d) in zip(stroke.points, right, left, strict=True)
        for share in ((1 + x / reach) / 2,)
    )
    return replace(stroke, points=points)


def _moved_spot(spot: Spot, moves: dict[Eye, _SideMoves]) -> Spot:
    eye = next((eye for eye in moves if spot.name.startswith(f"{eye}.")), None)
    return spot if eye is None else replace(spot, at=_moved((spot.at,), moves[eye].half)[0])
