"""What to do next: the steps of a job and how each stands."""

from dataclasses import dataclass, replace
from typing import NamedTuple

from benchassist.guide.answers import ANSWERED, READINGS, answer_to, is_given
from benchassist.guide.conditions import for_job, why_not
from benchassist.guide.guide import Guide
from benchassist.guide.prompts import Kind, Prompt, Step, StepId
from benchassist.job.checks import Answer
from benchassist.job.document import Job
from benchassist.optics.eye import Eye
from benchassist.verdicts.finding import Finding, State, worst
from benchassist.verdicts.words import listed

_JUDGED = READINGS | {Kind.LAYOUT}
"""Kinds whose answer says nothing by itself: it is good or bad only once it is judged."""

_PRISMS = tuple(f"{eye}.prism" for eye in Eye)
_PRISM_OF_BOTH = frozenset({"pair.prism-horizontal", "pair.prism-vertical"})


@dataclass(frozen=True, slots=True)
class PromptStanding:
    """How one prompt stands.

    Attributes:
        prompt: the prompt, in the words for this job.
        is_done: answered or skipped, and not reopened.
        is_skipped: marked not applicable with a reason.
        state: the worst of its findings; what is not done is at least 'to do', and a reading
            of which nothing is judged yet is 'not applicable'.
        findings: what was judged from its answer; those on the prism of the pair stand at
            both lenses.
        waits_for: titles of the checks that should stand first and do not stand yet.
        again_because: why it is to be done again, in one sentence; empty when it is not.
    """

    prompt: Prompt
    is_done: bool
    is_skipped: bool
    state: State
    findings: tuple[Finding, ...]
    waits_for: tuple[str, ...] = ()
    again_because: str = ""


class NotAsked(NamedTuple):
    """A prompt that a job does not ask: its title, and the reason in one sentence."""

    title: str
    reason: str


@dataclass(frozen=True, slots=True)
class StepStanding:
    """How one step stands: its prompts, how many are done, and the worst state among them."""

    step: Step
    prompts: tuple[PromptStanding, ...]
    not_asked: tuple[NotAsked, ...] = ()

    @property
    def done(self) -> int:
        """How many prompts are done."""
        return sum(prompt.is_done for prompt in self.prompts)

    @property
    def total(self) -> int:
        """How many prompts are asked."""
        return len(self.prompts)

    @property
    def state(self) -> State:
        """The state of the prompt that needs a person most."""
        return worst([prompt.state for prompt in self.prompts])

    @property
    def is_complete(self) -> bool:
        """Whether every prompt is done."""
        return self.done == self.total


@dataclass(frozen=True, slots=True)
class Standing:
    """How a job stands: computed once after each change and handed to whoever shows it."""

    job: Job
    findings: tuple[Finding, ...]
    steps: tuple[StepStanding, ...]

    @property
    def prompts(self) -> tuple[PromptStanding, ...]:
        """Every prompt asked, in the order of the trade."""
        return tuple(prompt for step in self.steps for prompt in step.prompts)

    def step(self, step_id: StepId) -> StepStanding:
        """How one of the nine steps stands."""
        return next(step for step in self.steps if step.step.id is step_id)

    def prompt(self, prompt_id: str) -> PromptStanding | None:
        """How one prompt stands; None when this job does not ask it."""
        return next((item for item in self.prompts if item.prompt.id == prompt_id), None)

    def next_open(self, after: str | None) -> Prompt | None:
        """The next prompt to do after the one named, going round once; None when all are done.

        What a correction opened again further inwards in the same step comes first: a bend
        moves everything outboard of it, so that nothing out there can be trusted before.
        Without a name, or with that of a prompt which is not asked, it begins at the first.
        """
        prompts, at = self.prompts, self._place(after)
        inboard = (
            item
            for item in prompts[: max(at, 0)]
            if item.again_because and item.prompt.step is prompts[at].prompt.step
        )
        around = (*inboard, *prompts[at + 1 :], *prompts[: at + 1])
        return next((item.prompt for item in around if not item.is_done), None)

    def previous(self, prompt_id: str) -> Prompt | None:
        """The prompt before the one named, done or not; None before the first."""
        at = self._place(prompt_id)
        return self.prompts[at - 1].prompt if at > 0 else None

    def _place(self, prompt_id: str | None) -> int:
        ids = [item.prompt.id for item in self.prompts]
        return ids.index(prompt_id) if prompt_id in ids else -1

    @property
    def todo(self) -> int:
        """How many prompts before the record are still to do."""
        return sum(
            step.total - step.done for step in self.steps if step.step.id is not StepId.RECORD
        )

    @property
    def outside(self) -> tuple[Finding, ...]:
        """The findings past their limit."""
        return tuple(item for item in self.findings if item.state is State.OUTSIDE)


