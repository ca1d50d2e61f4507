"""What the formulas of the bench measure on a drawing is the fault times the stated factor."""

from collections.abc import Callable
from math import atan2, degrees, dist

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchassist.geometry.alignment import (
    AlongFront,
    FourPoint,
    LeanGaps,
    fold,
    four_point,
    lens_turn,
    open_angle,
    skew,
)
from benchassist.geometry.fault import KINDS, Fault, Faults, Kind, caption
from benchassist.geometry.figure import Figure, Point
from benchassist.geometry.plan import FrontPlan, Layout
from benchassist.geometry.table import UPRIGHT_SEEN
from benchassist.geometry.views import view
from benchassist.optics.eye import Eye

PLAN = FrontPlan(52, 38, 18, 55, layout=Layout.CORRIDOR, tilt=8, face_form=4, temple_length=145)

Points = tuple[Point, ...]


def sides(figure: Figure, name: str) -> tuple[Points, Points]:
    """A stroke of the right and of the left half."""
    names = {name, f"far-{name}"}
    right, left = (
        next(one.points for one in figure.strokes if one.eye is eye and one.name in names)
        for eye in Eye
    )
    return right, left


def spots(figure: Figure, name: str) -> tuple[Point, Point]:
    right, left = (figure.spot(f"{eye}.{name}") or (0.0, 0.0) for eye in Eye)
    return right, left


def middle_height(points: Points) -> float:
    return sum(y for _, y in points) / len(points)


def down(start: Point, end: Point) -> float:
    """How far a line that runs back points down, degrees."""
    return degrees(atan2(start[1] - end[1], start[0] - end[0]))


def rotation(figure: Figure) -> float:
    _, marks = sides(figure, "level")
    nasal, temporal = min(marks), max(marks)
    return lens_turn(Eye.LEFT, temporal[1] - nasal[1], dist(nasal, temporal))


def skew_step(figure: Figure) -> float:
    true, places = sides(view(PLAN, "front"), "lens"), sides(figure, "lens")
    ends = [
        points[outline.index(pick(outline))][1] + 50.0
        for outline, points in zip(true, places, strict=True)
        for pick in (min, max)
    ]
    return skew(AlongFront(ends[0], ends[1], ends[2], ends[3]), 52.0, 9.0).step


def x_ing(figure: Figure) -> float:
    right, left = (
        LeanGaps(rim[-1][0], rim[0][0]).lean(rim[-1][1] - rim[0][1])
        for rim in sides(figure, "front-line")
    )
    return left - right


def along_edge(figure: Figure) -> FourPoint:
    """Four gaps before a straight edge laid across the rear of the front, from above."""
    right, left = sides(figure, "front-line")
    ends = (right[-2], right[0], left[0], left[-2])
    edge = max(y for _, y in ends)
    gaps = [edge - y for _, y in ends]
    return four_point(AlongFront(*gaps), right[0][0] - right[-2][0], -right[0][0])


def opened(figure: Figure) -> float:
    right, left = (
        open_angle(-eye.nasal_sign * (shaft[-1][0] - shaft[0][0]), shaft[-1][1] - shaft[0][1])
        for eye, shaft in zip(Eye, sides(figure, "temple-line"), strict=True)
    )
    return left - right


def apart(figure: Figure, start: str, end: str, of: Callable[[Point, Point], float]) -> float:
    right, left = map(of, spots(figure, start), spots(figure, end))
    return left - right


def pads_apart(figure: Figure, name: str) -> float:
    right, left = sides(figure, name)
    return middle_height(left) - middle_height(right)


def lifted(figure: Figure, positive: Eye) -> float:
    (gap,) = figure.named("gap")
    height = (gap.points[1][1] - gap.points[0][1]) / UPRIGHT_SEEN
    return height if gap.eye is positive else -height


def drop(figure: Figure) -> float:
    return apart(figure, "bend", "tip", down) - apart(figure, "endpiece", "bend", down)


