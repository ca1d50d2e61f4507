"""Each measured number has the sign of its formula, and each reading the error of its tool."""

from math import asin, atan2, degrees, hypot, tan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchassist.geometry.alignment import AlongFront, LeanGaps
from benchassist.geometry.bench_measured import (
    Tools,
    measured_fold,
    measured_form_from_depth,
    measured_four_point,
    measured_inverted,
    measured_lens_turn,
    measured_open_angle,
    measured_pantoscopic,
    measured_pantoscopic_apart,
    measured_skew,
    measured_two_way,
    measured_upright,
    measured_x_ing,
)
from benchassist.geometry.touch import Gaps
from benchassist.optics.eye import Eye

TOOLS = Tools(gap=0.06, length=0.5)
BY_LENGTH = Tools(gap=0.0, length=0.5)
sizes = st.floats(0.2, 6.0)


@given(sizes)
def test_a_higher_outer_mark_turns_right_and_left_lenses_in_mirror_image(up: float) -> None:
    """Facing the wearer the right lens lies at -x: outer end up is clockwise, a minus."""
    for eye, sign in ((Eye.RIGHT, -1.0), (Eye.LEFT, 1.0)):
        turn = measured_lens_turn(eye, 5.0 + up, 5.0, 34.0, TOOLS).value
        assert turn == pytest.approx(sign * degrees(atan2(up, (34.0**2 - up**2) ** 0.5)))


@given(sizes)
def test_which_temple_is_lower_by_the_side_that_lifts(gap: float) -> None:
    """Upright the lower temple lifts the other tip, upside down its own shaft."""
    angle = degrees(atan2(gap, 120.0))
    right, left = Gaps(gap, 0.0), Gaps(0.0, gap)
    assert measured_upright(left, 120.0, TOOLS).value == pytest.approx(angle)
    assert measured_upright(right, 120.0, TOOLS).value == pytest.approx(-angle)
    assert measured_inverted(right, 120.0, TOOLS).value == pytest.approx(angle)
    assert measured_inverted(left, 120.0, TOOLS).value == pytest.approx(-angle)
    both = measured_two_way(left, 150.0, right, 120.0, TOOLS)
    assert both.right_temple_lower.value == pytest.approx(angle)
    assert both.right_tip_lower.value == pytest.approx(gap - gap * 150.0 / 120.0)


@given(sizes)
def test_the_other_signs_are_those_of_the_types(off: float) -> None:
    assert measured_fold(off, 0.0, 66.0, TOOLS).value == pytest.approx(
        degrees(atan2(off, 66.0))
    )
    twist = measured_x_ing(LeanGaps(0.0, 0.0), LeanGaps(off, 0.0), 36.0, TOOLS).value
    assert twist == pytest.approx(degrees(atan2(off, 36.0)))
    higher = AlongFront(20.0, 20.0, 20.0 + off, 20.0 + off)
    assert measured_skew(higher, 52.0, 9.0, TOOLS).value == pytest.approx(off)
    further = AlongFront(0.0, 0.0, off, off)
    assert measured_four_point(further, 52.0, 9.0, TOOLS).step.value == pytest.approx(off)


@given(sizes)
def test_a_length_misread_does_what_its_slope_says(off: float) -> None:
    """d atan(g / b) / db = g / (b^2 + g^2), d asin(o / B) / dB = o / (B^2 cos): own."""

    def by_base(gap: float, base: float) -> float:
        return degrees(gap / (base**2 + gap**2)) * 0.5

    lengths = {
        "run upright": (measured_upright(Gaps(off, 0.0), 120.0, BY_LENGTH), 120.0),
        "run inverted": (measured_inverted(Gaps(off, 0.0), 100.0, BY_LENGTH), 100.0),
        "half width": (measured_fold(off, 0.0, 66.0, BY_LENGTH), 66.0),
        "back": (measured_open_angle(off, 90.0, BY_LENGTH), 90.0),
        "apart": (
            measured_x_ing(LeanGaps(0.0, 0.0), LeanGaps(off, 0.0), 36.0, BY_LENGTH),
            36.0,
        ),
    }
    for name, (found, base) in lengths.items():
        assert found.uncertainty == pytest.approx(by_base(off, base), rel=1e-4), name
    depth = measured_form_from_depth(off, 130.0, BY_LENGTH)
    assert depth.uncertainty == pytest.approx(by_base(off, 65.0) / 2.0, rel=1e-4)
    tilt = measured_pantoscopic(off, 40.0, BY_LENGTH)
    slope = off / 40.0**2 / (1.0 - (off / 40.0) ** 2) ** 0.5
    assert tilt.uncertainty == pytest.approx(degrees(slope) * 0.5, rel=1e-4)


def test_one_b_of_two_angles_drops_out_of_their_difference() -> None:
    """Alike they differ by nothing, whatever B is; apart, each moves by tan(angle) dB / B."""
    alike = measured_pantoscopic_apart(6.0, 6.0, 40.0, BY_LENGTH)
    assert alike.value == 0.0
    assert alike.uncertainty == pytest.approx(0.0, abs=1e-9)
    apart = measured_pantoscopic_apart(6.0, 2.0, 40.0, BY_LENGTH)
    right, left = (tan(asin(offset / 40.0)) / 40.0 for offset in (6.0, 2.0))
    assert apart.uncertainty == pytest.approx(degrees(right - left) * 0.5, rel=1e-4)
    by_gaps = measured_pantoscopic_apart(0.0, 0.0, 40.0, TOOLS).uncertainty
    assert by_gaps == pytest.approx(degrees(hypot(0.06, 0.06) / 40.0), rel=1e-4)


def test_width_and_span_of_a_front_are_lengths() -> None:
    """A step of n + (n - t) s / w: by s it moves (n - t) / w, by w it moves (n - t) s / w^2."""
    rises = AlongFront(0.0, 0.0, 6.0, 0.0)
    by_width, by_span = 6.0 * 9.0 / 52.0**2, 6.0 / 52.0
    expected = hypot(by_width, by_span) * 0.5
    assert measured_skew(rises, 52.0, 9.0, BY_LENGTH).uncertainty == pytest.approx(
        expected, rel=1e-4
    )
