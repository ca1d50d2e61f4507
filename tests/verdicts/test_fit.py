"""The measured checks of the fit on the wearer."""

from decimal import Decimal
from typing import Any

import pytest

from benchassist.optics.eye import Eye
from benchassist.verdicts.finding import Finding, State
from tests.verdicts.jobs import checked, components, power

FRAME: dict[str, Any] = {"a": "52", "b": "40", "dbl": "18"}
ORDER: dict[str, Any] = {
    "design": "progressive",
    "vertex_distance": "12",
    "right": {"power": power("-8.00", "-2.00", "180")},
    "left": {"power": power("-8.00")},
    "frame": FRAME,
}


def fit(name: str, /, **measured: str) -> dict[str, Finding]:
    return fit_for(ORDER, name, **measured)


def fit_for(order: dict[str, Any], name: str, /, **measured: str) -> dict[str, Finding]:
    return checked("fit", name, {"measured": measured}, order)


def test_the_vertex_distance_changes_the_power_at_the_eye() -> None:
    findings = fit("vertex", right="14.5", left="12")
    pair = findings["fit.vertex"]
    assert (pair.state, pair.found) == (State.OUTSIDE, Decimal("2.5"))
    right = findings["fit.vertex.right"]
    # -10 D worn 2.5 mm further out: -10 / (1 + 0.025) = -9.756 D
    assert right.found == pytest.approx(Decimal("0.243902"), abs=Decimal("0.000001"))
    assert right.state is State.CLOSE
    assert "worth +0.24 D more at most" in right.sentence
    assert findings["fit.vertex.left"].sentence == (
        "Worn at 12.0 mm, refracted at 12.0 mm: the lens is worth the same, limit ±0.25 D."
    )


def test_the_change_of_power_needs_a_power_to_compare_with() -> None:
    findings = fit_for({"vertex_distance": "12"}, "vertex", right="14", left="14")
    assert findings["fit.vertex.right"].state is State.NONE
    assert "no power is ordered" in findings["fit.vertex.right"].sentence


@pytest.mark.parametrize(
    ("worn", "state"),
    [
        *(("0", State.OUTSIDE), ("4.5", State.OUTSIDE), ("5", State.CLOSE)),
        *(("8", State.WITHIN), ("18", State.WITHIN), ("18.5", State.CLOSE)),
        *(("21", State.CLOSE), ("21.5", State.OUTSIDE), ("25", State.OUTSIDE)),
    ],
)
def test_a_vertex_distance_that_none_ordered_is_held_against_the_usual(
    worn: str, state: State
) -> None:
    order = {**ORDER, "vertex_distance": None}
    findings = fit_for(order, "vertex", right=worn, left=worn)
    assert findings["fit.vertex"].state is State.WITHIN
    for eye in ("right", "left"):
        assert findings[f"fit.vertex.usual-{eye}"].state is state
        assert "usual 8.0 mm to 18.0 mm" in findings[f"fit.vertex.usual-{eye}"].sentence


@pytest.mark.parametrize(
    ("tilt", "state"),
    [("-8", State.OUTSIDE), ("0", State.CLOSE), ("5", State.WITHIN), ("21", State.OUTSIDE)],
)
def test_a_tilt_that_none_ordered_is_held_against_the_usual(tilt: str, state: State) -> None:
    assert fit("tilt", tilt=tilt)["fit.tilt"].state is state


@pytest.mark.parametrize(
    ("form", "state"),
    [("-6", State.OUTSIDE), ("0", State.WITHIN), ("12", State.CLOSE), ("30", State.OUTSIDE)],
)
def test_a_form_that_none_ordered_is_held_against_the_usual(form: str, state: State) -> None:
    findings = fit("face-form", right=form, left=form)
    assert findings["fit.face-form"].state is State.WITHIN
    assert findings["fit.face-form.left"].state is state


def test_a_lens_moved_past_its_focus_cannot_be() -> None:
    order = {**ORDER, "right": {"power": power("-40.00")}, "vertex_distance": "40"}
    finding = fit_for(order, "vertex", right="0", left="12")
    assert finding["fit.vertex"].state is State.MISSING


def test_the_fitting_cross_against_the_pupil() -> None:
    findings = fit("cross", right_across="1.2", right_up="0", left_across="0", left_up="-1")
    across, up = findings["fit.cross.right-across"], findings["fit.cross.right-up"]
    assert across.state is State.OUTSIDE
    assert across.sentence == (
        "Fitting cross 1.2 mm towards the nose, limit ±1.0 mm, it causes 0.96 Δ base out."
    )
    assert across.rule is not None
    assert across.rule.row == "I6-h"
    assert up.sentence.startswith("Fitting cross on the pupil")
    left = findings["fit.cross.left-up"]
    assert (left.state, "too low" in left.sentence) == (State.WITHIN, True)
    assert findings["fit.cross.left-across"].eye is Eye.LEFT


