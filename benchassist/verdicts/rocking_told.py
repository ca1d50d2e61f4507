"""Why a frame rocks, in words: its causes by their share, and which to put right first."""

from collections.abc import Iterator
from decimal import Decimal
from math import radians, tan

from benchassist.job.document import Job
from benchassist.verdicts import frame_measured as found
from benchassist.verdicts.case import Case
from benchassist.verdicts.exact import millionth
from benchassist.verdicts.finding import Finding
from benchassist.verdicts.rocking import PANTOSCOPIC, SKEW, X_ING, Rocking, Share, rocking
from benchassist.verdicts.weigh import Subject
from benchassist.verdicts.words import degrees, listed, millimetres

_NAMES = {
    SKEW: "the skew step of the bridge",
    X_ING: "X-ing",
    PANTOSCOPIC: "unequal pantoscopic angles",
}
_NEEDED = {
    "skew": "skew step",
    "x-ing": "X-ing",
    "pantoscopic": "pantoscopic angles",
    "table-inverted": "table touch upside down",
}
_SMALL = Decimal("0.15")
"""A share below this is not named, degrees: less than a feeler tells. Own proposal."""

_TENTH = Decimal("0.1")


def why_it_rocks(case: Case, check: str, gap: Decimal) -> Finding:
    """What lifts a shaft or a tip, as an explanation without a limit.

    Args:
        case: the job.
        check: 'bench.table-inverted' or 'bench.table-upright'.
        gap: how far it lifts, mm.
    """
    subject = Subject(f"{check}.why", check, "Why it rocks")
    return subject.none(" ".join(_sentences(case.job, check, gap)), is_told=True)


def _sentences(job: Job, check: str, gap: Decimal) -> Iterator[str]:
    found_in = rocking(job)
    if found_in is None:
        yield f"To say why it rocks, measure also: {listed(tuple(_unmeasured(job)))}."
        return
    if not found_in.agrees:
        yield (
            "The measurements contradict one another: one of them was a slip, or a warped "
            "shaft or a loose joint lifts it."
        )
        return
    if check == "bench.table-upright":
        yield from _upright(job, found_in, gap)
        return
    causes = _causes(found_in)
    if causes:
        yield f"Of {degrees(abs(found_in.angle))} between the temples, {_told(causes)}."
        yield f"Put right first: {_innermost(found_in, causes)}."


def _upright(job: Job, rocked: Rocking, gap: Decimal) -> Iterator[str]:
    """The part of the gap that the temple angles open, and the rest, which is the tips' own."""
    upright, inverted = (
        job.now.bench.answers[name] for name in ("table-upright", "table-inverted")
    )
    try:
        tips = millionth(
            found.two_way(upright.measured, inverted.measured).right_tip_lower.value
        )
    except (KeyError, ValueError):
        return
    run = float(upright.measured["run"])
    angle = Decimal(abs(run * tan(radians(float(rocked.angle)))))
    causes = _causes(rocked)
    made_of = f" ({_told(causes)})" if causes else ""
    yield (
        f"Of {_about(gap)}, the temple angles open {_about(angle)}{made_of} and the bends of "
        f"the tips {_about(abs(tips))}."
    )
    is_tip = abs(tips) * 2 > gap
    first = "the bends of the tips" if is_tip else _innermost(rocked, causes)
    yield f"Put right first: {first or 'the temple angles'}."


def _causes(rocked: Rocking) -> tuple[Share, ...]:
    """The shares worth naming, the largest first."""
    worth = [share for share in rocked.shares if abs(share.angle) >= _SMALL]
    return tuple(sorted(worth, key=lambda share: abs(share.angle), reverse=True))


def _told(causes: tuple[Share, ...]) -> str:
    parts = (f"{degrees(abs(share.angle))} by {_NAMES[share.name]}" for share in causes)
    return listed(tuple(parts))


def _innermost(rocked: Rocking, causes: tuple[Share, ...]) -> str:
    """The cause furthest inwards among those that are worth naming and lift the same way."""
    sign = 1 if rocked.angle >= 0 else -1
    same_way = [share for share in rocked.shares if share in causes and sign * share.angle > 0]
    chosen = same_way or list(causes)
    return _NAMES[chosen[0].name] if chosen else ""


def _unmeasured(job: Job) -> Iterator[str]:
    for name, words in _NEEDED.items():
        answer = job.now.bench.answers.get(name)
        if answer is None or answer.again_because or not answer.measured:
            yield words


def _about(length: Decimal) -> str:
    return millimetres(length.quantize(_TENTH))
