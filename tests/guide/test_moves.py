"""The bend for a fault where some of what would tell it is not there."""

from decimal import Decimal
from types import ModuleType

import pytest

from benchassist.geometry.frame_state import FrameState
from benchassist.guide.moves import Move, move_for, one_temple
from benchassist.job.checks import Answer
from benchassist.job.document import Job
from benchassist.optics.eye import Eye
from tests.guide.bent import job_of, stands


def answered(job: Job, **changed: Answer | None) -> Job:
    """The job with some answers of the bench changed, or without them."""
    bench = job.now.bench
    answers = dict(bench.answers) | {k.replace("_", "-"): v for k, v in changed.items()}
    kept = {name: answer for name, answer in answers.items() if answer is not None}
    return job.with_now(job.now.with_(bench=bench.with_(answers=kept)))


def moved(job: Job, key: str) -> Move | None:
    return move_for(job, next(one for one in stands(job).findings if one.key == key))


@pytest.mark.parametrize(
    "pantoscopic",
    [None, Answer(measured={"right_offset": Decimal(39), "left_offset": Decimal(0)})],
    ids=["not measured", "cannot be"],
)
def test_without_the_angles_a_temple_is_taken_to_be_as_far_off_as_the_other(
    frames: ModuleType, pantoscopic: Answer | None
) -> None:
    job = answered(job_of(frames, FrameState.true()), pantoscopic=pantoscopic)
    assert one_temple(job, Decimal(2)) == Move("pantoscopic", Decimal(-2), "°", Eye.RIGHT)


@pytest.mark.parametrize("lacking", ["table-inverted", "temple-bend"])
def test_a_tip_is_not_bent_while_it_cannot_be_told_from_the_rest(
    frames: ModuleType, lacking: str
) -> None:
    state = FrameState.true()
    job = job_of(frames, state.with_side(Eye.RIGHT, drop=state.right.drop + 8.0))
    key = "bench.table-upright"
    assert moved(job, key) is not None
    assert moved(answered(job, **{lacking: None}), key) is None


def test_what_is_to_be_measured_again_tells_no_bend(frames: ModuleType) -> None:
    job = job_of(frames, FrameState.true().with_bridge(skew_step=3.0))
    finding = next(one for one in stands(job).outside if one.key == "bench.skew")
    again = job.now.bench.answers["skew"].with_(again_because=("bench.skew",))
    assert move_for(job, finding) is not None
    assert move_for(answered(job, skew=again), finding) is None
