"""Powers and prisms as exact decimals, so that no binary rounding decides at a limit."""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from benchassist.job.order import ComponentPrism, WrittenPower, WrittenPrism
from benchassist.job.readings import DrumReading, PowerReading
from benchassist.optics.eye import Eye
from benchassist.optics.power import Power, mean_of
from benchassist.optics.prism import Prism

ZERO = Decimal(0)
_MILLIONTH = Decimal("0.000001")
_HALF_TURN = Decimal(180)
_QUARTER_TURN = Decimal(90)


def millionth(value: float) -> Decimal:
    """A value computed through binary numbers, as a decimal rounded to a millionth."""
    return Decimal(value).quantize(_MILLIONTH) + ZERO


def mean(values: Sequence[Decimal]) -> Decimal:
    """The mean of several readings; a single reading stays exactly as it is."""
    if len(values) == 1:
        return values[0]
    return (sum(values, ZERO) / len(values)).quantize(_MILLIONTH) + ZERO


def turned(axis: Decimal) -> Decimal:
    """An axis brought into 0 < axis <= 180."""
    return axis % _HALF_TURN or _HALF_TURN


def axis_difference(found: Decimal, ordered: Decimal) -> Decimal:
    """Degrees from ordered to found the short way round, -90 < difference <= 90.

    Positive is counter-clockwise for the person facing the wearer.
    """
    difference = (found - ordered) % _HALF_TURN
    if difference < 0:
        difference += _HALF_TURN
    return difference - _HALF_TURN if difference > _QUARTER_TURN else difference


@dataclass(frozen=True, slots=True)
class MinusForm:
    """An exact power in minus-cylinder form: D, D (zero or below) and degrees.

    The power along the axis is `sphere`, across it `sphere + cylinder`; without a cylinder
    there is no axis.
    """

    sphere: Decimal
    cylinder: Decimal
    axis: Decimal | None

    @property
    def along(self) -> Decimal:
        """The principal power along the axis, D."""
        return self.sphere

    @property
    def across(self) -> Decimal:
        """The principal power across the axis, D."""
        return self.sphere + self.cylinder

    @property
    def highest(self) -> Decimal:
        """The size of the principal power furthest from zero, D."""
        return max(abs(self.along), abs(self.across))

    @property
    def across_axis(self) -> Decimal | None:
        """The direction of the principal meridian across the axis, degrees."""
        return None if self.axis is None else turned(self.axis + _QUARTER_TURN)

    def power(self) -> Power:
        """The same power for computing with binary numbers."""
        axis = None if self.axis is None else float(self.axis)
        return Power(float(self.sphere), float(self.cylinder), axis)

    def horizontal(self) -> Decimal:
        """The power along the 180 meridian, D, rounded to a millionth."""
        return millionth(self.power().horizontal)

    def vertical(self) -> Decimal:
        """The power along the 90 meridian, D, rounded to a millionth."""
        return millionth(self.power().vertical)


def minus_form(sphere: Decimal, cylinder: Decimal, axis: Decimal | None) -> MinusForm:
    """The exact minus form of a power written in either form."""
    if not cylinder:
        return MinusForm(sphere, ZERO, None)
    if axis is None:
        raise ValueError("a cylinder needs an axis")
    if cylinder > 0:
        return MinusForm(sphere + cylinder, -cylinder, turned(axis + _QUARTER_TURN))
    return MinusForm(sphere, cylinder, turned(axis))


def written_power(power: WrittenPower) -> MinusForm | None:
    """The exact minus form of an ordered power; None while it is not complete."""
    if power.sphere is None or not power.is_complete:
        return None
    return minus_form(power.sphere, power.cylinder or ZERO, power.axis)


def read_power(reading: PowerReading) -> MinusForm | None:
    """The exact minus form of one reading at the lens meter; None while it is not complete."""
    if isinstance(reading, DrumReading):
        if reading.sphere_lines is None or reading.cylinder_lines is None:
            return None
        sphere, axis = reading.sphere_lines, reading.axis_wheel
        cylinder = reading.cylinder_lines - reading.sphere_lines
    else:
        if reading.sphere is None or reading.cylinder is None:
            return None
        sphere, cylinder, axis = reading.sphere, reading.cylinder, reading.axis
    return minus_form(sphere, cylinder, axis) if not cylinder or axis is not None else None


def mean_power(powers: Sequence[MinusForm]) -> MinusForm:
    """The mean of several readings as power vectors; a single reading stays exact."""
    if len(powers) == 1:
        return powers[0]
    vague = mean_of(power.power() for power in powers).in_minus_form()
    axis = None if vague.axis is None else millionth(vague.axis)
    sphere, cylinder = millionth(vague.sphere), millionth(vague.cylinder)
    return minus_form(sphere, cylinder, axis)


@dataclass(frozen=True, slots=True)
class ExactPrism:
    """The prism of one eye, prism dioptres: base in and base up positive."""

    base_in: Decimal = ZERO
    base_up: Decimal = ZERO


def written_prism(prism: WrittenPrism | None, eye: Eye) -> ExactPrism:
    """The components of a written prism; none written is no prism."""
    if prism is None:
        return ExactPrism()
    if isinstance(prism, ComponentPrism):
        return ExactPrism(prism.base_in, prism.base_up)
    vague = Prism.from_polar(float(prism.amount), float(prism.base), eye)
    return ExactPrism(millionth(vague.base_in), millionth(vague.base_up))


def mean_prism(prisms: Sequence[ExactPrism]) -> ExactPrism:
    """The mean of several readings, component by component; a single one stays exact."""
    return ExactPrism(
        mean([prism.base_in for prism in prisms]), mean([prism.base_up for prism in prisms])
    )
