from math import acos, atan2, cos, degrees, radians, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchassist.optics.eye import Eye
from benchassist.optics.power import Power, axis_difference, normal_axis
from benchassist.optics.tilt import (
    FACE_FORM_AXIS,
    PANTOSCOPIC_AXIS,
    centre_drop,
    centre_drop_by_rule,
    combined_tilt,
    compensated,
    exact_factors,
    martin_factors,
    prism_from_tilt,
    tilted,
)

eighths = st.integers(-96, 96).map(lambda count: count / 8)
powers = st.builds(Power, eighths, eighths, st.integers(1, 180).map(float))
tilts = st.floats(0.0, 25.0)
axes = st.floats(1.0, 180.0)
modest = settings(max_examples=50)


def parts(power: Power) -> tuple[float, float, float]:
    vector = power.vector()
    return vector.m, vector.j0, vector.j45


@modest
@given(powers, tilts, axes)
def test_compensated_lens_gives_the_ordered_power(
    power: Power, tilt: float, axis: float
) -> None:
    factors = exact_factors(tilt, 1.6)
    worn = tilted(compensated(power, factors, axis), factors, axis)
    assert parts(worn) == pytest.approx(parts(power), abs=1e-9)


@modest
@given(powers, axes)
def test_no_tilt_changes_nothing(power: Power, axis: float) -> None:
    for factors in (exact_factors(0.0, 1.5), martin_factors(0.0, 1.5)):
        assert parts(tilted(power, factors, axis)) == pytest.approx(parts(power), abs=1e-9)


@modest
@given(st.floats(-15.0, 15.0), st.floats(0.0, 15.0))
def test_martin_stays_close_to_the_exact_lens(sphere: float, tilt: float) -> None:
    exact, martin = exact_factors(tilt, 1.498), martin_factors(tilt, 1.498)
    assert sphere * martin.sagittal == pytest.approx(sphere * exact.sagittal, abs=0.0134)
    assert sphere * martin.tangential == pytest.approx(sphere * exact.tangential, abs=0.0134)


@modest
@given(st.floats(1.0, 12.0), st.floats(1.0, 25.0), axes)
def test_induced_cylinder_lies_along_the_axis_of_turn(
    sphere: float, tilt: float, axis: float
) -> None:
    worn = tilted(Power(sphere), exact_factors(tilt, 1.5), axis).in_plus_form()
    assert worn.axis is not None
    assert axis_difference(worn.axis, axis) == pytest.approx(0.0, abs=1e-6)
    assert worn.sphere > sphere


@modest
@given(powers, tilts, tilts)
def test_right_and_left_are_mirror_images(power: Power, down: float, back: float) -> None:
    axis = None if power.axis is None else normal_axis(180.0 - power.axis)
    mirrored = Power(power.sphere, power.cylinder, axis)
    right, left = (combined_tilt(down, back, eye) for eye in (Eye.RIGHT, Eye.LEFT))
    assert right.angle == left.angle
    factors = exact_factors(right.angle, 1.5)
    m, j0, j45 = parts(tilted(power, factors, right.axis_of_turn))
    other = parts(tilted(mirrored, factors, left.axis_of_turn))
    assert other == pytest.approx((m, j0, -j45), abs=1e-9)


@pytest.mark.parametrize("eye", Eye)
@pytest.mark.parametrize(("down", "back"), [(8.0, 6.0), (10.0, 15.0), (12.0, 20.0), (0.0, 5.0)])
def test_both_tilts_by_turning_the_normal_in_space(down: float, back: float, eye: Eye) -> None:
    """The normal points outwards by the face form, then the whole front tips downwards."""
    x, z = -eye.nasal_sign * sin(radians(back)), cos(radians(back))
    y, z = -z * sin(radians(down)), z * cos(radians(down))
    tilt = combined_tilt(down, back, eye)
    assert tilt.angle == pytest.approx(degrees(acos(z)), abs=1e-6)
    lean = degrees(atan2(y, x))
    assert axis_difference(tilt.axis_of_turn, lean + 90.0) == pytest.approx(0.0, abs=1e-9)


def test_single_tilts_and_none() -> None:
    assert combined_tilt(0.0, 0.0, Eye.RIGHT).angle == 0.0
    assert combined_tilt(0.0, 0.0, Eye.LEFT).axis_of_turn == PANTOSCOPIC_AXIS
    only_down = combined_tilt(9.0, 0.0, Eye.LEFT)
    assert only_down.angle == pytest.approx(9.0)
    assert only_down.axis_of_turn == PANTOSCOPIC_AXIS
    only_back = combined_tilt(0.0, 7.0, Eye.LEFT)
    assert only_back.angle == pytest.approx(7.0)
    assert only_back.axis_of_turn == pytest.approx(FACE_FORM_AXIS)


@modest
@given(st.floats(1.0, 12.0), st.floats(1.0, 9.0), tilts, tilts)
def test_prism_from_tilt_lies_out_and_down(
    front: float, thickness: float, down: float, back: float
) -> None:
    prism = prism_from_tilt(front, thickness, 1.5, down, back)
    assert prism.base_in <= 0.0
    assert prism.base_up <= 0.0
    reverse = prism_from_tilt(front, thickness, 1.5, -down, -back)
    assert (reverse.base_in, reverse.base_up) == (-prism.base_in, -prism.base_up)


def test_centre_is_lowered_by_about_half_a_millimetre_a_degree() -> None:
    assert centre_drop(10.0) == pytest.approx(4.76, abs=0.005)
    assert centre_drop(2.0) == pytest.approx(centre_drop_by_rule(2.0), abs=0.06)
    assert centre_drop(-5.0) == -centre_drop(5.0)


@pytest.mark.parametrize("tilt", [90.0, -120.0, float("nan")])
def test_impossible_tilt_is_refused(tilt: float) -> None:
    with pytest.raises(ValueError, match=str(tilt)):
        exact_factors(tilt, 1.5)
    with pytest.raises(ValueError, match=str(tilt)):
        combined_tilt(tilt, 0.0, Eye.RIGHT)
    with pytest.raises(ValueError, match=str(tilt)):
        centre_drop(tilt)


def test_impossible_index_is_refused() -> None:
    for refuse in (exact_factors, martin_factors):
        with pytest.raises(ValueError, match=r"index 1\.0"):
            refuse(10.0, 1.0)
    with pytest.raises(ValueError, match=r"index 0\.5"):
        prism_from_tilt(6.0, 2.0, 0.5, 5.0, 5.0)
