"""How often the verdict is right: pairs with known faults, read through a simulated meter.

Prints what is assumed and two tables: what becomes of good and of faulty pairs, and how often
the diagnosis lists a slip that was planted. The same seed gives the same tables.
"""

import argparse
import time
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import UTC, datetime
from typing import Any

import numpy as np
from simulated_pairs import ASSUMPTIONS, Pairs, Workbench, draw_orders, errors_within, off_by
from simulated_pairs import with_faults as faulty
from simulated_slips import Row, with_slips

from benchassist.job.document import Attempt, Job
from benchassist.job.order import Design, Order
from benchassist.limits.load import load_limits
from benchassist.verdicts.arrays_pairs import A_DISPLAY, A_DRUM
from benchassist.verdicts.arrays_verdict import STATES
from benchassist.verdicts.diagnose.diagnose import diagnose
from benchassist.verdicts.finding import State, worst
from benchassist.verdicts.judge import judge

SHARES = {Design.SINGLE_VISION: 0.55, Design.BIFOCAL: 0.10, Design.PROGRESSIVE: 0.35}
"""The mixture of designs."""

GOOD, FAULTY = 0.4, 0.4
"""The shares of good and of faulty pairs; in the rest a slip is planted."""

SIZES = {"good": 1.0, "1 to 1.25": 1.25, "1.25 to 1.5": 1.5, "beyond 1.5": np.inf}
"""The classes of pairs by the largest error, in limits: the upper end of each, taken."""

OUTCOMES = (State.WITHIN, State.CLOSE, State.OUTSIDE)
NOON = datetime(2026, 3, 2, 12, tzinfo=UTC)


@dataclass
class Tally:
    """What was counted.

    Attributes:
        outcomes: pairs by the class of their size and by the worst state.
        slips: planted slips by the state of the pair, and by whether the slip alone leaves it
            outside.
        listed: of those outside on both counts, how many of each kind were listed, or not.
        lengths: how many entries each of these lists had.
    """

    outcomes: Counter[tuple[str, State]] = field(default_factory=Counter)
    slips: Counter[tuple[State, bool]] = field(default_factory=Counter)
    listed: Counter[tuple[str, bool]] = field(default_factory=Counter)
    lengths: list[int] = field(default_factory=list)


def simulate(tally: Tally, random: np.random.Generator, bench: Workbench, size: int) -> None:
    """Draw, read and judge so many pairs of one design."""
    order = draw_orders(random, size, bench.design)
    errors = errors_within(random, bench, order)
    good, bad = round(size * GOOD), round(size * (GOOD + FAULTY))
    rows = {"good": slice(0, good), "faulty": slice(good, bad), "slipped": slice(bad, size)}
    parts = {kind: (order.some(chosen), errors.some(chosen)) for kind, chosen in rows.items()}
    for kind in ("good", "faulty"):
        ordered, off = parts[kind]
        if kind == "faulty":
            off = faulty(random, bench, ordered, off)
        true = off_by(ordered, off)
        shares = bench.shares(ordered, true)
        read = bench.read(random, true)
        states = bench.judged(ordered, read, as_read=True).worst()
        for share, code in zip(shares, states, strict=True):
            size_of = next(name for name, most in SIZES.items() if share <= most)
            tally.outcomes[size_of, STATES[code]] += 1
    ordered, _ = parts["slipped"]
    slipped, planted = with_slips(random, ordered)
    matters = bench.shares(ordered, slipped) > 1
    read = bench.read(random, off_by(slipped, errors_within(random, bench, slipped)))
    for place, slip in enumerate(planted):
        job = job_of(bench, ordered, read, place)
        look(tally, bench, job, slip, matters=bool(matters[place]))


def look(tally: Tally, bench: Workbench, job: Job, slip: str, *, matters: bool) -> None:
    """Judge one pair with a slip, and see whether the diagnosis lists it."""
    findings = judge(job, bench.limits)
    state = worst([finding.state for finding in findings if finding.limit is not None])
    tally.slips[state, matters] += 1
    if state is State.OUTSIDE and matters:
        suspicions = diagnose(job, bench.limits, findings)
        is_listed = any(slip in suspicion.slips for suspicion in suspicions)
        tally.listed[slip, is_listed] += 1
        tally.lengths.append(len(suspicions))


def job_of(bench: Workbench, order: Pairs, read: Pairs, place: int) -> Job:
    """One pair as a job with its readings."""
    rows = {
        eye: [{name: float(column[place]) for name, column in lens.items()} for lens in lenses]
        for eye, *lenses in zip(("right", "left"), order.lenses, read.lenses, strict=True)
    }
    ordered = {eye: ordered_lens(bench, row) for eye, (row, _) in rows.items()}
    readings: dict[str, Any] = {eye: readings_of(bench, row) for eye, (_, row) in rows.items()}
    readings["pair"] = {
        eye: {"distance_pd": [exact(row["distance"])], "height": [exact(row["height"])]}
        for eye, (_, row) in rows.items()
    }
    frame = {name: exact(rows["right"][0][name]) for name in ("a", "b", "dbl")}
    whole = {
        "design": bench.design,
        "rule_set": bench.limits.rule_set.id,
        "frame": frame,
        **ordered,
    }
    attempt = Attempt.model_validate(readings)
    return Job(
        number=f"S-{place}",
        created=NOON,
        order=Order.model_validate(whole),
        attempts=(attempt,),
    )


