"""Distances ordered for both eyes together: they stand with each eye, half and half."""

from decimal import ROUND_DOWN, Decimal

from benchassist.job.order import Order
from benchassist.job.paths import value_at, with_value_at
from benchassist.optics.eye import Eye
from benchassist.verdicts.words import millimetres

PART = "both."
"""The beginning of the paths of these fields, such as 'both.distance_pd'."""

_LEAST, _MOST = Decimal(10), Decimal(60)
"""What the field of one eye takes, mm."""

_HUNDREDTH = Decimal("0.01")


def total(order: Order, path: str) -> Decimal | None:
    """The distance of both eyes, mm; None while that of one eye is not known."""
    right, left = _each(order, path)
    return None if right is None or left is None else right + left


def refusal(order: Order, path: str, value: Decimal | None) -> str:
    """Why a distance of both eyes is not taken, in a sentence; empty where it is.

    Distances that somebody stated for each eye are never changed from here.
    """
    right, left = _each(order, path)
    if right is not None and left is not None and not _are_halves(right, left):
        return (
            f"Each eye has its own: right {millimetres(right)}, left {millimetres(left)}. "
            "Change them there."
        )
    rest = _rest(order, path, value)
    if rest is not None and not _LEAST <= rest <= _MOST:
        return f"One eye has its own already; {millimetres(rest)} is left for the other."
    return ""


def with_total(order: Order, path: str, value: Decimal | None) -> Order:
    """The order with the distance of both eyes shared between them.

    Half goes to each eye; where one eye has its own, the other gets the rest. The halves are
    taken out again when the field is emptied.
    """
    name = path.removeprefix(PART)
    right, left = _each(order, path)
    rest = _rest(order, path, value)
    if (right is None) != (left is None):
        empty = Eye.RIGHT if right is None else Eye.LEFT
        return order if rest is None else with_value_at(order, f"{empty}.{name}", rest)
    half = None if value is None else (value / 2).quantize(_HUNDREDTH, ROUND_DOWN)
    other = None if value is None or half is None else value - half
    halved = with_value_at(order, f"{Eye.RIGHT}.{name}", half)
    return with_value_at(halved, f"{Eye.LEFT}.{name}", other)


def _each(order: Order, path: str) -> tuple[Decimal | None, Decimal | None]:
    name = path.removeprefix(PART)
    right, left = (value_at(order, f"{eye}.{name}") for eye in Eye)
    return right, left


def _rest(order: Order, path: str, value: Decimal | None) -> Decimal | None:
    """What is left for the other eye where one has its own; None otherwise, mm."""
    known = [each for each in _each(order, path) if each is not None]
    return value - known[0] if value is not None and len(known) == 1 else None


def _are_halves(right: Decimal, left: Decimal) -> bool:
    return abs(right - left) <= _HUNDREDTH
