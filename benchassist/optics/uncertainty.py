"""How well a reading is known, and what that means beside a limit."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import erf, fsum, hypot, inf, isfinite, sqrt

from benchassist.optics.power import Power, PowerVector, mean_of


def _checked(uncertainty: float) -> float:
    if not (isfinite(uncertainty) and uncertainty >= 0.0):
        raise ValueError(f"uncertainty {uncertainty} cannot be below zero")
    return uncertainty


def normal_share_below(deviations: float) -> float:
    """The share of a normal distribution below a number of standard deviations."""
    return (1.0 + erf(deviations / sqrt(2.0))) / 2.0


def conformance_probability(
    value: float, uncertainty: float, lower: float = -inf, upper: float = inf
) -> float:
    """The probability that the true value lies within its limits, 0 to 1.

    Args:
        value: the reading, or the mean of several.
        uncertainty: its standard uncertainty, in the same unit.
        lower: lower limit; left out for a single upper limit.
        upper: upper limit; left out for a single lower limit.

    Phi((upper - y) / u) - Phi((lower - y) / u), for a normal distribution and no earlier
    knowledge. Without uncertainty the answer is 0 or 1, and on the limit is within. Source:
    JCGM 106:2012, clause 7, from memory, with a worked example read elsewhere.

    Raises:
        ValueError: the uncertainty is negative, or the limits are the wrong way round.
    """
    if lower > upper:
        raise ValueError(f"lower limit {lower} is above upper limit {upper}")
    if _checked(uncertainty) == 0.0:
        return 1.0 if lower <= value <= upper else 0.0
    below = normal_share_below((upper - value) / uncertainty)
    return below - normal_share_below((lower - value) / uncertainty)


def guard_band(uncertainty: float, factor: float = 2.0) -> float:
    """The width inside a limit where the reading's uncertainty decides.

    With factor 2 at most 2.3 per cent of what is accepted at its edge is in truth outside,
    with 1.645 five per cent. Source: laboratory statements of the decision rule after
    ILAC-G8:09/2019, http://tla.sgs.com/thelabsgs/Decision-Rule.php
    """
    return factor * _checked(uncertainty)


def acceptance_limits(lower: float, upper: float, guard: float) -> tuple[float, float]:
    """The limits drawn in by the guard band on both sides.

    Raises:
        ValueError: the guard bands meet and nothing could be accepted.
    """
    if lower + guard > upper - guard:
        raise ValueError(f"guard band {guard} leaves nothing between {lower} and {upper}")
    return lower + guard, upper - guard


def false_acceptance(guard: float, uncertainty: float) -> float:
    """The chance that a reading on the acceptance limit hides a value past the limit."""
    if _checked(uncertainty) == 0.0:
        return 0.0
    return normal_share_below(-guard / uncertainty)


def resolution_uncertainty(step: float) -> float:
    """The standard uncertainty of reading to the nearest step, step / sqrt 12."""
    return _checked(step) / sqrt(12.0)


def rectangular_uncertainty(half_width: float) -> float:
    """The standard uncertainty of an error known only to lie within limits, a / sqrt 3."""
    return _checked(half_width) / sqrt(3.0)


def combined(*parts: float) -> float:
    """Independent standard uncertainties taken together, root of the sum of squares."""
    return hypot(*(_checked(part) for part in parts))


@dataclass(frozen=True, slots=True)
class Repeats:
    """Several readings of one quantity.

    Attributes:
        count: how many.
        mean: their mean.
        deviation: their standard deviation, with n - 1; None for a single reading.
    """

    count: int
    mean: float
    deviation: float | None

    @property
    def of_mean(self) -> float | None:
        """The standard uncertainty of the mean, s / sqrt n; None for a single reading.

        Equal readings give zero: that is not the uncertainty of the reading, which also has
        its resolution and the error of the meter.
        """
        return None if self.deviation is None else self.deviation / sqrt(self.count)


def repeats(values: Sequence[float]) -> Repeats:
    """Mean and spread of several readings.

    Raises:
        ValueError: there is no reading.
    """
    if not values:
        raise ValueError("no readings have no mean")
    count = len(values)
    mean = fsum(values) / count
    if count == 1:
        return Repeats(1, mean, None)
    squares = fsum((value - mean) ** 2 for value in values)
    return Repeats(count, mean, sqrt(squares / (count - 1)))


@dataclass(frozen=True, slots=True)
class PowerRepeats:
    """Several readings of one lens, taken as power vectors.

    Attributes:
        count: how many.
        mean: the mean power, in minus-cylinder form.
        m: mean and spread of the mean sphere.
        j0: of the cross cylinder at 180 and 90.
        j45: of the cross cylinder at 45 and 135.
        widest: length of the largest difference between a reading and the mean, D.
    """

    count: int
    mean: Power
    m: Repeats
    j0: Repeats
    j45: Repeats
    widest: float


def power_repeats(powers: Iterable[Power]) -> PowerRepeats:
    """Mean and spread of several readings of one lens, in any mixture of cylinder forms.

    Raises:
        ValueError: there is no reading.
    """
    readings = tuple(powers)
    mean = mean_of(readings)
    vectors = tuple(power.vector() for power in readings)
    parts = tuple(repeats(column) for column in zip(*map(_components, vectors), strict=True))
    centre = mean.vector()
    widest = max((vector - centre).length for vector in vectors)
    return PowerRepeats(len(vectors), mean, parts[0], parts[1], parts[2], widest)


def _components(vector: PowerVector) -> tuple[float, float, float]:
    return vector.m, vector.j0, vector.j45
