"""Findings on the mounted pair: prism, centration, heights and sizes."""

from dataclasses import replace
from decimal import Decimal
from typing import Any

import pytest

from benchassist.limits.rule import Evidence, Rule, Source
from benchassist.limits.table import Band, Row, Table
from benchassist.verdicts.finding import State
from tests.verdicts.jobs import (
    ANSI,
    ISO,
    display,
    drum,
    guarded_limits,
    judged,
    plain_limits,
    power,
    prism_read,
)

PAIR: dict[str, Any] = {
    "design": "single-vision",
    "right": {"power": power("-2.00"), "distance_pd": "31", "height": "18"},
    "left": {"power": power("-2.00"), "distance_pd": "32", "height": "18"},
}
MULTIFOCAL = {**PAIR, "design": "bifocal"}
PROGRESSIVE = {**PAIR, "design": "progressive"}


def layout(right: dict[str, Any], left: dict[str, Any]) -> dict[str, Any]:
    return {"pair": {"right": right, "left": left}}


def test_prism_waits_for_both_lenses() -> None:
    nothing = judged(PAIR)["pair.prism-horizontal"]
    assert (nothing.state, nothing.prompt) == (State.MISSING, "right.prism")
    assert "both lenses" in nothing.sentence
    half = judged(PAIR, {"right": {"prism": prism_read()}})["pair.prism-vertical"]
    assert (half.state, half.prompt) == (State.MISSING, "left.prism")
    assert "the other lens" in half.sentence


def test_prism_waits_for_power_and_design() -> None:
    read = {"right": {"prism": prism_read()}, "left": {"prism": prism_read()}}
    for order in ({"design": "single-vision"}, {key: PAIR[key] for key in ("right", "left")}):
        finding = judged(order, read)["pair.prism-horizontal"]
        assert finding.state is State.MISSING
        assert "order both powers and the design first" in finding.sentence


def test_prism_sentences() -> None:
    read = {"right": {"prism": prism_read("0.5", "0.75")}, "left": {"prism": prism_read("0.3")}}
    findings = judged(PAIR, read)
    assert findings["pair.prism-horizontal"].sentence == (
        "Horizontal imbalance 0.80 Δ base in found, none ordered: 0.80 Δ base in too much, "
        "limit 0.67 Δ."
    )
    assert findings["pair.prism-vertical"].sentence == (
        "Vertical imbalance 0.75 Δ base up right found, none ordered: 0.75 Δ apart, "
        "limit 0.50 Δ."
    )


def test_a_verification_prism_is_the_one_to_find() -> None:
    lens = {
        **PAIR["right"],
        "prism": {"form": "polar", "amount": "2", "base": "0"},
        "verification": {"prism": {"form": "components", "base_in": "1.8"}},
    }
    read = {"right": {"prism": prism_read("1.8")}, "left": {"prism": prism_read()}}
    finding = judged({**PAIR, "right": lens}, read)["pair.prism-horizontal"]
    assert (finding.ordered, finding.difference) == (Decimal("1.8"), Decimal(0))
    assert "no difference" in finding.sentence


def test_prism_is_less_certain_on_a_reticle() -> None:
    def guard(reading: dict[str, Any] | None) -> Decimal:
        lens = {"prism": prism_read(), "distance": [reading] if reading else []}
        findings = judged(PAIR, {"right": lens, "left": lens}, guarded_limits(ISO))
        return findings["pair.prism-vertical"].guard

    unknown, reticle, shown = guard(None), guard(drum("-2", "-2")), guard(display("-2"))
    assert unknown == reticle > shown > 0


def test_ansi_passes_by_millimetres_just_below_the_switch() -> None:
    strong = {"power": power("-2.75")}
    order = {"design": "single-vision", "rule_set": ANSI, "right": strong, "left": strong}
    read = {"right": {"prism": prism_read("0.68")}, "left": {"prism": prism_read()}}
    finding = judged(order, read)["pair.prism-horizontal"]
    assert finding.state is State.WITHIN
    assert finding.unit == "mm"
    assert "limit 2.5 mm (or 0.67 Δ)" in finding.sentence


def test_ansi_progressive_with_one_plano_lens_is_judged_by_prism() -> None:
    order = {
        "design": "progressive",
        "rule_set": ANSI,
        "right": {"power": power("-5.00")},
        "left": {"power": power("0.00")},
    }
    read = {"right": {"prism": prism_read()}, "left": {"prism": prism_read("0.70")}}
    finding = judged(order, read)["pair.prism-horizontal"]
    assert (finding.state, finding.unit, finding.limit) == (
        State.OUTSIDE,
        "Δ",
        Decimal("0.67"),
    )


