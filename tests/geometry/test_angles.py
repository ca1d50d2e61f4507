from math import inf, nan

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchassist.geometry.angles import (
    angle_of_gap,
    angle_of_rise,
    angle_uncertainty,
    gap_of_angle,
    positive,
)

gaps = st.floats(-30.0, 30.0)
bases = st.floats(10.0, 200.0)
modest = settings(max_examples=50)


@modest
@given(gaps, bases)
def test_angle_and_gap_lead_back(gap: float, base: float) -> None:
    assert gap_of_angle(angle_of_gap(gap, base), base) == pytest.approx(gap, abs=1e-9)
    assert angle_of_gap(-gap, base) == -angle_of_gap(gap, base)


@modest
@given(gaps, st.floats(0.01, 10.0), bases)
def test_larger_gap_gives_larger_angle(gap: float, more: float, base: float) -> None:
    assert angle_of_gap(gap + more, base) > angle_of_gap(gap, base)


@modest
@given(bases)
def test_no_gap_is_no_angle(base: float) -> None:
    assert angle_of_gap(0.0, base) == 0.0
    assert angle_of_rise(0.0, base) == 0.0
    assert gap_of_angle(0.0, base) == 0.0


def test_sine_and_tangent() -> None:
    assert angle_of_rise(1.0, 2.0) == pytest.approx(30.0)
    assert angle_of_rise(-2.0, 2.0) == pytest.approx(-90.0)
    assert angle_of_gap(5.0, 5.0) == pytest.approx(45.0)


@modest
@given(st.floats(0.0, 1.0), bases, st.floats(0.0, 5.0))
def test_uncertainty_covers_the_shift_it_stands_for(u: float, base: float, gap: float) -> None:
    """Two readings apart by sqrt 2 u move the angle by no more than its uncertainty."""
    moved = angle_of_gap(gap + 2.0**0.5 * u, base) - angle_of_gap(gap, base)
    assert moved <= angle_uncertainty(u, base) + 1e-9


@pytest.mark.parametrize(
    ("tool", "base", "u", "printed"),
    [
        ("rule on one lens", 50.0, 0.5, 0.8),
        ("feeler on one lens", 50.0, 0.1, 0.16),
        ("rule at a tip", 128.0, 0.5, 0.32),
        ("feeler at a tip", 128.0, 0.1, 0.06),
        ("rule over one lens height", 36.0, 0.5, 1.1),
        ("feeler over one lens height", 36.0, 0.1, 0.23),
        ("engravings by eye", 34.0, 0.5, 1.2),
        ("engravings by graticule", 34.0, 0.25, 0.6),
        ("rule behind the hinge", 100.0, 0.5, 0.4),
    ],
)
def test_resolution_of_the_bench_tools(
    tool: str, base: float, u: float, printed: float
) -> None:
    decimals = len(str(printed).partition(".")[2])
    assert round(angle_uncertainty(u, base), decimals) == printed, tool


def test_impossible_input_is_refused_by_name() -> None:
    with pytest.raises(ValueError, match="gap nan"):
        angle_of_gap(nan, 50.0)
    with pytest.raises(ValueError, match=r"base 0\.0 must be above zero"):
        angle_of_gap(1.0, 0.0)
    with pytest.raises(ValueError, match="length inf"):
        angle_of_rise(1.0, inf)
    with pytest.raises(ValueError, match=r"rise 3\.0 is larger than the length 2\.0"):
        angle_of_rise(3.0, 2.0)
    with pytest.raises(ValueError, match=r"angle -90\.0"):
        gap_of_angle(-90.0, 50.0)
    with pytest.raises(ValueError, match=r"reading -0\.1 cannot be below zero"):
        angle_uncertainty(-0.1, 50.0)
    assert positive(2.5, "span") == 2.5
