"""The return slip as data: what the lab gets with a pair that goes back."""

import hashlib
import re
from collections.abc import Callable

from benchassist.guide.flow import standing
from benchassist.guide.guide import Guide
from benchassist.guide.prompts import StepId
from benchassist.job.base import Deferred
from benchassist.job.changes import canonical, document_of
from benchassist.job.document import Job, JobNumber
from benchassist.job.signoff import Ask, Outcome, Signature
from benchassist.limits.load import Limits
from benchassist.limits.rule import Rule
from benchassist.optics.eye import Eye
from benchassist.records.columns import compared
from benchassist.records.record import Digest, Imprint
from benchassist.records.words import frame_words, lens_words, limit_amount
from benchassist.verdicts.diagnose.diagnose import NOTHING_FITS
from benchassist.verdicts.diagnose.telling import SlipQuestion, about_any, slip_questions
from benchassist.verdicts.finding import Finding
from benchassist.wrong import BenchError

_OF_THE_LAB = frozenset(
    {StepId.RIGHT, StepId.LEFT, StepId.PAIR, StepId.SURFACE, StepId.BENCH, StepId.FIT}
)
"""The steps whose findings the lab can act on; of the fit only what was measured."""

_SHORTEST_NAME = 3
"""A part of the wearer's name with fewer letters is a word of the language too often."""


class ReturnLine(Deferred):
    """One quantity outside its limit: the numbers as text, empty where there are none."""

    key: str
    what: str
    ordered: str
    found: str
    difference: str
    limit: str
    sentence: str
    rule: int | None


class ReturnRule(Deferred):
    """A limit that was passed: by its number, where it is from and how that is known."""

    number: int
    row: str
    text: str
    source: str


class ReturnSlip(Deferred):
    """Everything that the slip says; the wearer is not named in it.

    Attributes:
        job_number: by which the lab knows the pair.
        attempt: which delivery of this job goes back, from 1.
        imprint: who makes it, when, and of which state of the job.
        order_digest: SHA-256 of the order without the wearer's name and without remarks.
        lenses: what was ordered, in one line.
        frame: the frame, in one line.
        judged_by: the rule set, and how a reading's uncertainty enters.
        lines: what is out.
        rules: the limits that were passed.
        questions: what may have happened: questions, never a cause.
        unexplained: what no common slip would give, in words; empty where there is none.
        asks: what the lab is asked for.
        remark: why the pair goes back, in the dispenser's words.
        prepared, dispensed, countersigned: the names put to it.
    """

    job_number: JobNumber
    attempt: int
    imprint: Imprint
    order_digest: Digest
    lenses: str
    frame: str
    judged_by: str
    lines: tuple[ReturnLine, ...]
    rules: tuple[ReturnRule, ...]
    questions: tuple[str, ...]
    unexplained: str
    asks: tuple[Ask, ...]
    remark: str
    prepared: Signature | None
    dispensed: Signature | None
    countersigned: Signature | None


def no_slip(job: Job) -> str:
    """Why this job has no return slip, in one sentence; empty when it has one."""
    if job.now.signoff.outcome is Outcome.RETURN:
        return ""
    return f"A return slip is for a pair whose outcome is '{Outcome.RETURN.value}'."


def make_slip(
    job: Job, findings: tuple[Finding, ...], guide: Guide, limits: Limits, imprint: Imprint
) -> ReturnSlip:
    """The slip of the present attempt; arguments as for the record.

    Raises:
        BenchError: the outcome is not a return to the lab.
    """
    if refusal := no_slip(job):
        raise BenchError(refusal)
    stands = standing(job, findings, guide)
    place = {item.prompt.id: number for number, item in enumerate(stands.prompts)}
    out = [one for one in stands.outside if _concerns_lab(one)]
    out.sort(key=lambda one: place.get(one.prompt, len(place)))
    rules = tuple(dict.fromkeys(one.rule for one in out if one.rule))
    asked = about_any(slip_questions(job, limits, findings), (one.key for one in out))
    signoff = job.now.signoff
    unnamed = _without_name(job.order.wearer)
    return ReturnSlip(
        job_number=job.number,
        attempt=len(job.attempts),
        imprint=imprint,
        order_digest=order_digest(job),
        lenses=lens_words(job.order),
        frame=frame_words(job.order),
        judged_by=f"{limits.rule_set.title}; {limits.decision.title}",
        lines=tuple(_line(one, rules, unnamed) for one in out),
        rules=tuple(_rule(number, rule) for number, rule in enumerate(rules, start=1)),
        questions=tuple(f"{one.about}: {one.sentence}" for one in asked if _explains(one)),
        unexplained=", ".join(one.about for one in asked if not _explains(one)),
        asks=signoff.asks,
        remark=unnamed(signoff.reason),
        prepared=_name_only(signoff.prepared),
        dispensed=_name_only(signoff.dispensed),
        countersigned=_name_only(signoff.countersigned),
    )


def order_digest(job: Job) -> str:
    """SHA-256 of the order, by which both sides can see that they mean the same one.

    The wearer's name, the language and the remarks are left out: with everything else known,
    a name could be found by trying.
    """
    document = document_of(job.with_(order=job.order.with_(wearer="", remark="", language="")))
    order = document["order"] if isinstance(document, dict) else None
    return hashlib.sha256(canonical(order).encode()).hexdigest()


def _concerns_lab(finding: Finding) -> bool:
    step = StepId(finding.prompt.partition(".")[0])
    if step is StepId.FIT:
        return finding.limit is not None
    return step in _OF_THE_LAB


def _explains(one: SlipQuestion) -> bool:
    return one.sentence != NOTHING_FITS


def _line(
    finding: Finding, rules: tuple[Rule, ...], unnamed: Callable[[str], str]
) -> ReturnLine:
    ordered, found, apart = compared(finding)
    return ReturnLine(
        key=finding.key,
        what=_named(finding),
        ordered=ordered,
        found=found,
        difference=apart,
        limit=limit_amount(finding.limit, finding.unit, finding.sentence),
        sentence=unnamed(finding.sentence),
        rule=rules.index(finding.rule) + 1 if finding.rule else None,
    )


def _named(finding: Finding) -> str:
    if isinstance(finding.eye, Eye):
        return f"{finding.eye.value.capitalize()} lens: {finding.what.lower()}"
    return finding.what


def _rule(number: int, rule: Rule) -> ReturnRule:
    told = (rule.title, rule.edition, rule.clause, f"row {rule.row}", rule.evidence.value)
    first = rule.sources[0]
    return ReturnRule(
        number=number,
        row=rule.row,
        text=", ".join(text for text in told if text),
        source=f"{first.title}, {first.address}" if first.address else first.title,
    )


def _name_only(signature: Signature | None) -> Signature | None:
    """A name and its time without the remark, which is for the workshop."""
    return signature.with_(remark="") if signature else None


def _without_name(wearer: str) -> Callable[[str], str]:
    """What writes 'the wearer' wherever a text names that person, wholly or in part."""
    parts = [part for part in re.split(r"[\s,.]+", wearer) if len(part) >= _SHORTEST_NAME]
    names = [re.escape(name) for name in (wearer.strip(), *parts) if name]
    if not names:
        return lambda text: text
    pattern = re.compile(rf"(?<!\w)(?:{'|'.join(names)})(?!\w)")
    return lambda text: pattern.sub("the wearer", text)