def test_the_centre_of_other_lenses_has_a_proposed_limit() -> None:
    order = {"design": "single-vision", "right": {"power": power("0.00")}}
    findings = fit_for(
        order, "cross", right_across="-0.8", right_up="0.8", left_across="0", left_up="0"
    )
    across = findings["fit.cross.right-across"]
    assert across.state is State.CLOSE
    assert across.sentence.startswith(
        "Centre of the lens 0.8 mm towards the temple, limit ±1.0 mm, it causes no prism"
    )
    assert across.rule is not None
    assert across.rule.rule_set == "bench"
    assert "causes" not in findings["fit.cross.left-up"].sentence


def test_tilt_and_form_as_worn_against_the_order() -> None:
    order = {**ORDER, "frame": {**FRAME, "tilt": "8", "face_form": "5"}}
    assert fit_for(order, "tilt", tilt="11")["fit.tilt"].state is State.CLOSE
    form = fit_for(order, "face-form", right="8", left="5")
    assert form["fit.face-form.right"].state is State.OUTSIDE
    assert form["fit.face-form.right"].sentence == (
        "Face form as worn 8° found, 5° ordered, limit ±2°."
    )
    assert form["fit.face-form.left"].state is State.WITHIN
    assert form["fit.face-form"].state is State.CLOSE
    assert "turned by 1.5°, the right lens nearer to the face" in form["fit.face-form"].sentence
    told = fit("tilt", tilt="11")["fit.tilt"]
    assert (told.state, told.found, told.difference) == (State.WITHIN, Decimal(11), Decimal(1))


SINGLE: dict[str, Any] = {
    "design": "single-vision",
    "right": {"power": power("-4.00")},
    "left": {"power": power("-4.00")},
    "frame": {**FRAME, "tilt": "10"},
}


def test_a_low_centre_of_a_single_vision_lens_is_no_fault() -> None:
    low = fit_for(
        SINGLE, "cross", right_across="0", right_up="-5", left_across="0", left_up="-5"
    )
    finding = low["fit.cross.right-up"]
    assert (finding.state, finding.what) == (State.WITHIN, "Centre of the lens, height")
    assert "it belongs 4.8 mm below the pupil with 10° of tilt" in finding.sentence
    assert low["fit.cross.prism-vertical"].state is State.WITHIN
    uneven = fit_for(
        SINGLE, "cross", right_across="0", right_up="-5", left_across="0", left_up="-2"
    )
    assert uneven["fit.cross.apart"].state is State.NONE
    assert uneven["fit.cross.apart"].sentence == (
        "Height, right against left: 3.0 mm apart; for information, their vertical prism is "
        "judged."
    )
    assert uneven["fit.cross.prism-vertical"].state is State.OUTSIDE
    unknown = {"design": "single-vision", "frame": SINGLE["frame"]}
    alone = fit_for(
        unknown, "cross", right_across="0", right_up="-5", left_across="0", left_up="-2"
    )
    assert alone["fit.cross.apart"].state is State.OUTSIDE


@pytest.mark.parametrize(
    ("up", "found", "says"),
    [
        ("0", "4.760828", "on the pupil, it belongs 4.8 mm below the pupil with 10° of tilt: "),
        ("-4.8", "-0.039172", "4.8 mm below the pupil, it belongs 4.8 mm below"),
        ("-8", "-3.239172", "that, limit ±3.5 mm, it causes 1.30 Δ base up"),
    ],
)
def test_a_lowered_centre_is_reckoned_from_its_place(up: str, found: str, says: str) -> None:
    """27 tan 10 = 4.760828 mm; -4.00 D 3.239 mm too low give 1.296 prism dioptres."""
    read = fit_for(SINGLE, "cross", right_across="0", right_up=up, left_across="0", left_up=up)
    finding = read["fit.cross.right-up"]
    assert finding.found == finding.difference == Decimal(found)
    assert says in finding.sentence


def test_ordered_prism_moves_the_centre() -> None:
    order = {**SINGLE, "right": {"power": power("-4.00"), "prism": components("3")}}
    found = fit_for(
        order, "cross", right_across="-7", right_up="0", left_across="0", left_up="0"
    )
    assert found["fit.cross.right-across"].state is State.NONE


def test_a_segment_is_told_without_prism() -> None:
    order = {**SINGLE, "design": "bifocal"}
    found = fit_for(
        order, "cross", right_across="0", right_up="-3", left_across="0", left_up="0"
    )
    finding = found["fit.cross.right-up"]
    assert finding.state is State.OUTSIDE
    assert finding.sentence.startswith("Segment 3.0 mm too low against its ordered place")
    assert found["fit.cross.left-up"].sentence.startswith("Segment at its ordered place, limit")
    assert "causes" not in finding.sentence
