"""A frame on the bench in which everything was found good but what is named."""

from benchassist.guide.conditions import why_not
from benchassist.guide.guide import Guide
from benchassist.guide.prompts import StepId
from benchassist.job.checks import Answer, Seen
from benchassist.job.document import Job

OPEN_WIDE = (14, 90, 5, 90)
"""Outwards of square and behind the joint, right and left: one temple opens much wider."""


def looked_at(job: Job, guide: Guide, *left_open: str, **found: Answer) -> Job:
    """The job with every check of the bench answered good, or as found, or left open.

    A check is named without its step, with an underscore for a hyphen.
    """
    asked = (one for one in guide.step(StepId.BENCH).prompts if why_not(one, job) is None)
    answers = {one.name: Answer(seen=Seen.GOOD) for one in asked}
    answers |= {name.replace("_", "-"): answer for name, answer in found.items()}
    kept = {name: answer for name, answer in answers.items() if name not in left_open}
    bench = job.now.bench.with_(answers=kept)
    return job.with_now(job.now.with_(bench=bench))
