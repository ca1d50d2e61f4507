"""How few corrections the bench needs: misaligned frames, proposals, and a rough hand.

Each frame is measured with reading errors, the program proposes what to bend, a simulated hand
bends it, and only what the program asks for again is measured anew, until nothing is outside.
Beside it an onlooker who sees the true numbers takes the same kind of hand and bends until the
frame is truly within its limits. The same seed gives the same table.
"""

import argparse
import time
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import UTC, datetime
from decimal import Decimal

import numpy as np
import simulated_frames
import simulated_hand
from simulated_frames import KINDS, SimulatedFrame, bench_limit, beyond_limit, draw_frame, read
from simulated_hand import Hand

from benchassist.geometry.frame_state import FrameState
from benchassist.guide.conditions import why_not
from benchassist.guide.flow import Standing, standing
from benchassist.guide.load import load_guide
from benchassist.guide.moves import Move
from benchassist.guide.prompts import StepId
from benchassist.guide.propose import GoOn, proposal
from benchassist.guide.reopening import Done, reopen
from benchassist.job.checks import Answer, Seen
from benchassist.job.document import Job
from benchassist.job.order import FrameMaterial, FrameOrder, Order, Rim
from benchassist.limits.load import load_limits
from benchassist.optics.eye import Eye
from benchassist.verdicts.finding import State
from benchassist.verdicts.judge import judge

GUIDE = load_guide()
LIMITS = load_limits(Order().rule_set)
NOON = datetime(2026, 3, 2, 12, tzinfo=UTC)
MOST = 15
"""After so many corrections a frame counts as never coming to an end."""

LOOKS = 2
"""So often a reading that is neither good nor outside is taken before it is left at that."""

Fault = tuple[float, str, float, Eye | None]
"""A number of a frame: its share of its limit, its name, by how much it is off, its side."""

Choice = Callable[[list[Fault]], tuple[str, float, Eye | None]]
"""Which of them is bent next."""

LEAVE_IT = 12
"""After so many repeats for one frame the measurements count as never agreeing."""


@dataclass
class Tally:
    """What was counted, one entry a frame.

    Attributes:
        ours: corrections by the proposals.
        fewest: corrections by the onlooker.
        planted: faults planted.
        ends: how each frame ended.
    """

    ours: list[int] = field(default_factory=list)
    fewest: list[int] = field(default_factory=list)
    planted: list[int] = field(default_factory=list)
    ends: Counter[str] = field(default_factory=Counter)


class Bench:
    """One frame at the bench, and the job that knows what was measured of it."""

    def __init__(self, frame: SimulatedFrame, random: np.random.Generator) -> None:
        made = frame.state.made
        order = FrameOrder(
            material=FrameMaterial.METAL,
            rim=Rim.FULL,
            a=Decimal(str(made.a)),
            b=Decimal(str(made.b)),
            dbl=Decimal(str(made.dbl)),
            temple_length=Decimal(str(made.temple_length)),
            face_form=Decimal(str(made.face_form)),
        )
        self.state = frame.state
        self._random = random
        self._hand = Hand(random)
        self._job = Job(number="B-1", created=NOON, order=Order(frame=order))
        self._looks: Counter[str] = Counter()
        self._repeats = 0

    def measured(self) -> Standing:
        """Everything open is measured or looked at; what is near its limit once more."""
        stands = self._stands()
        while True:
            names = [item.prompt.id for item in stands.step(StepId.BENCH).prompts]
            close = [name for name in names if self._is_to_look_again(stands, name)]
            unread = [name for name in names if not self._is_done(stands, name)]
            if not close and not unread:
                return stands
            self._looks.update(close)
            self._answer({*close, *unread})
            stands = self._stands()

    def measured_again(self, name: str) -> bool:
        """Measures once more what was said, and all that makes up the table touch with it."""
        names = {"bench.skew", "bench.x-ing", "bench.pantoscopic", "bench.table-inverted", name}
        self._repeats += 1
        if self._repeats > LEAVE_IT:
            return False
        self._answer(names)
        return True

    def _is_done(self, stands: Standing, name: str) -> bool:
        item = stands.prompt(name)
        return item is None or item.is_done

    def _is_to_look_again(self, stands: Standing, name: str) -> bool:
        item = stands.prompt(name)
        return item is not None and item.state is State.CLOSE and self._looks[name] < LOOKS

    def _answer(self, names: set[str]) -> None:
        shown = read(self.state, self._random, marks_over_own_rim=True)
        answers = dict(self._job.now.bench.answers)
        for prompt in GUIDE.step(StepId.BENCH).prompts:
            if prompt.id in names and why_not(prompt, self._job) is None:
                answers[prompt.name] = (
                    Answer(measured=shown[prompt.id])
                    if prompt.id in shown
                    else Answer(seen=Seen.GOOD)
                )
        bench = self._job.now.bench.with_(answers=answers)
        self._job = self._job.with_now(self._job.now.with_(bench=bench))

    def _stands(self) -> Standing:
        return standing(self._job, judge(self._job, LIMITS), GUIDE)

    def corrected(self, check: str, remedy: str, move: Move) -> None:
        """Bends what was proposed, and has the program ask again for what that disturbs."""
        self.state = self._hand.bent(self.state, move.number, float(move.change), move.side)
        before = self._job
        done = Done(check, remedy, side=move.side, amount=move.amount, unit=move.unit)
        self._job = reopen(self._job, GUIDE, done)
        answers, old = self._job.now.bench.answers, before.now.bench.answers
        for name, answer in answers.items():
            if answer.again_because and not old[name].again_because:
                self._looks[f"bench.{name}"] = 0


