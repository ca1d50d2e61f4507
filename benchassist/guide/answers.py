"""Where in a job the answer to a prompt lives."""

from collections.abc import Mapping
from typing import Any, assert_never

from benchassist.guide.prompts import Kind, Prompt
from benchassist.job.checks import Answer, Seen
from benchassist.job.document import Attempt, Job
from benchassist.job.order import Design, EyeOrder, Order
from benchassist.job.paths import value_at, with_value_at
from benchassist.job.surface import Defect
from benchassist.optics.eye import Eye

READINGS = frozenset({Kind.POWER, Kind.ADDITION, Kind.PRISM, Kind.ENGRAVED})
"""Kinds whose answer is a field of one lens's readings."""

ANSWERED = frozenset({Kind.CHECK, Kind.CONFIRM, Kind.CHOICE})
"""Kinds whose answer is an `Answer`."""

ACUITY = "acuity"
"""The reading of a choice that is made by the lines read on a chart or card."""

TOGETHER = "distance_pd"
"""The layout that may be measured of both lenses together."""


def may_be_together(order: Order) -> bool:
    """Whether the distance between both optical centres is enough.

    A lens that varies has its fitting cross at its own distance, so each is measured.
    """
    return order.design is not None and not order.design.varies


def answer_to(job: Job, prompt: Prompt) -> Any:
    """The answer in the present attempt.

    A tuple of readings; the engraved addition or None; (right repeats, left repeats) for a
    layout, followed by those of both lenses together where there are any; an `Answer`, None
    when not yet given; None for the order and the record.
    """
    if prompt.kind in READINGS:
        return value_at(job.now, _reading_path(prompt))
    if prompt.kind is Kind.LAYOUT:
        pair = job.now.pair
        sides = tuple(value_at(pair, f"{eye}.{prompt.reading}") for eye in Eye)
        both = pair.distance_pd if prompt.reading == TOGETHER else ()
        return (*sides, both) if both else sides
    if prompt.kind in ANSWERED:
        return _answers(job, prompt).get(prompt.name)
    return None


def with_answer(job: Job, prompt: Prompt, answer: Any) -> Job:
    """The job with the answer of the present attempt replaced.

    A prompt that was marked not applicable is asked again once it is answered. A check with
    places also takes a tuple: all defects of the pair.

    Raises:
        ValueError: the prompt takes no single answer (the order, the record), or the answer
            does not fit its field.
    """
    if prompt.has_places and isinstance(answer, tuple):
        return with_defects(job, prompt, answer)
    now = _asked_again(job.now, prompt)
    if prompt.kind in READINGS:
        return job.with_now(with_value_at(now, _reading_path(prompt), answer))
    if prompt.kind is Kind.LAYOUT:
        for eye, repeats in zip(Eye, answer, strict=False):
            now = with_value_at(now, f"pair.{eye}.{prompt.reading}", repeats)
        if prompt.reading == TOGETHER:
            both = answer[len(Eye)] if len(answer) > len(Eye) else ()
            now = with_value_at(now, f"pair.{TOGETHER}", both)
        return job.with_now(now)
    if prompt.kind in ANSWERED:
        answers = {**_answers(job, prompt), prompt.name: answer}
        return job.with_now(with_value_at(now, f"{prompt.step}.answers", answers))
    raise ValueError(f"{prompt.id} takes no single answer")


def with_defects(job: Job, prompt: Prompt, defects: tuple[Defect, ...]) -> Job:
    """The job with all defects of its lenses replaced, as they were changed at a prompt."""
    now = _asked_again(job.now, prompt)
    return job.with_now(now.with_(surface=now.surface.with_(defects=defects)))


def _asked_again(now: Attempt, prompt: Prompt) -> Attempt:
    """The attempt with the prompt no longer marked not applicable."""
    if prompt.id not in now.skipped:
        return now
    kept = {name: why for name, why in now.skipped.items() if name != prompt.id}
    return now.with_(skipped=kept)


def is_given(job: Job, prompt: Prompt) -> bool:
    """Whether the answer is complete and not to be repeated."""
    answer = answer_to(job, prompt)
    match prompt.kind:
        case Kind.POWER:
            return bool(answer) and all(reading.is_complete for reading in answer)
        case Kind.ADDITION:
            return bool(answer) and all(add.addition is not None for add in answer)
        case Kind.PRISM:
            return bool(answer)
        case Kind.ENGRAVED:
            return answer is not None
        case Kind.LAYOUT:
            return _is_laid_out(job, prompt.reading)
        case Kind.CHECK | Kind.CONFIRM | Kind.CHOICE:
            is_answered = answer is not None and _is_answered(prompt, answer)
            return is_answered or _is_answered_by_places(job, prompt, answer)
        case Kind.FORM:
            return _is_ordered(job.order, prompt)
        case Kind.SIGN:
            return getattr(job.now.signoff, prompt.reading) is not None
        case _:
            assert_never(prompt.kind)


def _is_laid_out(job: Job, reading: str) -> bool:
    pair = job.now.pair
    if reading == TOGETHER and pair.distance_pd and may_be_together(job.order):
        return True
    return all(getattr(pair.eye(eye), reading) for eye in _eyes_to_measure(job.order, reading))


def _is_answered(prompt: Prompt, answer: Answer) -> bool:
    if answer.again_because:
        return False
    if prompt.kind is Kind.CHOICE:
        return bool(answer.choice)
    if prompt.kind is Kind.CONFIRM:
        return answer.seen is Seen.GOOD
    return answer.seen is not None or _is_measured(prompt, answer)


def _is_answered_by_places(job: Job, prompt: Prompt, answer: Answer | None) -> bool:
    """Whether defects were noted at their places, and are not to be looked at again."""
    if not prompt.has_places or (answer is not None and answer.again_because):
        return False
    return bool(job.now.surface.noted_at(prompt.name))


def _is_measured(prompt: Prompt, answer: Answer) -> bool:
    return bool(prompt.inputs) and all(item.name in answer.measured for item in prompt.inputs)


def _eyes_to_measure(order: Order, reading: str) -> tuple[Eye, ...]:
    """Both eyes; of what may be ordered for one eye only, the eyes it is ordered for."""
    ordered = {"thickness": "centre_thickness", "base_curve": "base_curve"}.get(reading)
    if ordered is None:
        return tuple(Eye)
    return tuple(eye for eye in Eye if getattr(order.eye(eye), ordered) is not None)


def _is_ordered(order: Order, prompt: Prompt) -> bool:
    """Whether a section of the order holds what nothing can be judged without."""
    match prompt.name:
        case "wearer-and-lenses":
            return bool(order.wearer) and order.design is not None
        case "frame":
            return None not in {order.frame.a, order.frame.b, order.frame.dbl}
        case eye:
            return _is_eye_ordered(order.eye(Eye(eye)), order.design)


def _is_eye_ordered(ordered: EyeOrder, design: Design | None) -> bool:
    needed = [ordered.distance_pd]
    if design is not None and design.has_addition:
        needed.append(ordered.add)
    if design is not None and (design.has_segment or design.varies):
        needed.append(ordered.height)
    return ordered.power.is_complete and None not in needed


def _reading_path(prompt: Prompt) -> str:
    if prompt.kind is Kind.ENGRAVED:
        return f"{prompt.step}.engraved_add"
    return f"{prompt.step}.{prompt.reading}"


def _answers(job: Job, prompt: Prompt) -> Mapping[str, Answer]:
    answers: Mapping[str, Answer] = value_at(job.now, f"{prompt.step}.answers")
    return answers
