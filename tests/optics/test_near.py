import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchassist.optics.near import (
    addition,
    addition_by_back_vertex,
    addition_by_front_vertex,
    excess_by_back_vertex,
    with_addition,
)
from benchassist.optics.power import Power
from benchassist.optics.thick import ThickLens

adds = st.integers(3, 14).map(lambda quarters: quarters / 4)
modest = settings(max_examples=40)


@modest
@given(st.floats(0.0, 14.0), st.floats(-14.0, 0.0), st.floats(1.0, 8.0), adds)
def test_front_vertex_shows_an_addition_on_the_front(
    front: float, back: float, thickness: float, add: float
) -> None:
    distance = ThickLens(front, back, thickness, 1.523)
    near = ThickLens(front + add, back, thickness, 1.523)
    assert addition_by_front_vertex(distance, near) == pytest.approx(add)
    excess = addition_by_back_vertex(distance, near) - add
    assert excess == pytest.approx(excess_by_back_vertex(distance, add))
    assert excess > 0.0


@modest
@given(st.floats(0.0, 14.0), st.floats(-14.0, 0.0), st.floats(1.0, 8.0), adds)
def test_back_vertex_shows_an_addition_on_the_back(
    front: float, back: float, thickness: float, add: float
) -> None:
    distance = ThickLens(front, back, thickness, 1.6)
    near = ThickLens(front, back + add, thickness, 1.6)
    assert addition_by_back_vertex(distance, near) == pytest.approx(add)


def test_both_methods_agree_in_a_minus_lens_and_not_in_a_thick_plus_lens() -> None:
    assert excess_by_back_vertex(ThickLens(4.0, -6.0, 2.0, 1.498), 2.0) < 0.04
    assert excess_by_back_vertex(ThickLens(12.0, -2.0, 8.0, 1.523), 2.5) > 0.35


def test_thinning_between_the_points_moves_the_front_method_a_little() -> None:
    distance = ThickLens(7.0, -2.0, 4.5, 1.523)
    near = ThickLens(8.75, -2.0, 3.5, 1.523)
    assert addition_by_front_vertex(distance, near) == pytest.approx(1.75, abs=0.03)


def test_addition_keeps_the_cylinder() -> None:
    distance = Power(-1.75, -0.5, 120.0)
    assert with_addition(distance, 2.0) == Power(0.25, -0.5, 120.0)
    assert with_addition(distance, 2.0, 0.5) == Power(-0.75, -0.5, 120.0)
    assert addition(distance.sphere, with_addition(distance, 2.0).sphere) == 2.0
