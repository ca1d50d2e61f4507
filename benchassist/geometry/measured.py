"""One rule for how well a number reckoned from readings is known."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from math import hypot

from benchassist.geometry.possible import Impossible
from benchassist.optics.uncertainty import combined

MILLIMETRES = "mm"

_STEP = 1e-3
"""How far a reading is moved to see what it does, in its own unit: far below any reading step,
far above what a float loses."""

_SLIP = 0.5
"""The reading error that a bench without feelers should reckon with, mm: half a division of
the rule. Own proposal."""


@dataclass(frozen=True, slots=True)
class Reading:
    """A reading and how well it is known.

    Attributes:
        value: as read.
        uncertainty: its standard uncertainty in the same unit; 0 for what is taken as exact.
        unit: 'mm' or '°'.
    """

    value: float
    uncertainty: float = 0.0
    unit: str = MILLIMETRES


@dataclass(frozen=True, slots=True)
class Measured:
    """A number reckoned from readings.

    Attributes:
        value: the number, mm or degrees.
        uncertainty: its standard uncertainty in the same unit.
        per_half_mm: by how much it moves, in its own unit and without sign, when the length
            on which it depends most is read wrongly by 0.5 mm.
    """

    value: float
    uncertainty: float
    per_half_mm: float

    def minus(self, other: "Measured") -> "Measured":
        """The difference of two numbers that have no reading in common.

        One slip of the rule spoils one of the two, so the larger sensitivity holds.
        """
        return Measured(
            self.value - other.value,
            hypot(self.uncertainty, other.uncertainty),
            max(self.per_half_mm, other.per_half_mm),
        )


def measured(formula: Callable[..., float], **readings: Reading) -> Measured:
    """The number that a formula gives for some readings, and how well it is known.

    Args:
        formula: called with the values of the readings by their names.
        readings: what was read.

    Each reading x is moved a little either way to see how steeply the number y follows it,
    c = dy/dx. Readings that vary independently then give u(y)^2 = sum of (c u(x))^2, and the
    largest |c| x 0.5 mm of any length is what a slip of the rule does. It holds while y is
    nearly straight over the width of u(x), as all bench formulas are. Source: the law of
    propagation of uncertainty, JCGM 100:2008, clause 5.1, from memory.

    A reading at the edge of what can be, such as the gap 0 of the touching side, is moved the
    possible way only.

    Raises:
        Impossible: the formula refuses the readings.
        ValueError: an uncertainty is below zero.
    """
    values = {name: reading.value for name, reading in readings.items()}
    value = formula(**values)
    slopes = {name: _slope(formula, values, name) for name in readings}
    parts = (abs(slopes[name]) * combined(one.uncertainty) for name, one in readings.items())
    lengths = (name for name, one in readings.items() if one.unit == MILLIMETRES)
    steepest = max((abs(slopes[name]) for name in lengths), default=0.0)
    return Measured(value, combined(*parts), steepest * _SLIP)


def _slope(formula: Callable[..., float], values: Mapping[str, float], name: str) -> float:
    """How steeply the number follows one reading."""
    above, below = (
        _at(formula, {**values, name: values[name] + step}) for step in (_STEP, -_STEP)
    )
    if above is not None and below is not None:
        return (above - below) / (2.0 * _STEP)
    here = formula(**values)
    if above is not None:
        return (above - here) / _STEP
    return (here - below) / _STEP if below is not None else 0.0


def _at(formula: Callable[..., float], values: Mapping[str, float]) -> float | None:
    try:
        return formula(**values)
    except Impossible:
        return None
