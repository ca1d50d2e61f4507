from math import inf

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchassist.optics.thick import (
    ThickLens,
    base_curve_by_vogel,
    clocked_index,
    clocked_power,
    edge_thickness,
    power_magnification,
    sag,
    spectacle_magnification,
    surface_power,
    surface_radius,
    thickness_difference,
)

surfaces = st.floats(-15.0, 15.0)
thicknesses = st.floats(0.0, 10.0)
modest = settings(max_examples=50)


@modest
@given(surfaces, surfaces, thicknesses)
def test_turned_round_the_vertex_powers_change_places(
    front: float, back: float, thickness: float
) -> None:
    lens = ThickLens(front, back, thickness, 1.5)
    turned = ThickLens(back, front, thickness, 1.5)
    assert turned.back_vertex_power == pytest.approx(lens.front_vertex_power)
    assert turned.equivalent_power == pytest.approx(lens.equivalent_power)
    expected = lens.equivalent_power * lens.shape_factor
    assert lens.back_vertex_power == pytest.approx(expected, abs=1e-9)


@modest
@given(surfaces, surfaces)
def test_without_thickness_all_powers_are_one(front: float, back: float) -> None:
    lens = ThickLens(front, back, 0.0, 1.5)
    assert lens.nominal_power == lens.equivalent_power == lens.back_vertex_power
    assert lens.shape_factor == 1.0


@pytest.mark.parametrize(
    ("front", "back", "thickness", "index", "named"),
    [
        (inf, 0.0, 2.0, 1.5, "inf"),
        (6.0, 0.0, -1.0, 1.5, "thickness -1.0"),
        (6.0, 0.0, 2.0, 1.0, "index 1.0"),
        (300.0, 0.0, 10.0, 1.5, "300.0 D focuses"),
        (0.0, 300.0, 10.0, 1.5, "300.0 D focuses"),
    ],
)
def test_impossible_lens_is_refused(
    front: float, back: float, thickness: float, index: float, named: str
) -> None:
    with pytest.raises(ValueError, match=named):
        ThickLens(front, back, thickness, index)


@modest
@given(st.floats(0.5, 15.0), st.floats(1.4, 1.9))
def test_radius_and_power_lead_back(power: float, index: float) -> None:
    assert surface_power(surface_radius(power, index), index) == pytest.approx(power)
    assert surface_radius(-power, index) == -surface_radius(power, index)


def test_flat_surfaces_are_refused() -> None:
    with pytest.raises(ValueError, match="0 mm"):
        surface_power(0.0, 1.5)
    with pytest.raises(ValueError, match="flat"):
        surface_radius(0.0, 1.5)


@modest
@given(st.floats(-12.0, 12.0), st.floats(1.4, 1.9))
def test_clock_made_for_the_material_shows_the_truth(reading: float, index: float) -> None:
    assert clocked_power(reading, index, index) == pytest.approx(reading)
    assert clocked_power(reading, index, 1.523) * 0.523 == pytest.approx(
        clocked_power(reading, index, 1.53) * 0.53
    )


def test_index_from_the_clock() -> None:
    front, back = (clocked_power(reading, 1.67, 1.53) for reading in (6.0, -3.0))
    assert clocked_index(6.0, -3.0, front + back, 1.53) == pytest.approx(1.67)
    with pytest.raises(ValueError, match="cancel"):
        clocked_index(4.0, -4.0, 1.0, 1.53)


@modest
@given(st.floats(40.0, 500.0), st.floats(0.0, 35.0))
def test_sag_has_the_sign_of_the_radius(radius: float, height: float) -> None:
    depth = sag(radius, height)
    assert sag(-radius, height) == -depth
    assert depth >= height**2 / (2.0 * radius) - 1e-9


def test_sag_beyond_the_sphere_is_refused() -> None:
    assert sag(24.0, 24.0) == 24.0
    with pytest.raises(ValueError, match=r"24\.1 mm lies outside"):
        sag(24.0, 24.1)


def test_edge_by_exact_and_by_short_form() -> None:
    front, back = surface_radius(8.0, 1.5), surface_radius(4.0, 1.5)
    centre = 5.0
    exact = centre - edge_thickness(centre, front, back, 20.0)
    assert thickness_difference(4.0, 20.0, 1.5) == pytest.approx(exact, rel=0.15)
    assert edge_thickness(centre, front, front, 20.0) == centre


@pytest.mark.parametrize(("equivalent", "base"), [(2.0, 8.0), (0.0, 6.0), (-4.0, 4.0)])
def test_base_curve_by_vogel(equivalent: float, base: float) -> None:
    assert base_curve_by_vogel(equivalent) == base


def test_magnification_grows_for_plus_and_shrinks_for_minus() -> None:
    plus, minus = ThickLens(9.0, -3.0, 5.0, 1.5), ThickLens(2.0, -8.0, 1.5, 1.6)
    assert spectacle_magnification(plus, 15.0) > 1.0 > spectacle_magnification(minus, 15.0)
    with pytest.raises(ValueError, match="before the pupil"):
        power_magnification(100.0, 10.0)
