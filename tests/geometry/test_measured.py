from math import atan, cos, degrees, hypot, radians, sqrt

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchassist.geometry.alignment import AlongFront, LeanGaps, x_ing
from benchassist.geometry.angles import angle_of_gap, angle_uncertainty
from benchassist.geometry.bench_measured import (
    Tools,
    measured_fold,
    measured_form_from_depth,
    measured_four_point,
    measured_inverted,
    measured_lens_turn,
    measured_open_angle,
    measured_pantoscopic,
    measured_skew,
    measured_two_way,
    measured_upright,
    measured_x_ing,
)
from benchassist.geometry.measured import Measured, Reading, measured
from benchassist.geometry.possible import Impossible
from benchassist.geometry.touch import Gaps
from benchassist.optics.eye import Eye

modest = settings(max_examples=30)
errors = st.floats(0.0, 1.0)
RULE, FEELER = Tools(0.5), Tools(0.1)
LEVEL = AlongFront(0.0, 0.0, 0.0, 0.0)
EVEN = LeanGaps(0.0, 0.0)
DOWN = Gaps(0.0, 0.0)


@modest
@given(st.floats(-9.0, 9.0), st.floats(30.0, 130.0), errors, errors)
def test_the_rule_is_that_of_the_partial_derivatives(
    gap: float, base: float, u_gap: float, u_base: float
) -> None:
    found = measured(angle_of_gap, gap=Reading(gap, u_gap), base=Reading(base, u_base))
    square = gap**2 + base**2
    assert found.value == angle_of_gap(gap, base)
    expected = degrees(hypot(base / square * u_gap, gap / square * u_base))
    assert found.uncertainty == pytest.approx(expected, rel=1e-6, abs=1e-9)
    assert found.per_half_mm == pytest.approx(degrees(0.5 * base / square), rel=1e-6)


@modest
@given(st.floats(-9.0, 9.0), st.floats(30.0, 130.0))
def test_half_a_millimetre_is_about_what_a_wrong_reading_does(gap: float, base: float) -> None:
    found = measured(angle_of_gap, gap=Reading(gap), base=Reading(base))
    wrong = abs(angle_of_gap(gap + 0.5, base) - found.value)
    assert wrong == pytest.approx(found.per_half_mm, rel=0.02)


def test_a_reading_at_the_edge_moves_the_possible_way_only() -> None:
    def below_two(gap: float) -> float:
        if gap > 2.0:
            raise Impossible("too much")
        return 3.0 * gap

    assert measured(below_two, gap=Reading(2.0, 0.1)).uncertainty == pytest.approx(0.3)
    touching = measured_upright(DOWN, 128.0, FEELER)
    assert touching.uncertainty == pytest.approx(angle_uncertainty(0.1, 128.0), rel=1e-5)
    with pytest.raises(Impossible, match="too much"):
        measured(below_two, gap=Reading(3.0, 0.1))


def test_a_reading_that_can_move_no_way_adds_nothing() -> None:
    def only_two(gap: float) -> float:
        if gap != 2.0:
            raise Impossible("only two")
        return gap

    assert measured(only_two, gap=Reading(2.0, 0.1)) == Measured(2.0, 0.0, 0.0)


def test_two_sides_are_compared() -> None:
    apart = Measured(95.0, 0.3, 0.28).minus(Measured(92.0, 0.4, 0.3))
    assert (apart.value, apart.uncertainty, apart.per_half_mm) == pytest.approx((3.0, 0.5, 0.3))


def test_an_uncertainty_below_zero_is_refused() -> None:
    with pytest.raises(ValueError, match=r"-0\.1"):
        measured(angle_of_gap, gap=Reading(1.0, -0.1), base=Reading(50.0))


RESOLUTION = [
    ("slope or form by rule", measured_lens_turn(Eye.LEFT, 0.0, 0.0, 50.0, RULE), 0.8),
    ("slope or form by feeler", measured_lens_turn(Eye.LEFT, 0.0, 0.0, 50.0, FEELER), 0.16),
    ("touch by rule", measured_upright(DOWN, 128.0, RULE), 0.32),
    ("touch by feeler", measured_inverted(DOWN, 128.0, FEELER), 0.06),
    ("engravings by eye", measured_lens_turn(Eye.RIGHT, 0.0, 0.0, 34.0, RULE), 1.2),
    (
        "engravings by graticule",
        measured_lens_turn(Eye.RIGHT, 0.0, 0.0, 34.0, Tools(0.25)),
        0.6,
    ),
]


