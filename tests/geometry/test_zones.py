"""Zones hold by their distances, mirror right and left, and a place leads back to itself."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchassist.geometry.layout import near_point
from benchassist.geometry.outline import side_at
from benchassist.geometry.plan import Centration, FrontPlan, Layout
from benchassist.geometry.zones import (
    LensPlace,
    Zone,
    distance_point,
    distance_to,
    is_on_lens,
    moved,
    place_at,
    zone_at,
)
from benchassist.optics.eye import Eye

WIDE = Centration(distance_pd=32.5, near_pd=30.0, height=24.0)
millimetres = st.floats(-35, 35, allow_nan=False)


def plan_of(layout: Layout = Layout.PLAIN) -> FrontPlan:
    return FrontPlan(60, 48, 18, 66, layout=layout, segment_width=28, right=WIDE, left=WIDE)


def zone(across: float, up: float, layout: Layout = Layout.PLAIN, eye: Eye = Eye.RIGHT) -> Zone:
    return zone_at(plan_of(layout), LensPlace(eye, across, up))


layouts = st.sampled_from(Layout)


@given(layouts, millimetres, millimetres)
def test_right_and_left_are_judged_alike(layout: Layout, across: float, up: float) -> None:
    right = zone(across, up, layout)
    assert right is zone(across, up, layout, Eye.LEFT)


@given(millimetres, millimetres)
def test_mirrored_points_are_the_same_place_of_the_other_lens(x: float, y: float) -> None:
    one, other = place_at(plan_of(), (x - 39, y)), place_at(plan_of(), (39 - x, y))
    assert (one is None) == (other is None)
    if one is not None and other is not None:
        assert (one.eye, other.eye) == (Eye.RIGHT, Eye.LEFT)
        assert one.in_lens == pytest.approx(other.in_lens)


@given(st.sampled_from(Eye), millimetres, millimetres)
def test_a_place_leads_to_its_point_and_back(eye: Eye, across: float, up: float) -> None:
    plan = plan_of()
    place = LensPlace(eye, across, up)
    if not is_on_lens(plan, place):
        return
    back = place_at(plan, plan.place(eye, place.in_lens))
    assert back is not None
    assert back.eye is eye
    assert back.in_lens == pytest.approx(place.in_lens)


def test_the_central_zone_takes_its_border_in() -> None:
    x, y = distance_point(plan_of(), Eye.RIGHT)
    assert (x, y) == (6.5, 0.0)
    assert zone(x - 14.99, y) is zone(x - 15, y) is Zone.CENTRAL
    assert zone(x - 15.01, y) is Zone.OUTER


def test_the_near_zone_of_a_corridor() -> None:
    plan = plan_of(Layout.CORRIDOR)
    x, y = near_point(plan, Eye.RIGHT, plan.outline())
    below = distance_point(plan, Eye.RIGHT)[1] - 15
    assert y < below
    assert zone(x + 7.9, y, Layout.CORRIDOR) is Zone.NEAR
    assert zone(x + 8.1, y, Layout.CORRIDOR) is Zone.OUTER
    assert zone(x, y) is Zone.OUTER


def test_the_whole_segment_is_the_near_zone() -> None:
    x, top = plan_of(Layout.SEGMENT).reference(Eye.RIGHT)
    middle = x + 2.5
    assert distance_point(plan_of(Layout.SEGMENT), Eye.RIGHT) == (x, top + 5)
    double = plan_of(Layout.DOUBLE_SEGMENT)
    assert distance_point(double, Eye.LEFT) == (x, double.reference(Eye.LEFT)[1] + 5)
    assert zone(middle + 4, top - 13, Layout.SEGMENT) is Zone.NEAR
    assert zone(middle, top - 18.9, Layout.DOUBLE_SEGMENT) is Zone.NEAR
    assert zone(middle + 14, top - 18, Layout.SEGMENT) is not Zone.NEAR


def test_the_band_at_the_edge_and_what_lies_beyond() -> None:
    temporal = side_at(plan_of().outline(), 5.0, is_nasal=False)
    assert distance_to(plan_of().outline(), (temporal, 5.0)) == pytest.approx(0, abs=1e-9)
    assert zone(temporal + 2.5, 5.0) is Zone.OUTER
    assert zone(temporal + 1.5, 5.0) is zone(temporal - 1, 5.0) is Zone.EDGE
    assert zone(temporal - 2.5, 5.0) is Zone.EDGE


def test_in_a_shallow_lens_the_central_zone_reaches_the_rim() -> None:
    shallow = FrontPlan(52, 26, 18, right=Centration(32.5, None, 13), left=Centration())
    assert zone_at(shallow, LensPlace(Eye.RIGHT, 2.5, -12.5)) is Zone.CENTRAL


def test_beside_the_lenses_there_is_no_place() -> None:
    assert place_at(plan_of(), (0.0, 0.0)) is None
    assert place_at(plan_of(), (0.0, 60.0)) is None


def test_the_cursor_stays_on_the_lenses_and_crosses_the_nose() -> None:
    plan, middle = plan_of(), LensPlace(Eye.RIGHT, 0.0, 0.0)
    assert moved(plan, middle, 1, 0) == LensPlace(Eye.RIGHT, 1, 0)
    assert moved(plan, middle, 0, 100) == middle
    assert moved(plan, middle, -100, 0) == middle
    at_nose = LensPlace(Eye.RIGHT, 29.0, 0.0)
    over = moved(plan, at_nose, 5, 0)
    assert over == LensPlace(Eye.LEFT, 29.0, 0.0)
    assert moved(plan, over, 5, 0) == LensPlace(Eye.LEFT, 24.0, 0.0)
    assert moved(plan, over, -5, 0) == at_nose
