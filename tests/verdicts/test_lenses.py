"""Power and addition findings: what is missing, what does not apply, what is near a limit."""

from dataclasses import replace
from decimal import Decimal
from typing import Any

import pytest

from benchassist.limits.table import Table
from benchassist.verdicts.finding import Finding, State
from benchassist.verdicts.imbalance import displacement
from tests.verdicts.jobs import (
    ANSI,
    ISO,
    components,
    display,
    drum,
    guarded_limits,
    judged,
    plain_limits,
    power,
    prism_read,
    shown_add,
)

LENS: dict[str, Any] = {
    "design": "progressive",
    "right": {"power": power("-3.00", "-1.00", "180"), "add": "2.25"},
}


def read(**right: Any) -> dict[str, Finding]:
    return judged(LENS, {"right": right})


def test_without_an_order_every_power_is_to_do() -> None:
    findings = judged({"design": "single-vision"})
    assert findings["right.meridian-high"].state is State.MISSING
    assert findings["left.axis"].sentence == "No distance power is ordered yet."


def test_without_a_design_no_limit_can_be_chosen() -> None:
    order = {"right": {"power": power("1.00"), "add": "1.00"}}
    findings = judged(order, {"right": {"distance": [display("1.00")]}})
    assert findings["right.meridian-high"].state is State.MISSING
    assert "design is not ordered" in findings["right.meridian-high"].sentence
    assert "design is not ordered" in findings["right.add"].sentence


def test_what_is_ordered_and_not_read_is_to_do() -> None:
    findings = read(distance=[{"kind": "display", "sphere": "-3.00"}])
    high = findings["right.meridian-high"]
    assert (high.state, high.ordered, high.prompt) == (
        State.MISSING,
        Decimal("-4.00"),
        "right.distance",
    )
    assert high.sentence == "Stronger meridian not read yet, −4.00 D ordered."
    assert findings["right.axis"].sentence == "Axis not read yet, 180° ordered."
    assert findings["right.add"].state is State.MISSING
    assert findings["right.engraved-add"].state is State.MISSING


def test_the_sentence_of_a_cylinder() -> None:
    found = read(distance=[display("-3.00", "-1.25", "180")])["right.cylinder"]
    assert found.state is State.OUTSIDE
    assert found.sentence == (
        "Cylinder −1.25 D found, −1.00 D ordered: 0.25 D stronger, limit ±0.18 D."
    )
    assert (found.ordered, found.found, found.difference) == (
        Decimal("-1.00"),
        Decimal("-1.25"),
        Decimal("-0.25"),
    )
    assert found.rule is not None
    assert found.rule.row == "I2-B"
    assert found.share == Decimal("0.25") / Decimal("0.18")


def test_a_sphere_has_no_axis() -> None:
    order = {"design": "single-vision", "right": {"power": power("1.00")}}
    waiting = judged(order)
    assert waiting["right.axis"].state is State.NONE
    findings = judged(order, {"right": {"distance": [display("1.00", "-0.06", "20")]}})
    assert findings["right.axis"].state is State.NONE
    assert findings["right.cylinder"].state is State.WITHIN


def test_no_cylinder_found_leaves_no_axis_to_compare() -> None:
    findings = read(distance=[display("-3.50")])
    assert findings["right.cylinder"].state is State.OUTSIDE
    assert findings["right.axis"].state is State.NONE
    assert "No cylinder was found" in findings["right.axis"].sentence


def test_the_five_states() -> None:
    order = {"design": "single-vision", "right": {"power": power("-2.00", "-0.50", "90")}}
    limits = guarded_limits(ISO)

    def state(*values: str, key: str = "right.meridian-high") -> State:
        return judged(order, {"right": {"distance": [display(*values)]}}, limits)[key].state

    assert state("-2.00", "-0.50", "90") is State.WITHIN
    assert state("-2.00", "-0.60", "90") is State.CLOSE
    assert state("-2.00", "-0.75", "90") is State.OUTSIDE
    assert judged(order, {}, limits)["right.meridian-high"].state is State.MISSING
    assert judged(order, {}, limits)["right.add"].state is State.NONE


