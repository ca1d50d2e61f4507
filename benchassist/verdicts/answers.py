"""Checks answered by eye, by a choice or by confirming, and those whose measure is judged."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from decimal import Decimal

from benchassist.job.checks import Answer, Seen
from benchassist.optics.eye import Eye
from benchassist.verdicts.case import Case
from benchassist.verdicts.finding import Finding, State
from benchassist.verdicts.weigh import Subject
from benchassist.verdicts.words import MINUS, listed, trimmed

Measures = Mapping[str, Decimal]
"""The measurements of one check by their names, all that it needs."""


@dataclass(frozen=True, slots=True)
class MeasuredCheck:
    """A check whose measurements are judged.

    Attributes:
        id: its id, such as 'bench.skew'.
        needs: names of the measurements, all of which it needs.
        findings: the findings for a whole set of measurements; raises ValueError naming the
            value when the set cannot be.
        sizes: names of the sizes of the frame that must be ordered, such as 'dbl'.
    """

    id: str
    needs: tuple[str, ...]
    findings: Callable[[Case, Measures], tuple[Finding, ...]]
    sizes: tuple[str, ...] = ()


_CHOSEN = {
    "as expected": State.WITHIN,
    "worse than expected": State.OUTSIDE,
    "maker's statement": State.WITHIN,
    "tested": State.WITHIN,
}
"""What a choice says of the pair; every other one is told and judges nothing. Own rule."""

_TAUGHT = {
    "taught and shown back": State.WITHIN,
    "taught only": State.NONE,
    "could not do it": State.OUTSIDE,
}
"""What a choice says of a wearer who was taught; the rest of the handover is not judged.

Own rule: who cannot find a zone with the optician beside them will not find it at home.
"""


def judge_answers(case: Case, measured: tuple[MeasuredCheck, ...]) -> tuple[Finding, ...]:
    """The findings on every check that was answered.

    Args:
        case: the job and its limits.
        measured: the checks whose measurements are judged.
    """
    judged = {check.id: check for check in measured}
    findings: list[Finding] = []
    for step, answers in _by_step(case).items():
        for name, answer in answers.items():
            check = judged.get(f"{step}.{name}")
            findings += _answer(case, f"{step}.{name}", answer, check)
    taught = case.now.handover.answers.items()
    findings += (
        _by_eye(subject_of(f"handover.{name}"), answer)
        for name, answer in taught
        if answer.choice in _TAUGHT
    )
    return tuple(findings)


def judge_answer(case: Case, check: MeasuredCheck) -> tuple[Finding, ...]:
    """The findings on one check alone; none while it is not answered."""
    step, _, name = check.id.partition(".")
    answer = _by_step(case)[step].get(name)
    return () if answer is None else _answer(case, check.id, answer, check)


def _by_step(case: Case) -> dict[str, Mapping[str, Answer]]:
    now = case.now
    return {
        Eye.RIGHT: now.right.answers,
        Eye.LEFT: now.left.answers,
        "surface": now.surface.answers,
        "bench": now.bench.answers,
        "fit": now.fit.answers,
    }


def subject_of(check_id: str) -> Subject:
    """What a check judges; a check of the lens step belongs to its eye."""
    step, _, name = check_id.partition(".")
    words = _in_words(name)
    eye = Eye(step) if step in tuple(Eye) else None
    return Subject(check_id, check_id, words[:1].upper() + words[1:], eye)


def _in_words(name: str) -> str:
    return name if name == "x-ing" else name.replace("-", " ")


def _answer(
    case: Case, check_id: str, answer: Answer, check: MeasuredCheck | None
) -> tuple[Finding, ...]:
    subject = subject_of(check_id)
    if answer.again_because:
        return (subject.missing(f"{subject.what}: {_why_again(check_id, answer)}."),)
    if check is None or not answer.measured:
        return (_by_eye(subject, answer),)
    lacking = tuple(name for name in check.needs if name not in answer.measured)
    if lacking:
        names = listed(tuple(name.replace("_", " ") for name in lacking))
        if answer.seen is not None:
            return (_by_eye(subject, answer, _in_part(check, answer.measured, names)),)
        return (subject.missing(f"{subject.what}: still to be measured: {names}."),)
    unordered = listed(case.order.frame.lacking(check.sizes))
    if unordered:
        said = f"{subject.what}: measured, but the order does not state the frame's {unordered}"
        return (subject.missing(f"{said}."),)
    return _measured(case, subject, answer, check)


def _in_part(check: MeasuredCheck, read: Measures, lacking: str) -> str:
    """What was measured of a check answered by eye, and what is lacking to judge it."""
    given = tuple(
        f"{name.replace('_', ' ')} {_number(read[name])}"
        for name in check.needs
        if name in read
    )
    return f"; measured {listed(given) or 'nothing'}, not yet {lacking}: no measure is judged"


def _number(read: Decimal) -> str:
    return f"{MINUS if read < 0 else ''}{trimmed(read)}"


def _why_again(check_id: str, answer: Answer) -> str:
    """Why an answer no longer counts; the guide, which has the titles, names the cause."""
    if check_id in answer.again_because:
        return "check again because it was corrected"
    return "check again because a correction may have disturbed it"


def _measured(
    case: Case, subject: Subject, answer: Answer, check: MeasuredCheck
) -> tuple[Finding, ...]:
    try:
        findings = check.findings(case, answer.measured)
    # Wider than `Impossible`: a lens at its own focus or on edge is refused by the optics.
    except ValueError as impossible:
        return (subject.missing(f"{subject.what}: measure again, {impossible}."),)
    seen_fault = answer.seen is Seen.FAULT
    if seen_fault and all(finding.state is not State.OUTSIDE for finding in findings):
        first = findings[0]
        sentence = f"{first.sentence.removesuffix('.')}; a fault was seen by eye all the same."
        return (replace(first, state=State.OUTSIDE, sentence=sentence), *findings[1:])
    return findings


def _by_eye(subject: Subject, answer: Answer, more: str = "") -> Finding:
    """The finding on what was seen or chosen; `more` ends its sentence."""
    remark = f" ({answer.remark.removesuffix('.')})" if answer.remark else ""
    if answer.seen is Seen.FAULT:
        state, said = State.OUTSIDE, "a fault was seen"
    elif answer.choice:
        judged = _CHOSEN | _TAUGHT
        state, said = judged.get(answer.choice.casefold(), State.NONE), answer.choice
    elif answer.seen is Seen.GOOD:
        state, said = State.WITHIN, "found good"
    elif answer.measured:
        state, said = State.NONE, "measured, without a limit"
    else:
        state, said = State.MISSING, "not answered yet"
    return Finding(
        key=subject.key,
        prompt=subject.prompt,
        what=subject.what,
        state=state,
        sentence=f"{subject.what}: {said}{remark}{more}.",
        eye=subject.eye,
    )
