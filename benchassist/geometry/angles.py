"""Small angles from a gap and a base, and how well they are known."""

from math import asin, atan, degrees, isfinite, radians, tan

from benchassist.geometry.measured import Reading, measured
from benchassist.geometry.possible import Impossible

QUARTER_TURN = 90.0


def finite(value: float, name: str) -> float:
    """The value itself.

    Raises:
        ValueError: it is not finite; the text says its name.
    """
    if not isfinite(value):
        raise ValueError(f"{name} {value} is not a number one can measure")
    return value


def positive(value: float, name: str) -> float:
    """The value itself, for a length that something is divided by.

    Raises:
        Impossible: it is not above zero; the text says its name.
        ValueError: it is not finite.
    """
    if finite(value, name) <= 0.0:
        raise Impossible(f"{name} {value} must be above zero")
    return value


def not_negative(value: float, name: str) -> float:
    """The value itself, for a gap or an uncertainty.

    Raises:
        Impossible: it is below zero; the text says its name.
        ValueError: it is not finite.
    """
    if finite(value, name) < 0.0:
        raise Impossible(f"{name} {value} cannot be below zero")
    return value


def angle_of_gap(gap: float, base: float) -> float:
    """The angle in degrees whose tangent is gap over base, both mm; it has the gap's sign.

    Raises:
        Impossible: the base is not above zero.
    """
    return degrees(atan(finite(gap, "gap") / positive(base, "base")))


def gap_of_angle(angle: float, base: float) -> float:
    """The gap in mm that an angle in degrees opens over a base in mm.

    Raises:
        ValueError: the angle is 90 degrees or more either way, or the base not above zero.
    """
    if abs(finite(angle, "angle")) >= QUARTER_TURN:
        raise ValueError(f"angle {angle} opens no gap: it must stay below 90")
    return positive(base, "base") * tan(radians(angle))


def angle_of_rise(rise: float, length: float) -> float:
    """The angle in degrees whose sine is rise over length, both mm; it has the rise's sign.

    Raises:
        Impossible: the rise is larger than the length, or the length not above zero.
    """
    if abs(finite(rise, "rise")) > positive(length, "length"):
        raise Impossible(f"rise {rise} is larger than the length {length} it belongs to")
    return degrees(asin(rise / length))


def angle_uncertainty(reading: float, base: float) -> float:
    """The standard uncertainty in degrees of an angle from two readings over one base.

    Args:
        reading: standard uncertainty of each of the two readings, mm.
        base: the length over which they are compared, mm, taken as exact.

    The rule of `measured` for atan((far - near) / base) at no difference, where the arctangent
    is steepest: sqrt 2 u / base, so never too small for `angle_of_gap`; for `angle_of_rise` it
    is right to 1.5 per cent up to 10 degrees. Own derivation.
    """
    each = Reading(0.0, not_negative(reading, "reading"))
    between = measured(lambda far, near: angle_of_gap(far - near, base), far=each, near=each)
    return between.uncertainty