def test_the_guard_of_a_display_and_of_a_drum() -> None:
    order = {"design": "single-vision", "right": {"power": power("-2.00")}}
    limits = guarded_limits(ISO)
    shown = judged(order, {"right": {"distance": [display("-2.00")]}}, limits)
    turned = judged(order, {"right": {"distance": [drum("-2.00", "-2.00")]}}, limits)
    guards = [findings["right.meridian-high"].guard for findings in (shown, turned)]
    # 1.645 x sqrt(0.06^2/3 + 0.01^2/12) and with 0.125 in place of 0.01
    tiny = Decimal("0.000001")
    assert guards[0] == pytest.approx(Decimal("0.057183"), abs=tiny)
    assert guards[1] == pytest.approx(Decimal("0.082284"), abs=tiny)


def test_a_meter_too_coarse_for_the_limit_passes_nothing() -> None:
    order = {"design": "single-vision", "right": {"power": power("-2.00")}}
    name = "Bench 2, checked 2026-03-02 08:00"
    meter = {
        "name": "Bench 2",
        "speech": "display",
        "step": "0.01",
        "checked": "2026-03-02T08:00:00Z",
        "known_lens_error": "0.25",
    }
    reading = {**display("-2.00"), "meter": name}
    attempt = {"instruments": {name: meter}, "right": {"distance": [reading]}}
    high = judged(order, attempt, guarded_limits(ISO))["right.meridian-high"]
    assert high.limit is not None
    assert high.guard > high.limit
    assert high.state is State.CLOSE
    assert high.more_readings is None
    assert "only a checked meter with a finer step" in high.sentence
    assert judged(order, attempt)["right.meridian-high"].state is State.WITHIN


def test_a_spread_wider_than_the_limit_passes_nothing() -> None:
    order = {"design": "single-vision", "right": {"power": power("-24.00")}}
    readings = [display("-24.00"), display("-25.00"), display("-23.00")]
    found = judged(order, {"right": {"distance": readings}}, guarded_limits(ISO))
    assert found["right.meridian-high"].guard > Decimal("0.25")
    assert found["right.meridian-high"].state is State.CLOSE


def test_the_spread_of_repeats_widens_the_guard() -> None:
    order = {"design": "single-vision", "right": {"power": power("-2.00")}}
    limits = guarded_limits(ISO)
    once = judged(order, {"right": {"distance": [display("-2.00")]}}, limits)
    spread = [display("-2.05"), display("-1.95"), display("-2.00")]
    thrice = judged(order, {"right": {"distance": spread}}, limits)
    assert thrice["right.meridian-high"].found == Decimal("-2.00")
    assert thrice["right.meridian-high"].guard > once["right.meridian-high"].guard


@pytest.mark.parametrize(
    ("readings", "found", "says"),
    [
        (["2.37"], "2.37", "(front surface on the stop)"),
        (["2.25", "2.35"], "2.30", "(front surface on the stop)"),
    ],
)
def test_an_addition_names_its_surface(readings: list[str], found: str, says: str) -> None:
    finding = read(near=[shown_add(value, "front") for value in readings])["right.add"]
    assert finding.found == Decimal(found)
    assert says in finding.sentence


def test_only_additions_read_as_proposed_are_judged() -> None:
    finding = read(near=[shown_add("2.25"), shown_add("2.75", "front")])["right.add"]
    assert (finding.found, finding.state) == (Decimal("2.25"), State.WITHIN)
    assert finding.sentence == (
        "Addition +2.25 D found (back surface on the stop), +2.25 D ordered: no difference, "
        "limit ±0.12 D; 1 reading with the front surface on the stop kept and not judged."
    )


def test_an_addition_on_the_drum_leaves_the_meters_error_out() -> None:
    near = [{"kind": "drum", "distance_lines": "-3.00", "near_lines": "-0.65"}]
    unread = [*near, {"kind": "drum", "distance_lines": "-3.00"}]
    finding = judged(LENS, {"right": {"near": unread}}, guarded_limits(ISO))["right.add"]
    assert finding.found == Decimal("2.35")
    assert finding.state is State.CLOSE
    assert "meter's own error is common" in finding.sentence
    # 1.645 x sqrt 2 x 0.125 / sqrt 12
    assert finding.guard == pytest.approx(Decimal("0.083947"), abs=Decimal("0.000001"))


