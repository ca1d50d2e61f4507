"""What to do next about the faults of the frame: the innermost first, with side and amount."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from benchassist.guide.answers import answer_to
from benchassist.guide.flow import PromptStanding, Standing
from benchassist.guide.moves import Move, move_for
from benchassist.guide.prompts import Prompt, Remedy, StepId
from benchassist.guide.rocked import rocked
from benchassist.guide.worn_moves import fitting
from benchassist.job.document import Job
from benchassist.job.order import FrameMaterial
from benchassist.verdicts.finding import Finding, State
from benchassist.verdicts.frame_measured import counted
from benchassist.verdicts.words import listed

MOST_TIMES = 3
"""So often one place is bent, to and fro alike, before it is time to stop: metal hardens,
plastic tires, and what still comes back has its cause elsewhere. Own proposal."""

_SPRINGS = frozenset({FrameMaterial.TITANIUM, FrameMaterial.NYLON})
"""Bent past the mark. Not memory alloy: what is bent there are its ordinary metal parts, and
the alloy itself gives way all at once. From the notes on these materials in the guide."""

_HOW_FAR = "This material springs back: go past the mark, let go and look, in small steps."

_BENDS_NOTHING = frozenset({"screw", "lens", "worn-pad-faces"})
"""Ways of putting right in which nothing of the frame is bent: nothing can spring back."""

_FRAME = f"{StepId.ORDER}.frame"
"""Where the frame material is entered."""

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


_NO_HAND = (
    "No correction of this frame does that: send the pair back, or let the supervisor decide."
)


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
    named = remedies if found is None else _named(remedies, found.remedy)
    if not named:
        return Proposal(check, GoOn.STOP, _NO_HAND, worst.sentence)
    remedy = named[0]
    sentence = remedy.does if move is None else f"{move.words[:1].upper()}{move.words[1:]}."
    return Proposal(check, GoOn.CORRECT, sentence, worst.sentence, remedy, move)


def _named(remedies: tuple[Remedy, ...], name: str) -> tuple[Remedy, ...]:
    """The correction of this id, or the one that a moulded bridge has in its place."""
    return tuple(one for one in remedies if one.id.removesuffix("-moulded") == name)


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
    if remedy.materials and job.order.frame.material is None:
        return _name_it_first(item)
    sentence = remedy.does if move is None else f"{move.words[:1].upper()}{move.words[1:]}."
    if move is None and item.prompt.inputs and not _is_measured(job, item.prompt):
        sentence = f"{sentence} Measured, it could be said on which side and by how much."
    if job.order.frame.material in _SPRINGS and remedy.bend not in _BENDS_NOTHING:
        sentence = f"{sentence} {_HOW_FAR}"
    return Proposal(check, GoOn.CORRECT, sentence, because, remedy, move)


def _name_it_first(item: PromptStanding) -> Proposal:
    """Nothing is bent in a frame of unknown material: one breaks cold, another burns warm."""
    return Proposal(
        _FRAME,
        GoOn.MEASURE,
        f"Enter what the frame is made of before you bend anything for '{item.prompt.title}'.",
        "One material breaks cold and another is ruined by warmth: what nobody can name is "
        "treated as brittle and sensitive to heat.",
    )


def _is_measured(job: Job, prompt: Prompt) -> bool:
    """Whether its measurements count, or on the wearer at least were taken."""
    if prompt.step is StepId.BENCH:
        return counted(job, prompt.name) is not None
    answer = answer_to(job, prompt)
    return answer is not None and bool(answer.measured)


def _cannot(job: Job, item: PromptStanding, move: Move | None) -> tuple[str, str] | None:
    """What to do instead, and why hands at this bench cannot or should no longer bend it."""
    title = item.prompt.title
    if not item.prompt.remedies:
        material = job.order.frame.material
        named = f"{material.value} frame" if material else "frame"
        return (
            "Do not bend it: send the pair back, or let the supervisor decide.",
            f"'{title}' is not put right at the bench on this {named}.",
        )
    times = _times(job, item.prompt, move)
    if times >= MOST_TIMES:
        return (
            "Stop bending here: look further inwards for the cause, or send the pair back.",
            f"'{title}' was put right {times} times in the same place and is still outside.",
        )
    return None


def _times(job: Job, prompt: Prompt, move: Move | None) -> int:
    """How often the place that is to be bent was bent for this check already.

    Which way it was bent is not logged, and an amount not always: so the same place is the same
    side and the same way of bending, and a correction of both sides counts for each.
    """
    logged = [one for one in job.now.corrections if one.check == prompt.id]
    if move is None:
        return len(logged)
    bend = _remedy(prompt.remedies, move).bend
    elsewhere = {one.does for one in prompt.remedies if one.bend != bend}
    return sum(one.side in {None, move.side} and one.action not in elsewhere for one in logged)


def _remedy(remedies: tuple[Remedy, ...], move: Move | None) -> Remedy:
    """The correction that changes the number this way; the first where none says so."""
    names = _CHANGED_BY.get((move.number, move.change > 0), ()) if move else ()
    fitting = (one for one in remedies if _BARE.sub("", one.id) in names)
    return next(fitting, remedies[0])


_BARE = re.compile("-(warm|held|bar|mount|sleeve)$")
"""The endings that say how a correction is made on some materials and mountings."""


_CHANGED_BY: Mapping[tuple[str, bool], tuple[str, ...]] = {
    ("open_angle", True): ("let-out", "press", "file"),
    ("open_angle", False): ("bring-in", "press"),
    ("plane_step", True): ("even-planes",),
    ("plane_step", False): ("even-planes",),
    ("form", True): ("even-form",),
    ("form", False): ("even-form",),
}
"""Ids of the corrections for a number and a direction, where a check offers several; of those
that suit, the first in the guide is taken. What cannot be undone stands last there."""
