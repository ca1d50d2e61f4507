"""The frame that is drawn is as ordered, within what can be drawn, and bent as measured."""

from dataclasses import replace

import pytest

from benchassist.geometry.bent import bent, made_as
from benchassist.geometry.fault import Fault, Faults, drawn
from benchassist.geometry.frame_state import FrameState, Made
from benchassist.geometry.plan import FrontPlan
from benchassist.optics.eye import Eye

PLAN = FrontPlan(52, 38, 18, 55)


@pytest.mark.parametrize(
    ("ordered", "length", "bend"), [(130, 130, 89.66), (300, 200, 137.93), (20, 60, 41.38)]
)
def test_the_bend_lies_in_proportion_to_the_temple(
    ordered: float, length: float, bend: float
) -> None:
    """100 of 145 mm lie before the bend of a usual temple; own proportion."""
    frame = made_as(replace(PLAN, temple_length=ordered))
    assert frame.temple_length == length
    assert frame.bend_start == pytest.approx(bend, abs=0.01)


@pytest.mark.parametrize(
    ("ordered", "is_drawn"), [(0.0, 0.0), (-12.0, -12.0), (45.0, 30.0), (-45.0, -30.0)]
)
def test_angles_are_drawn_up_to_thirty_degrees(ordered: float, is_drawn: float) -> None:
    frame = made_as(replace(PLAN, tilt=ordered, face_form=ordered))
    assert (frame.pantoscopic, frame.face_form) == (is_drawn, is_drawn)
    usual = made_as(PLAN)
    assert (usual.pantoscopic, usual.face_form) == (Made().pantoscopic, Made().face_form)


def test_what_is_left_minus_right_is_shared_and_what_is_of_one_side_is_not() -> None:
    parts = drawn(Faults((Fault("open-angle", 16.0), Fault("face-form", 6.0))), "top")
    assert parts.factor == 1
    state, true = bent(Made(), parts), FrameState.true()
    assert state.left.open_angle - true.left.open_angle == pytest.approx(8.0)
    assert state.right.open_angle - true.right.open_angle == pytest.approx(-8.0)
    for form in (state.bridge.form_right, state.bridge.form_left):
        assert form - Made().face_form == pytest.approx(3.0)
    turned = bent(Made(), drawn(Faults((Fault("rotation", 30.0, Eye.RIGHT),)), "front"))
    assert (turned.right.lens_turn, turned.left.lens_turn) == (30.0, 0.0)
