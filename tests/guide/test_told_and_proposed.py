"""What the table touch tells to put right first is what is proposed to be bent."""

from collections.abc import Callable
from types import ModuleType

import numpy as np
import pytest

from benchassist.geometry.frame_state import FrameState
from benchassist.guide.propose import GoOn, Proposal, proposal
from benchassist.job.document import Job
from benchassist.optics.eye import Eye
from benchassist.verdicts.finding import State
from benchassist.verdicts.rocking import PANTOSCOPIC, SKEW, TIPS, X_ING
from benchassist.verdicts.rocking_told import CAUSES
from tests.guide.bent import job_of, misread, stands

PLACES = {
    "bench.skew": SKEW,
    "bench.x-ing": X_ING,
    "bench.pantoscopic": PANTOSCOPIC,
    "bench.temple-bend": TIPS,
    "bench.table-upright": TIPS,
}
"""The cause of rocking that the correction of each check takes away."""

TABLES = ("bench.table-inverted", "bench.table-upright")


def planted(frames: ModuleType, random: np.random.Generator) -> FrameState:
    """A frame with one to three faults well past their limits."""
    state: FrameState = frames.draw_frame(random).state
    return state


def around_the_limits(frames: ModuleType, random: np.random.Generator) -> FrameState:
    """A frame in which much is a little out, within its limit or just past it."""
    state = FrameState.true()
    for kind in frames.KINDS:
        if f"bench.{kind.limit}" in PLACES or kind.number in {"bend_start", "drop"}:
            size = float(random.uniform(-1.6, 1.6)) * frames.bench_limit(kind.limit)
            eye = Eye(str(random.choice(list(Eye)))) if kind.on_side else None
            state = frames.with_fault(state, frames.Planted(kind, size, eye))
    return state


def told_and_proposed(job: Job) -> tuple[str, Proposal] | None:
    """The sentence on the first table test that is outside, and the next correction.

    None where nothing rocks, or where what comes next is no cause of it.
    """
    standing = stands(job)
    findings = {finding.key: finding for finding in standing.findings}
    outside = [check for check in TABLES if findings[check].state is State.OUTSIDE]
    next_one = proposal(standing)
    if not outside or next_one is None:
        return None
    if next_one.go_on is not GoOn.CORRECT or next_one.check not in PLACES:
        return None
    return findings[f"{outside[0]}.why"].sentence, next_one


@pytest.mark.parametrize("drawn", [planted, around_the_limits])
def test_what_is_told_to_come_first_is_what_is_proposed(
    frames: ModuleType, drawn: Callable[[ModuleType, np.random.Generator], FrameState]
) -> None:
    seen = set()
    for number in range(80):
        random = np.random.default_rng((23, number))
        state = drawn(frames, random)
        read = frames.read(state, random, marks_over_own_rim=True)
        both = told_and_proposed(misread(job_of(frames, state), read))
        if both is not None:
            told, next_one = both
            first = CAUSES[PLACES[next_one.check]]
            assert told.endswith(f"Put right first: {first}."), (number, next_one)
            seen.add(first)
    assert seen == set(CAUSES.values()), "every cause came first at least once"


def bent_too_far_back(state: FrameState) -> FrameState:
    """The frame with a left bend 2.5 mm past where it belongs, which its drop makes up for."""
    left = state.left
    return state.with_side(Eye.LEFT, bend_start=left.bend_start + 2.5, drop=left.drop + 3.0)


def test_a_bend_past_its_limit_goes_before_an_endpiece_within(frames: ModuleType) -> None:
    """The tips open less than half of the gap upright, and are past their limit alone."""
    state = FrameState.true()
    state = state.with_side(Eye.RIGHT, pantoscopic=state.right.pantoscopic + 0.45)
    both = told_and_proposed(job_of(frames, bent_too_far_back(state)))
    assert both is not None
    told, next_one = both
    assert next_one.check == "bench.temple-bend"
    assert told.endswith("Put right first: the bends of the tips.")


def test_what_only_the_table_sees_past_its_limit_goes_before_a_bend(
    frames: ModuleType,
) -> None:
    """X-ing of 1.3 degrees was read as 0.95, and an endpiece hides it from the plate."""
    state = FrameState.true().with_bridge(x_ing=1.3)
    state = state.with_side(Eye.RIGHT, pantoscopic=state.right.pantoscopic - 0.95)
    state = state.with_side(Eye.LEFT, bend_start=state.left.bend_start - 3.5)
    slip = job_of(frames, state.with_bridge(x_ing=0.95)).now.bench.answers["x-ing"].measured
    job = misread(job_of(frames, state), {"bench.x-ing": dict(slip)})
    outside = {one.key for one in stands(job).outside}
    assert outside == {"bench.temple-bend", "bench.table-upright"}
    both = told_and_proposed(job)
    assert both is not None
    told, next_one = both
    assert next_one.check == "bench.x-ing"
    assert told.endswith("Put right first: X-ing.")
