"""Jobs on bent frames, for the tests of the guide: simulated, measured and judged."""

from decimal import Decimal
from types import ModuleType
from typing import Any

from benchassist.geometry.frame_state import FrameState
from benchassist.guide.conditions import why_not
from benchassist.guide.flow import Standing, standing
from benchassist.guide.load import load_guide
from benchassist.guide.prompts import StepId
from benchassist.job.checks import Answer, Seen
from benchassist.job.document import Job
from benchassist.job.order import Design, FrameMaterial
from benchassist.limits.load import load_limits
from benchassist.verdicts.judge import judge
from tests.guide.jobs import job_for

GUIDE = load_guide()
LIMITS = load_limits(job_for(Design.BIFOCAL).order.rule_set)


def job_of(frames: ModuleType, state: FrameState, **frame: Any) -> Job:
    """A job in which everything at the bench was measured without an error."""
    made = state.made
    job = job_for(Design.BIFOCAL)
    sizes = {name: Decimal(str(getattr(made, name))) for name in ("a", "b", "dbl")}
    order = job.order.frame.with_(
        **sizes,
        temple_length=Decimal(str(made.temple_length)),
        face_form=Decimal(str(made.face_form)),
        **{"material": FrameMaterial.METAL, **frame},
    )
    job = job.with_(order=job.order.with_(frame=order))
    shown = frames.exact(state, marks_over_own_rim=True)
    answers = {}
    for prompt in GUIDE.step(StepId.BENCH).prompts:
        if why_not(prompt, job) is None:
            values = {
                name: Decimal(str(round(value, 3)))
                for name, value in shown.get(prompt.id, {}).items()
            }
            answers[prompt.name] = Answer(measured=values) if values else Answer(seen=Seen.GOOD)
    return job.with_now(job.now.with_(bench=job.now.bench.with_(answers=answers)))


def stands(job: Job) -> Standing:
    return standing(job, judge(job, LIMITS), GUIDE)


def misread(job: Job, readings: dict[str, dict[str, Decimal]]) -> Job:
    """The job with other readings, by the ids of the prompts."""
    read = {id_.removeprefix("bench."): Answer(measured=one) for id_, one in readings.items()}
    bench = job.now.bench
    return job.with_now(job.now.with_(bench=bench.with_(answers={**bench.answers, **read})))
