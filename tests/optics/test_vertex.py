import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchassist.optics.power import Power
from benchassist.optics.vertex import effect_at, effectivity, power_change, replaced_at

eighths = st.integers(-120, 120).map(lambda count: count / 8)
powers = st.builds(Power, eighths, eighths, st.integers(1, 180).map(float))
distances = st.floats(8.0, 20.0)
modest = settings(max_examples=50)


@modest
@given(powers, distances, distances)
def test_there_and_back_is_the_same_power(power: Power, one: float, two: float) -> None:
    back = replaced_at(replaced_at(power, one, two), two, one)
    assert back.sphere == pytest.approx(power.sphere, abs=1e-9)
    assert back.cylinder == pytest.approx(power.cylinder, abs=1e-9)
    assert effect_at(power, one, two) == replaced_at(power, two, one)


@modest
@given(powers, distances)
def test_same_distance_changes_nothing(power: Power, at: float) -> None:
    assert replaced_at(power, at, at) == power


@modest
@given(powers, distances, distances)
def test_form_of_the_cylinder_does_not_matter(power: Power, one: float, two: float) -> None:
    here = replaced_at(power, one, two).in_minus_form()
    there = replaced_at(power.transposed(), one, two).in_minus_form()
    assert there.sphere == pytest.approx(here.sphere, abs=1e-9)
    assert there.cylinder == pytest.approx(here.cylinder, abs=1e-9)


def test_plus_lens_slipping_down_the_nose_is_worth_more() -> None:
    assert effect_at(Power(10.0), 12.0, 15.0).sphere > 10.0
    assert effect_at(Power(-10.0), 12.0, 15.0).sphere > -10.0


@modest
@given(eighths, st.floats(-2.0, 2.0))
def test_small_move_is_the_square_of_the_power(power: float, moved: float) -> None:
    exact = abs(effectivity(power, moved) - power)
    assert power_change(power, moved) == pytest.approx(exact, abs=0.02)


def test_lens_moved_past_its_focus_is_refused() -> None:
    with pytest.raises(ValueError, match=r"100\.0 D moved by 10\.0 mm"):
        effectivity(100.0, 10.0)
