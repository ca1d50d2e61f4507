"""Which bend ends the rocking of a frame: skew, X-ing, temple angle or tip."""

from collections.abc import Mapping
from dataclasses import dataclass

from benchassist.guide.flow import PromptStanding
from benchassist.guide.moves import Move, one_temple, to_zero
from benchassist.job.document import Job
from benchassist.verdicts.frame_measured import Why
from benchassist.verdicts.rocking import (
    LIMITED,
    PANTOSCOPIC,
    SKEW,
    TABLE,
    TIPS,
    TOUCH,
    UPRIGHT,
    X_ING,
    Lacking,
    Limits,
    Share,
    rocking,
)
from benchassist.verdicts.words import degrees, listed, millimetres

_INVERTED, _UPRIGHT = f"bench.{TABLE}", f"bench.{UPRIGHT}"
_CHECKS = {name: f"bench.{name}" for name in (SKEW, X_ING, PANTOSCOPIC)}
_FINDINGS = {
    TOUCH: _INVERTED,
    "bend-start": "bench.temple-bend",
    "bend-drop": "bench.temple-bend.drop",
}
"""The keys of findings that are not named after the row of their limit."""

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
    if check not in {_INVERTED, _UPRIGHT, *_CHECKS.values()}:
        return None
    found = rocking(job)
    if isinstance(found, Lacking):
        return _contradiction(prompts) if found.why is Why.CONTRADICTORY else None
    limits = _limits(prompts)
    if check in _CHECKS.values() and found.past(limits) is None:
        return Advice(
            check,
            None,
            "Measure it again: by the table and the other checks it is within its limit.",
        )
    first = found.first(limits, is_upright=check == _UPRIGHT)
    return None if first == TIPS else _bend(job, found.share(first))


def _limits(prompts: Mapping[str, PromptStanding]) -> Limits:
    """Where each number is put right, as it was judged."""
    findings = {one.key: one for item in prompts.values() for one in item.findings}
    judged = {row: findings.get(_FINDINGS.get(row, f"bench.{row}")) for row in LIMITED}
    return {row: one.limit for row, one in judged.items() if one and one.limit is not None}


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
