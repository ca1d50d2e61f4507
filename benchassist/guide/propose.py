"""What to do next about the faults of the frame: the innermost first, with side and amount."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from benchassist.guide.flow import PromptStanding, Standing
from benchassist.guide.moves import Move, move_for
from benchassist.guide.prompts import Remedy, StepId
from benchassist.guide.rocked import rocked
from benchassist.guide.worn_moves import fitting
from benchassist.job.document import Job
from benchassist.job.order import FrameMaterial
from benchassist.verdicts.finding import Finding, State
from benchassist.verdicts.frame_measured import counted
from benchassist.verdicts.words import listed

MOST_TIMES = 3
"""So often one place is bent the same way before it is time to stop: metal hardens, plastic
tires, and what still comes back has its cause elsewhere. Own proposal."""

_SPRINGS = frozenset({FrameMaterial.TITANIUM, FrameMaterial.NYLON, FrameMaterial.MEMORY_ALLOY})
_HOW_FAR = "This material springs back: go past the mark, let go and look, in small steps."

_TELLS_APART = {
    "bench.table-upright": (
        "bench.temple-bend",
        "A bend that begins further back lifts its tip as well.",
    ),
}
"""What must be measured besides the checks further inwards, and why."""

_FIRST = {"bench.table-upright": "bench.temple-bend"}
"""What is put right before a check though it stands later: it may be the whole fault."""


_SAY_WHICH = "Say below which of these it is: each is put right in another way."


class GoOn(StrEnum):
    """How to go on."""

    CORRECT = "correct"
    MEASURE = "measure"
    STOP = "stop"


@dataclass(frozen=True, slots=True)
class Proposal:
    """The next thing to do about a fault of the frame.

    Attributes:
        check: id of the prompt that it is about.
        go_on: whether to correct, to measure something first, or to stop.
        sentence: what to do, with side and amount where they can be told.
        because: why this and why now.
        remedy: the correction proposed; None where nothing is to be bent.
        move: what it changes; None where the measurements do not tell.
    """

    check: str
    go_on: GoOn
    sentence: str
    because: str
    remedy: Remedy | None = None
    move: Move | None = None


Prompts = Mapping[str, PromptStanding]


def proposal(standing: Standing, step: StepId = StepId.BENCH) -> Proposal | None:
    """What to do next in a step; None while nothing in it is outside.

    The innermost fault comes first, because a bend moves everything outboard of it. What
    should stand first and is not known yet is measured before anything is bent for it.
    """
    prompts = {item.prompt.id: item for item in standing.step(step).prompts}
    for name, item in prompts.items():
        if item.state is State.OUTSIDE:
            first = _earlier(standing.job, name, prompts) or item
            return _measure_first(first, prompts) or _bend(standing.job, first, prompts)
    return None


def _earlier(job: Job, name: str, prompts: Prompts) -> PromptStanding | None:
    """A later check that is put right before this one, while it is outside itself.

    Not where the fault lies further inwards than both.
    """
    first = prompts.get(_FIRST.get(name, ""))
    if first is None or first.state is not State.OUTSIDE:
        return None
    return first if rocked(job, name, prompts) is None else None


def _measure_first(item: PromptStanding, prompts: Prompts) -> Proposal | None:
    """What lies further inwards, or tells this fault from another, and is not known."""
    title = item.prompt.title
    unknown = [name for name in item.prompt.after if _is_open(prompts, name)]
    if unknown:
        titles = listed(tuple(f"'{prompts[name].prompt.title}'" for name in unknown))
        return Proposal(
            unknown[0],
            GoOn.MEASURE,
            f"Look at {titles} before you bend anything for '{title}'.",
            "A bend further inwards would move this place again.",
        )
    needed, why = _TELLS_APART.get(item.prompt.id, ("", ""))
    if needed and _is_open(prompts, needed):
        sentence = f"Measure '{prompts[needed].prompt.title}' before you bend anything here."
        return Proposal(needed, GoOn.MEASURE, sentence, why)
    return None


def _is_open(prompts: Prompts, name: str) -> bool:
    return name in prompts and not prompts[name].is_done


def _bend(job: Job, item: PromptStanding, prompts: Prompts) -> Proposal:
    """The bend for a check, for the check that is really at fault, or why there is none."""
    finding = _worst(item)
    if item.prompt.step is StepId.FIT:
        return _on_wearer(job, item, finding)
    advice = rocked(job, item.prompt.id, prompts)
    if advice is not None and advice.move is None:
        return Proposal(advice.check, GoOn.MEASURE, advice.sentence, finding.sentence)
    if advice is not None and advice.check != item.prompt.id:
        because = f"{finding.sentence} {advice.sentence}"
        return _correct(job, prompts[advice.check], advice.move, because)
    move = advice.move if advice is not None else move_for(job, finding)
    return _correct(job, item, move, finding.sentence)


def _on_wearer(job: Job, item: PromptStanding, worst: Finding) -> Proposal:
    """What puts the fit right, by the sign and the size of what was measured.

    Where only the eye can tell which of several it is, a person says so first.
    """
    check, remedies = item.prompt.id, item.prompt.remedies
    found = fitting(job, worst, item.findings)
    move = found.move if found else None
    refusal = _cannot(job, item, move)
    if refusal:
        return Proposal(check, GoOn.STOP, *refusal)
    if found and not found.remedy:
        return Proposal(check, GoOn.STOP, found.sentence, worst.sentence)
    if found is None and len(remedies) > 1:
        return Proposal(check, GoOn.CORRECT, _SAY_WHICH, worst.sentence)
    remedy = item.prompt.remedy(found.remedy) if found else remedies[0]
    sentence = remedy.does if move is None else f"{move.words[:1].upper()}{move.words[1:]}."
    return Proposal(check, GoOn.CORRECT, sentence, worst.sentence, remedy, move)


def _worst(item: PromptStanding) -> Finding:
    """The finding outside whose share of its limit is largest."""
    outside = [one for one in item.findings if one.state is State.OUTSIDE]
    return max(outside, key=lambda one: one.share or 0)


def _correct(job: Job, item: PromptStanding, move: Move | None, because: str) -> Proposal:
    check = item.prompt.id
    refusal = _cannot(job, item, move)
    if refusal:
        return Proposal(check, GoOn.STOP, *refusal)
    remedy = _remedy(item.prompt.remedies, move)
    sentence = remedy.does if move is None else f"{move.words[:1].upper()}{move.words[1:]}."
    if move is None and item.prompt.inputs and counted(job, item.prompt.name) is None:
        sentence = f"{sentence} Measured, it could be said on which side and by how much."
    if job.order.frame.material in _SPRINGS:
        sentence = f"{sentence} {_HOW_FAR}"
    return Proposal(check, GoOn.CORRECT, sentence, because, remedy, move)


def _cannot(job: Job, item: PromptStanding, move: Move | None) -> tuple[str, str] | None:
    """What to do instead, and why hands at this bench cannot or should no longer bend it."""
    check, title = item.prompt.id, item.prompt.title
    if not item.prompt.remedies:
        material = job.order.frame.material
        named = f"{material.value} frame" if material else "frame"
        return (
            "Do not bend it: send the pair back, or let the supervisor decide.",
            f"'{title}' is not put right at the bench on this {named}.",
        )
    times = sum(
        correction.check == check
        and (move is None or (correction.side, correction.unit) == (move.side, move.unit))
        for correction in job.now.corrections
    )
    if times >= MOST_TIMES:
        return (
            "Stop bending here: look further inwards for the cause, or send the pair back.",
            f"'{title}' was put right {times} times in the same place and is still outside.",
        )
    return None


def _remedy(remedies: tuple[Remedy, ...], move: Move | None) -> Remedy:
    """The correction that changes the number this way; the first where none says so."""
    names = _CHANGED_BY.get((move.number, move.change > 0), ()) if move else ()
    fitting = (one for one in remedies if one.id.removesuffix("-warm") in names)
    return next(fitting, remedies[0])


_CHANGED_BY: Mapping[tuple[str, bool], tuple[str, ...]] = {
    ("open_angle", True): ("let-out", "file"),
    ("open_angle", False): ("bring-in",),
    ("plane_step", True): ("even-planes",),
    ("plane_step", False): ("even-planes",),
    ("form", True): ("even-form",),
    ("form", False): ("even-form",),
}
"""Ids of the corrections for a number and a direction, where a check offers several."""
