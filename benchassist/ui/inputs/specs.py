"""The number fields of the bench, once each, with their ranges."""

from decimal import Decimal

from benchassist.ui.inputs.parsing import NumberSpec


def dioptre(label: str, *, in_eighths: bool = False, limit: int = 40) -> NumberSpec:
    """A signed power, D."""
    return NumberSpec(
        label, "D", Decimal(-limit), Decimal(limit),
        is_signed=True, is_power=True, in_eighths=in_eighths,
    )  # fmt: skip


def addition(label: str, *, low: int = 0, in_eighths: bool = False) -> NumberSpec:
    """An addition, D."""
    return NumberSpec(
        label, "D", Decimal(low), Decimal(10),
        is_signed=True, is_power=True, in_eighths=in_eighths,
    )  # fmt: skip


def axis(label: str) -> NumberSpec:
    """A cylinder axis, degrees above 0 and up to 180."""
    return NumberSpec(label, "°", Decimal(1), Decimal(180), places=1, is_axis=True)


def base(label: str) -> NumberSpec:
    """The direction of a prism's base, degrees from 0 to below 360."""
    return NumberSpec(label, "°", Decimal(0), Decimal("359.9"), places=1)


def prism(label: str) -> NumberSpec:
    """An amount of prism without its direction, prism dioptres."""
    return NumberSpec(label, "Δ", Decimal(0), Decimal(40), is_power=True)


def horizontal_prism(label: str) -> NumberSpec:
    """The horizontal component of prism, prism dioptres; base in positive."""
    return NumberSpec(
        label, "Δ", Decimal(-40), Decimal(40), is_power=True, bases=("in", "out")
    )  # fmt: skip


def vertical_prism(label: str) -> NumberSpec:
    """The vertical component of prism, prism dioptres; base up positive."""
    return NumberSpec(
        label, "Δ", Decimal(-40), Decimal(40), is_power=True, bases=("up", "down")
    )  # fmt: skip


def millimetre(label: str, low: str = "0", high: str = "200") -> NumberSpec:
    """A length, mm."""
    return NumberSpec(label, "mm", Decimal(low), Decimal(high))


def centimetre(label: str) -> NumberSpec:
    """A test distance, cm."""
    return NumberSpec(label, "cm", Decimal(5), Decimal(1000), places=1)


def degrees(label: str, low: str = "-90", high: str = "90") -> NumberSpec:
    """An angle, degrees."""
    return NumberSpec(label, "°", Decimal(low), Decimal(high))


def index(label: str) -> NumberSpec:
    """A refractive index."""
    return NumberSpec(label, "", Decimal("1.3"), Decimal("2.1"), places=3)


def limit(label: str, unit: str) -> NumberSpec:
    """A limit, in the unit of what it limits."""
    return NumberSpec(label, unit, Decimal(0), Decimal(100), places=3)


def share(label: str) -> NumberSpec:
    """A share of a whole, per cent."""
    return NumberSpec(label, "%", Decimal(1), Decimal(100))