def test_a_limit_in_millimetres_alone_needs_power() -> None:
    rule = Rule("house", "H", "Prism", "House", "1", Evidence.PROPOSED, (Source("Book"),))
    row = Row("H", ("prism-horizontal",), (), (Band((), "mm", Decimal(2), rule),))
    limits = replace(plain_limits(ISO), rules=Table((row,)))
    plano = {"power": power("0.00")}
    order = {"design": "single-vision", "right": plano, "left": plano}
    read = {"right": {"prism": prism_read("1")}, "left": {"prism": prism_read()}}
    finding = judged(order, read, limits)["pair.prism-horizontal"]
    assert finding.state is State.NONE
    assert "without power" in finding.sentence


def test_distances_of_single_vision_inform_and_their_prism_is_judged() -> None:
    read = layout({"distance_pd": ["32", "33"]}, {"distance_pd": ["32"]})
    findings = judged(PAIR, read)
    single, pair = findings["right.centration"], findings["pair.centration"]
    assert (single.state, single.found, single.difference) == (
        State.NONE,
        Decimal("32.5"),
        Decimal("1.5"),
    )
    assert (pair.state, pair.found, pair.ordered) == (State.NONE, Decimal("64.5"), Decimal(63))
    assert "judged by the prism it causes" in pair.sentence
    prism = findings["pair.centration-horizontal"]
    assert prism.sentence == (
        "Horizontal prism by centration 0.30 Δ base in, from an error of 1.5 mm: "
        "0.30 Δ base in too much, limit 0.67 Δ."
    )


def test_centration_by_prism_says_what_it_waits_for() -> None:
    unread = judged(PAIR)["pair.centration-horizontal"]
    assert (unread.state, unread.prompt) == (State.MISSING, "pair.distance-pd")
    assert "not read yet" in unread.sentence
    unordered = judged({"design": "single-vision"})["pair.centration-horizontal"]
    assert "no distances are ordered yet" in unordered.sentence
    powerless = {
        "design": "single-vision",
        "right": {"distance_pd": "31"},
        "left": {"distance_pd": "31"},
    }
    read = layout(
        {"distance_pd": ["31"], "height": ["18"]}, {"distance_pd": ["31"], "height": ["18"]}
    )
    findings = judged(powerless, read)
    for key in ("pair.centration-horizontal", "pair.centration-vertical"):
        assert findings[key].state is State.MISSING
        assert "order both powers first" in findings[key].sentence


def test_centration_by_prism_without_a_row() -> None:
    limits = replace(plain_limits(ISO), rules=Table(()))
    read = layout({"distance_pd": ["31"]}, {"distance_pd": ["32"]})
    assert judged(PAIR, read, limits)["pair.centration-horizontal"].state is State.NONE


def test_heights_of_single_vision_without_an_order_should_be_level() -> None:
    lens = {"power": power("-3.00"), "distance_pd": "31"}
    order = {"design": "single-vision", "right": lens, "left": lens}
    assert "pair.centration-vertical" not in judged(order)
    finding = judged(order, layout({"height": ["20"]}, {"height": ["18"]}))
    assert finding["pair.centration-vertical"].state is State.OUTSIDE
    assert finding["pair.centration-vertical"].found == Decimal("-0.60")
    waiting = judged(PAIR, layout({"height": ["20"]}, {}))
    assert waiting["pair.centration-vertical"].state is State.MISSING
    assert waiting["right.height"].state is State.NONE


def test_the_height_of_a_segment_is_not_that_of_the_optical_centre() -> None:
    finding = judged(MULTIFOCAL)["pair.centration-vertical"]
    assert finding.state is State.NONE
    assert "height measured is that of the segment" in finding.sentence


def test_a_power_variation_lens_is_judged_lens_by_lens() -> None:
    findings = judged(PROGRESSIVE, layout({"distance_pd": ["31"]}, {"distance_pd": ["32"]}))
    assert findings["right.centration"].state is State.WITHIN
    assert "each lens is judged by itself" in findings["pair.centration"].sentence
    assert "pair.centration-horizontal" not in findings
    waiting = judged(PROGRESSIVE)
    assert waiting["right.centration"].sentence == (
        "Centration distance not read yet, 31.0 mm ordered."
    )
    assert "none is ordered yet" in judged({"design": "degressive"})["left.centration"].sentence


def test_a_design_without_a_row_is_not_judged() -> None:
    limits = replace(plain_limits(ISO), rules=Table(()))
    read = layout(
        {"distance_pd": ["31"], "height": ["18"], "tilt": ["1"]},
        {"distance_pd": ["31"], "height": ["18"]},
    )
    findings = judged(PROGRESSIVE, read, limits)
    for key in ("right.centration", "right.height", "right.tilt", "pair.height"):
        assert findings[key].state is State.NONE
        assert "no limit for it on a progressive lens" in findings[key].sentence


