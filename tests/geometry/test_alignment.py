from math import atan2, cos, degrees, hypot, radians, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchassist.geometry.alignment import (
    AlongFront,
    LeanGaps,
    axis_change,
    fold,
    form_from_depth,
    four_point,
    lens_turn,
    open_angle,
    oversize,
    pantoscopic_angle,
    skew,
    tip_of,
    x_ing,
)
from benchassist.geometry.angles import gap_of_angle
from benchassist.optics.eye import Eye

readings = st.floats(-2.5, 2.5)
"""No lens of 30 mm gets a form that no front has."""
fronts = st.builds(AlongFront, readings, readings, readings, readings)
widths = st.floats(30.0, 60.0)
spans = st.floats(0.0, 14.0)
slopes = st.floats(-0.05, 0.05)
modest = settings(max_examples=50)


def mirrored(front: AlongFront) -> AlongFront:
    return AlongFront(
        front.left_temporal, front.left_nasal, front.right_nasal, front.right_temporal
    )


def touching(front: AlongFront) -> AlongFront:
    """The same gaps over an edge that comes up to the front, and none that cuts into it."""
    nearest = min(front.readings)
    return AlongFront(*(reading - nearest for reading in front.readings))


def tipped(front: AlongFront, width: float, span: float, slope: float, up: float) -> AlongFront:
    """The same front against an edge that is not level: each reading moves with its place."""
    return AlongFront(
        front.right_temporal - (span + width) * slope + up,
        front.right_nasal - span * slope + up,
        front.left_nasal + span * slope + up,
        front.left_temporal + (span + width) * slope + up,
    )


@modest
@given(fronts, widths, spans, slopes, readings)
def test_levelling_of_the_edge_drops_out_of_the_step(
    front: AlongFront, width: float, span: float, slope: float, up: float
) -> None:
    moved = tipped(front, width, span, slope, up)
    assert moved.step(width, span) == pytest.approx(front.step(width, span), abs=1e-9)


@modest
@given(fronts, widths, spans)
def test_sides_are_mirror_images(front: AlongFront, width: float, span: float) -> None:
    here, there = skew(front, width, span), skew(mirrored(front), width, span)
    assert (there.right_slope, there.left_slope) == (here.left_slope, here.right_slope)
    assert there.step == pytest.approx(-here.step, abs=1e-12)
    behind = touching(front)
    edge, back = four_point(behind, width, span), four_point(mirrored(behind), width, span)
    assert back.total == pytest.approx(edge.total)
    assert back.step == pytest.approx(-edge.step, abs=1e-12)


@modest
@given(widths, spans, readings)
def test_a_true_front_has_no_step(width: float, span: float, sweep: float) -> None:
    found = skew(AlongFront(sweep, 0.0, 0.0, sweep), width, span)
    assert found.step == 0.0
    assert found.right_slope == found.left_slope


@pytest.mark.parametrize(
    ("front", "right", "left", "step"),
    [
        (AlongFront(0.0, 0.0, 0.0, 0.0), 0.0, 0.0, 0.0),
        (AlongFront(0.0, 4.2, 4.2, 0.0), 5.0, 5.0, 0.0),
        (AlongFront(0.0, 0.0, 1.5, 1.5), 0.0, 0.0, 1.5),
    ],
    ids=["flat and true", "good face form", "variant planes"],
)
def test_patterns_behind_the_front(
    front: AlongFront, right: float, left: float, step: float
) -> None:
    found = four_point(front, 48.0, 11.0)
    assert found.right_form == pytest.approx(right, abs=0.005)
    assert found.left_form == pytest.approx(left, abs=0.005)
    assert found.total == found.right_form + found.left_form
    assert found.step == pytest.approx(step)


def test_turned_edge_hides_the_single_forms_but_not_total_and_step() -> None:
    """Truth 5 degrees each and a step of 1.2, against an edge that touches both outer ends."""
    rise, width, span = gap_of_angle(5.0, 48.0), 48.0, 11.0
    true = AlongFront(-rise, 0.0, 1.2, 1.2 - rise)
    slope = -(true.left_temporal - true.right_temporal) / (2.0 * (width + span))
    aslant = touching(tipped(true, width, span, slope, 0.0))
    assert aslant.right_temporal == pytest.approx(aslant.left_temporal)
    found = four_point(aslant, width, span)
    assert found.right_form == pytest.approx(4.4, abs=0.05)
    assert found.left_form == pytest.approx(5.6, abs=0.05)
    assert found.total == pytest.approx(10.0, abs=0.01)
    assert found.step == pytest.approx(true.step(width, span))


