"""What judging gives: one finding per quantity judged."""

from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from benchassist.limits.rule import Rule
from benchassist.optics.eye import Eye


class State(StrEnum):
    """How a quantity stands against its limit."""

    WITHIN = "within"
    CLOSE = "close"
    OUTSIDE = "outside"
    MISSING = "missing"
    NONE = "none"

    @property
    def word(self) -> str:
        """The word shown to people."""
        return _WORDS[self]


_WORDS = {
    State.WITHIN: "within",
    State.CLOSE: "read again",
    State.OUTSIDE: "outside",
    State.MISSING: "to do",
    State.NONE: "not applicable",
}

WORST_FIRST = (State.OUTSIDE, State.CLOSE, State.MISSING, State.WITHIN, State.NONE)
"""The states from the one that needs a person most to the one that needs none."""


def worst(states: list[State]) -> State:
    """The state that needs a person most; `NONE` when there are no states."""
    return min(states, key=WORST_FIRST.index, default=State.NONE)


@dataclass(frozen=True, slots=True)
class Finding:
    """One quantity judged.

    Attributes:
        key: unique name in the job, such as 'right.cylinder' or 'pair.prism-vertical' or
            'bench.skew'; the part before the first dot is 'right', 'left', 'pair' or a step.
        prompt: id of the prompt whose answer was judged, such as 'right.distance'.
        what: the quantity in words, without the eye, such as 'Cylinder'.
        eye: the eye it belongs to, None for the pair or the frame.
        ordered: the value ordered, in `unit`; None where nothing is ordered.
        found: the value read, in `unit`; None where none was read.
        difference: found minus ordered, or the size that the limit bounds.
        limit: the largest size of `difference` allowed; None where no limit applies.
        unit: 'D', 'Δ', 'mm', '°' or '' for an answer given by eye.
        guard: half-width of the zone inside the limit where the reading's uncertainty decides.
        state: how it stands.
        rule: where the limit comes from; None where no limit applies.
        probability: how likely the true value lies within the limit, 0 to 1, by the reading
            and its uncertainty; None where that is not reckoned.
        more_readings: how many further readings of the same point would settle a 'read
            again', if they show what was shown so far; None where none or no number would.
        sentence: one sentence for people, with its numbers and units.
        is_told: whether the sentence holds a caution or an explanation that is shown beside
            the reading although the state asks for nothing.
    """

    key: str
    prompt: str
    what: str
    state: State
    sentence: str
    eye: Eye | None = None
    ordered: Decimal | None = None
    found: Decimal | None = None
    difference: Decimal | None = None
    limit: Decimal | None = None
    unit: str = ""
    guard: Decimal = Decimal(0)
    rule: Rule | None = None
    probability: Decimal | None = None
    more_readings: int | None = None
    is_told: bool = False

    @property
    def share(self) -> Decimal | None:
        """The share of the limit used: 1 on the limit; None where there is no limit."""
        if self.difference is None or not self.limit:
            return None
        return abs(self.difference) / self.limit
