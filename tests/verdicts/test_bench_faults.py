"""Every kind of fault that can be drawn comes from a measurement of the bench."""

from decimal import Decimal

import pytest

from benchassist.geometry.fault import KINDS, Fault
from benchassist.guide.load import load_guide
from benchassist.job.order import FrameOrder
from benchassist.optics.eye import Eye
from benchassist.verdicts.bench_faults import faults_of

FRAME = FrameOrder(a=Decimal(52), b=Decimal(38), dbl=Decimal(18), face_form=Decimal(4))

READ: dict[str, dict[str, str]] = {
    "rotation": {"right_marks": "1", "left_marks": "-1", "separation": "34"},
    "skew": {"right_outer": "20", "right_inner": "20", "left_inner": "21", "left_outer": "21"},
    "x-ing": {
        "right_top": "0",
        "right_bottom": "0",
        "left_top": "1",
        "left_bottom": "0",
        "apart": "34",
    },
    "face-form": {"depth": "9", "width": "130"},
    "four-point": {
        "right_temporal": "0",
        "right_nasal": "5",
        "left_nasal": "6",
        "left_temporal": "1",
    },
    "pads": {"right_height": "14", "left_height": "15", "right_stand": "6", "left_stand": "7"},
    "open-angle": {"right_out": "5", "right_back": "90", "left_out": "8", "left_back": "90"},
    "pantoscopic": {"right_offset": "5", "left_offset": "6"},
    "table-inverted": {"right_gap": "1", "left_gap": "0", "run": "100"},
    "table-upright": {"right_gap": "0", "left_gap": "1", "run": "120"},
    "temple-bend": {
        "right_start": "96",
        "left_start": "98",
        "right_drop": "40",
        "left_drop": "45",
    },
    "fold": {"right_height": "-1", "left_height": "-2", "half_width": "66"},
}
"""A left half that is higher, further forward, more open and so on, by the names of checks.

A turned lens and a folded temple are measured on each side by itself: clockwise, and sinking.
"""


def found(check: str) -> tuple[Fault, ...]:
    return faults_of(FRAME, check, {name: Decimal(text) for name, text in READ[check].items()})


def test_every_kind_is_produced_and_by_a_check_that_looks_for_it() -> None:
    made = {(fault.kind, check) for check in READ for fault in found(check)}
    assert {kind for kind, _ in made} == {kind.name for kind in KINDS}
    for kind, check in made:
        assert check in next(one.checks for one in KINDS if one.name == kind)


@pytest.mark.parametrize("check", READ)
def test_left_minus_right_is_positive(check: str) -> None:
    values = [fault.value for fault in found(check)]
    if check in {"rotation", "fold"}:
        assert [fault.eye for fault in found(check)] == list(Eye)
        assert max(values) < 0
    else:
        assert min(values) > 0


@pytest.mark.parametrize("check", READ)
def test_what_is_not_complete_is_not_drawn(check: str) -> None:
    assert faults_of(FRAME, check, {}) == ()


@pytest.mark.parametrize("check", READ)
def test_half_a_set_is_not_drawn_but_for_a_lens_of_its_own(check: str) -> None:
    """One lens may have marks and the other none."""
    read = {name: Decimal(text) for name, text in READ[check].items()}
    drawn = {
        len(faults_of(FRAME, check, {k: v for k, v in read.items() if k != name}))
        for name in read
    }
    assert drawn == ({0, 1} if check == "rotation" else {0})


def test_what_cannot_be_or_has_no_size_to_reckon_with_is_not_drawn() -> None:
    steep = {"right_offset": Decimal(39), "left_offset": Decimal(0)}
    assert faults_of(FRAME, "pantoscopic", steep) == ()
    assert faults_of(FrameOrder(), "pantoscopic", {**steep, "right_offset": Decimal(0)}) == ()
    assert faults_of(FRAME, "shafts", {}) == ()


def test_form_is_compared_with_the_order_alone() -> None:
    bare = FrameOrder(a=Decimal(52), b=Decimal(38), dbl=Decimal(18))
    read = {name: Decimal(text) for name, text in READ["face-form"].items()}
    assert faults_of(bare, "face-form", read) == ()


def test_every_measured_check_of_the_bench_is_here() -> None:
    asked = {one.name for one in load_guide().prompts if one.inputs and one.step == "bench"}
    assert asked == set(READ)
