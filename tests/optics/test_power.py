from math import nan

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from benchassist.optics.power import (
    Power,
    PowerMatrix,
    PowerVector,
    axis_difference,
    axis_error_cylinder,
    axis_error_for,
    difference,
    mean_of,
    normal_axis,
    sum_of,
)

dioptres = st.integers(-160, 160).map(lambda eighths: eighths / 8)
axes = st.integers(1, 180).map(float)
powers = st.builds(Power, dioptres, dioptres, axes)
angles = st.floats(-720.0, 720.0)
modest = settings(max_examples=60)


def parts(power: Power) -> tuple[float, float, float]:
    """The power vector, which tells two lenses apart whatever the form."""
    vector = power.vector()
    return vector.m, vector.j0, vector.j45


def test_sphere_has_no_axis_and_no_negative_zero() -> None:
    plano = Power(0.0, -0.0, 90.0)
    assert plano == Power(0.0)
    assert plano.axis is None
    assert str(plano.cylinder) == "0.0"
    assert plano.transposed() is plano


@pytest.mark.parametrize(
    ("sphere", "cylinder", "axis", "named"),
    [
        (nan, 0.0, None, "nan"),
        (0.0, float("inf"), 90.0, "inf"),
        (1.0, -1.0, None, "-1.0 D needs an axis"),
        (1.0, -1.0, 0.0, "axis 0.0"),
        (1.0, -1.0, 180.5, "axis 180.5"),
        (1.0, 0.0, nan, "axis nan"),
    ],
)
def test_impossible_power_is_refused_by_name(
    sphere: float, cylinder: float, axis: float | None, named: str
) -> None:
    with pytest.raises(ValueError, match=named):
        Power(sphere, cylinder, axis)


@pytest.mark.parametrize(
    ("axis", "normal"),
    [(0.0, 180.0), (180.0, 180.0), (-1.0, 179.0), (360.0, 180.0), (1e-13, 180.0), (0.5, 0.5)],
)
def test_normal_axis(axis: float, normal: float) -> None:
    assert normal_axis(axis) == normal


@pytest.mark.parametrize(
    ("axis", "reference", "apart"),
    [(1.0, 179.0, 2.0), (179.0, 1.0, -2.0), (90.0, 180.0, 90.0), (180.0, 90.0, 90.0)],
)
def test_axis_difference_goes_the_short_way(
    axis: float, reference: float, apart: float
) -> None:
    assert axis_difference(axis, reference) == apart


@modest
@given(angles, angles)
def test_axis_difference_is_an_inverse(axis: float, reference: float) -> None:
    apart = axis_difference(axis, reference)
    assert -90.0 < apart <= 90.0
    turned = abs(axis_difference(reference + apart, axis))
    assert min(turned, 180.0 - turned) == pytest.approx(0.0, abs=1e-9)


@modest
@given(powers)
def test_transposing_twice_is_the_same_lens(power: Power) -> None:
    assert power.transposed().transposed() == power


@modest
@given(powers)
def test_both_forms_are_one_lens(power: Power) -> None:
    other = power.transposed()
    assert parts(other) == pytest.approx(parts(power), abs=1e-9)
    assert power.in_minus_form().cylinder <= 0.0 <= power.in_plus_form().cylinder
    assert power.in_minus_form() == other.in_minus_form()
    assert power.in_plus_form() == other.in_plus_form()
    assert sorted(power.principal) == sorted(other.principal)


@modest
@given(powers, angles)
def test_power_along_a_meridian_does_not_depend_on_the_form(power: Power, at: float) -> None:
    along = power.along(at)
    assert along == pytest.approx(power.transposed().along(at), abs=1e-9)
    assert along + power.along(at + 90.0) == pytest.approx(2.0 * power.spherical_equivalent)
    assert min(power.principal) - 1e-9 <= along <= max(power.principal) + 1e-9


