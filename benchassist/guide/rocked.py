"""Which bend ends the rocking of a frame: skew, X-ing, temple angle or tip."""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal

from benchassist.guide.flow import PromptStanding
from benchassist.guide.moves import Move, move_for, one_temple, tip_lower, to_zero
from benchassist.job.document import Job
from benchassist.verdicts.exact import ZERO
from benchassist.verdicts.finding import Finding, State
from benchassist.verdicts.rocking import PANTOSCOPIC, SKEW, X_ING, Rocking, Share, rocking
from benchassist.verdicts.words import degrees, listed, millimetres

_INVERTED, _UPRIGHT = "bench.table-inverted", "bench.table-upright"
_CHECKS = {name: f"bench.{name}" for name in (SKEW, X_ING, PANTOSCOPIC)}
_NUMBERS = {SKEW: ("skew_step", "mm"), X_ING: ("x_ing", "°")}


@dataclass(frozen=True, slots=True)
class Advice:
    """What the table test says beyond one check.

    Attributes:
        check: id of the check that is really at fault, or that is to be measured again.
        move: the bend; None where something is to be measured again.
        sentence: why it is this one.
    """

    check: str
    move: Move | None
    sentence: str


def rocked(job: Job, check: str, prompts: Mapping[str, PromptStanding]) -> Advice | None:
    """What all measurements together say of one that is outside; None where they do not.

    A straight edge sees a degree of X-ing badly, the table sees it well; two faults can hide
    each other on the table. So the measurements are first brought to agree.
    """
    if check == _UPRIGHT:
        return _upright(job, prompts)
    if check not in {_INVERTED, *_CHECKS.values()}:
        return None
    found = rocking(job)
    if found is None:
        return None
    if not found.agrees:
        return _contradiction(prompts)
    return _past_its_limit(job, found, prompts) or _rest(job, check, found)


def _past_its_limit(
    job: Job, found: Rocking, prompts: Mapping[str, PromptStanding]
) -> Advice | None:
    """The innermost number that is past its limit once all measurements agree."""
    for share in found.shares:
        limit = _limit(prompts, share)
        if limit is not None and abs(share.value) > limit:
            return _bend(job, share)
    return None


def _limit(prompts: Mapping[str, PromptStanding], share: Share) -> Decimal | None:
    item = prompts.get(_CHECKS[share.name])
    limits = [one.limit for one in item.findings if one.limit] if item else []
    return limits[0] if limits else None


def _rest(job: Job, check: str, found: Rocking) -> Advice:
    """On the table the largest part is bent; elsewhere the reading itself was a slip."""
    if check == _INVERTED:
        return _bend(job, _largest(found))
    return Advice(
        check,
        None,
        "Measure it again: by the table and the other checks it is within its limit.",
    )


def _largest(found: Rocking) -> Share:
    """The part that opens the temples most, among those of the angle's own direction."""
    sign = 1 if found.angle >= 0 else -1
    return max(found.shares, key=lambda share: sign * share.angle)


def _bend(job: Job, share: Share) -> Advice:
    check = _CHECKS[share.name]
    if share.name == PANTOSCOPIC:
        size = degrees(abs(share.value))
        said = f"Together the measurements make it {size} between the temples."
        return Advice(check, one_temple(job, share.value), said)
    number, unit = _NUMBERS[share.name]
    size = degrees(abs(share.value)) if unit == "°" else millimetres(abs(share.value))
    word = "X-ing" if share.name == X_ING else "skew step"
    said = f"Together the measurements make it {size} of {word}, which lies further inwards."
    return Advice(check, to_zero(number, unit, share.value), said)


def _contradiction(prompts: Mapping[str, PromptStanding]) -> Advice:
    names = tuple(f"'{prompts[check].prompt.title}'" for check in _CHECKS.values())
    return Advice(
        _INVERTED,
        None,
        f"Measure again: {listed(names)} and the table upside down cannot all be right.",
    )


def _upright(job: Job, prompts: Mapping[str, PromptStanding]) -> Advice | None:
    """A tip in the air that the temple angles explain is none of the tip's own."""
    finding = _worst(prompts[_UPRIGHT])
    try:
        lower = tip_lower(job)
    except (KeyError, ValueError):
        return None
    if finding is None:
        return None
    if abs(lower) * 2 > abs(finding.difference or ZERO):
        move = move_for(job, finding)
        return Advice(_UPRIGHT, move, "") if move else None
    found = rocking(job)
    if found is None:
        return None
    if not found.agrees:
        return _contradiction(prompts)
    return _bend(job, _largest(found))


def _worst(item: PromptStanding) -> Finding | None:
    outside = [one for one in item.findings if one.state is State.OUTSIDE]
    return outside[0] if outside else None
