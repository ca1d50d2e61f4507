"""A correction carried out: logged, and everything that it can disturb opened again."""

from dataclasses import dataclass
from decimal import Decimal

from benchassist.guide.answers import ANSWERED, answer_to, with_answer
from benchassist.guide.conditions import for_job, why_not
from benchassist.guide.guide import Guide
from benchassist.guide.prompts import Prompt, StepId
from benchassist.guide.taken import NOTHING, has_reading, taken
from benchassist.job.checks import Answer, Correction, HandWork
from benchassist.job.document import Job
from benchassist.optics.eye import Eye

HANDS: tuple[StepId, ...] = (StepId.BENCH, StepId.FIT)
"""The steps in which a frame is bent."""


@dataclass(frozen=True, slots=True)
class Done:
    """What hands did.

    Attributes:
        check: id of the check that it puts right.
        remedy: id of the correction within that check.
        tool: with which tool; empty for the usual one.
        side: on which side; None for the bridge or both.
        amount: by how much, in `unit`, without a sign; None where nobody measured it.
        unit: 'mm' or '°'; empty without an amount.
        remark: free text.
    """

    check: str
    remedy: str
    tool: str = ""
    side: Eye | None = None
    amount: Decimal | None = None
    unit: str = ""
    remark: str = ""


def reopen(job: Job, guide: Guide, done: Done) -> Job:
    """The job after a correction: logged in its step, and what it may disturb opened again.

    The check itself and every answered check that the correction can disturb are marked to be
    repeated, and one that was passed over as not applicable is asked again. Readings that it
    can disturb are of a pair that is no longer there: averaged with newer ones they would
    falsify both. They are set aside, so that they are to be taken again, and stay readable in
    the remark of the correction and in the journal.

    Raises:
        KeyError: no such check, or no such correction of it.
    """
    prompt = guide.prompt(done.check)
    remedy = prompt.remedy(done.remedy)
    result, notes, rereads = job, [done.remark], []
    before: list[str] = []
    for name in dict.fromkeys((done.check, *remedy.disturbs)):
        disturbed = guide.prompt(name)
        if name in job.now.skipped:
            result = _asked_again(result, name)
            notes.append(f"{_title(job, disturbed)}: no longer '{job.now.skipped[name]}'.")
        if disturbed.kind in ANSWERED:
            result = _to_repeat(result, disturbed, done.check)
        elif why_not(disturbed, job) is None and has_reading(job, disturbed):
            result = with_answer(result, disturbed, NOTHING[disturbed.kind])
            rereads.append(name)
            before.append(_before(job, disturbed))
    if before:
        notes.append(f"Read again: {'; '.join(before)}.")
    answer: Answer | None = answer_to(job, prompt)
    correction = Correction(
        check=done.check,
        action=remedy.does,
        tool=done.tool or remedy.tool,
        side=done.side,
        amount=done.amount,
        unit=done.unit,
        measured=answer.measured if answer else {},
        remark=" ".join(note for note in notes if note),
        rereads=tuple(rereads),
    )
    return _logged(result, prompt.step, correction)


def _logged(job: Job, step: StepId, correction: Correction) -> Job:
    work: HandWork = getattr(job.now, step)
    longer = work.with_(corrections=(*work.corrections, correction))
    return job.with_now(job.now.with_(**{step: longer}))


def _asked_again(job: Job, prompt_id: str) -> Job:
    left = {name: why for name, why in job.now.skipped.items() if name != prompt_id}
    return job.with_now(job.now.with_(skipped=left))


def _title(job: Job, prompt: Prompt) -> str:
    """A prompt by its name, with its eye."""
    title = for_job(prompt, job).title.lower()
    return f"{prompt.eye} lens {title}" if prompt.eye else title


def _before(job: Job, prompt: Prompt) -> str:
    """A reading by its name, with its eye and with what it was."""
    title, was = _title(job, prompt), taken(job, prompt)
    return f"{title} ({was})" if was else title


def _to_repeat(job: Job, prompt: Prompt, because: str) -> Job:
    """The answer marked to be repeated, with every cause that is still open."""
    answer: Answer | None = answer_to(job, prompt)
    if answer is None:
        return job
    causes = dict.fromkeys((*answer.again_because, because))
    return with_answer(job, prompt, answer.with_(again_because=tuple(causes)))