def test_step_over_straight_halves() -> None:
    assert skew(AlongFront(0.0, 0.0, 1.5, 1.5), 50.0, 10.0).step == 1.5


@modest
@given(st.floats(0.0, 12.0), st.floats(0.01, 3.0), st.floats(100.0, 150.0))
def test_deeper_bridge_is_more_face_form(depth: float, more: float, width: float) -> None:
    assert form_from_depth(0.0, width) == 0.0
    assert form_from_depth(depth + more, width) > form_from_depth(depth, width)


@modest
@given(readings, readings, readings, st.floats(30.0, 60.0))
def test_even_gap_is_no_twist(right: float, left: float, even: float, apart: float) -> None:
    here = x_ing(LeanGaps(right, -right), LeanGaps(left, -left), apart)
    moved = x_ing(LeanGaps(right, -right), LeanGaps(left + even, even - left), apart)
    assert moved == pytest.approx(here, abs=1e-9)
    swapped = x_ing(LeanGaps(left, -left), LeanGaps(right, -right), apart)
    assert swapped == -here


def test_x_ing_of_a_leaning_left_lens() -> None:
    assert x_ing(LeanGaps(0.0, 0.0), LeanGaps(1.2, -1.2), 36.0) == pytest.approx(
        3.81, abs=0.005
    )


@modest
@given(readings, readings, st.floats(0.01, 2.0), st.floats(40.0, 60.0))
def test_more_gap_at_the_top_is_more_twist(
    right: float, left: float, more: float, apart: float
) -> None:
    lens = LeanGaps(right, 0.0)
    less = x_ing(lens, LeanGaps(left, 0.0), apart)
    assert x_ing(lens, LeanGaps(left + more, 0.0), apart) > less
    assert x_ing(LeanGaps(right + more, 0.0), LeanGaps(left, 0.0), apart) < less


@modest
@given(st.floats(-12.0, 12.0), st.floats(-12.0, 12.0), st.floats(20.0, 60.0))
def test_leans_come_back_as_a_twist(right: float, left: float, apart: float) -> None:
    lenses = [LeanGaps(gap_of_angle(angle, apart), 0.0) for angle in (right, left)]
    assert x_ing(lenses[0], lenses[1], apart) == pytest.approx(left - right, abs=1e-9)


@modest
@given(st.floats(-25.0, 35.0), st.floats(20.0, 150.0))
def test_open_angle_comes_back(spread: float, back: float) -> None:
    assert open_angle(gap_of_angle(spread, back), back) == pytest.approx(90.0 + spread)
    assert open_angle(gap_of_angle(spread, back) + 0.5, back) > 90.0 + spread


@modest
@given(st.floats(-29.0, 29.0), st.floats(20.0, 60.0))
def test_pantoscopic_angle_comes_back(angle: float, b: float) -> None:
    assert pantoscopic_angle(b * sin(radians(angle)), b) == pytest.approx(angle, abs=1e-9)


@modest
@given(st.sampled_from(Eye), st.floats(-80.0, 80.0), st.floats(10.0, 60.0))
def test_lens_turn_comes_back(eye: Eye, turn: float, apart: float) -> None:
    rise = -eye.nasal_sign * apart * sin(radians(turn))
    assert lens_turn(eye, rise, apart) == pytest.approx(turn, abs=1e-6)
    assert lens_turn(eye.other, rise, apart) == -lens_turn(eye, rise, apart)


@modest
@given(st.floats(-40.0, 40.0), st.floats(-40.0, 40.0), st.floats(50.0, 80.0))
def test_fold_comes_back_and_is_mirrored(right: float, left: float, half: float) -> None:
    at_right, at_left = gap_of_angle(right, half), gap_of_angle(left, half)
    found, other = fold(at_right, at_left, half), fold(at_left, at_right, half)
    assert (found.right, found.left) == pytest.approx((right, left), abs=1e-9)
    assert other.difference == -found.difference


