"""What the uncertainty of a reading means beside its limit."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from math import sqrt

from benchassist.optics.uncertainty import combined, conformance_probability
from benchassist.verdicts.exact import ZERO, millionth

A_BETTER_METER = "a checked meter with a finer step"
A_FINER_TOOL = "a tool with a finer step"

_THOUSANDTH = Decimal("0.001")
_NOISE = Decimal("0.00001")
"""Below that a difference is the rounding of a mean."""
_MANY = 20
"""More further readings than that are no help at a bench; own proposal."""


@dataclass(frozen=True, slots=True)
class Spread:
    """How far repeats of one reading differ: their standard deviation and their number.

    Attributes:
        deviation: their standard deviation.
        count: how many there are.
        low: the lowest repeat minus their mean, zero or below.
        high: the highest repeat minus their mean, zero or above.
    """

    deviation: float
    count: int
    low: Decimal = ZERO
    high: Decimal = ZERO

    def of_mean(self, more: int = 0) -> float:
        """The standard uncertainty of their mean, after so many more with the same spread."""
        return self.deviation / sqrt(self.count + more)


@dataclass(frozen=True, slots=True)
class Trust:
    """The standard uncertainty of a mean of readings, and what follows from it.

    Attributes:
        steady: parts that repeats do not lessen, such as the meter's error and its step.
        spreads: of the repeats of each point that enters.
        factor: how many standard uncertainties make the guard; none for plain acceptance.
        settled_by: what settles a verdict that repeats cannot.
    """

    steady: tuple[float, ...]
    spreads: tuple[Spread, ...]
    factor: float
    settled_by: str = A_BETTER_METER

    def uncertainty(self, more: int = 0) -> float:
        """The standard uncertainty now, or after so many more readings of each point."""
        return combined(*self.steady, *(spread.of_mean(more) for spread in self.spreads))

    def guard(self, more: int = 0) -> Decimal:
        """The half-width of the zone inside a limit where the reading's uncertainty decides.

        Where it is wider than the limit itself, no reading of this kind is within.
        """
        return millionth(self.factor * self.uncertainty(more))

    def probability(self, difference: Decimal, limit: Decimal) -> Decimal:
        """How likely the true difference lies within the limit, 0 to 1, to a thousandth."""
        bound = float(limit)
        share = conformance_probability(float(difference), self.uncertainty(), -bound, bound)
        return Decimal(share).quantize(_THOUSANDTH)

    def more_readings(self, difference: Decimal, limit: Decimal) -> int | None:
        """How many more readings would bring it out of the guard with mean and spread kept.

        None where the steady parts alone decide, or no number that is of use at a bench would.
        """
        room = limit - abs(difference)
        enough = (more for more in range(1, _MANY + 1) if room >= self.guard(more))
        return next(enough, None)

    def advice(self, more: int | None) -> str:
        """What to do about a verdict that the uncertainty decides, as the end of a sentence."""
        if more is not None:
            readings = f"{more} more reading{'' if more == 1 else 's'}"
            each = " of each lens" if len(self.spreads) > 1 else ""
            return f"read it again, {readings} like these{each} would settle it"
        if all(spread.count == 1 for spread in self.spreads):
            return (
                "read it again; if it shows the same, more readings cannot settle it, only "
                f"{self.settled_by} or the supervisor"
            )
        return (
            "more readings like these cannot settle it, only "
            f"{self.settled_by} or the supervisor"
        )

    def singles(self, difference: Decimal) -> tuple[Decimal, Decimal]:
        """The difference as the lowest and as the highest single repeats would have it."""
        if all(spread.count == 1 for spread in self.spreads):
            return difference, difference
        lowest = difference + sum((spread.low for spread in self.spreads), ZERO)
        highest = difference + sum((spread.high for spread in self.spreads), ZERO)
        return lowest.quantize(_NOISE), highest.quantize(_NOISE)

    def scaled(self, factor: float) -> "Trust":
        """The same of a quantity that is so many times this one, by a factor above zero."""
        times = Decimal(factor)
        return Trust(
            tuple(part * factor for part in self.steady),
            tuple(
                Spread(
                    spread.deviation * factor,
                    spread.count,
                    spread.low * times,
                    spread.high * times,
                )
                for spread in self.spreads
            ),
            self.factor,
            self.settled_by,
        )

    def turned(self) -> "Trust":
        """The same of the quantity with its sign turned, as the second of a difference."""
        return replace(
            self,
            spreads=tuple(
                replace(spread, low=-spread.high, high=-spread.low) for spread in self.spreads
            ),
        )


def together(parts: Sequence[Trust]) -> Trust:
    """The trust in a sum of independent readings; turn the second one for a difference."""
    return Trust(
        tuple(steady for part in parts for steady in part.steady),
        tuple(spread for part in parts for spread in part.spreads),
        parts[0].factor,
        parts[0].settled_by,
    )