def steps_for(job: Job, guide: Guide) -> tuple[Step, ...]:
    """The nine steps with the prompts that this job asks, as it asks them."""
    return tuple(
        replace(
            step,
            prompts=tuple(
                for_job(prompt, job) for prompt in step.prompts if why_not(prompt, job) is None
            ),
        )
        for step in guide.steps
    )


def not_asked(job: Job, guide: Guide) -> tuple[tuple[Prompt, str], ...]:
    """The prompts that this job does not ask, each with the reason in one sentence."""
    reasons = ((prompt, why_not(prompt, job)) for prompt in guide.prompts)
    return tuple((prompt, reason) for prompt, reason in reasons if reason is not None)


def standing(job: Job, findings: tuple[Finding, ...], guide: Guide) -> Standing:
    """How the job stands, from what it holds and what was judged."""
    asked = steps_for(job, guide)
    named = _named(findings, asked)
    by_prompt = _by_prompt(named)
    titles = {prompt.id: prompt.title for prompt in guide.prompts}
    titles |= {prompt.id: prompt.title for step in asked for prompt in step.prompts}
    left_out = not_asked(job, guide)
    steps = tuple(
        StepStanding(
            step,
            _with_waits(
                tuple(
                    _prompt_standing(job, prompt, tuple(by_prompt.get(prompt.id, ())), titles)
                    for prompt in step.prompts
                ),
                titles,
            ),
            tuple(
                NotAsked(prompt.title, reason)
                for prompt, reason in left_out
                if prompt.step is step.id
            ),
        )
        for step in asked
    )
    return Standing(job, named, steps)


def _by_prompt(findings: tuple[Finding, ...]) -> dict[str, list[Finding]]:
    """The findings of each prompt; what is judged from the prism of both lenses, at both."""
    by_prompt: dict[str, list[Finding]] = {}
    for finding in findings:
        both = finding.key in _PRISM_OF_BOTH
        for name in _PRISMS if both else (finding.prompt,):
            by_prompt.setdefault(name, []).append(finding)
    return by_prompt


def _named(findings: tuple[Finding, ...], steps: tuple[Step, ...]) -> tuple[Finding, ...]:
    """The findings with answered checks under their titles, which verdicts do not know."""
    titles = {
        prompt.id: prompt.title
        for step in steps
        for prompt in step.prompts
        if prompt.kind in ANSWERED
    }
    return tuple(
        _under(titles[finding.key], finding) if finding.key in titles else finding
        for finding in findings
    )


def _under(title: str, finding: Finding) -> Finding:
    opening = f"{finding.what}:"
    sentence = finding.sentence
    if sentence.startswith(opening):
        sentence = f"{title}:{sentence.removeprefix(opening)}"
    return replace(finding, what=title, sentence=sentence)


def _prompt_standing(
    job: Job, prompt: Prompt, findings: tuple[Finding, ...], titles: dict[str, str]
) -> PromptStanding:
    is_skipped = prompt.id in job.now.skipped
    is_done = is_skipped or (is_given(job, prompt) and not _is_refused(job, prompt, findings))
    states = [item.state for item in findings if not (is_done and item.state is State.MISSING)]
    if not is_done:
        states.append(State.MISSING)
    elif not states and not is_skipped and prompt.kind not in _JUDGED:
        states.append(State.WITHIN)
    again = "" if is_done else _why_again(job, prompt, titles)
    return PromptStanding(
        prompt, is_done, is_skipped, worst(states), findings, again_because=again
    )


def _why_again(job: Job, prompt: Prompt, titles: dict[str, str]) -> str:
    """Why what was answered or read no longer counts; empty for what never was."""
    if prompt.kind in ANSWERED:
        answer = answer_to(job, prompt)
        causes = answer.again_because if isinstance(answer, Answer) else ()
        named = tuple(
            "it" if cause == prompt.id else f"'{titles.get(cause, cause)}'" for cause in causes
        )
        verb = "was" if len(named) == 1 else "were"
        return f"Look again: {listed(named)} {verb} corrected since." if named else ""
    for correction in reversed(job.now.corrections):
        if prompt.id in correction.rereads:
            title = titles.get(correction.check, correction.check)
            return f"Read again: '{title}' was corrected since."
    return ""


def _is_refused(job: Job, prompt: Prompt, findings: tuple[Finding, ...]) -> bool:
    """Whether a check was only measured, and its measurements cannot be judged."""
    if prompt.kind is not Kind.CHECK or all(
        item.state is not State.MISSING for item in findings
    ):
        return False
    answer = answer_to(job, prompt)
    return isinstance(answer, Answer) and answer.seen is None


def _with_waits(
    prompts: tuple[PromptStanding, ...], titles: dict[str, str]
) -> tuple[PromptStanding, ...]:
    unsettled = {
        item.prompt.id for item in prompts if not item.is_done or item.state is State.OUTSIDE
    }
    return tuple(
        replace(
            item,
            waits_for=tuple(titles[name] for name in item.prompt.after if name in unsettled),
        )
        for item in prompts
    )
