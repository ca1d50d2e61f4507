"""By how much to bend: round trips, more for more, mirrored alike, halved where large."""

from math import degrees, radians, tan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchassist.geometry import adjusting as by
from benchassist.geometry.measured import Reading
from benchassist.geometry.on_face import Sides, roll, temple_difference_for_ears, yaw
from benchassist.geometry.pads import way_out

LENGTHS = by.Lengths(
    joint_to_ear=Reading(95.0, 4.0),
    pd=Reading(64.0, 1.0),
    width=Reading(52.0, 1.0),
    depth=Reading(36.0, 1.0),
    rotation=Reading(27.0, 2.0),
    tip=Reading(45.0, 8.0),
    frontal=Reading(20.0, 5.0, "°"),
    splay=Reading(30.0, 5.0, "°"),
)
OFFSETS = st.floats(0.0, 20.0)
every_reckoning = pytest.mark.parametrize("name", by.RECKONINGS)


@given(OFFSETS, st.floats(80.0, 120.0))
def test_a_temple_bent_by_the_amount_levels_the_front(higher: float, reach: float) -> None:
    angle = temple_difference_for_ears(higher, reach)
    levelled = roll(Sides(0.0, angle), higher, reach, 130.0)
    assert levelled.right_end_higher == pytest.approx(0.0, abs=1e-9)


@given(OFFSETS, st.floats(50.0, 75.0))
def test_an_open_angle_changed_by_the_amount_brings_the_lenses_alike(
    closer: float, pd: float
) -> None:
    angle = by.open_for_vertex(closer, pd)
    assert yaw(Sides(90.0 + angle, 90.0), pd).right_closer == pytest.approx(closer)


@given(OFFSETS, st.floats(5.0, 60.0))
def test_pads_moved_by_the_amount_move_the_front_that_far(way: float, angle: float) -> None:
    assert way_out(by.pads_for_way(way, angle), angle) == pytest.approx(way)


@given(OFFSETS)
def test_a_tilt_by_the_amount_makes_up_for_the_centre(offset: float) -> None:
    assert 27.0 * tan(radians(by.tilt_for_offset(offset))) == pytest.approx(offset)


def test_two_millimetres_are_about_four_degrees_of_tilt() -> None:
    assert by.tilt_for_offset(2.0) == pytest.approx(4.2, abs=0.1)


def test_width_is_shared_between_the_sides() -> None:
    assert by.open_for_width(4.0, 95.0) == pytest.approx(degrees(2.0 / 95.0), abs=0.01)


@every_reckoning
@given(offset=OFFSETS, more=st.floats(0.1, 5.0))
def test_more_offset_needs_more_bend(name: str, offset: float, more: float) -> None:
    less = by.amount_for(name, offset, LENGTHS)
    greater = by.amount_for(name, offset + more, LENGTHS)
    assert greater.needed.value > less.needed.value >= 0.0
    assert less.needed.uncertainty > 0.0


@every_reckoning
@given(offset=OFFSETS)
def test_the_other_way_is_the_mirror_image(name: str, offset: float) -> None:
    way = by.RECKONINGS[name]
    length = (getattr(LENGTHS, way.length).value,) if way.length else ()
    assert way.formula(-offset, *length) == pytest.approx(-way.formula(offset, *length))


@every_reckoning
@given(offset=OFFSETS)
def test_never_more_than_five_degrees_in_one_go(name: str, offset: float) -> None:
    amount = by.amount_for(name, offset, LENGTHS)
    if amount.unit == "°":
        assert amount.now <= by.MOST_AT_ONCE
        assert amount.is_halved == (amount.needed.value > by.MOST_AT_ONCE)
    else:
        assert amount.now == amount.needed.value


@pytest.mark.parametrize(
    ("needed", "now"), [(4.9, 4.9), (5.0, 5.0), (5.2, 2.6), (10.0, 5.0), (16.0, 5.0)]
)
def test_a_large_bend_is_halved(needed: float, now: float) -> None:
    assert by.in_one_go(needed) == pytest.approx(now)


def test_the_uncertainty_follows_from_the_reading_and_the_length() -> None:
    amount = by.amount_for("temple-for-height", 4.0, LENGTHS)
    from_reading, from_length = degrees(0.5 / 95.0), degrees(4.0 * 4.0 / 95.0**2)
    expected = (from_reading**2 + from_length**2) ** 0.5
    assert amount.needed.uncertainty == pytest.approx(expected, rel=0.01)


def test_impossible_offsets_are_refused() -> None:
    with pytest.raises(ValueError, match="below zero"):
        by.amount_for("bend-shift", -1.0, LENGTHS)
    with pytest.raises(ValueError, match="larger"):
        by.amount_for("tilt-for-gap", 40.0, LENGTHS)
    with pytest.raises(ValueError, match="between 0 and 90"):
        by.pads_for_way(1.0, 90.0)
