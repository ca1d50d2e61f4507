"""A frame of known numbers, measured in space, gives those numbers back."""

from dataclasses import astuple, replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchassist.geometry.alignment import (
    fold,
    four_point,
    lens_turn,
    open_angle,
    pantoscopic_angle,
    skew,
    tip_of,
    x_ing,
)
from benchassist.geometry.frame_state import (
    Bridge,
    FramePoints,
    FrameState,
    HalfPoints,
    Made,
    SideState,
    frame_points,
)
from benchassist.geometry.resting import inverted, upright
from benchassist.geometry.shown import (
    apart,
    edge_gaps,
    end_heights,
    marks,
    pantoscopic_offset,
    plane_step,
    plate_gaps,
    temple_out,
)
from benchassist.geometry.solid import Place
from benchassist.optics.eye import Eye

modest = settings(max_examples=25)
eyes = st.sampled_from(Eye)
MADE = Made()
TRUE = FrameState.true(MADE)
HALF_SPAN = MADE.dbl / 2.0
BACK = 90.0

bridges = st.builds(
    Bridge,
    form_right=st.floats(-4.0, 12.0),
    form_left=st.floats(-4.0, 12.0),
    x_ing=st.floats(-4.0, 4.0),
    skew_step=st.floats(-3.0, 3.0),
    skew_slope=st.floats(-3.0, 3.0),
    plane_step=st.floats(-3.0, 3.0),
)
sides = st.builds(
    SideState,
    open_angle=st.floats(85.0, 103.0),
    pantoscopic=st.floats(3.0, 13.0),
    bend_start=st.floats(92.0, 108.0),
    drop=st.floats(25.0, 65.0),
    inward=st.floats(0.0, 12.0),
    lens_turn=st.floats(-8.0, 8.0),
    twist=st.floats(-8.0, 8.0),
    fold=st.floats(-8.0, 8.0),
    pad_up=st.floats(-2.0, 2.0),
    pad_back=st.floats(-2.0, 2.0),
)
states = st.builds(FrameState, made=st.just(MADE), bridge=bridges, right=sides, left=sides)


def in_the_mirror(place: Place) -> Place:
    return -place[0], place[1], place[2]


def step_of(points: FramePoints) -> float:
    return skew(end_heights(points), MADE.a, HALF_SPAN).step


def twist_of(points: FramePoints) -> float:
    return x_ing(*plate_gaps(points), apart(points.right))


@modest
@given(states)
def test_the_mirror_image_has_mirrored_places(state: FrameState) -> None:
    here, there = frame_points(state), frame_points(state.mirrored())
    assert state.mirrored().mirrored() == state
    for name in (
        "top",
        "bottom",
        "low_nasal",
        "temporal_mark",
        "pad",
        "hinge",
        "tip",
        "folded",
    ):
        for eye in Eye:
            place = in_the_mirror(here.both(name)[eye])
            assert there.both(name)[eye.other] == pytest.approx(place, abs=1e-9)
    mass = in_the_mirror(here.centre_of_mass)
    assert there.centre_of_mass == pytest.approx(mass, abs=1e-9)


@modest
@given(states)
def test_the_mirror_image_measures_alike(state: FrameState) -> None:
    here, there = frame_points(state), frame_points(state.mirrored())
    assert step_of(there) == pytest.approx(-step_of(here), abs=1e-9)
    assert twist_of(there) == pytest.approx(-twist_of(here), abs=1e-9)
    edge = edge_gaps(here).readings
    assert edge_gaps(there).readings == pytest.approx(tuple(reversed(edge)), abs=1e-9)
    for eye in Eye:
        out = temple_out(here, eye, BACK)
        assert temple_out(there, eye.other, BACK) == pytest.approx(out, abs=1e-9)
        for stand in (upright, inverted):
            gap = stand(here).behind[eye]
            assert stand(there).behind[eye.other] == pytest.approx(gap, abs=1e-9)


def folded_height(half: HalfPoints) -> float:
    """The height of a folded shaft over its own hinge where it crosses the midline, mm."""
    (x, y, _), (further, higher, _) = half.hinge, half.folded
    return (higher - y) * x / (x - further)


