"""Random lens pairs judged twice, at once and one by one.

`python -m tests.verdicts.compare_arrays` compares a hundred thousand, the tests fewer. Orders
and readings are drawn so that differences often lie on a limit or one step beside it.
"""

import argparse
import time
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import product
from typing import Any

import numpy as np
import numpy.typing as npt

from benchassist.job.document import Job
from benchassist.job.order import Design
from benchassist.limits.arrays import ABSENT, PARTS, Whole, of_parts
from benchassist.limits.load import Limits
from benchassist.verdicts.addition import judge_additions
from benchassist.verdicts.arrays import judge_pairs
from benchassist.verdicts.arrays_pairs import A_DISPLAY, A_DRUM, Lenses, LensPairs, Side
from benchassist.verdicts.arrays_verdict import NOT_ASKED, STATES, Verdicts
from benchassist.verdicts.case import Case
from benchassist.verdicts.centration import judge_centration
from benchassist.verdicts.decentration import judge_decentration
from benchassist.verdicts.finding import Finding
from benchassist.verdicts.judge import judge
from benchassist.verdicts.position import judge_positions
from benchassist.verdicts.power import judge_powers
from benchassist.verdicts.prism import judge_prisms
from tests.verdicts.jobs import ANSI, ISO, guarded_limits, job_of, plain_limits

THOUSANDTH, HUNDREDTH, TENTH = PARTS // 1000, PARTS // 100, PARTS // 10
NEAR_LIMITS = (0, 90, 120, 125, 130, 150, 160, 180, 250, 330, 370, 375, 500, 670, 1000, 1250)
"""Thousandths at which the tables have limits, and eighths beside them."""
RULES_FOR_ARRAYS = (
    judge_powers,
    judge_additions,
    judge_prisms,
    judge_centration,
    judge_decentration,
    judge_positions,
)
"""The scalar rules whose findings the arrays give."""

Told = tuple[int, int, int, int]


