import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchassist.geometry.angles import gap_of_angle
from benchassist.geometry.touch import (
    Gaps,
    inverted_angle,
    rim_gap,
    tip_gap,
    two_way_touch,
    upright_angle,
)

gaps = st.floats(0.0, 15.0)
runs = st.floats(80.0, 150.0)
heights = st.builds(Gaps, gaps, gaps)
modest = settings(max_examples=50)
LEVEL = Gaps(0.0, 0.0)


@modest
@given(gaps, runs)
def test_sides_are_mirror_images(lifted: float, run: float) -> None:
    here, there = Gaps(lifted, 0.0), Gaps(0.0, lifted)
    assert upright_angle(here, run) == -upright_angle(there, run)
    assert inverted_angle(here, run) == -upright_angle(here, run)


@modest
@given(gaps, st.floats(0.01, 5.0), runs)
def test_larger_gap_gives_larger_angle(gap: float, more: float, run: float) -> None:
    assert upright_angle(Gaps(0.0, gap + more), run) > upright_angle(Gaps(0.0, gap), run)


@modest
@given(runs, runs)
def test_a_true_frame_has_no_fault(upright_run: float, inverted_run: float) -> None:
    found = two_way_touch(LEVEL, upright_run, LEVEL, inverted_run)
    assert (found.right_temple_lower, found.right_tip_lower) == (0.0, 0.0)


@modest
@given(st.floats(0.0, 4.0), runs, runs)
def test_a_pure_angle_fault_lifts_opposite_sides(
    angle: float, upright_run: float, inverted_run: float
) -> None:
    upright = Gaps(0.0, gap_of_angle(angle, upright_run))
    inverted = Gaps(gap_of_angle(angle, inverted_run), 0.0)
    found = two_way_touch(upright, upright_run, inverted, inverted_run)
    assert found.right_temple_lower == pytest.approx(angle, abs=1e-9)
    assert found.right_tip_lower == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize(
    ("inverted", "upright", "angle", "bend"),
    [
        ((Gaps(2.5, 0.0), 100.0), (Gaps(0.0, 3.2), 128.0), 1.43, 0.0),
        ((LEVEL, 100.0), (Gaps(0.0, 3.0), 128.0), 0.0, 3.0),
        ((Gaps(2.0, 0.0), 100.0), (LEVEL, 128.0), 1.15, -2.56),
        ((Gaps(2.0, 0.0), 95.0), (Gaps(0.0, 5.0), 130.0), 1.21, 2.26),
    ],
    ids=["angle only", "tips only", "two faults that hide each other", "both"],
)
def test_the_four_patterns(
    inverted: tuple[Gaps, float], upright: tuple[Gaps, float], angle: float, bend: float
) -> None:
    found = two_way_touch(*upright, *inverted)
    assert found.right_temple_lower == pytest.approx(angle, abs=0.005)
    assert found.right_tip_lower == pytest.approx(bend, abs=0.005)


@modest
@given(heights, heights, st.floats(-0.01, 0.01), st.floats(0.0, 5.0))
def test_any_plane_drops_out_of_four_heights(
    rims: Gaps, tips: Gaps, slope: float, raised: float
) -> None:
    """A plane tilted sideways raises each point by its place across the frame."""
    lift = raised + 1.0
    tilted_rims = Gaps(rims.right + lift - 35.0 * slope, rims.left + lift + 35.0 * slope)
    tilted_tips = Gaps(tips.right + lift - 75.0 * slope, tips.left + lift + 75.0 * slope)
    level = tip_gap(rims, tips, 70.0, 150.0)
    assert tip_gap(tilted_rims, tilted_tips, 70.0, 150.0) == pytest.approx(level, abs=1e-9)


def test_a_rim_that_lifts_shows_the_same_fault_smaller() -> None:
    assert rim_gap(3.0, 70.0, 150.0) == pytest.approx(1.4)
    lifted = tip_gap(Gaps(1.4, 0.0), LEVEL, 70.0, 150.0)
    assert lifted == pytest.approx(-3.0)


def test_limit_of_one_millimetre_is_less_than_half_a_degree() -> None:
    assert upright_angle(Gaps(0.0, 1.0), 128.0) == pytest.approx(0.45, abs=0.005)


def test_impossible_input_is_refused() -> None:
    with pytest.raises(ValueError, match=r"right gap -0\.1"):
        Gaps(-0.1, 0.0)
    with pytest.raises(ValueError, match=r"left gap -0\.1"):
        Gaps(0.0, -0.1)
    with pytest.raises(ValueError, match="base 0"):
        upright_angle(Gaps(0.0, 1.0), 0.0)
    with pytest.raises(ValueError, match="run -5"):
        two_way_touch(LEVEL, -5.0, LEVEL, 100.0)
    with pytest.raises(ValueError, match="rim span 0"):
        tip_gap(LEVEL, LEVEL, 0.0, 150.0)
