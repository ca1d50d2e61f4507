"""A difference beside its limit: the state it gives and the sentence for it."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import ROUND_DOWN, Decimal

from benchassist.limits.rule import Limit, Rule
from benchassist.limits.table import Band
from benchassist.optics.eye import Eye
from benchassist.verdicts.finding import Finding, State
from benchassist.verdicts.trust import Trust
from benchassist.verdicts.words import limit_size, shows, size_beside

_EIGHTH = Decimal("0.125")

READINGS_DISAGREE = "the readings disagree: read it again"
READING_DECIDES = "so near the limit that the reading's own uncertainty decides"


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


def as_written(difference: Decimal) -> Decimal:
    """A difference of readings in eighths of a dioptre, as the trade writes it.

    The tables speak the trade's own notation, in which 1/8 is written 0.12 and 3/8 0.37 (the
    limits 0.12, 0.18, 0.25 and 0.37 are sixteenths cut to two places; own reading). A drum that
    is one eighth off therefore lies on a limit of 0.12, and does not pass it. A difference
    that is no whole number of eighths stays exact.
    """
    if difference % _EIGHTH:
        return difference
    return difference.quantize(Decimal("0.01"), ROUND_DOWN)


def in_eighths(readings: Sequence[Decimal], band: Band) -> bool:
    """Whether a difference is compared as the trade writes eighths.

    So it is when every reading shows eighths, on a drum or a display, and the limit is a
    written figure; a percentage is no such figure, and other readings are compared exactly.
    """
    return not band.of and all(reading % _EIGHTH == 0 for reading in readings)


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
        self,
        sentence: str,
        value: "Value | None" = None,
        rule: Rule | None = None,
        *,
        is_told: bool = False,
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
            is_told=is_told or known.is_told,
        )

    def judged(self, value: "Value", limit: Limit, guard: Decimal, opening: str) -> Finding:
        """The finding for a difference beside its limit.

        What the workshop has switched off is told and not judged.

        Args:
            value: the numbers, in the limit's unit.
            limit: the limit and its rule.
            guard: where the reading's uncertainty decides.
            opening: the sentence up to the limit, without a full stop.
        """
        state = state_of(value.compared_with, limit.value, guard)
        return self._stated(value, limit, guard, opening, state)

    def _stated(
        self, value: "Value", limit: Limit, guard: Decimal, opening: str, state: State
    ) -> Finding:
        if limit.rule.off:
            return self.none(f"{opening}; {limit.rule.off}.", value, limit.rule)
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
            difference=value.compared_with,
            limit=limit.value,
            unit=limit.unit,
            guard=guard,
            rule=limit.rule,
            is_told=value.is_told,
        )

    def weighed(self, value: "Value", limit: Limit, trust: Trust, opening: str) -> Finding:
        """The finding for a reading whose uncertainty is known, with how likely it conforms.

        Args:
            value: the numbers, in the limit's unit; `doubt` says why the uncertainty decides.
            limit: the limit and its rule.
            trust: the reading's uncertainty, in the limit's unit.
            opening: the sentence up to the limit, without a full stop.
        """
        guard = trust.guard()
        finding = self.judged(value, limit, guard, opening)
        if finding.limit is None:
            return finding
        likely = trust.probability(value.compared_with, limit.value)
        if value.is_contradicted(trust, limit.value):
            told = replace(value, doubt=READINGS_DISAGREE)
            doubted = self._stated(told, limit, guard, opening, State.CLOSE)
            return replace(doubted, probability=likely)
        if finding.state is not State.CLOSE:
            return replace(finding, probability=likely)
        more = trust.more_readings(value.compared_with, limit.value)
        told = replace(value, doubt=f"{value.doubt}: {trust.advice(more)}")
        advised = self.judged(told, limit, guard, opening)
        return replace(advised, probability=likely, more_readings=more)


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
        doubt: what is said where the reading's uncertainty, or a zone that is stated, decides.
        in_eighths: whether the difference is compared as the trade writes eighths.
        is_told: whether the remark is a caution, to be shown even where all is within.
    """

    ordered: Decimal | None = None
    found: Decimal | None = None
    difference: Decimal | None = None
    unit: str = ""
    sign: str = "±"
    remark: str = ""
    doubt: str = READING_DECIDES
    in_eighths: bool = False
    is_told: bool = False

    @property
    def compared_with(self) -> Decimal:
        """The difference that stands beside the limit; nothing where there is none."""
        return self.as_compared(self.difference or Decimal(0))

    def as_compared(self, difference: Decimal) -> Decimal:
        """A difference as it is compared with the limit."""
        return as_written(difference) if self.in_eighths else difference

    def is_contradicted(self, trust: Trust, limit: Decimal) -> bool:
        """Whether single repeats speak against their mean.

        So they do when one lies outside the limit while the mean is within, or when they lie
        beyond the limit on both sides.
        """
        lowest, highest = map(self.as_compared, trust.singles(self.difference or Decimal(0)))
        low, high = lowest < -limit, highest > limit
        return (low or high) if abs(self.compared_with) <= limit else (low and high)


def compared(found: Decimal, ordered: Decimal, unit: str, *, in_eighths: bool = False) -> Value:
    """The numbers of what was found beside what was ordered."""
    return Value(ordered, found, found - ordered, unit, in_eighths=in_eighths)


def off_by(difference: Decimal, limit: Limit, more: str, less: str) -> str:
    """The difference in words: '0.25 D stronger'; 'no difference' where none would show."""
    if not shows(difference, limit.unit):
        return "no difference"
    words = more if difference > 0 else less
    return f"{size_beside(difference, limit.value, limit.unit)} {words}"
