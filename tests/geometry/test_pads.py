import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchassist.geometry.pads import (
    Centration,
    frontal_angle,
    shifted,
    splay_angle,
    way_out,
)


def test_angles_of_a_pair_of_pads() -> None:
    assert frontal_angle(14.0, 22.0, 12.0) == pytest.approx(18.4, abs=0.05)
    assert splay_angle(12.0, 20.0, 8.0) == pytest.approx(26.6, abs=0.05)
    assert frontal_angle(18.0, 18.0, 12.0) == 0.0


def test_front_moves_when_the_pads_do() -> None:
    assert way_out(1.0, 20.0) == pytest.approx(2.7, abs=0.05)
    assert way_out(1.0, 30.0) == pytest.approx(1.7, abs=0.05)
    assert way_out(-0.5, 25.0) == pytest.approx(-1.07, abs=0.005)


@settings(max_examples=40)
@given(st.floats(0.1, 3.0), st.floats(5.0, 80.0), st.floats(0.1, 5.0))
def test_steeper_pads_move_the_front_less(each: float, angle: float, more: float) -> None:
    assert way_out(each, angle + more) < way_out(each, angle)
    assert way_out(-each, angle) == -way_out(each, angle)


@settings(max_examples=40)
@given(st.floats(28.0, 36.0), st.floats(28.0, 36.0), st.floats(-2.0, 2.0))
def test_pads_moved_sideways_keep_the_sum(right: float, left: float, moved: float) -> None:
    found = shifted(Centration(right, left), moved)
    assert found.right + found.left == pytest.approx(right + left)
    assert found.right - right == pytest.approx(-moved, abs=1e-9)


def test_pads_moved_to_the_left() -> None:
    assert shifted(Centration(32.0, 32.0), -1.5) == Centration(33.5, 30.5)


@pytest.mark.parametrize("angle", [0.0, 90.0, -10.0, float("nan")])
def test_impossible_angle_is_refused(angle: float) -> None:
    with pytest.raises(ValueError, match=f"angle {angle}"):
        way_out(1.0, angle)


def test_impossible_size_is_refused() -> None:
    with pytest.raises(ValueError, match="height 0"):
        frontal_angle(14.0, 22.0, 0.0)