def test_distances_without_a_design_are_only_told() -> None:
    order = {key: PAIR[key] for key in ("right", "left")}
    findings = judged(order, layout({"distance_pd": ["31"], "near_pd": ["29"]}, {}))
    assert findings["right.centration"].state is State.NONE
    assert "an unknown lens" in findings["right.centration"].sentence
    assert "left.centration" not in findings
    assert "right.tilt" not in findings


def test_heights_of_the_pair_compare_their_errors() -> None:
    order = {
        **MULTIFOCAL,
        "right": {**PAIR["right"], "height": "19"},
    }
    findings = judged(order, layout({"height": ["20"]}, {"height": ["19"]}))
    pair = findings["pair.height"]
    assert (pair.state, pair.difference, pair.limit) == (
        State.WITHIN,
        Decimal(0),
        Decimal("1.0"),
    )
    assert "not read on both lenses" in judged(order)["pair.height"].sentence
    unordered = {**order, "left": {"power": power("-2.00")}}
    findings = judged(unordered)
    assert "not ordered for both lenses" in findings["pair.height"].sentence
    assert findings["left.height"].sentence == "Height: none is ordered yet."


def test_the_guard_of_a_rule_and_of_two_readings() -> None:
    read = layout({"height": ["18"]}, {"height": ["18"]})
    findings = judged(MULTIFOCAL, read, guarded_limits(ISO))
    tiny = Decimal("0.000001")
    # 1.645 x 0.5 / sqrt 12, and that times sqrt 2
    assert findings["right.height"].guard == pytest.approx(Decimal("0.237435"), abs=tiny)
    assert findings["pair.height"].guard == pytest.approx(Decimal("0.335784"), abs=tiny)


def test_the_distance_between_the_segments() -> None:
    lens = {**PAIR["right"], "near_pd": "29"}
    order = {**MULTIFOCAL, "right": lens, "left": lens}
    found = judged(order, layout({"near_pd": ["30"]}, {"near_pd": ["30.5"]}))
    finding = found["pair.segment-distance"]
    assert (finding.state, finding.ordered, finding.found) == (
        State.OUTSIDE,
        Decimal(58),
        Decimal("60.5"),
    )
    assert judged(order)["pair.segment-distance"].state is State.MISSING
    assert judged(MULTIFOCAL)["pair.segment-distance"].state is State.NONE


def test_each_segment_is_judged_where_the_eyes_have_their_own_distances() -> None:
    right, left = (
        {**PAIR["right"], "distance_pd": distance, "near_pd": near}
        for distance, near in (("32", "30"), ("30", "28"))
    )
    order = {**MULTIFOCAL, "right": right, "left": left}
    found = judged(order, layout({"near_pd": ["31.5"]}, {"near_pd": ["27"]}))
    assert found["pair.segment-distance"].state is State.WITHIN
    assert found["right.segment-distance-lens"].state is State.OUTSIDE
    assert "1.5 mm too wide" in found["right.segment-distance-lens"].sentence
    assert found["left.segment-distance-lens"].state is State.WITHIN
    ansi = judged(
        {**order, "rule_set": ANSI}, layout({"near_pd": ["31.5"]}, {"near_pd": ["27"]})
    )
    assert "right.segment-distance-lens" not in ansi
    alike = judged({**order, "left": right}, layout({"near_pd": ["31.5"]}, {"near_pd": ["30"]}))
    assert "right.segment-distance-lens" not in alike


def test_a_lens_without_a_segment_only_tells_its_near_distance() -> None:
    read = layout({"near_pd": ["30"]}, {"near_pd": ["30.5"]})
    finding = judged(PAIR, read)["pair.segment-distance"]
    assert finding.state is State.NONE
    assert "60.5 mm found" in finding.sentence
    assert "pair.segment-distance" not in judged(PAIR)


def test_sizes_are_judged_when_ordered() -> None:
    lens = {**PAIR["right"], "centre_thickness": "2.0", "base_curve": "6.00"}
    order = {
        **MULTIFOCAL,
        "rule_set": ANSI,
        "right": lens,
        "segment_width": "28",
        "segment_depth": "19",
    }
    read = layout(
        {"thickness": ["2.4"], "base_curve": ["5.00"], "segment_width": ["28.5"]},
        {"segment_width": ["28"]},
    )
    findings = judged(order, read)
    assert findings["right.thickness"].sentence == (
        "Centre thickness 2.4 mm found, 2.0 mm ordered: 0.4 mm too thick, limit ±0.3 mm."
    )
    assert findings["right.base-curve"].sentence == (
        "Base curve +5.00 D found, +6.00 D ordered: 1.00 D too flat, limit ±0.75 D."
    )
    assert findings["right.segment-width"].state is State.WITHIN
    assert findings["pair.segment-width"].difference == Decimal("0.5")
    assert findings["right.segment-depth"].state is State.MISSING
    assert "left.thickness" not in findings


