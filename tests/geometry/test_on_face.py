import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchassist.geometry.measured import Reading, measured
from benchassist.geometry.on_face import (
    Sides,
    cross_height_difference,
    roll,
    temple_difference_for_ears,
    tip_separation,
    yaw,
)

LEVEL = Sides(8.0, 8.0)
tilts = st.floats(-5.0, 15.0)
ears = st.floats(-6.0, 6.0)
modest = settings(max_examples=50)


@modest
@given(tilts, tilts, ears)
def test_sides_are_mirror_images(right: float, left: float, ear: float) -> None:
    here = roll(Sides(right, left), ear, 95.0, 130.0)
    there = roll(Sides(left, right), -ear, 95.0, 130.0)
    assert there.right_end_higher == pytest.approx(-here.right_end_higher, abs=1e-9)
    assert there.angle == pytest.approx(-here.angle, abs=1e-9)


def test_a_true_frame_on_level_ears_sits_level() -> None:
    assert roll(LEVEL, 0.0, 95.0, 130.0).angle == 0.0


def test_two_degrees_between_the_temples() -> None:
    found = roll(Sides(10.0, 8.0), 0.0, 95.0, 130.0)
    assert found.right_end_higher == pytest.approx(3.4, abs=0.05)
    assert found.angle == pytest.approx(1.5, abs=0.05)


@modest
@given(ears)
def test_temples_set_for_unequal_ears_level_the_front(ear: float) -> None:
    """Set about a pantoscopic angle of zero, where the tangent rule is exact."""
    lower = temple_difference_for_ears(ear, 95.0)
    assert roll(Sides(0.0, lower), ear, 95.0, 130.0).angle == pytest.approx(0.0, abs=1e-9)


def test_ears_five_millimetres_apart() -> None:
    assert temple_difference_for_ears(5.0, 95.0) == pytest.approx(3.0, abs=0.05)


def test_crosses_through_roll() -> None:
    assert cross_height_difference(64.0, 1.5) == pytest.approx(1.7, abs=0.05)
    assert cross_height_difference(64.0, 0.0) == 0.0


def test_vertical_prism_through_roll_of_equal_lenses() -> None:
    assert 6.0 * cross_height_difference(64.0, 1.0) / 10.0 == pytest.approx(0.67, abs=0.005)


@modest
@given(st.floats(85.0, 100.0), st.floats(85.0, 100.0))
def test_the_wider_temple_s_side_comes_closer(right: float, left: float) -> None:
    found = yaw(Sides(right, left), 64.0)
    swapped = yaw(Sides(left, right), 64.0)
    assert swapped.right_closer == -found.right_closer
    assert (found.right_closer > 0.0) == (right > left)


def test_front_turned_on_the_face() -> None:
    found = yaw(Sides(96.0, 92.0), 64.0)
    assert found.angle == 2.0
    assert found.right_closer == pytest.approx(2.2, abs=0.05)
    at_limit = yaw(Sides(95.0, 94.0), 64.0)
    assert at_limit.right_closer == pytest.approx(0.56, abs=0.005)


def test_tips_come_together_with_face_form() -> None:
    """Two degrees a side close 128 mm temples by 8.9 mm between the tips."""
    open_wide = tip_separation(Sides(94.0, 94.0), 128.0, 132.0)
    closed = tip_separation(Sides(92.0, 92.0), 128.0, 132.0)
    assert open_wide - closed == pytest.approx(8.9, abs=0.05)
    assert tip_separation(Sides(90.0, 90.0), 128.0, 132.0) == 132.0


def test_uncertainty_of_a_turned_front() -> None:
    each = Reading(94.0, 0.4, "°")
    turn = measured(
        lambda right, left: yaw(Sides(right, left), 64.0).angle, right=each, left=each
    )
    assert turn.uncertainty == pytest.approx(0.4 / 2.0**0.5)
    assert turn.per_half_mm == 0.0


def test_uncertainty_of_a_front_out_of_level() -> None:
    def angle(ear: float, right: float, left: float) -> float:
        return roll(Sides(right, left), ear, 95.0, 130.0).angle

    ear = measured(angle, ear=Reading(0.0, 1.0), right=Reading(0.0), left=Reading(0.0))
    assert ear.uncertainty == pytest.approx(0.44, abs=0.005)
    each = Reading(0.0, 0.3, "°")
    tilt = measured(angle, ear=Reading(0.0), right=each, left=each)
    expected = 2.0**0.5 * angle(0.0, 0.3, 0.0)
    assert tilt.uncertainty == pytest.approx(expected, rel=1e-3)


def test_impossible_input_is_refused() -> None:
    with pytest.raises(ValueError, match=r"rise 140\.0 is larger"):
        roll(LEVEL, 140.0, 95.0, 130.0)
    with pytest.raises(ValueError, match="hinge to ear 0"):
        roll(LEVEL, 0.0, 0.0, 130.0)
    with pytest.raises(ValueError, match="PD -64"):
        yaw(LEVEL, -64.0)
