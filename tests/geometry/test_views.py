"""Each fault is drawn in its true kind, enlarged by the factor that is stated."""

from math import atan2, degrees, isfinite

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchassist.geometry.fault import KINDS, Fault, Faults, Kind, caption, drawn
from benchassist.geometry.figure import Figure, Point, Stroke, bounds
from benchassist.geometry.plan import Centration, FrontPlan, Layout, Mount
from benchassist.geometry.views import view
from benchassist.optics.eye import Eye

PLAN = FrontPlan(52, 38, 18, 55, layout=Layout.CORRIDOR, tilt=8, face_form=5, temple_length=145)
VIEWS = ("front", "top", "side", "table")
"""The views with every place; folded from behind, there are fewer."""


CHECKS = {kind.name: kind.checks[0] for kind in KINDS}


def one(kind: str, value: float, eye: Eye | None = None, *, is_within: bool = False) -> Faults:
    """One fault, asked for by its own check."""
    return Faults((Fault(kind, value, eye, is_within),), CHECKS.get(kind, kind))


def stroke(figure: Figure, name: str, eye: Eye) -> Stroke:
    return next(one for one in figure.named(name) if one.eye is eye)


def middle(points: tuple[Point, ...]) -> Point:
    left, low, right, high = bounds(points)
    return (left + right) / 2, (low + high) / 2


def slope(start: Point, end: Point) -> float:
    return degrees(atan2(end[1] - start[1], end[0] - start[0]))


@pytest.mark.parametrize("name", [*VIEWS, "behind"])
def test_a_true_frame_is_drawn_true(name: str) -> None:
    figure = view(PLAN, name)
    assert figure.view == name
    assert figure.factor == 1
    assert not figure.named("ghost")
    assert not figure.named("gap")


@pytest.mark.parametrize("name", VIEWS)
def test_every_view_has_the_places_of_the_frame(name: str) -> None:
    figure = view(PLAN, name)
    for spot in (
        "bridge",
        "pads",
        "front",
        "right.rim",
        "left.endpiece",
        "right.temple",
        "left.tip",
    ):
        assert figure.spot(spot) is not None, spot


def test_an_unknown_view_is_refused() -> None:
    with pytest.raises(ValueError, match="no view named back"):
        view(PLAN, "back")


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.name)
@pytest.mark.parametrize("eye", [None, Eye.RIGHT, Eye.LEFT])
@pytest.mark.parametrize("value", [-1.5, 0.4, 20.0])
def test_each_kind_shows_in_its_own_views_alone(
    kind: Kind, eye: Eye | None, value: float
) -> None:
    faults = one(kind.name, value, eye)
    for name in VIEWS:
        true, bent = view(PLAN, name), view(PLAN, name, faults)
        if name in kind.views:
            assert bent.strokes != true.strokes
            assert bent.factor >= 1
        else:
            assert bent == true


@pytest.mark.parametrize("fault", [Fault("skew", 0.0), Fault("screws", 1.0)])
def test_what_cannot_be_drawn_leaves_the_view_as_it_is(fault: Fault) -> None:
    assert view(PLAN, "front", Faults((fault,), "skew")) == view(PLAN, "front")


@pytest.mark.parametrize(
    ("value", "factor"), [(0.1, 20), (0.5, 15), (1.5, 5), (-1.5, 5), (3.0, 2), (20.0, 1)]
)
def test_the_factor_is_a_round_number_that_shows_the_fault_well(
    value: float, factor: int
) -> None:
    assert drawn(one("skew", value), "front").factor == factor
    words = "true to size" if factor == 1 else f"drawn {factor} times larger"
    assert caption(one("skew", value), "front").endswith(words)


def test_a_fault_within_its_limit_is_never_drawn_as_a_wreck() -> None:
    small = drawn(one("skew", 0.4, is_within=True), "front")
    assert small.factor <= 5
    assert "within its limit" in small.words


