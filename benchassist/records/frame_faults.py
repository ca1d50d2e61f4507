"""The measured faults of each bench check: those there are, and those before a correction."""

from benchassist.geometry.fault import Fault
from benchassist.guide.flow import PromptStanding, Standing
from benchassist.guide.prompts import Prompt, StepId
from benchassist.job.checks import Answer
from benchassist.job.document import Job
from benchassist.records.record import FaultLine, FrameLine
from benchassist.verdicts.bench_faults import faults_of
from benchassist.verdicts.exact import millionth
from benchassist.verdicts.finding import State


def faults_now(job: Job, item: PromptStanding) -> tuple[Fault, ...]:
    """What a bench check measured and what still counts, marked where it is within."""
    if not item.is_done or item.is_skipped:
        return ()
    answer = job.now.bench.answers.get(item.prompt.name, Answer())
    is_within = State.OUTSIDE not in {one.state for one in item.findings}
    return tuple(
        Fault(fault.kind, fault.value, fault.eye, is_within)
        for fault in faults_of(job.order.frame, item.prompt.name, answer.measured)
    )


def faults_before(job: Job, prompt: Prompt) -> tuple[Fault, ...] | None:
    """What a bench check measured before its last correction; None where nothing was."""
    logged = (one for one in reversed(job.now.bench.corrections) if one.check == prompt.id)
    measured = (faults_of(job.order.frame, prompt.name, one.measured) for one in logged)
    return next((faults for faults in measured if faults), None)


def frame_lines(stands: Standing) -> tuple[FrameLine, ...]:
    """The bench checks to be drawn: those outside, and those measured before a correction."""
    lines = []
    for item in stands.step(StepId.BENCH).prompts:
        now = faults_now(stands.job, item)
        before = faults_before(stands.job, item.prompt) if item.is_done else None
        if (now and item.state is State.OUTSIDE) or before:
            lines.append(
                FrameLine(
                    prompt=item.prompt.id,
                    title=item.prompt.title,
                    view=item.prompt.view,
                    now=_lines(now),
                    before=_lines(before or ()),
                )
            )
    return tuple(lines)


def _lines(faults: tuple[Fault, ...]) -> tuple[FaultLine, ...]:
    return tuple(
        FaultLine(
            kind=one.kind, value=millionth(one.value), eye=one.eye, is_within=one.is_within
        )
        for one in faults
    )
