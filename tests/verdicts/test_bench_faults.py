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
    "pads": {
        "right_height": "14",
        "left_height": "15",
        "right_stand": "5",
        "left_stand": "7.5",
    },
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


SIZES: dict[str, dict[str, tuple[float, ...]]] = {
    "rotation": {"rotation": (1.685, 1.685)},
    "skew": {"skew": (1.0,)},
    "x-ing": {"x-ing": (1.685,)},
    "face-form": {"face-form": (7.766,)},
    "four-point": {"plane-step": (1.0,), "face-form": (2.985,)},
    "pads": {"pads": (1.0,), "pad-stand": (2.5,)},
    "open-angle": {"open-angle": (1.900,)},
    "pantoscopic": {"pantoscopic": (1.524,)},
    "table-inverted": {"table-inverted": (1.0,)},
    "table-upright": {"table-upright": (1.0,)},
    "temple-bend": {"bend-start": (2.0,), "bend-drop": (5.0,)},
    "fold": {"fold": (0.868, 1.736)},
}
"""Own derivation: asin and atan of 1 / 34 are 1.685 degrees; 2 atan(9 / 65) and 2 atan(5 / 52)
less twice the 4 ordered; atan(8 / 90) - atan(5 / 90); asin(6 / 38) - asin(5 / 38);
atan(1 / 66) and atan(2 / 66)."""


@pytest.mark.parametrize("check", READ)
def test_each_fault_has_the_size_that_was_measured(check: str) -> None:
    faults = found(check)
    assert {fault.kind for fault in faults} == SIZES[check].keys()
    for kind, wanted in SIZES[check].items():
        sizes = tuple(abs(fault.value) for fault in faults if fault.kind == kind)
        assert sizes == pytest.approx(wanted, abs=0.001)


def test_each_lens_is_turned_on_its_own_side() -> None:
    turned = {fault.eye: fault.value for fault in found("rotation")}
    assert turned.keys() == set(Eye)
    one = {"left_marks": Decimal(2), "separation": Decimal(34)}
    (fault,) = faults_of(FRAME, "rotation", one)
    # The outer mark of a left lens stands higher: counter-clockwise facing the wearer.
    assert fault.eye is Eye.LEFT
    assert fault.value == pytest.approx(3.372, abs=0.001)


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
