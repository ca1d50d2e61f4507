"""What a reader of the record must keep in mind."""

from collections.abc import Iterable

from benchassist.guide.guide import Guide
from benchassist.job.document import Job
from benchassist.limits.load import RuleSet
from benchassist.limits.rule import Evidence, Rule
from benchassist.optics.eye import Eye
from benchassist.records.reading_words import meter_readings
from benchassist.records.words import plural
from benchassist.verdicts.finding import Finding, State

_REMEMBERED = frozenset({Evidence.MEMORY, Evidence.CARRIED})
_UNSOURCED = frozenset({Evidence.PROPOSED, Evidence.PRACTICE})


def cautions(
    job: Job, findings: tuple[Finding, ...], guide: Guide, rule_set: RuleSet
) -> tuple[str, ...]:
    """The cautions in the order of their weight, each one or more whole sentences."""
    said = (
        *_undecided(findings),
        rule_set.caution,
        *_evidence(findings),
        *_meters(job),
        *(note.words for note in guide.notes_for(job.order)),
        *_skipped(job),
        "Local rules and the professional judgement of the dispensing optician come first.",
    )
    return tuple(text for text in dict.fromkeys(said) if text)


def _undecided(findings: tuple[Finding, ...]) -> Iterable[str]:
    states = [finding.state for finding in findings]
    by_eye = sum(one.state is State.CLOSE and one.difference is None for one in findings)
    close = states.count(State.CLOSE) - by_eye
    if by_eye:
        found = plural(by_eye, "finding")
        yield f"{found} by eye {_needs(by_eye)} a second look and a decision."
    if close:
        yield (
            f"{_lie(close)} so near the limit that the uncertainty of the reading decides, and "
            "should be read again."
        )
    missing = states.count(State.MISSING)
    if missing:
        verb = "was" if missing == 1 else "were"
        yield f"{plural(missing, 'quantity')} asked for {verb} not judged."


def _needs(number: int) -> str:
    return "needs" if number == 1 else "need"


def _lie(number: int) -> str:
    return f"{plural(number, 'finding')} {'lies' if number == 1 else 'lie'}"


def _evidence(findings: tuple[Finding, ...]) -> Iterable[str]:
    rules = {finding.rule for finding in findings if finding.rule}
    known = (
        (_REMEMBERED, "known from memory or carried over from another edition"),
        (_UNSOURCED, "without a published source: common practice or our own proposal"),
    )
    counted = [(_count(rules, kinds), text) for kinds, text in known]
    said = [
        f"{number} {'is' if number == 1 else 'are'} {text}"
        for number, text in counted
        if number
    ]
    if said:
        yield (
            f"Of {plural(len(rules), 'rule')} applied, {'; '.join(said)}. Compare them with a "
            "bought copy of the standard before relying on them."
        )


def _count(rules: set[Rule], kinds: frozenset[Evidence]) -> int:
    return sum(rule.evidence in kinds for rule in rules)


def _meters(job: Job) -> Iterable[str]:
    taken = [reading for eye in Eye for reading in meter_readings(job.now.eye(eye))]
    unnamed = sum(not reading.meter for reading in taken)
    if unnamed:
        yield (
            f"{plural(unnamed, 'reading')} of {len(taken)} at the lens meter name no "
            "instrument, so that its last check cannot be traced."
        )


def _skipped(job: Job) -> Iterable[str]:
    if job.now.skipped:
        number = len(job.now.skipped)
        yield f"{plural(number, 'prompt')} {'was' if number == 1 else 'were'} skipped."