@modest
@given(st.floats(80.0, 120.0), st.floats(20.0, 60.0), st.floats(0.0, 89.0))
def test_tip_comes_back(straight: float, end: float, drop: float) -> None:
    tip = tip_of(straight, end, drop)
    assert hypot(tip.run - straight, tip.drop) == pytest.approx(end)
    assert degrees(atan2(tip.drop, tip.run - straight)) == pytest.approx(drop, abs=1e-9)
    assert tip_of(straight, end, drop + 1.0).drop > tip.drop
    assert tip_of(straight, end, 0.0).drop == 0.0


@modest
@given(st.floats(-9.0, 30.0), widths, spans)
def test_form_comes_back(form: float, width: float, span: float) -> None:
    rise = gap_of_angle(form, width)
    found = four_point(touching(AlongFront(-rise, 0.0, 0.0, -rise)), width, span)
    assert (found.right_form, found.left_form) == pytest.approx((form, form), abs=1e-9)
    assert found.step == pytest.approx(0.0, abs=1e-9)


@modest
@given(st.floats(-10.0, 10.0))
def test_axis_follows_a_line_turned_in_space(temporal_up: float) -> None:
    """A line drawn on the lens from nasal to temporal end, turned, is read back as an axis."""
    for eye in Eye:
        outwards = -eye.nasal_sign
        x, y = outwards * cos(radians(temporal_up)), sin(radians(temporal_up))
        turned = y / x
        slope = sin(radians(axis_change(eye, temporal_up))) / cos(radians(temporal_up))
        assert turned == pytest.approx(slope)
    assert axis_change(Eye.RIGHT, temporal_up) == -axis_change(Eye.LEFT, temporal_up)


@pytest.mark.parametrize(("eye", "change"), [(Eye.RIGHT, 1.5), (Eye.LEFT, -1.5)])
def test_both_outer_ends_low(eye: Eye, change: float) -> None:
    assert axis_change(eye, -1.5) == change


@pytest.mark.parametrize(
    ("rise", "apart", "turn"), [(1.0, 34.0, 1.69), (1.19, 34.0, 2.0), (0.98, 28.0, 2.0)]
)
def test_turn_by_marks(rise: float, apart: float, turn: float) -> None:
    assert lens_turn(Eye.LEFT, rise, apart) == pytest.approx(turn, abs=0.01)
    assert lens_turn(Eye.RIGHT, rise, apart) == pytest.approx(-turn, abs=0.01)
    assert lens_turn(Eye.RIGHT, 0.0, apart) == 0.0


def test_temple_and_tilt() -> None:
    assert open_angle(8.0, 100.0) == pytest.approx(94.6, abs=0.05)
    assert open_angle(0.0, 100.0) == 90.0
    assert pantoscopic_angle(5.6, 40.0) == pytest.approx(8.0, abs=0.05)
    assert pantoscopic_angle(-5.6, 40.0) == -pantoscopic_angle(5.6, 40.0)


def test_tip_of_a_temple() -> None:
    tip = tip_of(100.0, 40.0, 45.0)
    assert (tip.run, tip.drop) == pytest.approx((128.3, 28.3), abs=0.05)
    steeper = tip_of(100.0, 40.0, 50.0)
    assert steeper.drop - tip.drop == pytest.approx(2.36, abs=0.01)


def test_fold() -> None:
    crooked = fold(4.0, 1.0, 66.0)
    assert crooked.difference == pytest.approx(2.6, abs=0.05)
    assert fold(3.0, 3.0, 66.0).difference == 0.0
    assert crooked.right > crooked.left


def test_lens_too_large() -> None:
    assert oversize(1.0) == pytest.approx(0.32, abs=0.005)
    assert oversize(0.0) == 0.0


def test_impossible_input_is_refused() -> None:
    with pytest.raises(ValueError, match="left nasal nan"):
        AlongFront(0.0, 0.0, float("nan"), 0.0)
    with pytest.raises(ValueError, match="width 0"):
        AlongFront(0.0, 0.0, 0.0, 0.0).step(0.0, 10.0)
    with pytest.raises(ValueError, match="nasal half span -1"):
        AlongFront(0.0, 0.0, 0.0, 0.0).step(50.0, -1.0)
    with pytest.raises(ValueError, match=r"rise 35\.0 is larger"):
        lens_turn(Eye.LEFT, 35.0, 34.0)
    with pytest.raises(ValueError, match="barrel gap -1"):
        oversize(-1.0)
    with pytest.raises(ValueError, match="front width 0"):
        form_from_depth(5.0, 0.0)
