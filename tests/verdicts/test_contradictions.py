"""Repeats that contradict each other: their mean alone passes nothing."""

from decimal import Decimal
from typing import Any

import pytest

from benchassist.verdicts.finding import State
from benchassist.verdicts.trust import Spread, Trust
from benchassist.verdicts.weigh import READINGS_DISAGREE
from tests.verdicts.jobs import (
    ISO,
    components,
    display,
    guarded_limits,
    judged,
    plain_limits,
    power,
    shown_add,
)

LENS = {"power": power("-3.00", "-2.00", "90"), "add": "2.00", "height": "20"}
ORDER: dict[str, Any] = {
    "design": "bifocal",
    "right": LENS,
    "left": LENS,
    "addition_surface": "back",
}


def reading(sphere: str, axis: str = "90") -> dict[str, Any]:
    return display(sphere, "-2.00", axis)


def prisms(*base_in: str) -> list[dict[str, Any]]:
    return [{"prism": components(amount)} for amount in base_in]


CASES: dict[str, dict[str, Any]] = {
    "right.meridian-other": {"right": {"distance": [reading("-2.50"), reading("-3.50")]}},
    "right.axis": {"right": {"distance": [reading("-3", "80"), reading("-3", "100")]}},
    "right.add": {"right": {"near": [shown_add("1.50"), shown_add("2.50")]}},
    "right.height": {"pair": {"right": {"height": ["17", "23"]}}},
    "pair.prism-horizontal": {
        "right": {"prism": prisms("1.50", "-1.50")},
        "left": {"prism": prisms("0")},
    },
}


@pytest.mark.parametrize("limits_of", [plain_limits, guarded_limits])
@pytest.mark.parametrize("key", list(CASES))
def test_repeats_on_both_sides_of_the_limit_are_read_again(key: str, limits_of: Any) -> None:
    finding = judged(ORDER, CASES[key], limits_of(ISO))[key]
    assert (finding.state, finding.more_readings) == (State.CLOSE, None)
    assert finding.sentence.endswith(f"; {READINGS_DISAGREE}.")


def test_one_repeat_outside_is_enough() -> None:
    attempt = {"right": {"distance": [reading("-3.00"), reading("-3.00"), reading("-3.25")]}}
    finding = judged(ORDER, attempt)["right.meridian-other"]
    assert finding.state is State.CLOSE
    assert finding.sentence.endswith(f"; {READINGS_DISAGREE}.")


def test_repeats_all_within_are_within() -> None:
    attempt = {"right": {"distance": [reading("-3.05"), reading("-2.95"), reading("-3.00")]}}
    assert judged(ORDER, attempt)["right.meridian-other"].state is State.WITHIN


def test_repeats_all_outside_on_one_side_are_outside() -> None:
    attempt = {"right": {"distance": [reading("-3.50"), reading("-3.75")]}}
    assert judged(ORDER, attempt)["right.meridian-other"].state is State.OUTSIDE


def test_repeats_in_eighths_are_compared_as_the_trade_writes_them() -> None:
    attempt = {"right": {"distance": [reading("-3.125"), reading("-2.875")]}}
    assert judged(ORDER, attempt)["right.meridian-other"].state is State.WITHIN


def test_a_quantity_turned_has_its_extremes_turned() -> None:
    trust = Trust((), (Spread(0.1, 2, Decimal("-0.2"), Decimal("0.5")),), 1.0)
    assert trust.singles(Decimal(1)) == (Decimal("0.8"), Decimal("1.5"))
    assert trust.turned().singles(Decimal(1)) == (Decimal("0.5"), Decimal("1.2"))
    assert trust.scaled(2).singles(Decimal(0)) == (Decimal("-0.4"), Decimal("1.0"))