def by_proposals(frame: SimulatedFrame, random: np.random.Generator) -> tuple[int, str]:
    """How many corrections the proposals take, and how it ends."""
    bench = Bench(frame, random)
    count = 0
    while count < MOST:
        proposed = proposal(bench.measured())
        if proposed is not None and proposed.go_on is GoOn.MEASURE:
            if not bench.measured_again(proposed.check):
                return count, "measurements that do not agree"
            continue
        if proposed is None:
            left = beyond_limit(bench.state)
            return count, "passed, and truly within" if not left else "passed, but beyond"
        if proposed.go_on is GoOn.STOP:
            return count, "stopped and sent back"
        if proposed.remedy is None or proposed.move is None:
            return count, "no bend proposed"
        bench.corrected(proposed.check, proposed.remedy.id, proposed.move)
        count += 1
    return MOST, "never ended"


def by_onlooker(frame: SimulatedFrame, random: np.random.Generator) -> int:
    """How many corrections somebody needs who sees the true numbers of the frame.

    Two such people, one who begins with the worst fault and one who begins at the bridge; the
    one who needs fewer counts.
    """
    seeds = random.integers(0, 1 << 32, 2)
    ways = (_worst_first, _bridge_first)
    return min(
        _watched(frame, np.random.default_rng(seed), way)
        for seed, way in zip(seeds, ways, strict=True)
    )


def _watched(frame: SimulatedFrame, random: np.random.Generator, way: Choice) -> int:
    hand, state, count = Hand(random), frame.state, 0
    while count < MOST and beyond_limit(state):
        number, off, side = way(_faults(state, frame))
        state = hand.bent(state, number, -off, side)
        count += 1
    return count


def _faults(state: FrameState, frame: SimulatedFrame) -> list[Fault]:
    """Every number with its share of its limit, from the bridge outwards."""
    true = FrameState.true(frame.state.made)
    found: list[Fault] = []
    for kind in KINDS:
        for side in Eye if kind.on_side else (None,):
            off = _number(state, kind.number, side) - _number(true, kind.number, side)
            found.append((abs(off) / bench_limit(kind.limit), kind.number, off, side))
    return found


def _worst_first(faults: list[Fault]) -> tuple[str, float, Eye | None]:
    _, number, off, side = max(faults, key=lambda one: one[0])
    return number, off, side


def _bridge_first(faults: list[Fault]) -> tuple[str, float, Eye | None]:
    """The first that is past its limit; where only their sum is, the worst."""
    past = (one for one in faults if one[0] > 1)
    first = next(past, None)
    return _worst_first(faults) if first is None else (first[1], first[2], first[3])


def _number(state: FrameState, number: str, side: Eye | None) -> float:
    if side is not None:
        return float(getattr(state.side(side), number))
    if number == "form":
        return state.bridge.form_right + state.bridge.form_left
    return float(getattr(state.bridge, number))


def simulate(frames: int, seed: int) -> Tally:
    """So many frames, each put right in both ways."""
    tally = Tally()
    for number in range(frames):
        frame = draw_frame(np.random.default_rng((seed, number)))
        count, end = by_proposals(frame, np.random.default_rng((seed, number, 1)))
        tally.ours.append(count)
        tally.fewest.append(by_onlooker(frame, np.random.default_rng((seed, number, 1))))
        tally.planted.append(len(frame.faults))
        tally.ends[end] += 1
    return tally


def table(tally: Tally) -> str:
    """What was counted, as a table of Markdown and two sentences."""
    ours, fewest, planted = (
        np.array(column) for column in (tally.ours, tally.fewest, tally.planted)
    )
    lines = [
        "| planted | frames | faults | corrections | by onlooker | ratio | 95 % of frames |",
        "| --- | ---: | ---: | ---: | ---: | ---: | ---: |",
    ]
    for count in (1, 2, 3, 0):
        rows = planted == count if count else planted > 0
        mine, least = ours[rows].sum(), fewest[rows].sum()
        most = int(np.percentile(ours[rows], 95)) if rows.any() else 0
        lines.append(
            f"| {count or 'all'} | {rows.sum()} | {planted[rows].sum()} | {mine} | {least} | "
            f"{mine / max(least, 1):.2f} | at most {most} |"
        )
    ends = ", ".join(f"{end}: {count}" for end, count in sorted(tally.ends.items()))
    return "\n".join([*lines, "", f"How they ended: {ends}."])


def main() -> None:
    """Simulate as many frames as asked and print what came of it."""
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--frames", type=int, default=2000)
    options.add_argument("--seed", type=int, default=7)
    chosen = options.parse_args()
    start = time.perf_counter()
    tally = simulate(chosen.frames, chosen.seed)
    print(simulated_frames.ASSUMPTIONS)
    print(simulated_hand.ASSUMPTIONS)
    print()
    print(table(tally))
    print(f"\nSimulated in {time.perf_counter() - start:.0f} s.")


if __name__ == "__main__":
    main()
