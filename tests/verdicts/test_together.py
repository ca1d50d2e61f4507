"""The distance between both optical centres, measured of both lenses together."""

from decimal import Decimal
from typing import Any

import pytest

from benchassist.verdicts.finding import Finding, State
from tests.verdicts.jobs import guarded_limits, judged, power

PAIR: dict[str, Any] = {
    "design": "single-vision",
    "right": {"power": power("-3.00"), "distance_pd": "31"},
    "left": {"power": power("-3.00"), "distance_pd": "33"},
}
PRISM, TOTAL = "pair.centration-horizontal", "pair.centration"


def together(
    *read: str, order: dict[str, Any] | None = None, **pair: Any
) -> dict[str, Finding]:
    return judged(order or PAIR, {"pair": {"distance_pd": list(read), **pair}})


@pytest.mark.parametrize("design", ["single-vision", "bifocal", "trifocal"])
def test_its_prism_is_judged_and_its_error_shared(design: str) -> None:
    findings = together("67", order={**PAIR, "design": design})
    total, prism = findings[TOTAL], findings[PRISM]
    assert (total.found, total.ordered, total.state) == (Decimal(67), Decimal(64), State.NONE)
    assert total.sentence == (
        "Centration distance of the pair 67.0 mm found, measured for both lenses together, "
        "64.0 mm ordered; the pair is judged by the prism it causes."
    )
    assert abs(prism.found or 0) == Decimal("0.9")
    assert prism.state is State.OUTSIDE
    assert "from an error of 3.0 mm shared equally between both lenses" in prism.sentence
    assert "right.centration" not in findings


def test_it_is_judged_as_each_half_would_be() -> None:
    halves = judged(
        PAIR,
        {"pair": {"right": {"distance_pd": ["31.5"]}, "left": {"distance_pd": ["33.5"]}}},
    )[PRISM]
    whole = together("65")[PRISM]
    assert (whole.found, whole.state, whole.limit) == (halves.found, halves.state, halves.limit)


def test_repeats_are_averaged_and_one_reading_is_trusted_more_than_two() -> None:
    assert together("63", "65")[PRISM].found == 0
    assert together("63", "65")[TOTAL].found == Decimal(64)
    limits = guarded_limits()
    once = judged(PAIR, {"pair": {"distance_pd": ["65"]}}, limits)[PRISM]
    each = {"right": {"distance_pd": ["31.5"]}, "left": {"distance_pd": ["33.5"]}}
    twice = judged(PAIR, {"pair": each}, limits)[PRISM]
    assert once.guard is not None
    assert twice.guard is not None
    assert 0 < once.guard < twice.guard


def test_distances_of_each_lens_go_before_it() -> None:
    each = {"right": {"distance_pd": ["31"]}, "left": {"distance_pd": ["33"]}}
    findings = together("70", **each)
    assert findings[TOTAL].found == Decimal(64)
    assert findings[PRISM].found == 0
    assert "together" not in findings[TOTAL].sentence + findings[PRISM].sentence


def test_one_lens_alone_does_not_take_its_place() -> None:
    findings = together("66", right={"distance_pd": ["31"]})
    assert findings[TOTAL].found == Decimal(66)
    assert "shared equally" in findings[PRISM].sentence


def test_an_oblique_cylinder_is_taken_with_the_shared_error() -> None:
    lens = {"power": power("-2.00", "-4.00", "45"), "distance_pd": "32", "height": "20"}
    order = {**PAIR, "right": lens, "left": lens}
    heights = {eye: {"height": ["20"]} for eye in ("right", "left")}
    shared = together("67", order=order, **heights)
    each = {eye: {"height": ["20"], "distance_pd": ["33.5"]} for eye in ("right", "left")}
    alone = judged(order, {"pair": each})
    key = "pair.centration-vertical"
    assert shared[key].found == alone[key].found
    assert "shared" not in shared[key].sentence


@pytest.mark.parametrize("design", ["progressive", "degressive"])
def test_a_lens_that_varies_needs_its_own(design: str) -> None:
    findings = together("66", order={**PAIR, "design": design})
    waiting = findings["right.centration"]
    assert waiting.state is State.MISSING
    assert f"not enough, a {design} lens needs its own distance" in waiting.sentence
    assert PRISM not in findings
    assert TOTAL not in findings


def test_without_an_ordered_distance_nothing_is_judged() -> None:
    order = {**PAIR, "left": {"power": power("-3.00")}}
    findings = together("66", order=order)
    assert findings[PRISM].state is State.MISSING
    assert TOTAL not in findings
    assert PRISM not in together("66", order={key: PAIR[key] for key in ("right", "left")})
