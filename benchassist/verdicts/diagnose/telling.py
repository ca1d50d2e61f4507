"""What may have happened, in words: always a question, never a cause."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from benchassist.job.document import Job
from benchassist.limits.load import Limits
from benchassist.verdicts.diagnose.diagnose import NOTHING_FITS, diagnose, unexplained
from benchassist.verdicts.diagnose.suspicion import Suspicion
from benchassist.verdicts.finding import Finding


@dataclass(frozen=True, slots=True)
class SlipQuestion:
    """What is asked about some findings outside, or that nothing common explains them.

    Attributes:
        keys: keys of the findings that it is about.
        about: the same in words, such as 'Right axis, left axis'.
        sentence: the slips that would explain them, with the question that tells them apart.
    """

    keys: tuple[str, ...]
    about: str
    sentence: str


def slip_questions(
    job: Job, limits: Limits, findings: tuple[Finding, ...]
) -> tuple[SlipQuestion, ...]:
    """Each slip that would explain what is outside, and last what none of them explains.

    Args:
        job: order and readings.
        limits: the limits by which it was judged.
        findings: what judging it gave.
    """
    suspicions = diagnose(job, limits, findings)
    asked = [(one.explains, _sentence(one)) for one in suspicions]
    left = unexplained(job, limits, findings, suspicions)
    if left:
        asked.append((left, NOTHING_FITS))
    return tuple(
        SlipQuestion(keys, _about(keys, findings), sentence) for keys, sentence in asked
    )


def about_any(
    questions: Sequence[SlipQuestion], keys: Iterable[str]
) -> tuple[SlipQuestion, ...]:
    """Those questions that are about one of the findings with these keys."""
    wanted = frozenset(keys)
    return tuple(one for one in questions if wanted.intersection(one.keys))


def _about(keys: tuple[str, ...], findings: tuple[Finding, ...]) -> str:
    named = ", ".join(_named(finding) for finding in findings if finding.key in keys)
    return f"{named[:1].upper()}{named[1:]}"


def _named(finding: Finding) -> str:
    what = f"{finding.what[:1].lower()}{finding.what[1:]}"
    return f"{finding.eye} {what}" if finding.eye else what


def _sentence(one: Suspicion) -> str:
    names = " or: ".join(one.names)
    would = f"(It would read {one.reading_would_be}.)"
    return f"{names[:1].upper()}{names[1:]}. {one.question} {would}"