def climb(figure: Figure) -> float:
    """Of the folded left temple, by its height over the middle of the front."""
    (x, y), (further, higher) = next(
        one.points for one in figure.named("temple-line") if one.eye is Eye.LEFT
    )
    return fold(0.0, (higher - y) * x / (x - further), abs(x)).left


MEASURED: dict[str, Callable[[Figure], float]] = {
    "rotation": rotation,
    "skew": skew_step,
    "x-ing": x_ing,
    "plane-step": lambda figure: along_edge(figure).step,
    "face-form": lambda figure: along_edge(figure).total - along_edge(view(PLAN, "top")).total,
    "pads": lambda figure: pads_apart(figure, "pad"),
    "pad-stand": lambda figure: pads_apart(figure, "pad-line"),
    "open-angle": opened,
    "pantoscopic": lambda figure: apart(figure, "endpiece", "bend", down),
    "table-inverted": lambda figure: lifted(figure, Eye.RIGHT),
    "table-upright": lambda figure: lifted(figure, Eye.LEFT),
    "bend-start": lambda figure: apart(figure, "endpiece", "bend", dist),
    "bend-drop": drop,
    "fold": climb,
}
"""How each kind of fault is measured on its own view."""


def test_every_kind_is_measured_back() -> None:
    assert list(MEASURED) == [kind.name for kind in KINDS]


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.name)
@settings(max_examples=12, deadline=None)
@given(share=st.floats(0.06, 0.95), sign=st.sampled_from([-1.0, 1.0]))
def test_the_fault_measured_on_its_view_is_as_large_as_stated(
    kind: Kind, share: float, sign: float
) -> None:
    value = sign * share * kind.shown
    faults = Faults((Fault(kind.name, value, _eye(kind)),), kind.checks[0])
    figure = view(PLAN, kind.views[0], faults)
    found = MEASURED[kind.name](figure)
    assert found == pytest.approx(value * figure.factor, rel=0.02, abs=0.02)


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.name)
def test_the_caption_states_size_and_factor(kind: Kind) -> None:
    faults = Faults((Fault(kind.name, kind.shown / 6, _eye(kind)),), kind.checks[0])
    for name in kind.views:
        told = caption(faults, name)
        assert kind.size(kind.shown / 6) in told
        assert f"drawn {view(PLAN, name, faults).factor} times larger" in told


def test_on_the_table_the_gap_is_as_measured_whatever_else_is_out() -> None:
    """The other faults are drawn too, and the frame still leaves the gap that was measured."""
    others = (Fault("x-ing", 1.0), Fault("pantoscopic", -0.8), Fault("skew", 0.6))
    faults = Faults((Fault("table-upright", 1.4), *others), "table-upright")
    figure = view(PLAN, "table", faults)
    gap = next(one for one in figure.named("gap") if one.eye is Eye.LEFT)
    height = (gap.points[1][1] - gap.points[0][1]) / UPRIGHT_SEEN
    assert height == pytest.approx(1.4 * figure.factor, rel=0.01)


@pytest.mark.parametrize(
    ("name", "fault"),
    [("top", "open-angle"), ("top", "plane-step"), ("side", "pantoscopic"), ("front", "skew")],
)
def test_the_ghost_stands_where_the_frame_is_without_the_fault(name: str, fault: str) -> None:
    check = next(kind.checks[0] for kind in KINDS if kind.name == fault)
    figure = view(PLAN, name, Faults((Fault(fault, 2.0),), check))
    true = [stroke.points for stroke in view(PLAN, name).strokes]
    ghosts = [stroke.points for stroke in figure.strokes if stroke.name == "ghost"]
    assert ghosts
    for ghost in ghosts:
        assert any(_is_part(ghost, points) for points in true)


def _is_part(ghost: Points, points: Points) -> bool:
    """Whether every place of a ghost is a place of a line."""
    return all(min(dist(at, one) for one in points) < 1e-6 for at in ghost)


def _eye(kind: Kind) -> Eye | None:
    return Eye.LEFT if kind.name in {"rotation", "fold"} else None
