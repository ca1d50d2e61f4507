"""Why a frame rocks on the table: the checks that measure parts of it, brought to agree.

Upside down the angle between the temples is one number, known finely. Three others make it up:
X-ing, the difference of the pantoscopic angles, and the skew step of the bridge. Each of these
is measured by itself and less finely. Together they are one number too many, so that they are
brought to agree by least squares: what they must change by is shared out by their variances.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from math import degrees, radians, tan

from benchassist.geometry.measured import Measured
from benchassist.geometry.possible import Impossible
from benchassist.job.checks import Seen
from benchassist.job.document import Job
from benchassist.job.order import FrameOrder
from benchassist.verdicts import frame_measured as found
from benchassist.verdicts.answers import Measures
from benchassist.verdicts.exact import millionth
from benchassist.verdicts.frame_measured import NEEDS, Why

X_ING, PANTOSCOPIC, SKEW = "x-ing", "pantoscopic", "skew"
TIPS = "tips"
"""What lifts a tip upright and nothing upside down: the bends of the tips."""

TABLE, UPRIGHT, TOUCH = "table-inverted", "table-upright", "table-touch"
"""The check upside down, the check upright, and the row of the limit of both."""

_BEND = "temple-bend"
_BENDS = {"bend-start": "start", "bend-drop": "drop"}
"""The check of the bends; what it measures on each side, by the row of its limit."""

LIMITED = (SKEW, X_ING, PANTOSCOPIC, TOUCH, *_BENDS)
"""The rows of all limits that say what is put right first."""

_PANTOSCOPIC_SHARE = 0.93
"""A temple turns about its joint, behind the rims: of its angle so much shows between rims and
bend. From the model of `geometry.frame_state` in its usual sizes; own reckoning."""

_UNSEEN = Decimal("0.05")
"""What no feeler shows, mm: half of its step."""

_FITS = 3.0
"""So many standard uncertainties apart, measurements cannot all be right. Common practice."""

Limits = Mapping[str, Decimal]
"""Where each number is put right, by the row of its limit, mm or degrees; what the workshop
has switched off is not in it."""


@dataclass(frozen=True, slots=True)
class Share:
    """One cause of a table touch.

    Attributes:
        name: the row of its limit: 'x-ing', 'pantoscopic' (right minus left) or 'skew'.
        value: its best value once all measurements agree, degrees or mm, with the sign of its
            check.
        angle: the part of the angle between the temples that it makes, degrees.
    """

    name: str
    value: Decimal
    angle: Decimal


@dataclass(frozen=True, slots=True)
class Tips:
    """What the table upright shows beyond the temple angles.

    Attributes:
        gap: how far a tip lifts, mm.
        opened: how far the temple angles alone would lift it, mm.
        lower: how much lower the right tip is bent than the left, the temple angles left out,
            mm.
        bends: how far the bends are apart, right minus left, by the row of the limit, mm and
            degrees; empty where that does not count.
        is_fault_seen: whether the eye found a fault in the bends.
    """

    gap: Decimal
    opened: Decimal
    lower: Decimal
    bends: Mapping[str, Decimal]
    is_fault_seen: bool = False

    @property
    def are_most_of_it(self) -> bool:
        """Whether the bends of the tips open more of the gap than all else."""
        return abs(self.lower) * 2 > self.gap

    @property
    def are_against(self) -> bool:
        """Whether the bends close a part of what the temple angles open, or the reverse.

        The gap is the sum of both where they lift the same tip, and else their difference.
        """
        return self.gap + _UNSEEN < max(self.opened, abs(self.lower))

    def are_past(self, limits: Limits) -> bool:
        """Whether the bends themselves are past a limit."""
        apart = self.bends.items()
        return self.is_fault_seen or any(_is_past(by, limits.get(row)) for row, by in apart)


@dataclass(frozen=True, slots=True)
class Rocking:
    """What the angle between the temples is made of.

    Attributes:
        angle: the angle upside down, degrees, positive with the right temple lower.
        gap: how far a shaft lifts upside down, mm.
        shares: its causes, the one furthest inwards first.
        tips: what there is upright besides; None where that does not count or cannot be.
    """

    angle: Decimal
    gap: Decimal
    shares: tuple[Share, ...]
    tips: Tips | None

    def share(self, name: str) -> Share:
        """One of the causes."""
        return next(share for share in self.shares if share.name == name)

    @property
    def largest(self) -> Share:
        """The cause that opens the temples most, among those of the angle's own direction."""
        sign = 1 if self.angle >= 0 else -1
        return max(self.shares, key=lambda share: sign * share.angle)

    def past(self, limits: Limits) -> Share | None:
        """The cause furthest inwards among those past their limit; None where none is."""
        beyond = (one for one in self.shares if _is_past(one.value, limits.get(one.name)))
        return next(beyond, None)

    def first(self, limits: Limits, *, is_upright: bool) -> str:
        """The name of what is put right first: that of a share, or `TIPS`.

        A bend moves everything outboard of it and nothing inboard. So of all that is past its
        limit the innermost comes first, whichever way it lifts: two faults can hide each other
        on the table. Where nothing is past, it is what lifts most. The tips come last, and only
        once the table upside down is within its limit. Own rule, by the trade's order from the
        middle outwards.

        Args:
            limits: where each number is put right, by `LIMITED`.
            is_upright: whether it is to end the rocking upright, where the tips play a part.
        """
        past = self.past(limits)
        if past is not None:
            return past.name
        if not is_upright or self.tips is None or _is_past(self.gap, limits.get(TOUCH)):
            return self.largest.name
        is_of_tips = self.tips.are_past(limits) or self.tips.are_most_of_it
        return TIPS if is_of_tips else self.largest.name