@modest
@given(st.floats(46.0, 56.0), st.floats(30.0, 44.0), st.floats(14.0, 22.0))
def test_a_true_frame_has_no_fault(a: float, b: float, dbl: float) -> None:
    made = Made(a=a, b=b, dbl=dbl)
    points = frame_points(FrameState.true(made))
    assert skew(end_heights(points), a, dbl / 2).step == pytest.approx(0.0, abs=1e-9)
    assert twist_of(points) == pytest.approx(0.0, abs=1e-9)
    front = four_point(edge_gaps(points), a, dbl / 2)
    assert front.step == pytest.approx(0.0, abs=1e-9)
    assert front.total == pytest.approx(2.0 * made.face_form, abs=0.03)
    for eye in Eye:
        half = points.half(eye)
        assert marks(points, eye) == pytest.approx(0.0, abs=1e-9)
        assert folded_height(half) == pytest.approx(0.0, abs=1e-9)
        assert open_angle(temple_out(points, eye, BACK), BACK) == pytest.approx(made.open_angle)
        assert pantoscopic_angle(pantoscopic_offset(half), b) == pytest.approx(made.pantoscopic)


@modest
@given(st.floats(-5.0, 5.0))
def test_skew_comes_back(step: float) -> None:
    points = frame_points(TRUE.with_bridge(skew_step=step))
    assert step_of(points) == pytest.approx(step, rel=0.01, abs=1e-9)


@modest
@given(st.floats(-6.0, 6.0))
def test_skewed_slopes_come_back(slope: float) -> None:
    points = frame_points(TRUE.with_bridge(skew_slope=slope))
    found = skew(end_heights(points), MADE.a, HALF_SPAN)
    assert found.right_slope == pytest.approx(found.left_slope, abs=1e-9)
    assert found.right_slope == pytest.approx(slope / 2.0, rel=0.01, abs=1e-9)
    assert found.step == pytest.approx(0.0, abs=1e-9)


@modest
@given(st.floats(-5.0, 5.0))
def test_x_ing_comes_back(twist: float) -> None:
    points = frame_points(TRUE.with_bridge(x_ing=twist))
    assert twist_of(points) == pytest.approx(twist, rel=0.01, abs=1e-9)


@modest
@given(st.floats(-5.0, 5.0))
def test_a_plane_step_comes_back(step: float) -> None:
    points = frame_points(TRUE.with_bridge(plane_step=step))
    found = four_point(edge_gaps(points), MADE.a, HALF_SPAN)
    assert found.step == pytest.approx(step, rel=0.02, abs=1e-9)
    assert plane_step(points) == pytest.approx(step, abs=1e-9)
    assert found.total == pytest.approx(2.0 * MADE.face_form, abs=0.05)


@modest
@given(st.floats(-5.0, 14.0), st.floats(-5.0, 14.0))
def test_face_form_comes_back_as_a_total(right: float, left: float) -> None:
    points = frame_points(TRUE.with_bridge(form_right=right, form_left=left))
    found = four_point(edge_gaps(points), MADE.a, HALF_SPAN)
    assert found.total == pytest.approx(right + left, abs=0.9)


@modest
@given(eyes, st.floats(-10.0, 10.0))
def test_a_turned_lens_comes_back(eye: Eye, turn: float) -> None:
    points = frame_points(TRUE.with_side(eye, lens_turn=turn))
    for own_rim in (False, True):
        read = marks(points, eye, own_rim=own_rim)
        assert lens_turn(eye, read, 34.0) == pytest.approx(turn, abs=0.02)
        assert marks(points, eye.other, own_rim=own_rim) == pytest.approx(0.0, abs=1e-9)


@modest
@given(eyes, st.floats(-10.0, 12.0), st.floats(20.0, 110.0))
def test_an_open_angle_comes_back(eye: Eye, wider: float, back: float) -> None:
    points = frame_points(TRUE.with_side(eye, open_angle=94.0 + wider))
    assert open_angle(temple_out(points, eye, back), back) == pytest.approx(94.0 + wider)
    assert open_angle(temple_out(points, eye.other, back), back) == pytest.approx(94.0)


@modest
@given(eyes, st.floats(-15.0, 10.0))
def test_a_pantoscopic_angle_comes_back(eye: Eye, more: float) -> None:
    points = frame_points(TRUE.with_side(eye, pantoscopic=8.0 + more))
    found = pantoscopic_angle(pantoscopic_offset(points.half(eye)), MADE.b)
    assert found == pytest.approx(8.0 + more)


@modest
@given(st.floats(-8.0, 8.0), st.floats(-8.0, 8.0))
def test_a_fold_comes_back(right: float, left: float) -> None:
    state = TRUE.with_side(Eye.RIGHT, fold=right).with_side(Eye.LEFT, fold=left)
    points = frame_points(state)
    half_width = abs(points.left.hinge[0])
    found = fold(folded_height(points.right), folded_height(points.left), half_width)
    assert (found.right, found.left) == pytest.approx((right, left), abs=0.05)
    true = frame_points(TRUE)
    assert points.both("tip") == true.both("tip"), "the open tests cannot see it"


