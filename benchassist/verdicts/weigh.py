"""A difference beside its limit: the state it gives and the sentence for it."""

from dataclasses import dataclass
from decimal import ROUND_DOWN, Decimal

from benchassist.limits.rule import Limit, Rule
from benchassist.optics.eye import Eye
from benchassist.verdicts.finding import Finding, State
from benchassist.verdicts.words import limit_size, size_beside

_EIGHTH = Decimal("0.125")

READING_DECIDES = "so near the limit that the reading's own uncertainty decides: read it again"


def state_of(difference: Decimal, limit: Decimal, guard: Decimal) -> State:
    """How a difference stands: on the limit is within, unless the guard reaches it.

    Args:
        difference: found minus ordered, of either sign, as `as_written`.
        limit: the largest size allowed.
        guard: half-width of the zone inside the limit where the reading decides.
    """
    size = abs(difference)
    if size > limit:
        return State.OUTSIDE
    return State.CLOSE if limit - size < guard else State.WITHIN


def as_written(difference: Decimal, unit: str) -> Decimal:
    """The difference as it is compared: whole eighths of a dioptre as the trade writes them.

    The tables speak the trade's own notation, in which 1/8 is written 0.12 and 3/8 0.37 (the
    limits 0.12, 0.18, 0.25 and 0.37 are sixteenths cut to two places; own reading). A drum that
    is one eighth off therefore lies on a limit of 0.12, and does not pass it. Every other
    difference is compared exactly.
    """
    is_in_eighths = unit == "D" and difference % _EIGHTH == 0
    if not is_in_eighths:
        return difference
    return difference.quantize(Decimal("0.01"), ROUND_DOWN)


@dataclass(frozen=True, slots=True)
class Subject:
    """What is judged: the fixed parts of its finding."""

    key: str
    prompt: str
    what: str
    eye: Eye | None = None

    def missing(self, sentence: str, ordered: Decimal | None = None, unit: str = "") -> Finding:
        """The finding for what is asked for and not there yet."""
        return Finding(
            self.key,
            self.prompt,
            self.what,
            State.MISSING,
            sentence,
            self.eye,
            ordered,
            unit=unit,
        )

    def none(
        self, sentence: str, value: "Value | None" = None, rule: Rule | None = None
    ) -> Finding:
        """The finding for what does not apply, with the numbers that are known."""
        known = value or Value()
        return Finding(
            key=self.key,
            prompt=self.prompt,
            what=self.what,
            state=State.NONE,
            sentence=sentence,
            eye=self.eye,
            ordered=known.ordered,
            found=known.found,
            difference=known.difference,
            unit=known.unit,
            rule=rule,
        )

    def judged(self, value: "Value", limit: Limit, guard: Decimal, opening: str) -> Finding:
        """The finding for a difference beside its limit.

        Args:
            value: the numbers, in the limit's unit.
            limit: the limit and its rule.
            guard: where the reading's uncertainty decides.
            opening: the sentence up to the limit, without a full stop.
        """
        difference = value.difference or Decimal(0)
        state = state_of(as_written(difference, limit.unit), limit.value, guard)
        tail = f"; {value.doubt}" if state is State.CLOSE else ""
        bound = limit_size(limit.value, limit.unit)
        return Finding(
            key=self.key,
            prompt=self.prompt,
            what=self.what,
            state=state,
            sentence=f"{opening}, limit {value.sign}{bound}{value.remark}{tail}.",
            eye=self.eye,
            ordered=value.ordered,
            found=value.found,
            difference=difference,
            limit=limit.value,
            unit=limit.unit,
            guard=guard,
            rule=limit.rule,
        )


@dataclass(frozen=True, slots=True)
class Value:
    """The numbers of one finding, in one unit.

    Attributes:
        ordered: what was ordered; None where nothing is.
        found: what was read.
        difference: found minus ordered, or the size that the limit bounds.
        unit: 'D', 'Δ', 'mm' or '°'.
        sign: what stands before the limit: '±' where both signs are bounded, else nothing.
        remark: what follows the limit, such as ' (or 1.0 mm)'; may be empty.
        doubt: what is said where the reading's uncertainty decides.
    """

    ordered: Decimal | None = None
    found: Decimal | None = None
    difference: Decimal | None = None
    unit: str = ""
    sign: str = "±"
    remark: str = ""
    doubt: str = READING_DECIDES


def compared(found: Decimal, ordered: Decimal, unit: str) -> Value:
    """The numbers of what was found beside what was ordered."""
    return Value(ordered, found, found - ordered, unit)


def off_by(difference: Decimal, limit: Limit, more: str, less: str) -> str:
    """The difference in words: '0.25 D stronger'; 'no difference' where there is none."""
    if not difference:
        return "no difference"
    words = more if difference > 0 else less
    compared_with = as_written(difference, limit.unit)
    return f"{size_beside(compared_with, limit.value, limit.unit)} {words}"
