"""The spectacles seen from the front, above, the side or on the table, a fault enlarged."""

from dataclasses import replace

from benchassist.geometry.fault import Fault, enlarged
from benchassist.geometry.figure import Figure, Point, Spot
from benchassist.geometry.front import front_view
from benchassist.geometry.look import Look, bridge_of, seen, spots_of
from benchassist.geometry.plan import FrontPlan
from benchassist.geometry.solid import Line, Place, Side, out_of_place, side_of
from benchassist.geometry.table import table_view
from benchassist.geometry.turned import turned_front
from benchassist.optics.eye import Eye

_CUT = 62.0
"""How much of each temple is drawn in the view from above, mm."""


def view(plan: FrontPlan, name: str, fault: Fault | None = None) -> Figure:
    """The named view, with the fault drawn where that view shows it best.

    `Figure.factor` states how many times larger than measured the fault is drawn. Strokes named
    'ghost' show where the moved parts should be; an open stroke named 'gap' spans a gap. From
    above, the wearer is at the top of the sheet and looks down it; from the side, the wearer's
    right is nearer and the strokes of the left are named 'far-...'.

    Raises:
        ValueError: there is no view of that name.
    """
    drawn = enlarged(fault, name)
    if name == "front":
        return turned_front(plan, drawn) if drawn else front_view(plan)
    true = tuple(side_of(plan, eye) for eye in Eye)
    if name == "table":
        return table_view(true, drawn)
    looks = {"top": _from_above, "side": _from_side}
    if name not in looks:
        raise ValueError(f"there is no view named {name}")
    if drawn is None:
        return looks[name](true, ())
    bent = tuple(out_of_place(side, drawn) for side in true)
    ghosts = tuple(good for good, bad in zip(true, bent, strict=True) if good != bad)
    return replace(looks[name](bent, ghosts), factor=drawn.factor)


def _from_above(sides: tuple[Side, ...], ghosts: tuple[Side, ...]) -> Figure:
    def look(place: Place) -> Point:
        return place[0], -place[2]

    strokes = [seen("ghost", line, look) for side in ghosts for line in _plan_lines(side)]
    strokes += [seen("temple-line", _cut(side), look, side.eye) for side in sides]
    strokes += [seen("pad-line", _pad_plan(side), look, side.eye) for side in sides]
    strokes.append(bridge_of(sides, look))
    for side in sides:
        strokes.append(seen("front-line", side.level, look, side.eye))
        strokes.append(seen("lens-line", _lens_level(side), look, side.eye))
    spots = [Spot("bridge", _middle_of(sides, look)), Spot("pads", (0.0, 14.0))]
    spots += [spot for side in sides for spot in spots_of(side, look, _cut(side))]
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
        strokes += [seen("ghost", line, look) for line in (ghost.upright, ghost.temple)]
    for side, prefix in zip(reversed(sides), ("far-", ""), strict=True):
        shaft = (*side.level[len(side.level) // 2 :], *side.temple)
        strokes.append(seen(f"{prefix}temple-line", shaft, look, side.eye))
        strokes.append(seen(f"{prefix}front-line", side.upright, look, side.eye))
        strokes.append(seen(f"{prefix}lens-line", side.upright[1:-1], look, side.eye))
    spots = [spot for side in sides for spot in spots_of(side, look, side.temple)]
    bridge = look(sides[0].level[0])
    spots += [Spot("bridge", (bridge[0] + 3.0, bridge[1])), Spot("pads", (-4.0, -4.0))]
    low = look(sides[0].upright[0])
    spots.append(Spot("front", (low[0] + 8.0, low[1])))
    return Figure("side", tuple(strokes), tuple(spots))


def _middle_of(sides: tuple[Side, ...], look: Look) -> Point:
    points = bridge_of(sides, look).points
    return points[len(points) // 2]