def test_all_faults_of_a_view_share_one_factor() -> None:
    both = Faults((Fault("skew", 1.0), Fault("rotation", 6.0, Eye.RIGHT)), "skew")
    together = drawn(both, "front")
    assert together.factor == drawn(one("rotation", 6.0, Eye.RIGHT), "front").factor
    assert {part.value for part in together.parts} == {
        1.0 * together.factor,
        6.0 * together.factor,
    }
    assert together.words.endswith("and 1 more measured")


def test_before_and_after_stand_side_by_side_by_one_factor() -> None:
    mended = Faults((Fault("skew", 0.3, is_within=True),), "skew", (Fault("skew", 2.0),))
    figure = view(PLAN, "front", mended)
    assert [note.words for note in figure.panels] == ["BEFORE", "NOW"]
    assert figure.factor == drawn(mended, "front").factor
    told = caption(mended, "front")
    assert "2.0 mm" in told
    assert "now 0.3 mm" in told
    assert told.endswith(f"both {drawn(mended, 'front').scale}")


def test_skew_lifts_the_left_half_by_the_step_times_the_factor() -> None:
    figure = view(PLAN, "front", one("skew", 1.5))
    right = middle(stroke(figure, "lens", Eye.RIGHT).points)
    left = middle(stroke(figure, "lens", Eye.LEFT).points)
    assert left[1] - right[1] == pytest.approx(1.5 * figure.factor)
    bridge = figure.named("bridge")[0].points
    assert max(y for x, y in bridge if x > 0) > max(y for x, y in bridge if x < 0)
    assert (figure.spot("left.distance") or (0, 0))[1] > (
        figure.spot("right.distance") or (0, 0)
    )[1]


def test_a_turned_lens_turns_its_marks_and_leaves_the_rim() -> None:
    figure = view(PLAN, "front", one("rotation", 2.0, Eye.RIGHT))
    true = view(PLAN, "front")
    level = stroke(figure, "level", Eye.RIGHT).points
    assert slope(level[1], level[0]) % 180 == pytest.approx(2.0 * figure.factor)
    assert stroke(figure, "rim", Eye.RIGHT) == stroke(true, "rim", Eye.RIGHT)
    assert stroke(figure, "lens", Eye.LEFT) == stroke(true, "lens", Eye.LEFT)


def test_a_low_pad_moves_alone() -> None:
    figure, true = view(PLAN, "front", one("pads", -1.0, Eye.LEFT)), view(PLAN, "front")
    low, was = stroke(figure, "pad", Eye.LEFT).points, stroke(true, "pad", Eye.LEFT).points
    assert middle(low)[1] == pytest.approx(middle(was)[1] - figure.factor)
    assert stroke(figure, "lens", Eye.LEFT) == stroke(true, "lens", Eye.LEFT)


def test_the_further_plane_is_drawn_towards_the_reader() -> None:
    """From above the front looks down the sheet, so further forward is lower."""
    figure = view(PLAN, "top", one("plane-step", 1.5))
    right = stroke(figure, "front-line", Eye.RIGHT).points[0]
    left = stroke(figure, "front-line", Eye.LEFT).points[0]
    assert right[1] - left[1] == pytest.approx(1.5 * figure.factor)


def test_too_much_face_form_swings_both_sides_back() -> None:
    figure, true = view(PLAN, "top", one("face-form", 4.0)), view(PLAN, "top")
    for eye in Eye:
        bent, was = (stroke(one, "front-line", eye).points[-1] for one in (figure, true))
        assert bent[1] > was[1]


def test_the_wider_temple_opens_by_the_angle_times_the_factor() -> None:
    figure, true = view(PLAN, "top", one("open-angle", 2.0, Eye.LEFT)), view(PLAN, "top")
    bent, was = (stroke(one, "temple-line", Eye.LEFT).points for one in (figure, true))
    assert slope(was[0], was[-1]) - slope(bent[0], bent[-1]) == pytest.approx(
        2.0 * figure.factor
    )
    assert stroke(figure, "temple-line", Eye.RIGHT) == stroke(true, "temple-line", Eye.RIGHT)