@dataclass(frozen=True)
class Draw:
    """Random columns of one length."""

    random: np.random.Generator
    length: int

    def whole(self, low: int, high: int, step: int) -> Whole:
        """Multiples of a step between two of them, both taken."""
        return self.random.integers(low, high, self.length, endpoint=True) * step

    def one_of(self, *columns: Whole) -> Whole:
        """For each pair a value from one of the columns."""
        return np.choose(self.random.integers(0, len(columns), self.length), columns)

    def beside(self, sizes: Whole, step: int) -> Whole:
        """These sizes with either sign, on the spot or one step off."""
        return self.whole(0, 1, 2) * sizes - sizes + self.whole(-1, 1, step)

    def edges(self, step: int) -> Whole:
        """Differences at the figures of the tables."""
        sizes = self.random.choice(np.array(NEAR_LIMITS), self.length) * THOUSANDTH
        return self.beside(sizes // step * step, step)

    def sometimes_absent(self, column: Whole) -> Whole:
        """The column with a few values taken away."""
        return np.where(self.random.random(self.length) < 0.02, ABSENT, column)

    def power(self) -> tuple[Whole, Whole, Whole]:
        """An ordered power, usually in quarters, sometimes strong or fine."""
        quarter = PARTS // 4
        sphere = self.one_of(
            self.whole(-40, 30, quarter),
            self.whole(-100, 70, quarter),
            self.whole(-9000, 9000, THOUSANDTH),
        )
        cylinder = self.one_of(
            self.whole(-16, 0, quarter),
            self.whole(-50, 0, PARTS // 8),
            self.whole(-7000, 0, THOUSANDTH),
            self.whole(0, 0, 1),
        )
        axis = self.one_of(self.whole(1, 180, PARTS), self.whole(1, 1800, TENTH))
        return sphere, cylinder, np.where(cylinder == 0, 0, axis)


def random_side(draw: Draw) -> Side:
    """One lens of each pair as ordered, and as found somewhere near it."""
    sphere, cylinder, axis = draw.power()
    add = draw.one_of(draw.whole(2, 16, PARTS // 4), draw.whole(0, 6000, THOUSANDTH))
    base_in, base_up = (
        draw.one_of(draw.whole(0, 0, 1), draw.whole(-24, 24, PARTS // 2)) for _ in range(2)
    )
    distance, height = draw.whole(250, 360, TENTH), draw.whole(1000, 3000, HUNDREDTH)
    found_cylinder = np.minimum(cylinder + draw.edges(THOUSANDTH), 0)
    turned = axis + draw.one_of(
        draw.beside(draw.whole(0, 17, PARTS), TENTH), draw.whole(-900, 900, TENTH)
    )
    found_axis = (turned - 1) % (180 * PARTS) + 1
    ordered = Lenses(
        draw.sometimes_absent(sphere),
        cylinder,
        axis,
        draw.sometimes_absent(add),
        base_in,
        base_up,
        draw.sometimes_absent(distance),
        draw.sometimes_absent(height),
    )
    found_in = draw.sometimes_absent(base_in + random_prism(draw, sphere + cylinder))
    found_up = base_up + random_prism(draw, sphere)
    found = Lenses(
        draw.sometimes_absent(sphere + draw.edges(THOUSANDTH)),
        found_cylinder,
        np.where(found_cylinder == 0, 0, found_axis),
        draw.sometimes_absent(add + draw.edges(THOUSANDTH)),
        found_in,
        np.where(found_in == ABSENT, ABSENT, found_up),
        draw.sometimes_absent(distance + random_error(draw, sphere + cylinder)),
        draw.sometimes_absent(height + random_error(draw, sphere)),
    )
    return Side(ordered, found)


def random_prism(draw: Draw, power: Whole) -> Whole:
    """Prism left over: at a figure, or at a share of a power, or next to it."""
    tenth = np.abs(power) // 10 // THOUSANDTH * THOUSANDTH
    shares = draw.one_of(tenth, 2 * tenth, 5 * tenth // 2 // THOUSANDTH * THOUSANDTH)
    return draw.one_of(draw.edges(THOUSANDTH), draw.beside(shares, THOUSANDTH))


def random_error(draw: Draw, power: Whole) -> Whole:
    """A length found off: at a figure, or at what makes a prism of one of the limits."""
    causing = 67 * PARTS * 10 // (np.abs(power) // HUNDREDTH + 100) // HUNDREDTH * HUNDREDTH
    return draw.one_of(
        draw.edges(HUNDREDTH), draw.beside(causing, HUNDREDTH), draw.whole(-30, 30, TENTH)
    )


def value(column: Whole | None, row: int) -> str | None:
    """What a column says of one pair, as a job would be given it."""
    if column is None or column[row] == ABSENT:
        return None
    return str(of_parts(int(column[row])))


def power_of(lenses: Lenses, row: int) -> dict[str, Any] | None:
    """The power of one lens as it is ordered or displayed."""
    if lenses.sphere[row] == ABSENT:
        return None
    cylinder = int(lenses.cylinder[row])
    axis = value(lenses.axis, row) if cylinder else None
    return {
        "sphere": value(lenses.sphere, row),
        "cylinder": str(of_parts(cylinder)),
        "axis": axis,
    }


def prism_of(lenses: Lenses, row: int) -> dict[str, Any]:
    """The prism of one lens by components."""
    base_in, base_up = value(lenses.base_in, row), value(lenses.base_up, row)
    return {"form": "components", "base_in": base_in, "base_up": base_up}


def order_of(lenses: Lenses, row: int) -> dict[str, Any]:
    """The order of one lens."""
    return {
        "power": power_of(lenses, row) or {},
        "add": value(lenses.add, row),
        "prism": prism_of(lenses, row),
        "distance_pd": value(lenses.distance, row),
        "height": value(lenses.height, row),
    }


def readings_of(lenses: Lenses, row: int, design: Design, *, is_drum: bool) -> dict[str, Any]:
    """The readings of one lens at the meter, each once, additions on the right surface."""
    surface = "front" if design.has_segment else "back"
    power, add = power_of(lenses, row), value(lenses.add, row)
    readings: dict[str, Any] = {"distance": [], "near": [], "prism": []}
    if power and is_drum:
        across = of_parts(int(lenses.sphere[row] + lenses.cylinder[row]))
        lines = {"sphere_lines": power["sphere"], "cylinder_lines": str(across)}
        readings["distance"] = [{"kind": "drum", **lines, "axis_wheel": power["axis"]}]
    elif power:
        readings["distance"] = [{"kind": "display", **power}]
    if add and is_drum:
        readings["near"] = [
            {"kind": "drum", "surface": surface, "distance_lines": "0", "near_lines": add}
        ]
    elif add:
        readings["near"] = [{"kind": "display", "surface": surface, "shown": add}]
    if value(lenses.base_in, row) is not None:
        readings["prism"] = [{"prism": prism_of(lenses, row)}]
    return readings


def layout_of(lenses: Lenses, row: int) -> dict[str, Any]:
    """What was measured of one mounted lens."""
    measured = {"distance_pd": lenses.distance, "height": lenses.height}
    told = {name: value(column, row) for name, column in measured.items()}
    return {name: [one] for name, one in told.items() if one is not None}


def job_at(pairs: LensPairs, row: int, design: Design, rule_set: str) -> Job:
    """One of the pairs as a job."""
    sides = {"right": pairs.right, "left": pairs.left}
    order = {eye: order_of(side.ordered, row) for eye, side in sides.items()}
    readings = {
        eye: readings_of(side.found, row, design, is_drum=pairs.meter.is_drum)
        for eye, side in sides.items()
    }
    layouts = {eye: layout_of(side.found, row) for eye, side in sides.items()}
    return job_of(
        {"design": design, "rule_set": rule_set, **order}, {**readings, "pair": layouts}
    )


def told_of(finding: Finding | None) -> Told:
    """State, difference, limit and guard of a finding, as the columns have them."""
    if finding is None:
        return (NOT_ASKED, ABSENT, ABSENT, 0)
    difference, limit = finding.difference, finding.limit
    return (
        STATES.index(finding.state),
        ABSENT if difference is None else int(difference * PARTS),
        ABSENT if limit is None else int(limit * PARTS),
        int(finding.guard * PARTS),
    )


def told_in(verdicts: Verdicts, key: str, row: int) -> Told:
    """The same of one pair in the columns."""
    verdict = verdicts.by_key[key]
    columns: tuple[npt.NDArray[np.signedinteger], ...] = (
        verdict.state,
        verdict.difference,
        verdict.limit,
        verdict.guard,
    )
    state, difference, limit, guard = (int(column[row]) for column in columns)
    return (state, difference, limit, guard)


def differing(
    verdicts: Verdicts, row: int, findings: Mapping[str, Finding]
) -> Iterator[tuple[str, Told, Told]]:
    """Each quantity on which columns and findings differ: its key and what both say."""
    for key in verdicts.by_key:
        ours, theirs = told_in(verdicts, key, row), told_of(findings.get(key))
        if ours != theirs:
            yield key, ours, theirs


def findings_of(job: Job, limits: Limits, *, whole: bool) -> dict[str, Finding]:
    """The scalar verdict: by the whole judge, or by the rules on lenses only."""
    if whole:
        return {finding.key: finding for finding in judge(job, limits)}
    case = Case(job, limits)
    return {finding.key: finding for rule in RULES_FOR_ARRAYS for finding in rule(case)}


GROUPS = tuple(
    product((ISO, ANSI), (plain_limits, guarded_limits), Design, (A_DISPLAY, A_DRUM))
)
"""Every rule set, way of deciding, design and way of reading."""


def compare(count: int, seed: int, *, whole_every: int) -> tuple[int, int]:
    """Judge so many pairs both ways: how many there were, and how many quantities of them.

    Args:
        count: pairs, over all groups.
        seed: of the drawing.
        whole_every: of so many pairs one is judged by the whole scalar judge.
    """
    pairs_judged = quantities = 0
    random = np.random.default_rng(seed)
    for rule_set, limits_of, design, meter in GROUPS:
        draw = Draw(random, -(-count // len(GROUPS)))
        pairs = LensPairs(random_side(draw), random_side(draw), meter)
        limits = limits_of(rule_set)
        verdicts = judge_pairs(pairs, limits, design)
        for row in range(draw.length):
            job = job_at(pairs, row, design, rule_set)
            findings = findings_of(job, limits, whole=row % whole_every == 0)
            found = list(differing(verdicts, row, findings))
            assert not found, (rule_set, design, meter, found, job.model_dump_json())
            quantities += len(verdicts.by_key)
        pairs_judged += draw.length
    return pairs_judged, quantities


def main() -> None:
    """Compare as many pairs as asked and say how it went."""
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--pairs", type=int, default=100_000)
    options.add_argument("--seed", type=int, default=20)
    chosen = options.parse_args()
    start = time.perf_counter()
    pairs, quantities = compare(chosen.pairs, chosen.seed, whole_every=10)
    taken = time.perf_counter() - start
    print(f"{pairs} pairs, {quantities} quantities: all alike, in {taken:.0f} s")  # noqa: T201


if __name__ == "__main__":
    main()