def _is_past(size: Decimal, limit: Decimal | None) -> bool:
    return limit is not None and abs(size) > limit


@dataclass(frozen=True, slots=True)
class Lacking:
    """Why nothing can be said of the causes.

    Attributes:
        names: of the checks concerned, such as 'skew'; of the sizes of the frame, such as
            'DBL', where these are not ordered.
        why: what is the matter with them.
    """

    names: tuple[str, ...]
    why: Why


def rocking(job: Job) -> Rocking | Lacking:
    """The angle upside down and its causes, or what is lacking to tell."""
    sets = {name: found.counted(job, name) for name in _NUMBERS}
    whole = {name: read for name, read in sets.items() if read is not None}
    if len(whole) < len(sets):
        return _uncounted(job)
    numbers = _numbers(job.order.frame, whole)
    return numbers if isinstance(numbers, Lacking) else _agreed(job, numbers, whole[TABLE])


def tips_of(job: Job) -> Tips | None:
    """What the table upright shows beyond the temple angles.

    None where one of the two table tests does not count, or both cannot be.
    """
    upright, inverted = found.counted(job, UPRIGHT), found.counted(job, TABLE)
    if upright is None or inverted is None:
        return None
    try:
        both = found.two_way(upright, inverted)
    except Impossible:
        return None
    opened = float(upright["run"]) * tan(radians(abs(both.right_temple_lower.value)))
    return Tips(
        gap=_gap(upright),
        opened=millionth(opened),
        lower=millionth(both.right_tip_lower.value),
        bends=_bends(job),
        is_fault_seen=_is_fault_seen(job),
    )


def _bends(job: Job) -> Mapping[str, Decimal]:
    read = found.counted(job, _BEND) or {}
    return {
        row: read[f"right_{name}"] - read[f"left_{name}"]
        for row, name in _BENDS.items()
        if read
    }


def _is_fault_seen(job: Job) -> bool:
    answer = job.now.bench.answers.get(_BEND)
    return answer is not None and answer.seen is Seen.FAULT and not answer.again_because


def _uncounted(job: Job) -> Lacking:
    """What does not count, by the reason that is to be mended first."""
    reasons = {name: found.why_not(job, name) for name in _NUMBERS}
    why = next(reason for reason in Why if reason in reasons.values())
    names = tuple(name for name, reason in reasons.items() if reason is why)
    if why is not Why.NOT_ORDERED:
        return Lacking(names, why)
    sizes = dict.fromkeys(size for name in names for size in NEEDS[name].sizes)
    return Lacking(job.order.frame.lacking(tuple(sizes)), why)


def _numbers(
    frame: FrameOrder, whole: Mapping[str, Measures]
) -> Mapping[str, Measured] | Lacking:
    """Each number as its own check gives it."""
    numbers: dict[str, Measured] = {}
    refused: list[str] = []
    for name, rule in _NUMBERS.items():
        try:
            numbers[name] = rule(frame, whole[name])
        except Impossible:
            refused.append(name)
    return Lacking(tuple(refused), Why.IMPOSSIBLE) if refused else numbers


def _agreed(job: Job, numbers: Mapping[str, Measured], plate: Measures) -> Rocking | Lacking:
    """The best values, from what each number is and how well it is known."""
    angle, opens = numbers[TABLE], _opens(float(plate["run"]))
    apart = angle.value - sum(by * numbers[name].value for name, by in opens.items())
    variance = angle.uncertainty**2 + sum(
        (by * numbers[name].uncertainty) ** 2 for name, by in opens.items()
    )
    if abs(apart) > _FITS * variance**0.5:
        return Lacking(tuple(_NUMBERS), Why.CONTRADICTORY)
    shares = []
    for name, by in opens.items():
        part = numbers[name]
        value = part.value + by * part.uncertainty**2 * apart / variance
        shares.append(Share(name, millionth(value), millionth(value * by)))
    return Rocking(millionth(angle.value), _gap(plate), tuple(shares), tips_of(job))


def _opens(run: float) -> Mapping[str, float]:
    """By how many degrees one unit of each cause opens the temples upside down."""
    return {SKEW: -degrees(1.0 / run), X_ING: 1.0, PANTOSCOPIC: _PANTOSCOPIC_SHARE}


def _gap(read: Measures) -> Decimal:
    return abs(read["right_gap"] - read["left_gap"])


_NUMBERS: Mapping[str, Callable[[FrameOrder, Measures], Measured]] = {
    SKEW: found.skew_of,
    X_ING: lambda _, read: found.x_ing_of(read),
    PANTOSCOPIC: found.pantoscopic_apart,
    TABLE: lambda _, read: found.at_plate(read),
}
"""What each check gives, the one furthest inwards first, and the angle that they make up."""