@pytest.mark.parametrize(
    ("what", "found", "printed"), RESOLUTION, ids=[r[0] for r in RESOLUTION]
)
def test_resolution_of_two_readings(what: str, found: Measured, printed: float) -> None:
    decimals = len(str(printed).partition(".")[2])
    assert round(found.uncertainty, decimals) == printed, what


def test_x_ing_has_four_readings_and_is_less_sure_than_two() -> None:
    by_rule = measured_x_ing(EVEN, EVEN, 36.0, RULE)
    assert by_rule.uncertainty == pytest.approx(sqrt(2.0) * angle_uncertainty(0.5, 36.0))
    assert by_rule.uncertainty == pytest.approx(1.59, abs=0.005)
    assert by_rule.per_half_mm == pytest.approx(0.80, abs=0.005)
    assert measured_x_ing(EVEN, EVEN, 36.0, FEELER).uncertainty == pytest.approx(
        0.32, abs=0.005
    )


def test_the_rule_foretells_how_readings_scatter() -> None:
    random = np.random.default_rng(4)
    right, left = LeanGaps(0.5, 2.5), LeanGaps(1.8, 1.2)
    off = random.normal(0.0, 0.1, (3000, 4))
    found = [
        x_ing(LeanGaps(0.5 + a, 2.5 + b), LeanGaps(1.8 + c, 1.2 + d), 36.0)
        for a, b, c, d in off.tolist()
    ]
    told = measured_x_ing(right, left, 36.0, FEELER)
    assert np.mean(found) == pytest.approx(told.value, abs=0.02)
    assert np.std(found) == pytest.approx(told.uncertainty, rel=0.05)


@modest
@given(st.floats(30.0, 60.0), st.floats(0.0, 14.0), errors)
def test_steps_add_four_readings(width: float, span: float, u: float) -> None:
    carried = span / width
    expected = u * sqrt(2.0 * ((1.0 + carried) ** 2 + carried**2))
    tools = Tools(u, length=0.5)
    skewed = measured_skew(LEVEL, width, span, tools)
    front = measured_four_point(LEVEL, width, span, tools)
    assert skewed.uncertainty == pytest.approx(expected, abs=1e-6)
    assert front.step.uncertainty == pytest.approx(expected, abs=1e-6)
    assert skewed.per_half_mm == pytest.approx(0.5 * (1.0 + carried))
    total = sqrt(2.0) * angle_uncertainty(u, width)
    assert front.total.uncertainty == pytest.approx(total, abs=1e-6)


def test_form_from_depth() -> None:
    found = measured_form_from_depth(5.5, 130.0, RULE)
    assert found.value == pytest.approx(4.84, abs=0.005)
    assert found.uncertainty == pytest.approx(0.44, abs=0.005)


def test_temples() -> None:
    opened = measured_open_angle(8.0, 100.0, Tools(0.5, length=1.0))
    steepness = degrees(100.0 / (100.0**2 + 8.0**2))
    assert opened.value == pytest.approx(94.6, abs=0.05)
    assert opened.uncertainty == pytest.approx(steepness * hypot(0.5, 0.08), rel=1e-6)
    tilted = measured_pantoscopic(5.6, 40.0, RULE)
    assert tilted.uncertainty == pytest.approx(degrees(0.5 / 40.0 / cos(radians(tilted.value))))
    assert tilted.per_half_mm == pytest.approx(tilted.uncertainty)


@modest
@given(errors, st.floats(0.0, 5.0), st.floats(0.0, 5.0))
def test_the_two_way_split(u: float, upright: float, inverted: float) -> None:
    found = measured_two_way(Gaps(0.0, upright), 128.0, Gaps(inverted, 0.0), 100.0, Tools(u))
    carried = 128.0 / 100.0
    expected = sqrt(2.0 * (1.0 + carried**2)) * u
    assert found.right_tip_lower.uncertainty == pytest.approx(expected, abs=1e-6)
    assert found.right_temple_lower.value == pytest.approx(degrees(atan(inverted / 100.0)))
    assert found.right_temple_lower.uncertainty <= angle_uncertainty(u, 100.0) + 1e-6


def test_fold() -> None:
    folded = measured_fold(3.0, 3.0, 66.0, RULE)
    assert folded.value == 0.0
    assert folded.uncertainty == pytest.approx(angle_uncertainty(0.5, 66.0), rel=0.01)
