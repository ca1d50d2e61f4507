from math import cos, radians, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchassist.optics.centration import (
    Centre,
    fitting_error_prism,
    image_jump,
    imbalance_below,
    split,
    thinning_prism,
    vertical_prism_band,
)
from benchassist.optics.eye import Eye
from benchassist.optics.power import Power
from benchassist.optics.prism import Imbalance, imbalance, prentice

eighths = st.integers(-96, 96).map(lambda count: count / 8)
powers = st.builds(Power, eighths, eighths, st.integers(1, 180).map(float))
modest = settings(max_examples=50)


@modest
@given(powers, st.sampled_from(Eye), st.floats(25.0, 38.0), st.floats(10.0, 30.0))
def test_centre_where_it_was_ordered_gives_no_prism(
    power: Power, eye: Eye, pd: float, height: float
) -> None:
    here = Centre(pd, height)
    assert fitting_error_prism(power, eye, here, here).amount == 0.0


def test_plus_lens_set_too_wide_gives_base_out() -> None:
    ordered, wide = Centre(32.0, 20.0), Centre(34.0, 20.0)
    assert fitting_error_prism(Power(5.0), Eye.LEFT, ordered, wide).base_in == -1.0
    assert fitting_error_prism(Power(-5.0), Eye.LEFT, ordered, wide).base_in == 1.0


@modest
@given(powers, st.floats(0.0, 15.0))
def test_equal_spheres_stay_balanced_below(power: Power, level: float) -> None:
    sphere = Power(power.sphere)
    assert imbalance_below(sphere, sphere, level) == Imbalance(0.0, 0.0)
    assert imbalance_below(power, power, 0.0) == Imbalance(0.0, 0.0)


@modest
@given(eighths, eighths)
def test_split_shares_out_the_whole(horizontal: float, vertical: float) -> None:
    total = Imbalance(horizontal, vertical)
    right, left = split(total)
    assert imbalance(right, left) == total
    assert right.base_in == left.base_in
    assert right.base_up == -left.base_up


@modest
@given(st.floats(0.75, 4.0))
def test_thinning_prism_leaves_the_pair_balanced(addition: float) -> None:
    prism = thinning_prism(addition)
    assert prism.base_up < 0.0
    assert imbalance(prism, prism).vertical == 0.0


def test_image_jump() -> None:
    assert image_jump(2.0, 5.0) == 1.0


@modest
@given(powers, st.floats(0.1, 4.0), st.floats(0.0, 180.0))
def test_band_ends_where_the_prism_is_reached(
    power: Power, amount: float, meridian: float
) -> None:
    band = vertical_prism_band(power, amount)
    if band is None:
        assert prentice(power, Eye.RIGHT, 3.0, 7.0).base_up == pytest.approx(0.0, abs=1e-9)
        return
    assert -90.0 < band.inclination <= 90.0
    assert band.reach(band.inclination) is None
    assert band.reach(band.inclination + 90.0) == pytest.approx(band.half_width)
    along = band.reach(meridian)
    if along is not None and along < 1e6:
        x, y = along * cos(radians(meridian)), along * sin(radians(meridian))
        found = prentice(power, Eye.RIGHT, x, y).base_up
        assert abs(found) == pytest.approx(amount, abs=1e-6)


def test_band_of_a_sphere_is_level() -> None:
    band = vertical_prism_band(Power(-5.0), 1.0)
    assert band is not None
    assert band.half_width == 2.0
    assert band.inclination == 0.0


def test_lens_without_vertical_prism_has_no_band() -> None:
    assert vertical_prism_band(Power(0.0, -2.0, 90.0), 1.0) is None
    with pytest.raises(ValueError, match=r"-1\.0"):
        vertical_prism_band(Power(1.0), -1.0)


def test_fitting_error_of_the_pair_on_mirrored_axes() -> None:
    """Equal errors on mirrored oblique cylinders make equal vertical prism: no imbalance."""
    ordered, wide = Centre(32.0, 20.0), Centre(34.0, 20.0)
    right = fitting_error_prism(Power(2.0, -1.5, 45.0), Eye.RIGHT, ordered, wide)
    left = fitting_error_prism(Power(2.0, -1.5, 135.0), Eye.LEFT, ordered, wide)
    assert right.base_up == pytest.approx(left.base_up)
    assert right.base_up != 0.0
    assert imbalance(right, left).vertical == pytest.approx(0.0, abs=1e-12)
    assert imbalance(right, left).horizontal == pytest.approx(-0.5)
