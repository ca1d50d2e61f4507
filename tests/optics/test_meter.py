import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchassist.optics.eye import Eye
from benchassist.optics.meter import (
    power_from_drum,
    prism_from_reticle,
    reticle_target,
    zero_corrected,
)
from benchassist.optics.power import Power
from benchassist.optics.prism import Prism

drum = st.integers(-160, 160).map(lambda eighths: eighths / 8)
rings = st.integers(-20, 20).map(lambda quarters: quarters / 4)
modest = settings(max_examples=50)


def test_sphere_needs_no_axis() -> None:
    assert power_from_drum(-2.0, -2.0) == Power(-2.0)


def test_cylinder_without_axis_is_refused() -> None:
    with pytest.raises(ValueError, match=r"-0\.5 D needs an axis"):
        power_from_drum(-2.0, -2.5)


@modest
@given(drum, drum, st.integers(0, 180))
def test_turning_the_wheel_by_90_reads_the_other_form(one: float, two: float, at: int) -> None:
    there = power_from_drum(one, two, at)
    back = power_from_drum(two, one, (at + 90) % 180)
    assert there.transposed() == back
    assert there.principal == (one, two)


def test_wheel_at_zero_reads_as_180() -> None:
    assert power_from_drum(1.0, 0.5, 0.0) == power_from_drum(1.0, 0.5, 180.0)


@modest
@given(drum, drum)
def test_zero_error_moves_the_sphere_only(sphere: float, zero: float) -> None:
    corrected = zero_corrected(Power(sphere, -1.5, 20.0), zero)
    assert corrected == Power(sphere - zero, -1.5, 20.0)


@modest
@given(rings, rings, st.sampled_from(Eye))
def test_target_moves_towards_the_base(right: float, up: float, eye: Eye) -> None:
    prism = prism_from_reticle(right, up, eye)
    assert reticle_target(prism, eye) == (right, up)
    mirrored = prism_from_reticle(-right, up, eye.other)
    assert mirrored == prism


def test_target_to_the_right_is_base_in_for_the_right_eye() -> None:
    assert prism_from_reticle(1.0, 0.0, Eye.RIGHT) == Prism(1.0, 0.0)
    assert prism_from_reticle(1.0, 0.0, Eye.LEFT) == Prism(-1.0, 0.0)