@modest
@given(st.floats(85.0, 115.0), st.floats(0.0, 85.0))
def test_a_tip_comes_back(start: float, drop: float) -> None:
    state = TRUE.with_side(Eye.LEFT, bend_start=start, drop=drop, inward=0.0)
    half = frame_points(state).left
    tip = tip_of(start, MADE.temple_length - start, drop)
    shaft = [b - a for a, b in zip(half.hinge, half.bend, strict=True)]
    whole = [b - a for a, b in zip(half.hinge, half.tip, strict=True)]
    run = sum(a * b for a, b in zip(shaft, whole, strict=True)) / start
    assert run == pytest.approx(tip.run)
    square = sum(one**2 for one in whole) - run**2
    assert square == pytest.approx(tip.drop**2, abs=1e-6)


@modest
@given(st.floats(-4.0, 4.0), st.floats(0.1, 1.0))
def test_more_fault_is_more_reading(size: float, more: float) -> None:
    def at(**numbers: float) -> FramePoints:
        return frame_points(TRUE.with_bridge(**numbers))

    assert step_of(at(skew_step=size + more)) > step_of(at(skew_step=size))
    assert twist_of(at(x_ing=size + more)) > twist_of(at(x_ing=size))
    less, larger = (edge_gaps(at(plane_step=one)) for one in (size, size + more))
    assert larger.step(MADE.a, HALF_SPAN) > less.step(MADE.a, HALF_SPAN)


def test_one_form_for_the_other_turns_the_frame_as_a_whole() -> None:
    uneven = frame_points(TRUE.with_bridge(form_right=7.0, form_left=1.0))
    even = frame_points(TRUE)
    for eye in Eye:
        found = open_angle(temple_out(uneven, eye, BACK), BACK)
        assert found == pytest.approx(open_angle(temple_out(even, eye, BACK), BACK), abs=0.35)
    assert max(upright(uneven).behind.values()) < 1e-9


def test_each_degree_of_form_closes_the_temple_by_a_degree() -> None:
    wrapped = frame_points(TRUE.with_bridge(form_right=6.0, form_left=6.0))
    for eye in Eye:
        assert open_angle(temple_out(wrapped, eye, BACK), BACK) == pytest.approx(92.0)


def test_a_skewed_bridge_reads_as_two_turned_lenses_over_a_common_edge() -> None:
    points = frame_points(TRUE.with_bridge(skew_step=2.0))
    turns = [lens_turn(eye, marks(points, eye), 34.0) for eye in Eye]
    assert turns == pytest.approx([-1.64, -1.64], abs=0.01)
    over_own = [marks(points, eye, own_rim=True) for eye in Eye]
    assert over_own == pytest.approx([0.0, 0.0], abs=1e-9)


def test_a_twisted_bridge_shows_a_little_on_the_straight_edge() -> None:
    points = frame_points(TRUE.with_bridge(x_ing=2.0))
    step = four_point(edge_gaps(points), MADE.a, HALF_SPAN).step
    assert step == pytest.approx(-0.6, abs=0.05)
    assert plane_step(points) == pytest.approx(step, abs=0.02)


def test_pads_move_by_themselves() -> None:
    moved = frame_points(TRUE.with_side(Eye.RIGHT, pad_up=1.0, pad_back=2.0))
    (x, y, z), (u, v, w) = moved.right.pad, frame_points(TRUE).right.pad
    assert (y - v, z - w) == pytest.approx((1.0, -2.0), abs=0.05)
    assert x - u == pytest.approx(0.0, abs=0.2)


def test_numbers_are_changed_by_name_only() -> None:
    bent = TRUE.with_side(Eye.LEFT, drop=50.0)
    assert bent.right == TRUE.right
    assert bent.left == replace(TRUE.left, drop=50.0)
    assert astuple(TRUE.bridge) == (4.0, 4.0, 0.0, 0.0, 0.0, 0.0)
    with pytest.raises(TypeError):
        TRUE.with_bridge(droop=1.0)


def test_a_front_that_no_plate_lies_behind_is_refused() -> None:
    broken = frame_points(TRUE.with_bridge(plane_step=300.0))
    with pytest.raises(ValueError, match="tips over"):
        plate_gaps(broken)


@pytest.mark.parametrize("eye", Eye)
def test_a_twisted_shaft_hangs_its_end_inwards_and_the_pads_lie_between(eye: Eye) -> None:
    half = frame_points(TRUE).half(eye)
    twisted = frame_points(TRUE.with_side(eye, twist=10.0)).half(eye)
    assert abs(twisted.tip[0]) < abs(half.tip[0])
    assert twisted.bend == pytest.approx(half.bend)
    assert abs(half.pad[0]) < abs(half.nasal[0])
