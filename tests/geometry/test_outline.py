"""The lens shape touches its box, reaches its effective diameter and stays smooth."""

from itertools import pairwise
from math import hypot, pi, sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchassist.geometry.figure import bounds
from benchassist.geometry.outline import (
    arc,
    curve,
    default_ed,
    edge_at,
    effective_diameter,
    lens_outline,
    offset,
    ribbon,
    side_at,
)

SIZES = st.tuples(st.floats(30, 70), st.floats(18, 60))


@settings(max_examples=30, deadline=None)
@given(SIZES)
def test_the_outline_touches_all_four_sides_of_its_box(size: tuple[float, float]) -> None:
    a, b = size
    assert bounds(lens_outline(a, b)) == pytest.approx((-a / 2, -b / 2, a / 2, b / 2))


@pytest.mark.parametrize("ed", [53.0, 55.0, 57.0, 60.0])
def test_the_outline_has_the_effective_diameter_ordered(ed: float) -> None:
    assert effective_diameter(lens_outline(52, 40, ed)) == pytest.approx(ed, abs=0.05)


def test_a_diameter_that_the_box_cannot_take_gives_the_nearest_shape() -> None:
    smallest = effective_diameter(lens_outline(52, 40, 10))
    largest = effective_diameter(lens_outline(52, 40, 200))
    assert smallest == pytest.approx(52, abs=0.8)
    assert largest < hypot(52, 40)
    assert largest > hypot(52, 40) - 4


def test_the_usual_diameter_lies_between_round_and_square() -> None:
    assert 52 < default_ed(52, 40) < hypot(52, 40)
    assert default_ed(40, 52) == default_ed(52, 40)


@settings(max_examples=30, deadline=None)
@given(SIZES)
def test_the_outline_has_no_corner(size: tuple[float, float]) -> None:
    """Each step turns by a small angle, always to the left."""
    points = lens_outline(*size)
    for number, here in enumerate(points):
        back, ahead = points[number - 1], points[(number + 1) % len(points)]
        one = (here[0] - back[0], here[1] - back[1])
        two = (ahead[0] - here[0], ahead[1] - here[1])
        turn = (one[0] * two[1] - one[1] * two[0]) / (hypot(*one) * hypot(*two))
        assert -1e-9 < turn < 0.5


@pytest.mark.parametrize(("a", "b"), [(0, 40), (52, 0), (-52, 40)])
def test_a_box_without_room_is_refused(a: float, b: float) -> None:
    with pytest.raises(ValueError, match="holds no lens"):
        lens_outline(a, b)


def test_an_outline_grows_by_the_distance_on_every_side() -> None:
    outline = lens_outline(52, 40)
    assert bounds(offset(outline, 2)) == pytest.approx((-28, -22, 28, 22), abs=0.02)
    assert bounds(offset(outline, -2)) == pytest.approx((-24, -18, 24, 18), abs=0.02)


def test_an_offset_leaves_a_point_without_neighbours_where_it_is() -> None:
    assert offset(((1.0, 2.0), (1.0, 2.0)), 3.0) == ((1.0, 2.0), (1.0, 2.0))


def test_the_outline_is_cut_at_a_height_and_at_a_width() -> None:
    square = ((-10.0, -5.0), (10.0, -5.0), (10.0, 5.0), (-10.0, 5.0))
    assert side_at(square, 0, is_nasal=True) == 10
    assert side_at(square, 0, is_nasal=False) == -10
    assert edge_at(square, 3, is_upper=True) == 5
    assert edge_at(square, 3, is_upper=False) == -5


def test_beyond_the_outline_its_last_point_is_given() -> None:
    kite = ((0.0, -5.0), (4.0, 0.0), (1.0, 5.0), (-4.0, 0.0))
    assert side_at(kite, 99, is_nasal=True) == pytest.approx(1)
    assert edge_at(kite, -99, is_upper=True) == pytest.approx(0)


def test_curves_and_arcs_run_from_end_to_end() -> None:
    bent = curve((0, 0), (0, 1), (1, 1), (1, 0))
    assert (bent[0], bent[-1]) == ((0, 0), (1, 0))
    assert bent[8] == pytest.approx((0.5, 0.75))
    round_ = arc((1, 1), 2, 0, 90)
    assert round_[0] == pytest.approx((3, 1))
    assert round_[-1] == pytest.approx((1, 3))
    length = sum(hypot(q[0] - p[0], q[1] - p[1]) for p, q in pairwise(round_))
    assert length == pytest.approx(pi, abs=0.01)


def test_a_ribbon_is_as_wide_as_asked() -> None:
    band = ribbon(((0.0, 0.0), (10.0, 0.0)), (2.0, 4.0))
    assert list(band) == [(0, 1), (10, 2), (10, -2), (0, -1)]
    slanted = ribbon(((0.0, 0.0), (1.0, 1.0)), (sqrt(2), sqrt(2)))
    assert slanted[0] == pytest.approx((-0.5, 0.5))
    assert list(ribbon(((1.0, 1.0),), (2.0,))) == [(1, 1), (1, 1)]
