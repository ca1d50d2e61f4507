"""The front view is to scale, mirrored, and has a place for each thing to be read."""

from math import hypot

import pytest

from benchassist.geometry.dimensions import dimensions
from benchassist.geometry.figure import Figure, Polyline, Stroke, bounds
from benchassist.geometry.front import front_view
from benchassist.geometry.layout import engravings, near_point
from benchassist.geometry.outline import effective_diameter
from benchassist.geometry.plan import Centration, FrontPlan, Layout, Mount
from benchassist.optics.eye import Eye

ORDERED = Centration(distance_pd=31.5, near_pd=29.0, height=22.0)
PLANS = tuple(
    FrontPlan(52, 38, 18, 55, mount=mount, layout=layout, right=ORDERED, left=ORDERED)
    for mount in Mount
    for layout in Layout
)
PER_EYE = (
    "distance", "prism", "intermediate", "near", "engraving", "tilt", "height", "surface",
    "thickness", "segment", "centre", "near-centre", "rim", "endpiece", "temple", "tip",
)  # fmt: skip


def lens_of(figure: Figure, eye: Eye) -> Stroke:
    return next(stroke for stroke in figure.named("lens") if stroke.eye is eye)


def mirrored(points: Polyline) -> Polyline:
    return tuple((-x, y) for x, y in points)


@pytest.mark.parametrize("plan", PLANS)
def test_the_lenses_lie_in_their_boxes(plan: FrontPlan) -> None:
    figure = front_view(plan)
    assert bounds(lens_of(figure, Eye.RIGHT).points) == pytest.approx((-61, -19, -9, 19))
    assert bounds(lens_of(figure, Eye.LEFT).points) == pytest.approx((9, -19, 61, 19))
    box = next(stroke for stroke in figure.named("box") if stroke.eye is Eye.LEFT)
    assert bounds(box.points) == pytest.approx((9, -19, 61, 19))


@pytest.mark.parametrize("plan", PLANS)
def test_right_and_left_mirror_one_another(plan: FrontPlan) -> None:
    figure = front_view(plan)
    assert mirrored(lens_of(figure, Eye.RIGHT).points) == lens_of(figure, Eye.LEFT).points
    for name in PER_EYE:
        right, left = figure.spot(f"right.{name}"), figure.spot(f"left.{name}")
        assert right is not None
        assert left is not None
        assert left == pytest.approx((-right[0], right[1]))


@pytest.mark.parametrize("plan", PLANS)
def test_what_is_read_on_the_lens_lies_on_the_lens(plan: FrontPlan) -> None:
    figure = front_view(plan)
    left, low, right, high = bounds(lens_of(figure, Eye.RIGHT).points)
    for name in ("distance", "prism", "near", "intermediate", "engraving", "tilt", "surface"):
        x, y = figure.spot(f"right.{name}") or (0, 0)
        assert left < x < right, name
        assert low < y < high, name


@pytest.mark.parametrize("plan", PLANS)
def test_no_two_spots_of_a_lens_share_a_place(plan: FrontPlan) -> None:
    figure = front_view(plan)
    names = ["distance", "prism", "surface", "centre", "height", "rim", "temple", "endpiece"]
    if plan.layout is not Layout.PLAIN:
        names += ["near", "tilt"]
    spots = [figure.spot(f"right.{name}") or (0, 0) for name in names]
    for number, one in enumerate(spots):
        for other in spots[number + 1 :]:
            assert hypot(one[0] - other[0], one[1] - other[1]) > 4


def test_the_cross_stands_at_the_distance_and_height_ordered() -> None:
    figure = front_view(FrontPlan(52, 38, 18, layout=Layout.CORRIDOR, right=ORDERED))
    crosses = [stroke for stroke in figure.named("cross") if stroke.eye is Eye.RIGHT]
    left, low, right, high = bounds(tuple(p for stroke in crosses for p in stroke.points))
    assert (left + right) / 2 == pytest.approx(-31.5)
    assert (low + high) / 2 == pytest.approx(22 - 19)


def test_the_engraved_circles_are_34_mm_apart() -> None:
    temporal, nasal = engravings(PLANS[0], Eye.RIGHT)
    assert nasal[0] - temporal[0] == pytest.approx(34)
    assert nasal[1] == temporal[1]


def test_the_segment_has_its_width_and_stands_at_its_height() -> None:
    plan = FrontPlan(
        52, 40, 18, layout=Layout.SEGMENT, segment_width=28, segment_depth=15, right=ORDERED
    )
    segment = next(s for s in front_view(plan).named("segment") if s.eye is Eye.RIGHT)
    left, low, right, high = bounds(segment.points)
    assert right - left == pytest.approx(28, abs=0.4)
    assert high == pytest.approx(22 - 20)
    assert high - low == pytest.approx(15)
    assert (left + right) / 2 == pytest.approx(-29.0)


def test_a_trifocal_has_a_band_and_a_bifocal_none() -> None:
    assert front_view(FrontPlan(layout=Layout.DOUBLE_SEGMENT)).named("segment-band")
    assert not front_view(FrontPlan(layout=Layout.SEGMENT)).named("segment-band")


def test_a_rimless_front_has_no_rim_and_a_half_rim_ends_above_the_lower_edge() -> None:
    assert not front_view(FrontPlan(mount=Mount.RIMLESS)).named("rim")
    half = front_view(FrontPlan(52, 38, 18, mount=Mount.HALF)).named("rim")[0]
    assert bounds(half.points)[1] > -12


def test_unknown_sizes_are_drawn_and_named() -> None:
    assert FrontPlan().assumed == ("a", "b", "dbl", "ed")
    assert FrontPlan(52, 38, 18, 55).assumed == ()
    assert front_view(FrontPlan()).bounds[2] > 60


def test_the_ordered_effective_diameter_is_drawn() -> None:
    outline = FrontPlan(52, 38, 18, 56).outline()
    assert effective_diameter(outline) == pytest.approx(56, abs=0.05)


def test_the_near_point_goes_with_the_near_distance_and_stays_in_the_lens() -> None:
    plan = FrontPlan(52, 30, 18, layout=Layout.CORRIDOR, right=Centration(31.5, 29, 18))
    across, up = near_point(plan, Eye.RIGHT, plan.outline())
    assert plan.place(Eye.RIGHT, (across, up))[0] == pytest.approx(-29)
    assert up > -15 + 4


def test_a_place_that_does_not_exist_is_none() -> None:
    assert front_view(FrontPlan()).spot("right.nowhere") is None


def test_dimension_lines_show_what_was_ordered_and_what_was_found() -> None:
    plan = FrontPlan(52, 38, 18, right=ORDERED, left=Centration(32, None, None))
    lines = dimensions(plan, right=Centration(33.0, None, 21.0))
    named = {(line.eye, line.name): line for line in lines}
    assert set(named) == {
        (Eye.RIGHT, "centre"),
        (Eye.RIGHT, "near-centre"),
        (Eye.RIGHT, "height"),
        (Eye.LEFT, "centre"),
    }
    centre = named[Eye.RIGHT, "centre"]
    assert (centre.ordered, centre.found) == (31.5, 33.0)
    assert centre.ordered_end is not None
    assert centre.found_end is not None
    assert centre.ordered_end[0] == -31.5
    assert centre.found_end[0] == -33.0
    assert named[Eye.LEFT, "centre"].ordered_end == (32.0, centre.start[1])
    height = named[Eye.RIGHT, "height"]
    assert height.start[1] == -19
    assert height.found_end == (height.start[0], 2.0)
