from math import hypot

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchassist.geometry.boxing import Boxing, blank_size
from benchassist.geometry.measured import Reading, measured

sizes = st.integers(300, 700).map(lambda tenths: tenths / 10)
modest = settings(max_examples=40)


def test_centres_of_a_frame() -> None:
    frame = Boxing(52.0, 34.0, 18.0, 56.0)
    assert frame.centre_distance == 70.0
    assert frame.decentration(32.0) == 3.0
    assert frame.decentration(36.0) == -1.0
    assert frame.decentration_for_pair(64.0) == 3.0
    assert frame.height_above_centre_line(21.0) == 4.0
    assert frame.height_above_centre_line(15.5) == -1.5


@modest
@given(sizes, sizes, st.floats(14.0, 24.0), st.floats(25.0, 38.0), st.floats(25.0, 38.0))
def test_pair_is_the_mean_of_both_sides(
    a: float, b: float, dbl: float, right: float, left: float
) -> None:
    frame = Boxing(a, b, dbl)
    both = (frame.decentration(right) + frame.decentration(left)) / 2.0
    assert frame.decentration_for_pair(right + left) == pytest.approx(both)


@modest
@given(sizes, sizes)
def test_effective_diameter_lies_between_side_and_diagonal(a: float, b: float) -> None:
    longer, diagonal = max(a, b), hypot(a, b)
    assert Boxing(a, b, 18.0).has_possible_ed
    assert Boxing(a, b, 18.0, longer).has_possible_ed
    assert Boxing(a, b, 18.0, diagonal).has_possible_ed
    assert not Boxing(a, b, 18.0, longer - 0.1).has_possible_ed
    assert not Boxing(a, b, 18.0, diagonal + 0.1).has_possible_ed


@modest
@given(sizes, st.floats(-8.0, 8.0), st.sampled_from((0.0, 1.0, 2.0)), st.floats(-6.0, 6.0))
def test_blank_grows_with_decentration_either_way(
    ed: float, inwards: float, allowance: float, raised: float
) -> None:
    level = blank_size(ed, inwards, allowance)
    assert level == ed + 2.0 * abs(inwards) + allowance
    assert blank_size(ed, -inwards, allowance) == level
    assert blank_size(ed, inwards, allowance, raised) >= level


def test_uncertainty_takes_half_of_the_frame() -> None:
    def inwards(a: float, pd: float) -> float:
        return Boxing(a, 38.0, 18.0).decentration(pd)

    found = measured(inwards, a=Reading(52.0, 0.8), pd=Reading(32.0, 0.3))
    assert (found.value, found.uncertainty) == pytest.approx((3.0, 0.5))
    assert found.per_half_mm == pytest.approx(0.5)


@pytest.mark.parametrize(
    ("sizes", "named"),
    [
        ((0.0, 30.0, 18.0, None), "A 0"),
        ((50.0, -1.0, 18.0, None), "B -1"),
        ((50.0, 30.0, 0.0, None), "DBL 0"),
        ((50.0, 30.0, 18.0, 0.0), "ED 0"),
    ],
)
def test_impossible_frame_is_refused(
    sizes: tuple[float, float, float, float | None], named: str
) -> None:
    with pytest.raises(ValueError, match=named):
        Boxing(*sizes)


def test_impossible_measures_are_refused() -> None:
    frame = Boxing(50.0, 30.0, 18.0)
    with pytest.raises(ValueError, match="PD inf"):
        frame.decentration(float("inf"))
    with pytest.raises(ValueError, match="allowance -1"):
        blank_size(54.0, 2.0, -1.0)
