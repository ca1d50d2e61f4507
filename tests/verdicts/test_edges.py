"""Each band of each table just inside, on and just outside, generated from the tables."""

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import ROUND_DOWN, Decimal
from itertools import product
from typing import Any

import pytest
from typing_extensions import override

from benchassist.job.order import Design
from benchassist.limits.table import Band, Row, Span
from benchassist.verdicts.finding import Finding, State
from tests.verdicts.jobs import (
    ANSI,
    ISO,
    components,
    display,
    judged,
    plain_limits,
    power,
    prism_read,
    shown_add,
)

SETS = (ANSI, "ansi-z80.1-2020", ISO)
THOUSANDTH = Decimal("0.001")
HUNDREDTH = Decimal("0.01")
ZERO = Decimal(0)
MOST_PRISM = 40


@dataclass(frozen=True)
class Edge:
    """One limit to be tried: which row, for which lens, looked up with what."""

    rule_set: str
    row: Row
    band: Band
    quantity: str
    design: str
    looked_up: dict[str, Decimal]

    @override
    def __str__(self) -> str:
        values = "-".join(f"{name}{value}" for name, value in self.looked_up.items())
        return f"{self.rule_set}-{self.row.id}-{self.quantity}-{self.design}-{values}"

    @property
    def limit(self) -> Decimal:
        limit = self.band.limit(self.looked_up)
        assert limit is not None
        return limit.value

    def judge(self, right: dict[str, Any], attempt: dict[str, Any], **order: Any) -> Finding:
        eye_key = f"right.{self.quantity.removesuffix('-pair')}"
        pair_key = f"pair.{self.quantity.removesuffix('-pair')}"
        of_pair = self.quantity.endswith("-pair") or self.quantity in PAIR_QUANTITIES
        left = order.pop("left", right)
        findings = judged(
            {
                "design": self.design,
                "rule_set": self.rule_set,
                "right": right,
                "left": left,
                **order,
            },
            attempt,
        )
        return findings[pair_key if of_pair else eye_key]


PAIR_QUANTITIES = ("prism-horizontal", "prism-vertical", "segment-distance")


def values_in(span: Span) -> list[Decimal]:
    """Looked-up values inside a band: at an edge that belongs to it, or just past it."""
    low = span.low if span.low is not None else ZERO
    first = low if span.takes_low or span.low is None else low + HUNDREDTH
    if span.high is None:
        return [first, first + 2]
    last = span.high if span.takes_high else span.high - HUNDREDTH
    return [first, last]


def edges() -> Iterator[Edge]:
    for rule_set in SETS:
        for row in plain_limits(rule_set).rules.rows:
            designs = row.designs or tuple(Design)
            for band, quantity, design in product(row.bands, row.quantities, designs):
                if quantity == "intermediate" and design != Design.TRIFOCAL:
                    continue
                choices = [values_in(span) for span in band.spans]
                names = [span.of for span in band.spans]
                for values in product(*choices):
                    looked_up = dict(zip(names, values, strict=True))
                    yield Edge(rule_set, row, band, quantity, design, looked_up)


EDGES = tuple(edges())


def try_all(edge: Edge, step: Decimal, finding: Any) -> None:
    """Just inside and on the limit is within, just outside is outside, on both sides."""
    limit = edge.limit
    for off, state in around(limit, step):
        result = finding(off)
        assert (result.state, off) == (state, off), result.sentence
        assert result.limit == limit
        assert result.rule == edge.band.rule


def around(limit: Decimal, step: Decimal) -> tuple[tuple[Decimal, State], ...]:
    """Differences about a limit that a reading of this step can have, and their states."""
    on = limit.quantize(step, ROUND_DOWN)
    return (
        (on - step, State.WITHIN),
        (on, State.WITHIN),
        (on + step, State.OUTSIDE),
        (-on, State.WITHIN),
        (-on - step, State.OUTSIDE),
    )


def of(*quantities: str) -> pytest.MarkDecorator:
    chosen = [edge for edge in EDGES if edge.quantity in quantities]
    assert chosen
    return pytest.mark.parametrize("edge", chosen, ids=str)


@of("meridian-high", "meridian-other")
def test_meridian(edge: Edge) -> None:
    sphere = edge.looked_up["power"]

    def finding(off: Decimal) -> Finding:
        reading = display(str(sphere + off))
        return edge.judge({"power": power(str(sphere))}, {"right": {"distance": [reading]}})

    try_all(edge, THOUSANDTH, finding)


@of("cylinder")
def test_cylinder(edge: Edge) -> None:
    cylinder = edge.looked_up["cylinder"]
    highest = edge.looked_up.get("power", max(cylinder, Decimal(1)))
    if cylinder > 2 * highest:
        assert (
            cylinder > highest
        )  # two meridians cannot lie further apart than twice the higher
        return
    sphere = cylinder - highest

    def finding(off: Decimal) -> Finding:
        axis = "90" if cylinder else None
        ordered = power(str(sphere), str(-cylinder), axis)
        found = -cylinder - off
        read = display(str(sphere), str(found), "90" if found else None)
        return edge.judge({"power": ordered}, {"right": {"distance": [read]}})

    limit = edge.limit
    for off, state in around(limit, THOUSANDTH):
        if cylinder + off < 0:
            continue  # a cylinder of the other sign would be another pair of meridians
        result = finding(off)
        assert (result.state, off) == (state, off), result.sentence
        assert result.limit == limit
        assert result.rule == edge.band.rule


