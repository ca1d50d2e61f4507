from itertools import permutations
from math import sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchassist.optics.power import Power, mean_of
from benchassist.optics.uncertainty import (
    acceptance_limits,
    combined,
    conformance_probability,
    false_acceptance,
    guard_band,
    power_repeats,
    rectangular_uncertainty,
    repeats,
    resolution_uncertainty,
)

values = st.floats(-20.0, 20.0)
uncertainties = st.floats(0.001, 1.0)
modest = settings(max_examples=50)


def test_examples_of_the_decision_guide() -> None:
    assert conformance_probability(13.6, 1.8, 12.5, 16.3) == pytest.approx(0.66, abs=0.005)
    assert conformance_probability(-5.47, 0.05, upper=-5.4) == pytest.approx(0.92, abs=0.005)


@modest
@given(values, uncertainties)
def test_on_a_single_limit_the_chance_is_even(limit: float, u: float) -> None:
    assert conformance_probability(limit, u, upper=limit) == 0.5
    assert conformance_probability(limit, u, lower=limit) == 0.5
    assert conformance_probability(limit, u) == 1.0


@modest
@given(values, uncertainties, st.floats(0.01, 1.0))
def test_both_limits_are_alike(middle: float, u: float, half: float) -> None:
    inside = conformance_probability(middle + half / 2, u, middle - half, middle + half)
    mirror = conformance_probability(middle - half / 2, u, middle - half, middle + half)
    assert inside == pytest.approx(mirror, abs=1e-9)
    assert 0.0 <= inside <= 1.0


def test_without_uncertainty_the_limit_itself_decides() -> None:
    assert conformance_probability(0.12, 0.0, -0.12, 0.12) == 1.0
    assert conformance_probability(0.13, 0.0, -0.12, 0.12) == 0.0
    assert false_acceptance(0.1, 0.0) == 0.0


def test_impossible_input_is_refused() -> None:
    with pytest.raises(ValueError, match=r"uncertainty -0\.1"):
        conformance_probability(0.0, -0.1)
    with pytest.raises(ValueError, match=r"lower limit 2"):
        conformance_probability(0.0, 0.1, 2.0, 1.0)
    with pytest.raises(ValueError, match=r"guard band 0\.2"):
        acceptance_limits(-0.12, 0.12, 0.2)
    with pytest.raises(ValueError, match="uncertainty nan"):
        guard_band(float("nan"))
    with pytest.raises(ValueError, match="no readings"):
        repeats(())
    with pytest.raises(ValueError, match="no readings"):
        power_repeats(())


def test_guard_band_and_its_risk() -> None:
    assert guard_band(0.03) == 0.06
    assert acceptance_limits(-0.12, 0.12, 0.06) == (-0.06, 0.06)
    assert false_acceptance(guard_band(0.03), 0.03) < 0.025
    assert false_acceptance(guard_band(0.03, 1.645), 0.03) == pytest.approx(0.05, abs=0.0005)
    assert false_acceptance(0.0, 0.03) == 0.5


def test_what_a_drum_and_a_meter_add() -> None:
    assert resolution_uncertainty(0.125) == pytest.approx(0.036, abs=0.0005)
    assert rectangular_uncertainty(0.06) == pytest.approx(0.0346, abs=0.0001)
    assert combined(0.03, 0.04) == pytest.approx(0.05)
    assert combined() == 0.0


def test_a_single_reading_has_no_spread() -> None:
    single = repeats((-1.25,))
    assert (single.count, single.mean) == (1, -1.25)
    assert single.deviation is None
    assert single.of_mean is None


def test_spread_divides_by_one_less_than_the_count() -> None:
    three = repeats((1.0, 1.25, 1.5))
    assert three.mean == 1.25
    assert three.deviation == 0.25
    assert three.of_mean == 0.25 / sqrt(3.0)


@modest
@given(st.lists(values, min_size=2, max_size=5))
def test_order_of_readings_does_not_matter(readings: list[float]) -> None:
    assert {repeats(order) for order in permutations(readings)} == {repeats(readings)}


eighths = st.integers(-60, 60).map(lambda count: count / 8)
powers = st.builds(Power, eighths, eighths, st.integers(1, 180).map(float))


@modest
@given(st.lists(powers, min_size=1, max_size=4))
def test_order_of_power_readings_does_not_matter(readings: list[Power]) -> None:
    found = power_repeats(readings)
    assert power_repeats(reversed(readings)) == found
    assert found.mean == mean_of(readings)
    assert found.count == len(readings)
    assert found.widest >= 0.0


def test_power_readings_in_both_forms_agree() -> None:
    reading = Power(-1.0, -0.5, 90.0)
    found = power_repeats((reading, reading.transposed()))
    assert found.widest == pytest.approx(0.0, abs=1e-12)
    assert found.m.deviation == 0.0
    assert found.j0.deviation == pytest.approx(0.0, abs=1e-12)
    assert found.j45.mean == pytest.approx(0.0, abs=1e-12)
