"""House rules at work: a tightened limit judges, a quantity switched off is told."""

from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest

from benchassist.limits.load import PLAIN_ACCEPTANCE, Limits, load_limits
from benchassist.limits.rule import Evidence
from benchassist.verdicts.finding import State
from tests.verdicts.jobs import ANSI, ISO, display, judged, power, prism_read

RULES = """
workshop = "Fernhollow Spectacle Workshop"

[[tighten]]
rule_set = "iso-21987-2017"
row = "I3"
percent = "50"
reason = "we can"

[[tighten]]
rule_set = "ansi-z80.1-2015"
row = "A8v"
limit = "0.25"
unit = "Δ"
reason = "we can"

[[off]]
rule_set = "iso-21987-2017"
row = "I8"
reason = "no protractor here"

[[off]]
rule_set = "iso-21987-2017"
row = "I6-pair"
reason = "each lens is enough"

[[off]]
rule_set = "iso-21987-2017"
row = "I5-h"
reason = "measured at the lab"

[[off]]
rule_set = "bench"
row = "skew"
reason = "no rule here"
"""
LENS: dict[str, Any] = {"power": power("-2.00", "-1.00", "90"), "height": "20"}
ORDER = {"design": "progressive", "right": LENS, "left": LENS}
WHY = "not judged by house rule of Fernhollow Spectacle Workshop"


@pytest.fixture
def house(tmp_path: Path) -> Path:
    path = tmp_path / "house-rules.toml"
    path.write_text(RULES, encoding="utf-8")
    return path


@pytest.fixture
def limits(house: Path) -> Limits:
    return load_limits(ISO, PLAIN_ACCEPTANCE, house=house)


@pytest.mark.parametrize(
    ("axis", "state"), [("91.9", State.WITHIN), ("92", State.WITHIN), ("92.1", State.OUTSIDE)]
)
def test_a_tightened_limit_decides(limits: Limits, axis: str, state: State) -> None:
    read = {"right": {"distance": [display("-2.00", "-1.00", axis)]}}
    finding = judged(ORDER, read, limits)["right.axis"]
    assert (finding.state, finding.limit) == (state, Decimal(2))
    assert finding.rule is not None
    assert finding.rule.evidence is Evidence.HOUSE
    assert "house rule of Fernhollow Spectacle Workshop" in finding.rule.title


def test_what_is_switched_off_is_told_and_not_judged(limits: Limits) -> None:
    pair = {eye: {"tilt": ["9"], "height": ["26"]} for eye in ("right", "left")}
    findings = judged(ORDER, {"pair": pair}, limits)
    tilt = findings["right.tilt"]
    assert (tilt.state, tilt.found, tilt.limit) == (State.NONE, Decimal(9), None)
    assert tilt.sentence.endswith(f"; {WHY}: no protractor here.")
    assert tilt.rule is not None
    assert findings["pair.height"].state is State.NONE
    assert findings["right.height"].state is State.OUTSIDE


def test_what_is_switched_off_does_not_wait_for_its_reading(limits: Limits) -> None:
    findings = judged(ORDER, {}, limits)
    assert findings["right.tilt"].state is State.NONE
    assert findings["right.tilt"].sentence == f"Tilt: {WHY}: no protractor here."
    assert findings["pair.height"].sentence.endswith(f"{WHY}: each lens is enough.")
    assert findings["pair.prism-horizontal"].state is State.NONE
    assert findings["pair.prism-vertical"].state is State.MISSING
    of_centres = judged({**ORDER, "design": "single-vision"}, {}, limits)
    assert of_centres["pair.centration-horizontal"].state is State.NONE
    assert findings["right.height"].state is State.MISSING


def test_prism_that_is_switched_off_is_told(limits: Limits) -> None:
    read = {eye: {"prism": prism_read("3", "3")} for eye in ("right", "left")}
    findings = judged(ORDER, read, limits)
    assert findings["pair.prism-horizontal"].sentence.endswith(f"{WHY}: measured at the lab.")
    assert findings["pair.prism-vertical"].state is State.WITHIN


def test_the_bench_has_house_rules_too(limits: Limits) -> None:
    measured = {"right_outer": "9", "right_inner": "1", "left_inner": "1", "left_outer": "1"}
    bench = {"bench": {"answers": {"skew": {"measured": measured}}}}
    order = {**ORDER, "frame": {"a": "50", "b": "40", "dbl": "18"}}
    finding = judged(order, bench, limits)["bench.skew"]
    assert (finding.state, finding.limit) == (State.NONE, None)
    unfinished = {"bench": {"answers": {"skew": {"measured": {"right_outer": "9"}}}}}
    assert judged(order, unfinished, limits)["bench.skew"].state is State.NONE


def test_one_of_two_limits_may_be_tightened(house: Path) -> None:
    ansi = load_limits(ANSI, PLAIN_ACCEPTANCE, house=house)
    order = {**ORDER, "design": "single-vision", "rule_set": ANSI}
    for up, state in (("0.25", State.WITHIN), ("0.26", State.OUTSIDE)):
        read = {"right": {"prism": prism_read("0", up)}, "left": {"prism": prism_read()}}
        finding = judged(order, read, ansi)["pair.prism-vertical"]
        assert finding.state is state, finding.sentence
