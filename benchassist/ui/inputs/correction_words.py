"""What is said where a check is outside: the proposal, how often it was tried, why not."""

from dataclasses import dataclass, replace
from decimal import Decimal

from benchassist.guide.flow import PromptStanding, Standing
from benchassist.guide.prompts import Kind, Prompt, Remedy, StepId
from benchassist.guide.propose import GoOn, Proposal, proposal
from benchassist.guide.reopening import HANDS
from benchassist.job.document import Job
from benchassist.optics.eye import Eye
from benchassist.verdicts.finding import Finding, State
from benchassist.verdicts.words import listed

MILLIMETRE, DEGREE = "mm", "°"
_UNITS = (MILLIMETRE, DEGREE)
_TIMES = {1: "once", 2: "twice", 3: "three times"}
_MOST_NAMED = 5
"""So many checks are named as opened again; of the rest only the number is told."""


@dataclass(frozen=True, slots=True)
class Correctable:
    """A check that is outside, and what can be done about it.

    Attributes:
        check: the prompt in view, with the corrections that suit this frame.
        times: how often it was corrected so far in this attempt.
        sentence: the proposal; empty where there is none.
        because: why this and why now.
        refusal: why it cannot be put right on this frame; empty where it can.
        first: the prompt that comes before this one; None where this one is next.
        is_stop: whether it is time to stop.
        remedy: the correction proposed; None where nothing is proposed for this check.
        side: the side proposed; None for the bridge, for both or where nobody knows.
        amount: by how much; None where the measurements do not tell.
        unit: the unit of the amount.
    """

    check: Prompt
    times: int
    sentence: str = ""
    because: str = ""
    refusal: str = ""
    first: Prompt | None = None
    is_stop: bool = False
    remedy: Remedy | None = None
    side: Eye | None = None
    amount: Decimal | None = None
    unit: str = MILLIMETRE

    @property
    def often(self) -> str:
        """How often it was corrected so far, as a sentence; empty for never."""
        if not self.times:
            return ""
        return f"Corrected {_TIMES.get(self.times, f'{self.times} times')} so far."


def correctable(standing: Standing, prompt: Prompt) -> Correctable | None:
    """What can be done about a check of bench or fit; None while it is not outside."""
    now = standing.prompt(prompt.id)
    if now is None or prompt.step not in HANDS or prompt.kind is not Kind.CHECK:
        return None
    outside = [one for one in now.findings if one.state is State.OUTSIDE]
    if not outside:
        return None
    job = standing.job
    refusal = "" if prompt.remedies else _refusal(job, prompt)
    times = sum(one.check == prompt.id for one in job.now.corrections)
    known = Correctable(
        prompt, times, refusal=refusal, side=_one_eye(outside), unit=_unit(outside)
    )
    found = proposal(standing, prompt.step)
    if found is None:
        return known
    return _proposed(known, _without_verdict(found, outside), standing)


def opened_again(standing: Standing, prompt: Prompt) -> str:
    """What else a correction of this check opened again, in one sentence; empty for nothing."""
    now = standing.prompt(prompt.id)
    if now is None or not now.again_because or prompt.step not in HANDS:
        return ""
    others = [item for item in standing.prompts if item.again_because and item is not now]
    if not others:
        return ""
    titles = tuple(_titled(item) for item in others[:_MOST_NAMED])
    rest = len(others) - len(titles)
    named = f"{', '.join(titles)} and {rest} more" if rest else listed(titles)
    step = standing.step(prompt.step).prompts
    innermost = next(item.prompt for item in step if item.again_because)
    leads = "" if innermost == now.prompt else f" Enter goes to '{innermost.title}'."
    return f"Open again too: {named}.{leads}"


def _titled(item: PromptStanding) -> str:
    title = item.prompt.title
    eye = item.prompt.eye
    return f"{eye} lens {title.lower()}" if eye else title


def _proposed(known: Correctable, found: Proposal, standing: Standing) -> Correctable:
    """The same with what is proposed next, for this check or for one before it."""
    if found.check != known.check.id:
        return _elsewhere(known, found, standing)
    move = found.move
    named = replace(
        known,
        is_stop=found.go_on is GoOn.STOP,
        remedy=found.remedy,
        side=move.side if move else known.side,
        amount=move.amount if move else None,
        unit=move.unit if move else known.unit,
    )
    if known.refusal:
        # Why nothing can be bent is said once.
        return named
    return replace(named, sentence=found.sentence, because=found.because)


def _without_verdict(found: Proposal, outside: list[Finding]) -> Proposal:
    """The proposal without what the verdict of this check says already."""
    because = found.because
    for one in outside:
        because = because.removeprefix(one.sentence).strip()
    return replace(found, because=because)


def _elsewhere(known: Correctable, found: Proposal, standing: Standing) -> Correctable:
    there = standing.prompt(found.check)
    first = there.prompt if there else None
    named = f"First '{first.title}': " if first and found.go_on is not GoOn.MEASURE else ""
    sentence = f"{named}{found.sentence}"
    return replace(known, sentence=sentence, because=found.because, first=first)


def _one_eye(outside: list[Finding]) -> Eye | None:
    """The only side that is outside; None where both are, or neither is named."""
    eyes = {one.eye for one in outside}
    return next(iter(eyes)) if len(eyes) == 1 else None


def _unit(outside: list[Finding]) -> str:
    return next((one.unit for one in outside if one.unit in _UNITS), MILLIMETRE)


def _refusal(job: Job, prompt: Prompt) -> str:
    """Why no correction is offered."""
    material = job.order.frame.material
    if prompt.step is StepId.FIT:
        return (
            f"'{prompt.title}' is not put right on the wearer: go back to the bench, or send "
            "the pair back."
        )
    if material is None:
        return f"'{prompt.title}' cannot be set at the bench: send it back."
    article = "an" if material.value[0] in "aeiou" else "a"
    return f"'{prompt.title}' cannot be set on {article} {material.value} frame: send it back."
