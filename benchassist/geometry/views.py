"""The spectacles from all sides and on the table, their faults enlarged."""

from collections.abc import Callable
from dataclasses import replace

from benchassist.geometry.bent import bent, made_as, without
from benchassist.geometry.fault import Drawn, Faults, Motion, drawn, drawn_before
from benchassist.geometry.figure import Figure, Note, Point, Spot
from benchassist.geometry.front import front_view
from benchassist.geometry.halves import Half, along, halves
from benchassist.geometry.look import (
    Halves,
    Look,
    bridge_of,
    cut_at,
    pointed_out,
    seen,
    spots_of,
)
from benchassist.geometry.plan import FrontPlan
from benchassist.geometry.solid import Line, Move, Place, turn
from benchassist.geometry.table import table_view
from benchassist.geometry.turned import bent_front

_APART = 16.0
"""Between the pictures of before and after, mm."""

_TITLES = ("BEFORE", "NOW")

NO_FAULTS = Faults()


def view(plan: FrontPlan, name: str, faults: Faults = NO_FAULTS) -> Figure:
    """The named view of the frame with its faults, all made from one geometry.

    `Figure.factor` states how many times larger than measured every fault is drawn. What the
    check asked found is pointed out: strokes named 'ghost' show where the moved parts would be
    without it, 'sight' and 'gap' span it. Where there was a correction, the picture before it
    stands at the left, at the same scale and by the same factor. From above, the wearer is at
    the top of the sheet and looks down it; from the side, the wearer's right is nearer and the
    strokes of the left are named 'far-...'; from behind the temples are folded, the left first,
    and the wearer's left is at the left.

    Raises:
        ValueError: there is no view of that name.
    """
    now = _picture(plan, name, drawn(faults, name))
    if faults.before is None:
        return now
    return _beside(_picture(plan, name, drawn_before(faults, name)), now)


def _beside(before: Figure, now: Figure) -> Figure:
    """Two pictures as one; what is asked is looked at on the second."""
    after = now.shifted(before.bounds[2] + _APART - now.bounds[0])
    level = max(before.bounds[3], now.bounds[3])
    panels = tuple(
        Note(words, ((one.bounds[0] + one.bounds[2]) / 2, level))
        for words, one in zip(_TITLES, (before, after), strict=True)
    )
    strokes = (*before.strokes, *after.strokes)
    notes = (*before.notes, *after.notes)
    return Figure(now.view, strokes, after.spots, now.factor, notes, panels)


def _picture(plan: FrontPlan, name: str, faults: Drawn) -> Figure:
    if name == "front":
        return bent_front(plan, faults) if faults.parts else front_view(plan)
    if name == "table":
        return table_view(plan, faults)
    if name not in _LOOKS:
        raise ValueError(f"there is no view named {name}")
    made = made_as(plan)
    sides = halves(plan, bent(made, faults))
    good = halves(plan, bent(made, without(faults)))
    if name == "side":
        # The front leans and the temples are level, as on a face.
        level = turn(Motion.TURN_X, made.pantoscopic, sides[0].hinge)
        sides, good = (_both(pair, level) for pair in (sides, good))
    ghosts = tuple(true for true, bad in zip(good, sides, strict=True) if true != bad)
    look = _LOOKS[name]
    figure = _PAINTED[name](sides, ghosts)
    pointed = pointed_out(faults, sides, look)
    strokes = (*figure.strokes, *pointed.strokes)
    return replace(figure, strokes=strokes, factor=faults.factor, notes=pointed.notes)


def _both(pair: Halves, move: Move) -> Halves:
    right, left = pair
    return right.moved(move), left.moved(move)


def _look_down(place: Place) -> Point:
    return place[0], -place[2]


def _look_aside(place: Place) -> Point:
    return place[2], place[1]


def _look_from_behind(place: Place) -> Point:
    return -place[0], place[1]


_LOOKS: dict[str, Look] = {
    "top": _look_down,
    "side": _look_aside,
    "behind": _look_from_behind,
}


def _from_above(sides: Halves, ghosts: tuple[Half, ...]) -> Figure:
    look = _look_down
    lines = [line for half in ghosts for line in (half.level, _cut(half), half.pad)]
    strokes = [seen("ghost", line, look) for line in lines]
    strokes += [seen("temple-line", _cut(half), look, half.eye) for half in sides]
    strokes += [seen("pad-line", half.pad, look, half.eye) for half in sides]
    strokes.append(bridge_of(sides, look))
    for half in sides:
        strokes.append(seen("front-line", half.level, look, half.eye))
        strokes.append(seen("lens-line", half.level[1:-2], look, half.eye))
    spots = [Spot("bridge", _middle_of(sides, look)), Spot("pads", (0.0, 14.0))]
    spots += [spot for half in sides for spot in spots_of(half, look, cut_at(half))]
    spots.append(Spot("front", (0.0, -14.0)))
    return Figure("top", tuple(strokes), tuple(spots))


def _cut(half: Half) -> Line:
    """The temple from its hinge to where the view from above cuts it short."""
    return half.hinge, cut_at(half)


def _from_side(sides: Halves, ghosts: tuple[Half, ...]) -> Figure:
    look = _look_aside
    strokes = []
    for ghost in ghosts:
        strokes += [seen("ghost", line, look) for line in (ghost.upright, ghost.temple)]
    for half, prefix in zip(reversed(sides), ("far-", ""), strict=True):
        shaft = (*half.level[len(half.level) // 2 :], *half.temple[1:])
        strokes.append(seen(f"{prefix}temple-line", shaft, look, half.eye))
        strokes.append(seen(f"{prefix}front-line", half.upright, look, half.eye))
        strokes.append(seen(f"{prefix}lens-line", half.upright[1:-1], look, half.eye))
    spots = [spot for half in sides for spot in spots_of(half, look)]
    bridge = look(sides[0].level[0])
    spots += [Spot("bridge", (bridge[0] + 3.0, bridge[1])), Spot("pads", (-4.0, -4.0))]
    low = look(sides[0].upright[0])
    spots.append(Spot("front", (low[0] + 8.0, low[1])))
    return Figure("side", tuple(strokes), tuple(spots))


def _from_behind(sides: Halves, ghosts: tuple[Half, ...]) -> Figure:
    look = _look_from_behind
    strokes = []
    for half in sides:
        strokes.append(seen("lens", half.lens, look, half.eye, is_closed=True))
        strokes.append(seen("rim-line", half.rim, look, half.eye, is_closed=True))
    strokes.append(bridge_of(sides, look))
    strokes += [seen("ghost", ghost.folded, look) for ghost in ghosts]
    strokes += [seen("temple-line", half.folded, look, half.eye) for half in reversed(sides)]
    spots = [Spot("bridge", _middle_of(sides, look))]
    for half in sides:
        for name, share in (("endpiece", 0.0), ("temple", 0.25), ("bend", 1.0)):
            spots.append(Spot(f"{half.eye}.{name}", look(along(*half.folded, share))))
    return Figure("behind", tuple(strokes), tuple(spots))


_PAINTED: dict[str, Callable[[Halves, tuple[Half, ...]], Figure]] = {
    "top": _from_above,
    "side": _from_side,
    "behind": _from_behind,
}


def _middle_of(sides: Halves, look: Look) -> Point:
    points = bridge_of(sides, look).points
    return points[len(points) // 2]