def exact(value: float) -> str:
    """A figure as somebody types it."""
    return f"{value:.3f}"


def axis(value: float) -> str:
    """An axis as somebody types it."""
    return f"{round(value - 1) % 180 + 1}"


def power_of(row: Row) -> dict[str, Any]:
    """The power of one lens."""
    turn = axis(row["axis"]) if abs(row["cylinder"]) > 1e-9 else None  # noqa: PLR2004 - noise
    return {"sphere": exact(row["sphere"]), "cylinder": exact(row["cylinder"]), "axis": turn}


def prism_of(row: Row) -> dict[str, str]:
    """The prism of one lens."""
    components = {"base_in": exact(row["base_in"]), "base_up": exact(row["base_up"])}
    return {"form": "components", **components}


def ordered_lens(bench: Workbench, row: Row) -> dict[str, Any]:
    """The order of one lens."""
    return {
        "power": power_of(row),
        "add": exact(row["add"]) if bench.design.has_addition else None,
        "prism": prism_of(row),
        "distance_pd": exact(row["distance"]),
        "near_pd": exact(row["near"]),
        "height": exact(row["height"]),
    }


def readings_of(bench: Workbench, row: Row) -> dict[str, Any]:
    """What the meter showed of one lens."""
    power, surface = power_of(row), "front" if bench.design.has_segment else "back"
    if bench.meter.is_drum:
        across = exact(row["sphere"] + row["cylinder"])
        lines = {"sphere_lines": power["sphere"], "cylinder_lines": across}
        distance = {"kind": "drum", **lines, "axis_wheel": power["axis"]}
        near = {"kind": "drum", "distance_lines": "0", "near_lines": exact(row["add"])}
    else:
        distance = {"kind": "display", **power}
        near = {"kind": "display", "shown": exact(row["add"])}
    adds = [{**near, "surface": surface}] if bench.design.has_addition else []
    return {"distance": [distance], "near": adds, "prism": [{"prism": prism_of(row)}]}


def percent(part: float, whole: float) -> str:
    """A share with one decimal."""
    return f"{100 * part / whole:.1f} %" if whole else "-"


def outcome_table(tally: Tally) -> Iterator[str]:
    """What became of good and faulty pairs."""
    yield "| largest error, in limits | pairs | within | read again | outside |"
    yield "| --- | ---: | ---: | ---: | ---: |"
    for size in SIZES:
        counts = [tally.outcomes[size, state] for state in OUTCOMES]
        shares = " | ".join(f"{count} ({percent(count, sum(counts))})" for count in counts)
        yield f"| {size} | {sum(counts)} | {shares} |"


def slip_table(tally: Tally) -> Iterator[str]:
    """What became of pairs with a slip."""
    missed = Counter({slip: count for (slip, yes), count in tally.listed.items() if not yes})
    yield "| planted slips | pairs | within | read again | outside |"
    yield "| --- | ---: | ---: | ---: | ---: |"
    for matters, words in ((False, "too small to leave a limit"), (True, "past a limit")):
        counts = [tally.slips[state, matters] for state in OUTCOMES]
        shares = " | ".join(f"{count} ({percent(count, sum(counts))})" for count in counts)
        yield f"| {words} | {sum(counts)} | {shares} |"
    outside = tally.listed.total()
    if outside:
        listed = percent(outside - missed.total(), outside)
        median, most = np.percentile(tally.lengths, (50, 95), method="higher")
        often = ", ".join(f"{slip} {count}" for slip, count in missed.most_common(6))
        yield ""
        yield f"Of the {outside} past a limit and outside, the true slip is listed in {listed};"
        yield f"entries of the list: median {median}, 95th percentile {most}."
        yield f"Not listed, most often: {often or 'none'}."


def main() -> None:
    """Simulate and print."""
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--pairs", type=int, default=20_000)
    options.add_argument("--seed", type=int, default=3)
    options.add_argument("--meter", choices=("display", "drum"), default="display")
    options.add_argument("--rule-set", default="iso-21987-2017")
    chosen = options.parse_args()
    random, start = np.random.default_rng(chosen.seed), time.perf_counter()
    limits, tally = load_limits(chosen.rule_set), Tally()
    meter = A_DRUM if chosen.meter == "drum" else A_DISPLAY
    for design, share in SHARES.items():
        bench = Workbench(limits, design, meter)
        simulate(tally, random, bench, round(chosen.pairs * share))
    print(
        f"{chosen.pairs} pairs, {limits.rule_set.title}, a {chosen.meter}, seed {chosen.seed}"
    )
    print(f"Decided by {limits.decision.title}.\n\n{ASSUMPTIONS}\n")
    print(*outcome_table(tally), "", *slip_table(tally), sep="\n")
    print(f"\n{time.perf_counter() - start:.0f} s")


if __name__ == "__main__":
    main()
