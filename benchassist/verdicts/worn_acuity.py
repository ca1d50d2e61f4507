"""The lines read at distance and near against the lines expected: the prescriber's business."""

from benchassist.job.acuity import Acuity, Seeing
from benchassist.optics.acuity import is_known, lines_worse
from benchassist.verdicts.case import Case
from benchassist.verdicts.finding import Finding, State
from benchassist.verdicts.words import listed, trimmed

AS_EXPECTED, WORSE = "as expected", "worse than expected"
"""The choices of the prompts on vision that say something of the pair."""

_TO_PRESCRIBER = (
    "lenses verified and fit true, it goes to the prescriber and is nothing to adjust"
)
_CHECKS = {"distance-vision": "distance", "near-vision": "near"}


def judge_acuity(case: Case) -> tuple[Finding, ...]:
    """The findings on the lines read, one a distance.

    A line worse than expected is outside: nothing is published on how much worse a wearer may
    read with a new pair, and a line is what charts can tell. What no chart has is kept as
    it was written and is to be read again. Own rule.
    """
    findings: list[Finding] = []
    for check, what in _CHECKS.items():
        answer = case.now.fit.answers.get(check)
        if answer is not None and answer.acuity is not None and not answer.again_because:
            findings += _lines(f"fit.{check}", what, answer.acuity)
    return tuple(findings)


def chosen_by_lines(acuity: Acuity) -> str:
    """The choice that the lines read amount to; empty while none can be compared."""
    compared = [
        worse
        for seeing in Seeing
        if (worse := lines_worse(acuity.by(seeing).read, acuity.by(seeing).expected))
        is not None
    ]
    if not compared:
        return ""
    return WORSE if any(worse > 0 for worse in compared) else AS_EXPECTED


def _lines(check: str, what: str, acuity: Acuity) -> tuple[Finding, ...]:
    """One finding on all lines of a distance; none where no line was read."""
    seen = [seeing for seeing in Seeing if acuity.by(seeing).read]
    if not seen:
        return ()
    worse = {seeing: _worse(acuity, seeing) for seeing in seen}
    lost = [seeing for seeing, by in worse.items() if by is not None and by > 0]
    lines = ", ".join(_line(acuity, seeing) for seeing in seen)
    unknown = _unknown(acuity, seen)
    if unknown and not lost:
        state, end = State.CLOSE, f": {unknown}"
    elif lost:
        state, end = State.OUTSIDE, f": {_names(lost)} worse than expected; {_TO_PRESCRIBER}"
    elif None in worse.values():
        unlike = [seeing for seeing, by in worse.items() if by is None]
        state, end = State.NONE, f": {_names(unlike)} with no like line to compare it with"
    else:
        state, end = State.WITHIN, ": as expected or better"
    return (
        Finding(
            key=f"{check}.lines",
            prompt=check,
            what=f"Lines read, {what}",
            state=state,
            sentence=f"Lines read, {what}{_where(acuity)}: {lines}{end}.",
            is_told=state is State.NONE,
        ),
    )


def _unknown(acuity: Acuity, seen: list[Seeing]) -> str:
    """What was written that is no line of a chart or card, and how lines are written."""
    written = [
        text
        for seeing in seen
        for text in (acuity.by(seeing).read, acuity.by(seeing).expected)
        if text and not is_known(text)
    ]
    if not written:
        return ""
    named = listed(tuple(f"'{text}'" for text in dict.fromkeys(written)))
    return f"{named} is not a line of a chart; write it as 6/6, 20/20, 1.0, logMAR 0.1 or N5"


def _worse(acuity: Acuity, seeing: Seeing) -> float | None:
    line = acuity.by(seeing)
    return lines_worse(line.read, line.expected)


def _line(acuity: Acuity, seeing: Seeing) -> str:
    """One line with the one expected where that is another."""
    line = acuity.by(seeing)
    wanted = f" ({line.expected} expected)" if line.expected not in {"", line.read} else ""
    return f"{seeing} {line.read}{wanted}"


def _names(seeings: list[Seeing]) -> str:
    return listed(tuple(seeing.value for seeing in seeings))


def _where(acuity: Acuity) -> str:
    """With which card and how far away, in words."""
    card = f" on {acuity.card}" if acuity.card else ""
    at = f" at {trimmed(acuity.distance)} cm" if acuity.distance is not None else ""
    return f"{card}{at}"