@of("axis")
def test_axis(edge: Edge) -> None:
    cylinder = edge.looked_up["cylinder"]
    if not cylinder:
        return
    lens = {"power": power("-2.00", str(-cylinder), "90")}

    def finding(off: Decimal) -> Finding:
        read = display("-2.00", str(-cylinder), str(90 + off))
        return edge.judge(lens, {"right": {"distance": [read]}})

    if edge.band.base is None:
        result = finding(Decimal(40))
        assert result.state is State.NONE
        assert edge.band.not_judged in result.sentence
        return
    try_all(edge, Decimal("0.1"), finding)


@of("add", "intermediate")
def test_addition(edge: Edge) -> None:
    add = edge.looked_up["add"]
    lens = {"power": power("1.00"), "add": str(add), "intermediate": str(add)}

    def finding(off: Decimal) -> Finding:
        surface = "back" if edge.design == Design.PROGRESSIVE else "front"
        read = [shown_add(str(add + off), surface)]
        return edge.judge(lens, {"right": {"near": read, "intermediate": read}})

    try_all(edge, THOUSANDTH, finding)


@of("prism-horizontal", "prism-vertical")
def test_prism(edge: Edge) -> None:
    """Rows of which one band is enough: the looser of prism and millimetres decides."""
    size = edge.looked_up["power"]
    ordered = edge.looked_up.get("prism", ZERO)
    direction = edge.quantity.removeprefix("prism-")
    limit = edge.limit if edge.band.unit == "Δ" else ZERO
    if edge.row.either:
        whole = [band.base or ZERO for band in edge.row.bands]
        in_prism, in_mm = whole[0], whole[1] * size / 10
        limit = max(in_prism, in_mm)

    def prism(amount: Decimal) -> tuple[str, str]:
        return (str(amount), "0") if direction == "horizontal" else ("0", str(amount))

    lens = {"power": power(str(-size)), "prism": components(*prism(ordered))}
    other = {"power": power(str(-size))}
    for off, state in around(limit, THOUSANDTH):
        if abs(ordered + off) > MOST_PRISM:
            continue
        attempt = {
            "right": {"prism": prism_read(*prism(ordered + off))},
            "left": {"prism": prism_read()},
        }
        result = edge.judge(lens, attempt, left=other)
        assert (result.state, off) == (state, off), result.sentence


@of("tilt", "height", "centration", "thickness", "base-curve", "segment-width", "segment-depth")
def test_single_lens_measure(edge: Edge) -> None:
    ordered = {
        "tilt": ("tilt", {}, ZERO),
        "height": ("height", {"height": "20"}, Decimal(20)),
        "centration": ("distance_pd", {"distance_pd": "31"}, Decimal(31)),
        "thickness": ("thickness", {"centre_thickness": "2"}, Decimal(2)),
        "base-curve": ("base_curve", {"base_curve": "6"}, Decimal(6)),
        "segment-width": ("segment_width", {}, Decimal(28)),
        "segment-depth": ("segment_depth", {}, Decimal(19)),
    }
    field, lens, value = ordered[edge.quantity]

    def finding(off: Decimal) -> Finding:
        attempt = {"pair": {"right": {field: [str(value + off)]}}}
        sizes = {"segment_width": "28", "segment_depth": "19"}
        return edge.judge(lens, attempt, **sizes)

    try_all(edge, HUNDREDTH, finding)


@of("height-pair", "segment-width-pair", "segment-depth-pair")
def test_pair_difference(edge: Edge) -> None:
    field = edge.quantity.removesuffix("-pair").replace("-", "_")

    def finding(off: Decimal) -> Finding:
        attempt = {"pair": {"right": {field: [str(20 + off)]}, "left": {field: ["20"]}}}
        sizes = {"segment_width": "20", "segment_depth": "20"}
        return edge.judge({"height": "20"}, attempt, **sizes)

    try_all(edge, HUNDREDTH, finding)


@of("segment-distance")
def test_segment_distance(edge: Edge) -> None:
    def finding(off: Decimal) -> Finding:
        layout = {"right": {"near_pd": [str(29 + off)]}, "left": {"near_pd": ["29"]}}
        return edge.judge({"near_pd": "29"}, {"pair": layout})

    try_all(edge, HUNDREDTH, finding)


@of("segment-distance-lens")
def test_segment_distance_of_one_lens(edge: Edge) -> None:
    def finding(off: Decimal) -> Finding:
        layout = {"right": {"near_pd": [str(29 + off)]}, "left": {"near_pd": ["28"]}}
        return edge.judge({"near_pd": "29"}, {"pair": layout}, left={"near_pd": "28"})

    try_all(edge, HUNDREDTH, finding)


def test_every_row_is_tried_here() -> None:
    tried = {
        *("meridian-high", "meridian-other", "cylinder", "axis", "add", "intermediate"),
        *("prism-horizontal", "prism-vertical", "tilt", "height", "centration", "thickness"),
        *("base-curve", "segment-width", "segment-depth", "height-pair", "segment-width-pair"),
        *("segment-depth-pair", "segment-distance", "segment-distance-lens"),
    }
    for rule_set in SETS:
        named = {name for row in plain_limits(rule_set).rules.rows for name in row.quantities}
        assert named - tried <= {"lens-prism"}


@pytest.mark.parametrize("rule_set", [ANSI, "ansi-z80.1-2020"])
def test_the_rule_for_one_unmounted_lens_only_informs(rule_set: str) -> None:
    findings = judged(
        {"design": "single-vision", "rule_set": rule_set, "right": {"power": power("-2.00")}},
        {"right": {"prism": prism_read("5")}},
    )
    finding = findings["right.prism-horizontal"]
    assert finding.state is State.NONE
    assert finding.limit is None
    assert finding.rule is not None
    assert finding.rule.row == "A7"
    assert "0.33 Δ or 1.0 mm" in finding.sentence
