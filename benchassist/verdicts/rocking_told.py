"""Why a frame rocks, in words: its causes by their share, and which to put right first."""

from collections.abc import Mapping
from decimal import Decimal

from benchassist.verdicts.bench_limits import bench_limit
from benchassist.verdicts.case import Case
from benchassist.verdicts.finding import Finding
from benchassist.verdicts.frame_measured import Why
from benchassist.verdicts.rocking import (
    LIMITED,
    PANTOSCOPIC,
    SKEW,
    TABLE,
    TIPS,
    UPRIGHT,
    X_ING,
    Lacking,
    Limits,
    Rocking,
    Share,
    Tips,
    rocking,
)
from benchassist.verdicts.weigh import Subject
from benchassist.verdicts.words import degrees, listed, millimetres

CAUSES = {
    SKEW: "the skew step of the bridge",
    X_ING: "X-ing",
    PANTOSCOPIC: "unequal pantoscopic angles",
    TIPS: "the bends of the tips",
}
"""Each place that may be put right first, in words."""

_CHECKS = {
    SKEW: "skew step",
    X_ING: "X-ing",
    PANTOSCOPIC: "pantoscopic angles",
    TABLE: "table touch upside down",
}
"""What each check measures, in words; a size of the frame is called what it is."""

LACKING_TOLD: Mapping[Why, str] = {
    Why.NOT_MEASURED: "To say why it rocks, measure also: {names}.",
    Why.AGAIN: "To say why it rocks, measure again after the correction: {names}.",
    Why.NOT_ORDERED: "To say why it rocks, enter in the order the frame's {names}.",
    Why.IMPOSSIBLE: (
        "To say why it rocks, measure again, because no frame shows what was read: {names}."
    ),
    Why.CONTRADICTORY: (
        "The measurements contradict one another: one of them was a slip, or a warped shaft "
        "or a loose joint lifts it."
    ),
}
"""What is said where the causes cannot be told, by the reason."""

_SMALL = Decimal("0.15")
"""A share below this is not named, degrees: less than a feeler tells. Own proposal."""

_TENTH = Decimal("0.1")


def why_it_rocks(case: Case, check: str) -> Finding:
    """What lifts a shaft or a tip, as an explanation without a limit.

    Args:
        case: the job.
        check: 'bench.table-inverted' or 'bench.table-upright'.
    """
    subject = Subject(f"{check}.why", check, "Why it rocks")
    found = rocking(case.job)
    if isinstance(found, Lacking):
        return subject.none(_lacking(found), is_told=True)
    is_upright = check == f"bench.{UPRIGHT}"
    first = CAUSES[found.first(_limits(case), is_upright=is_upright)]
    made_of = _tips(found, found.tips) if is_upright and found.tips else _temples(found)
    return subject.none(f"{made_of} Put right first: {first}.", is_told=True)


def _lacking(lacking: Lacking) -> str:
    names = tuple(_CHECKS.get(name, name) for name in lacking.names)
    return LACKING_TOLD[lacking.why].format(names=listed(names))


def _limits(case: Case) -> Limits:
    """Where each number is put right, but for what the workshop has switched off."""
    limits = {row: bench_limit(case, row)[0] for row in LIMITED}
    return {row: limit.value for row, limit in limits.items() if not limit.rule.off}


def _temples(rocked: Rocking) -> str:
    """What opens the temples upside down."""
    causes = _causes(rocked) or (rocked.largest,)
    told = _told(causes, rocked.angle)
    return f"Of {degrees(abs(rocked.angle))} between the temples, {told}."


def _tips(rocked: Rocking, tips: Tips) -> str:
    """The part of a gap that the temple angles open, and the rest, which is the tips' own."""
    causes = _causes(rocked)
    made_of = f" ({_told(causes, rocked.angle)})" if causes else ""
    opened = f"the temple angles open {_about(tips.opened)}{made_of}"
    bent = _about(abs(tips.lower))
    said = f"Of {_about(tips.gap)}, {opened} and the bends of the tips {bent}"
    return f"{said}{' against it' if tips.are_against else ''}."


def _causes(rocked: Rocking) -> tuple[Share, ...]:
    """The shares worth naming, the largest first."""
    worth = [share for share in rocked.shares if abs(share.angle) >= _SMALL]
    return tuple(sorted(worth, key=lambda share: abs(share.angle), reverse=True))


def _told(causes: tuple[Share, ...], angle: Decimal) -> str:
    """The shares, first those that open the temples this way and then those against it."""
    open_it, hold_it = (
        tuple(
            f"{degrees(abs(share.angle))} by {CAUSES[share.name]}"
            for share in causes
            if (share.angle * angle < 0) is against
        )
        for against in (False, True)
    )
    against_it = f"against it {listed(hold_it)}" if hold_it else ""
    return ", ".join(filter(None, (listed(open_it), against_it)))


def _about(length: Decimal) -> str:
    return millimetres(length.quantize(_TENTH))
