from math import inf

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from benchassist.optics.eye import Eye
from benchassist.optics.power import Power, normal_axis
from benchassist.optics.prism import Prism, decentration_for, imbalance, prentice

eighths = st.integers(-96, 96).map(lambda count: count / 8)
powers = st.builds(Power, eighths, eighths, st.integers(1, 180).map(float))
millimetres = st.integers(-120, 120).map(lambda tenths: tenths / 10)
prisms = st.builds(Prism, eighths, eighths)
eyes = st.sampled_from(Eye)
modest = settings(max_examples=60)


def mirrored(power: Power) -> Power:
    axis = None if power.axis is None else normal_axis(180.0 - power.axis)
    return Power(power.sphere, power.cylinder, axis)


def parts(prism: Prism) -> tuple[float, float]:
    return prism.base_in, prism.base_up


@pytest.mark.parametrize(
    ("eye", "base", "expected"),
    [
        (Eye.RIGHT, 0.0, (2.0, 0.0)),
        (Eye.LEFT, 0.0, (-2.0, 0.0)),
        (Eye.RIGHT, 180.0, (-2.0, 0.0)),
        (Eye.LEFT, 180.0, (2.0, 0.0)),
        (Eye.RIGHT, 90.0, (0.0, 2.0)),
        (Eye.LEFT, 270.0, (0.0, -2.0)),
    ],
)
def test_base_settings(eye: Eye, base: float, expected: tuple[float, float]) -> None:
    prism = Prism.from_polar(2.0, base, eye)
    assert parts(prism) == pytest.approx(expected, abs=1e-12)
    assert prism.base(eye) == pytest.approx(base, abs=1e-9)


@modest
@given(prisms, eyes)
def test_polar_form_leads_back(prism: Prism, eye: Eye) -> None:
    base = prism.base(eye)
    if base is None:
        assert prism == Prism()
    else:
        assert 0.0 <= base < 360.0
        back = Prism.from_polar(prism.amount, base, eye)
        assert parts(back) == pytest.approx(parts(prism), abs=1e-9)


def test_rounding_noise_is_no_base_and_no_full_turn() -> None:
    assert Prism(1e-12, 0.0).base(Eye.RIGHT) is None
    assert Prism(2.0, -1e-14).base(Eye.RIGHT) == 0.0
    assert Prism(-2.0, -1e-14).base(Eye.LEFT) == 0.0


def test_impossible_prism_is_refused_by_name() -> None:
    with pytest.raises(ValueError, match="inf"):
        Prism(inf, 0.0)
    with pytest.raises(ValueError, match=r"-1\.0"):
        Prism.from_polar(-1.0, 90.0, Eye.LEFT)


@modest
@given(powers, millimetres, millimetres)
def test_right_and_left_are_mirror_images(power: Power, inwards: float, up: float) -> None:
    right = prentice(power, Eye.RIGHT, inwards, up)
    left = prentice(mirrored(power), Eye.LEFT, inwards, up)
    assert parts(left) == pytest.approx(parts(right), abs=1e-9)
    assert imbalance(right, left).vertical == pytest.approx(0.0, abs=1e-9)


@modest
@given(powers, eyes, millimetres, millimetres, st.floats(-3.0, 3.0))
def test_prentice_is_linear(
    power: Power, eye: Eye, inwards: float, up: float, factor: float
) -> None:
    once = prentice(power, eye, inwards, up)
    scaled = prentice(power, eye, inwards * factor, up * factor)
    assert parts(scaled) == pytest.approx(
        (once.base_in * factor, once.base_up * factor), abs=1e-9
    )
    apart = prentice(power, eye, inwards, 0.0) + prentice(power, eye, 0.0, up)
    assert parts(apart) == pytest.approx(parts(once), abs=1e-9)


@modest
@given(powers, eyes, millimetres, millimetres)
def test_prentice_does_not_depend_on_the_form(
    power: Power, eye: Eye, inwards: float, up: float
) -> None:
    other = prentice(power.transposed(), eye, inwards, up)
    assert parts(other) == pytest.approx(parts(prentice(power, eye, inwards, up)), abs=1e-9)


@modest
@given(powers, eyes, prisms)
def test_decentration_gives_the_prism_it_is_for(power: Power, eye: Eye, prism: Prism) -> None:
    assume(all(principal != 0.0 for principal in power.principal))
    found = decentration_for(power, prism, eye)
    assert found is not None
    assert parts(prentice(power, eye, *found)) == pytest.approx(parts(prism), abs=1e-9)


def test_no_power_gives_no_prism() -> None:
    assert decentration_for(Power(0.0), Prism(), Eye.RIGHT) == (0.0, 0.0)
    assert decentration_for(Power(0.0), Prism(1.0), Eye.RIGHT) is None


def test_cylinder_alone_reaches_one_direction_only() -> None:
    lens = Power(0.0, -2.0, 90.0)
    assert decentration_for(lens, Prism(1.0, 0.0), Eye.LEFT) == pytest.approx((-5.0, 0.0))
    assert decentration_for(lens, Prism(0.0, 1.0), Eye.LEFT) is None
    assert decentration_for(lens, Prism(1.0, 1.0), Eye.LEFT) is None


def test_cross_term_that_the_power_of_a_meridian_drops() -> None:
    """Power along 90 is zero, and looking 12 mm below still meets 3 prism dioptres base in."""
    prism = prentice(Power(-2.5, 5.0, 135.0), Eye.RIGHT, 0.0, 12.0)
    assert parts(prism) == pytest.approx((3.0, 0.0), abs=1e-12)


@modest
@given(prisms, prisms)
def test_pair_adds_horizontally_and_cancels_vertically(one: Prism, two: Prism) -> None:
    pair = imbalance(one, two)
    assert pair.horizontal == one.base_in + two.base_in
    assert pair.vertical == one.base_up - two.base_up
    assert imbalance(two, one).vertical == -pair.vertical
    assert (one + two) - two == one