def test_crossing_planes_lean_apart_by_the_angle_times_the_factor() -> None:
    figure = view(PLAN, "side", one("x-ing", 1.5))
    right = stroke(figure, "front-line", Eye.RIGHT).points
    left = stroke(figure, "far-front-line", Eye.LEFT).points
    lean = slope(right[0], right[-1]) - slope(left[0], left[-1])
    assert lean == pytest.approx(1.5 * figure.factor, abs=0.2)


def test_a_lower_temple_hangs_by_the_angle_times_the_factor() -> None:
    figure, true = view(PLAN, "side", one("pantoscopic", 1.0, Eye.RIGHT)), view(PLAN, "side")
    bent, was = (figure.spot("right.tip") or (0, 0), true.spot("right.tip") or (0, 0))
    assert bent[1] < was[1]
    hinge = true.spot("right.endpiece") or (0, 0)
    turned = slope(hinge, bent) % 360 - slope(hinge, was) % 360
    assert turned == pytest.approx(figure.factor, rel=1e-3)


def test_a_tip_bent_lower_moves_from_the_bend_on() -> None:
    figure, true = view(PLAN, "side", one("bend-drop", 6.0, Eye.RIGHT)), view(PLAN, "side")
    assert figure.spot("right.bend") == true.spot("right.bend")
    assert (figure.spot("right.tip") or (0, 0))[1] < (true.spot("right.tip") or (0, 0))[1]


def test_on_the_table_a_true_frame_touches_with_rims_and_tips() -> None:
    figure = view(PLAN, "table")
    shadows = figure.named("shadow")
    tips = [figure.spot(f"{eye}.tip") for eye in Eye]
    assert [shadow.points[-1] for shadow in shadows] == [pytest.approx(tip) for tip in tips]


@pytest.mark.parametrize(
    ("kind", "value", "lifted"),
    [
        ("table-upright", 1.2, Eye.LEFT),
        ("table-upright", -1.2, Eye.RIGHT),
        ("table-inverted", 1.2, Eye.RIGHT),
        ("table-inverted", -1.2, Eye.LEFT),
    ],
)
def test_the_side_that_lifts_off_the_table_stands_above_it(
    kind: str, value: float, lifted: Eye
) -> None:
    figure = view(PLAN, "table", one(kind, value))
    (gap,) = figure.named("gap")
    assert gap.eye is lifted
    foot, top = gap.points
    assert foot[0] == pytest.approx(top[0])
    assert top[1] > foot[1]
    assert view(PLAN, "table", one(kind, abs(value), lifted)) == figure


def test_usual_sizes_are_drawn_where_none_are_ordered() -> None:
    usual = FrontPlan()
    same = FrontPlan(temple_length=145, tilt=9, face_form=4)
    assert view(usual, "side") == view(same, "side")


LENGTHS = st.none() | st.floats(0, 200)
CENTRATIONS = st.builds(Centration, LENGTHS, LENGTHS, LENGTHS)
ODD_PLANS = st.builds(
    FrontPlan,
    a=LENGTHS,
    b=LENGTHS,
    dbl=LENGTHS,
    ed=LENGTHS,
    mount=st.sampled_from(Mount),
    layout=st.sampled_from(Layout),
    segment_width=LENGTHS,
    segment_depth=LENGTHS,
    temple_length=st.none() | st.floats(1, 200),
    tilt=st.none() | st.floats(-180, 180),
    face_form=st.none() | st.floats(-180, 180),
    right=CENTRATIONS,
    left=CENTRATIONS,
)


@settings(max_examples=40, deadline=None)
@given(ODD_PLANS, st.sampled_from(VIEWS))
def test_an_order_half_typed_or_mistyped_is_still_drawn(plan: FrontPlan, name: str) -> None:
    figure = view(plan, name)
    left, low, right, high = figure.bounds
    assert left < right
    assert low < high
    assert all(isfinite(x) and isfinite(y) for one in figure.strokes for x, y in one.points)
