"""A rigid frame on a plate rests on three places; the others show their gaps."""

from math import cos, radians, sin, tan

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchassist.geometry.frame_state import FrameState, Made, frame_points
from benchassist.geometry.resting import TableRest, inverted, rest, upright
from benchassist.geometry.solid import Place
from benchassist.geometry.touch import Gaps, two_way_touch
from benchassist.optics.eye import Eye

modest = settings(max_examples=25)
UP = (0.0, 1.0, 0.0)
STOOL = {
    "front right": (-35.0, 0.0, 0.0),
    "front left": (35.0, 0.0, 0.0),
    "back right": (-75.0, 0.0, -130.0),
    "back left": (75.0, 0.0, -130.0),
}
LOAD = (0.0, 20.0, -20.0)


def tilted(place: Place, angle: float) -> Place:
    c, s = cos(radians(angle)), sin(radians(angle))
    x, y, z = place
    return c * x - s * y, s * x + c * y, z


def gaps_of(stand: TableRest) -> Gaps:
    return Gaps(stand.behind[Eye.RIGHT], stand.behind[Eye.LEFT])


def test_four_places_in_one_plane_all_touch() -> None:
    stand = rest(STOOL, LOAD, UP)
    assert stand.touching == tuple(STOOL)
    assert stand.away == UP


def test_a_lifted_leg_shows_its_gap() -> None:
    stand = rest({**STOOL, "back left": (75.0, 2.0, -130.0)}, LOAD, UP)
    assert set(stand.touching) == {"front right", "front left", "back right"}
    assert stand.heights["back left"] == pytest.approx(2.0)


def test_the_load_decides_which_three_carry() -> None:
    """The other side of the diagonal carries when the weight lies there."""
    short = {**STOOL, "back left": (75.0, 2.0, -130.0)}
    stand = rest(short, (0.0, 20.0, -100.0), UP)
    assert set(stand.touching) == {"front left", "back right", "back left"}
    assert stand.heights["front right"] == pytest.approx(2.0 * 70.0 / 150.0, rel=0.01)


@modest
@given(st.floats(-20.0, 20.0), st.floats(0.1, 5.0))
def test_the_gap_is_the_same_however_the_body_was_held(angle: float, lift: float) -> None:
    short = {**STOOL, "back right": (-75.0, lift, -130.0)}
    level = rest(short, LOAD, UP)
    held = {name: tilted(place, angle) for name, place in short.items()}
    found = rest(held, tilted(LOAD, angle), UP)
    assert found.touching == level.touching
    assert found.heights == pytest.approx(level.heights, abs=1e-9)


def test_a_place_that_cannot_touch_has_a_height_too() -> None:
    stand = rest(STOOL, LOAD, UP, also={"below": (0.0, -3.0, -50.0)})
    assert stand.heights["below"] == pytest.approx(-3.0)


def test_a_body_that_tips_over_is_refused() -> None:
    with pytest.raises(ValueError, match="tips over"):
        rest(STOOL, (0.0, 20.0, 30.0), UP)
    with pytest.raises(ValueError, match="tips over"):
        rest(STOOL, LOAD, (1.0, 0.0, 0.0))
    line = {name: (number, 0.0, 0.0) for number, name in enumerate("abc")}
    with pytest.raises(ValueError, match="tips over"):
        rest(line, LOAD, UP)


@modest
@given(st.floats(46.0, 56.0), st.floats(30.0, 44.0), st.floats(0.0, 12.0))
def test_a_true_frame_stands_on_all_four_both_ways(a: float, b: float, form: float) -> None:
    points = frame_points(FrameState.true(Made(a=a, b=b, face_form=form)))
    for stand in (upright(points), inverted(points)):
        assert max(*stand.rims.values(), *stand.behind.values()) < 1e-9
    assert upright(points).run > inverted(points).run > 95.0


@modest
@given(st.floats(-5.0, 5.0))
def test_a_twisted_bridge_comes_back_from_the_table(twist: float) -> None:
    points = frame_points(FrameState.true().with_bridge(x_ing=twist))
    stands, lies = upright(points), inverted(points)
    found = two_way_touch(gaps_of(stands), stands.run, gaps_of(lies), lies.run)
    assert found.right_temple_lower == pytest.approx(twist, rel=0.02, abs=0.01)
    assert abs(found.right_tip_lower) < 0.16 * abs(twist) + 0.01


@modest
@given(st.floats(-5.0, 5.0))
def test_a_temple_that_points_lower_comes_back_within_8_per_cent(lower: float) -> None:
    made = Made()
    state = FrameState.true(made).with_side(Eye.RIGHT, pantoscopic=made.pantoscopic + lower)
    points = frame_points(state)
    stands, lies = upright(points), inverted(points)
    found = two_way_touch(gaps_of(stands), stands.run, gaps_of(lies), lies.run)
    assert found.right_temple_lower == pytest.approx(lower, rel=0.08, abs=0.01)
    assert abs(found.right_tip_lower) < 0.22 * abs(lower) + 0.01


@modest
@given(st.floats(-20.0, 20.0))
def test_a_bent_tip_shows_upright_only(bent: float) -> None:
    made = Made()
    state = FrameState.true(made).with_side(Eye.LEFT, drop=made.drop + bent)
    points = frame_points(state)
    assert max(inverted(points).behind.values()) < 1e-9
    end = made.temple_length - made.bend_start
    lower = end * (sin(radians(made.drop + bent)) - sin(radians(made.drop)))
    found = gaps_of(upright(points))
    assert found.right - found.left == pytest.approx(lower, rel=0.25, abs=0.1)


@pytest.mark.parametrize("eye", Eye)
def test_the_run_goes_to_the_place_that_touches(eye: Eye) -> None:
    """The other temple points lower and so stands off; its own run is 15 mm shorter."""
    state = FrameState.true().with_side(eye, bend_start=115.0)
    lower = state.side(eye.other).pantoscopic + 3.0
    stand = inverted(frame_points(state.with_side(eye.other, pantoscopic=lower)))
    assert stand.behind[eye] < 1e-6 < stand.behind[eye.other]
    assert stand.run > 115.0


def test_a_skewed_bridge_lifts_more_at_the_tips_than_it_steps_at_the_rims() -> None:
    points = frame_points(FrameState.true().with_bridge(skew_step=1.0))
    stands, lies = upright(points), inverted(points)
    assert stands.behind[Eye.RIGHT] == pytest.approx(1.02, abs=0.02)
    assert lies.behind[Eye.LEFT] == pytest.approx(1.05, abs=0.02)
    assert tan(radians(0.5)) * stands.run > 1.0, "it passes for half a degree of temple"