@modest
@given(powers)
def test_vector_and_matrix_lead_back(power: Power) -> None:
    minus = power.in_minus_form()
    for back in (power.vector().power(), power.matrix().power()):
        assert back.sphere == pytest.approx(minus.sphere, abs=1e-9)
        assert back.cylinder == pytest.approx(minus.cylinder, abs=1e-9)
        assert (back.axis is None) == (minus.axis is None)
        if back.axis is not None and minus.axis is not None:
            assert axis_difference(back.axis, minus.axis) == pytest.approx(0.0, abs=1e-6)


@modest
@given(powers)
def test_matrix_holds_horizontal_and_vertical_power(power: Power) -> None:
    matrix = power.matrix()
    assert matrix.f11 == pytest.approx(power.horizontal, abs=1e-9)
    assert matrix.f22 == pytest.approx(power.vertical, abs=1e-9)
    assert matrix.vector().length == pytest.approx(power.vector().length)


@modest
@given(powers, powers)
def test_sum_is_commutative_and_equals_the_sum_of_matrices(one: Power, two: Power) -> None:
    assert sum_of((one, two)) == sum_of((two, one))
    total = (one.matrix() + two.matrix()).power()
    assert parts(total) == pytest.approx(parts(sum_of((one, two))), abs=1e-9)
    added = one.vector() + two.vector()
    assert parts(added.power()) == pytest.approx(parts(total), abs=1e-9)


def test_sum_of_nothing_is_plano() -> None:
    assert sum_of(()) == Power(0.0)


@modest
@given(st.lists(powers, min_size=1, max_size=6))
def test_mean_does_not_depend_on_order_or_form(readings: list[Power]) -> None:
    mean = mean_of(readings)
    assert mean_of(reversed(readings)) == mean
    other_form = mean_of(power.transposed() for power in readings)
    assert parts(other_form) == pytest.approx(parts(mean), abs=1e-9)


@modest
@given(powers, st.integers(1, 5))
def test_mean_of_equal_readings_is_that_reading(power: Power, count: int) -> None:
    assert parts(mean_of([power] * count)) == pytest.approx(parts(power), abs=1e-9)


def test_mean_of_nothing_is_refused() -> None:
    with pytest.raises(ValueError, match="no readings"):
        mean_of(())


@modest
@given(powers, powers)
def test_difference_turns_round(measured: Power, ordered: Power) -> None:
    there, back = difference(measured, ordered), difference(ordered, measured)
    assert there.length == back.length
    assert (there + back).length == pytest.approx(0.0, abs=1e-12)


@modest
@given(dioptres, axes, st.floats(0.0, 90.0))
def test_axis_error_leaves_its_cylinder(cylinder: float, axis: float, error: float) -> None:
    assume(cylinder != 0.0)
    turned = Power(0.0, cylinder, normal_axis(axis + error))
    apart = difference(turned, Power(0.0, cylinder, axis))
    left = axis_error_cylinder(cylinder, error)
    assert apart.cross_cylinder == pytest.approx(left, abs=1e-6)
    assert axis_error_cylinder(cylinder, -error) == left
    assert axis_error_cylinder(cylinder, axis_error_for(cylinder, left)) == pytest.approx(left)


@pytest.mark.parametrize(("cylinder", "left"), [(0.0, 0.0), (0.5, 1.01), (0.5, -0.1)])
def test_impossible_residual_cylinder_is_refused(cylinder: float, left: float) -> None:
    with pytest.raises(ValueError, match=f"cannot leave {left}"):
        axis_error_for(cylinder, left)


def test_vanishing_cylinder_leaves_no_axis() -> None:
    assert PowerVector(-1.0, 1e-12, -1e-12).power() == Power(-1.0)
    assert PowerMatrix(2.0, 0.0, 2.0).power() == Power(2.0)


def test_scaled_and_added_vectors() -> None:
    vector = PowerVector(1.0, 2.0, -3.0)
    assert vector.scaled(2.0) == vector + vector
    assert vector - vector == PowerVector(0.0, 0.0, 0.0)
