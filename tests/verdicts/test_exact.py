from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchassist.job.order import ComponentPrism, PolarPrism, WrittenPower
from benchassist.job.readings import DisplayReading, DrumReading
from benchassist.optics.eye import Eye
from benchassist.verdicts.exact import (
    ExactPrism,
    MinusForm,
    axis_difference,
    mean,
    mean_power,
    mean_prism,
    millionth,
    minus_form,
    read_power,
    written_power,
    written_prism,
)

D = Decimal
axes = st.integers(1, 1800).map(lambda tenths: D(tenths) / 10)
powers = st.integers(-80, 80).map(lambda quarters: D(quarters) / 4)


def test_the_minus_form_of_a_plus_cylinder() -> None:
    assert minus_form(D("-1.00"), D("2.00"), D(90)) == MinusForm(D("1.00"), D("-2.00"), D(180))
    assert minus_form(D(1), D(0), D(90)) == MinusForm(D(1), D(0), None)
    with pytest.raises(ValueError, match="needs an axis"):
        minus_form(D(1), D(1), None)


def test_the_principal_powers() -> None:
    lens = minus_form(D(1), D(-3), D(30))
    assert (lens.along, lens.across, lens.highest) == (D(1), D(-2), D(2))
    assert lens.across_axis == D(120)
    assert MinusForm(D(1), D(0), None).across_axis is None
    assert minus_form(D(2), D(-1), D(180)).vertical() == 1
    assert minus_form(D(2), D(-1), D(180)).horizontal() == 2


@given(powers, powers, axes)
def test_both_forms_of_a_lens_are_one_exact_power(sphere: D, cylinder: D, axis: D) -> None:
    across = axis + 90 if axis <= 90 else axis - 90
    assert minus_form(sphere, cylinder, axis) == minus_form(
        sphere + cylinder, -cylinder, across
    )


@given(axes, axes)
def test_the_axis_difference_turns_the_short_way(found: D, ordered: D) -> None:
    difference = axis_difference(found, ordered)
    assert -90 < difference <= 90
    assert (ordered + difference - found) % 180 == 0


def test_incomplete_powers_are_none() -> None:
    assert written_power(WrittenPower()) is None
    assert written_power(WrittenPower(sphere=D(1), cylinder=D(1))) is None
    assert written_power(WrittenPower(sphere=D(1))) == MinusForm(D(1), D(0), None)
    assert read_power(DrumReading()) is None
    assert read_power(DrumReading(sphere_lines=D(1), cylinder_lines=D(2))) is None
    assert read_power(DisplayReading(sphere=D(1))) is None
    assert read_power(DisplayReading(sphere=D(1), cylinder=D(-1))) is None
    assert read_power(DisplayReading(sphere=D(1), cylinder=D(0))) == MinusForm(D(1), D(0), None)


def test_a_drum_reading_gives_the_difference_of_its_lines() -> None:
    reading = DrumReading(sphere_lines=D(-1), cylinder_lines=D(-3), axis_wheel=D(67))
    assert read_power(reading) == MinusForm(D(-1), D(-2), D(67))


def test_a_single_reading_stays_exact() -> None:
    lens = MinusForm(D("1.125"), D("-0.375"), D("12.5"))
    assert mean_power([lens]) is lens
    assert mean([D("0.125")]) == D("0.125")
    prism = ExactPrism(D("0.1"), D("0.2"))
    assert mean_prism([prism]) == prism


def test_repeats_are_averaged_as_power_vectors() -> None:
    readings = [MinusForm(D(1), D(-1), D(1)), MinusForm(D(1), D(-1), D(179))]
    found = mean_power(readings)
    assert found.axis == 180
    assert found.cylinder == pytest.approx(D("-0.999391"), abs=D("0.000002"))
    assert mean_power([MinusForm(D(1), D(0), None)] * 2) == MinusForm(D(1), D(0), None)


@settings(max_examples=60)
@given(st.lists(st.tuples(powers, powers, axes), min_size=2, max_size=4))
def test_the_order_of_repeats_does_not_matter(lenses: list[tuple[D, D, D]]) -> None:
    readings = [minus_form(*lens) for lens in lenses]
    there, back = mean_power(readings), mean_power(readings[::-1])
    tiny = D("0.000003")
    assert abs(there.sphere - back.sphere) <= tiny
    assert abs(there.cylinder - back.cylinder) <= tiny


def test_prism_by_components_of_either_form() -> None:
    assert written_prism(None, Eye.LEFT) == ExactPrism()
    assert written_prism(ComponentPrism(base_in=D(1), base_up=D(-2)), Eye.LEFT) == ExactPrism(
        D(1), D(-2)
    )
    polar = PolarPrism(amount=D(2), base=D(180))
    assert written_prism(polar, Eye.LEFT) == ExactPrism(D(2), D(0))
    assert written_prism(polar, Eye.RIGHT) == ExactPrism(D(-2), D(0))
    assert millionth(0.1 + 0.2) == D("0.3")