def test_an_addition_that_was_not_ordered_is_to_do() -> None:
    order = {"design": "bifocal", "right": {"power": power("1.00")}}
    assert judged(order)["right.add"].sentence == "Addition: none is ordered yet."
    progressive = judged({**order, "design": "progressive"})
    assert progressive["right.engraved-add"].state is State.MISSING


@pytest.mark.parametrize("design", ["single-vision", "degressive"])
def test_other_designs_have_no_addition(design: str) -> None:
    finding = judged({"design": design})["left.add"]
    assert finding.state is State.NONE
    assert design.replace("-", " ") in finding.sentence


@pytest.mark.parametrize(
    ("engraved", "state"),
    [("2.25", State.WITHIN), ("2.2", State.WITHIN), ("2.5", State.OUTSIDE)],
)
def test_the_engraved_addition_names_the_lens(engraved: str, state: State) -> None:
    finding = read(engraved_add=engraved)["right.engraved-add"]
    assert finding.state is state
    assert finding.limit is None


def test_the_intermediate_addition_of_a_trifocal() -> None:
    lens = {"power": power("1.00"), "add": "2.00", "intermediate": "1.00"}
    order = {"design": "trifocal", "right": lens}
    attempt = {"right": {"intermediate": [shown_add("1.13", "front")]}}
    finding = judged(order, attempt)["right.intermediate"]
    assert finding.state is State.OUTSIDE
    assert finding.prompt == "right.intermediate"
    assert "left.intermediate" in judged(order)


def test_a_rule_set_without_a_row_judges_nothing() -> None:
    limits = replace(plain_limits(ISO), rules=Table(()))
    right = {
        "distance": [display("-3.00", "-1.00", "180")],
        "near": [shown_add("2.25")],
        "prism": prism_read(),
    }
    order = {**LENS, "left": LENS["right"]}
    findings = judged(order, {"right": right, "left": {"prism": prism_read()}}, limits)
    for name in ("right.meridian-high", "right.meridian-other", "right.cylinder", "right.axis"):
        assert findings[name].state is State.NONE
        assert "no limit for it on a progressive lens" in findings[name].sentence
    assert findings["right.add"].state is State.NONE
    assert findings["pair.prism-vertical"].state is State.NONE


def test_ansi_tells_the_other_meridian_without_judging_it() -> None:
    order = {**LENS, "rule_set": ANSI}
    findings = judged(order, {"right": {"distance": [display("-2.00", "-2.00", "180")]}})
    other = findings["right.meridian-other"]
    assert other.state is State.NONE
    assert other.found == Decimal("-2.00")
    assert "judges the stronger meridian only" in other.sentence


def test_a_lens_without_power_has_no_displacement() -> None:
    assert displacement(Decimal(0), Decimal(0)) == 0
    assert displacement(Decimal(1), Decimal(0)) is None
    assert displacement(Decimal("-0.5"), Decimal(5)) == 1


@pytest.mark.parametrize("engraved", ["1.70", "1.75", "1.80"])
def test_an_engraving_may_be_cut_or_rounded_to_one_place(engraved: str) -> None:
    order = {"design": "progressive", "right": {"power": power("-3.00"), "add": "1.75"}}
    found = judged(order, {"right": {"engraved_add": engraved}})
    assert found["right.engraved-add"].state is State.WITHIN
    other = judged(order, {"right": {"engraved_add": "1.90"}})
    assert other["right.engraved-add"].state is State.OUTSIDE


def test_a_makers_power_that_is_not_complete_is_never_replaced_by_the_order() -> None:
    begun = {"sphere": "-5.80", "cylinder": "-1.10"}
    lens = {"power": power("-6.00", "-1.00", "90"), "verification": {"power": begun}}
    order = {"design": "single-vision", "right": lens}
    found = judged(order, {"right": {"distance": [display("-6.00", "-1.00", "90")]}})
    assert found["right.meridian-high"].state is State.MISSING
    assert "verification power is not complete" in found["right.meridian-high"].sentence


def test_one_lens_is_told_while_the_other_is_unread() -> None:
    lens = {"power": power("-2.00"), "prism": components("3")}
    order = {"design": "single-vision", "right": lens, "left": lens}
    found = judged(order, {"right": {"prism": prism_read("-3")}})["pair.prism-horizontal"]
    assert found.state is State.MISSING
    assert found.sentence.endswith("The right one has 3.00 Δ base out, 3.00 Δ base in ordered.")