def test_iso_has_no_limit_for_a_base_curve() -> None:
    lens = {**PAIR["right"], "base_curve": "6.00"}
    read = layout({"base_curve": ["5.00"]}, {})
    finding = judged({**PAIR, "right": lens}, read)["right.base-curve"]
    assert finding.state is State.NONE
    assert finding.found == Decimal("5.00")


@pytest.mark.parametrize(
    ("right", "left"), [(("3", "0"), ("-3", "0")), (("-2", "0"), ("2", "0"))]
)
def test_errors_that_cancel_are_within_and_a_caution(
    right: tuple[str, str], left: tuple[str, str]
) -> None:
    read = {"right": {"prism": prism_read(*right)}, "left": {"prism": prism_read(*left)}}
    finding = judged(PAIR, read)["pair.prism-horizontal"]
    assert finding.state is State.WITHIN
    assert finding.is_told
    assert f"one lens alone carries {abs(int(right[0]))}.00 Δ, more than 0.67 Δ" in (
        finding.sentence
    )


def test_distances_off_to_the_same_side_are_a_caution() -> None:
    lens = {"power": power("-5.00"), "distance_pd": "32"}
    order = {"design": "single-vision", "right": lens, "left": lens}
    found = judged(order, layout({"distance_pd": ["36"]}, {"distance_pd": ["28"]}))
    finding = found["pair.centration-horizontal"]
    assert (finding.state, finding.is_told) == (State.WITHIN, True)
    assert "one lens alone carries 2.00 Δ" in finding.sentence
    near = judged(order, layout({"distance_pd": ["33"]}, {"distance_pd": ["31"]}))
    assert not near["pair.centration-horizontal"].is_told


def test_thinning_is_named_only_where_a_lens_may_be_thinned() -> None:
    lens = {"power": power("-2.00"), "add": "2.00"}
    thinned = {eye: {"prism": prism_read("0", "-1.25")} for eye in ("right", "left")}
    order = {"design": "progressive", "right": lens, "left": lens}
    finding = judged(order, thinned)["pair.prism-vertical"]
    assert (finding.state, finding.is_told) == (State.WITHIN, True)
    assert "1.25 Δ base down in both lenses cancels, as prism thinning does" in finding.sentence
    assert "about 1.33 Δ is usual" in finding.sentence
    upwards = {eye: {"prism": prism_read("0", "1.25")} for eye in ("right", "left")}
    assert "nobody ordered it" in judged(order, upwards)["pair.prism-vertical"].sentence
    single = {**order, "design": "single-vision"}
    assert "nobody ordered it" in judged(single, thinned)["pair.prism-vertical"].sentence


def test_a_size_without_a_limit_that_is_not_as_ordered_is_told() -> None:
    order = {**MULTIFOCAL, "segment_width": "28"}
    found = judged(order, layout({"segment_width": ["35"]}, {"segment_width": ["28"]}))
    assert found["right.segment-width"].state is State.NONE
    assert found["right.segment-width"].is_told
    assert "not as ordered, ask the maker" in found["right.segment-width"].sentence
    assert not found["left.segment-width"].is_told


def test_what_a_progressive_out_of_place_causes_is_told_and_not_judged() -> None:
    """6.00 D, each centre 1.5 mm too far out: 0.90 prism dioptres a lens, 1.80 together."""
    lens = {"power": power("-6.00"), "add": "2.00", "distance_pd": "32", "height": "20"}
    order = {"design": "progressive", "right": lens, "left": lens}
    wide = {"distance_pd": ["33.5"], "height": ["20"]}
    finding = judged(order, layout(wide, wide))["pair.caused-horizontal"]
    assert (finding.state, finding.is_told) == (State.NONE, True)
    assert "1.80 Δ base in" in finding.sentence
    assert "pair.caused-vertical" not in judged(order, layout(wide, wide))
    true = {"distance_pd": ["32"], "height": ["20"]}
    assert "pair.caused-horizontal" not in judged(order, layout(true, true))
    high = {"distance_pd": ["32"], "height": ["21"]}
    assert "0.60 Δ" in judged(order, layout(high, true))["pair.caused-vertical"].sentence
