"""The form a lens probably has: what the order says of it, and the usual for the rest."""

from dataclasses import dataclass
from decimal import Decimal

from benchassist.job.order import LensMaterial, Order
from benchassist.optics.eye import Eye
from benchassist.optics.thick import ThickLens, base_curve_by_vogel, thickness_difference
from benchassist.verdicts.exact import MinusForm, written_power
from benchassist.verdicts.words import listed, plain, signed_dioptres

_STANDARD = 1.50
_USUAL_INDEX = {
    LensMaterial.STANDARD_PLASTIC: _STANDARD,
    LensMaterial.URETHANE: 1.60,
    LensMaterial.POLYCARBONATE: 1.586,
    LensMaterial.HIGH_INDEX_PLASTIC: 1.67,
    LensMaterial.GLASS: 1.523,
}
"""Common practice, no source."""

_FLATTEST = 0.5
"""No front is taken to be flatter than that, D: Vogel's rule is made for moderate powers."""

_MINUS_CENTRE = 2.0
_THIN_MINUS_CENTRE = 1.5
_THIN_FROM = 1.60
_PLUS_EDGE = 1.0
_USUAL_DIAMETER = 55.0
"""Thicknesses and diameter, mm: common practice, no source."""


@dataclass(frozen=True, slots=True)
class LensForm:
    """A lens taken as a sphere of its mean power.

    Attributes:
        lens: surfaces, thickness and index.
        words: these in words, each said to be ordered or assumed.
    """

    lens: ThickLens
    words: str


def power_worn(order: Order, eye: Eye) -> MinusForm | None:
    """The power that the lens itself has: the maker's verification power, else the order's."""
    verification = order.eye(eye).verification
    by_maker = written_power(verification.power) if verification else None
    return by_maker or written_power(order.eye(eye).power)


def index_of(order: Order) -> tuple[float, str]:
    """The refractive index and its words: as ordered, or the usual one of the material."""
    if order.index is not None:
        return float(order.index), f"index {order.index}"
    if order.material is not None:
        usual = _USUAL_INDEX[order.material]
        return usual, f"index {usual:g} as usual for {order.material.value}"
    return _STANDARD, f"index {_STANDARD:.2f} assumed"


def lens_form(order: Order, eye: Eye) -> LensForm | None:
    """The form of one lens; None without a power, or where no such lens can be made."""
    power = power_worn(order, eye)
    if power is None:
        return None
    mean = float(power.sphere + power.cylinder / 2)
    index, by_index = index_of(order)
    front, by_front = _front(order, eye, mean)
    thickness, by_thickness = _thickness(
        order, eye, float(max(power.along, power.across)), index
    )
    words = listed((f"mean power {_dioptres(mean)}", by_front, by_thickness, by_index))
    try:
        shape = ThickLens(front, 0.0, thickness, index).shape_factor
        return LensForm(ThickLens(front, mean - front * shape, thickness, index), words)
    except ValueError:
        return None


def _front(order: Order, eye: Eye, mean: float) -> tuple[float, str]:
    ordered = order.eye(eye).base_curve
    if ordered is not None:
        return float(ordered), f"front {signed_dioptres(ordered)} as ordered"
    front = max(_FLATTEST, base_curve_by_vogel(mean))
    return front, f"front {_dioptres(front)} by Vogel's rule"


def _thickness(order: Order, eye: Eye, plus: float, index: float) -> tuple[float, str]:
    """The centre thickness, mm; a plus lens has the edge that it needs."""
    ordered = order.eye(eye).centre_thickness
    if ordered is not None:
        return float(ordered), f"{plain(ordered, 1)} mm thick as ordered"
    if plus > 0.0:
        diameter = float(order.frame.ed) if order.frame.ed else _USUAL_DIAMETER
        centre = _PLUS_EDGE + thickness_difference(plus, diameter / 2.0, index)
    else:
        centre = _THIN_MINUS_CENTRE if index >= _THIN_FROM else _MINUS_CENTRE
    return centre, f"{centre:.1f} mm thick by assumption"


def _dioptres(value: float) -> str:
    return signed_dioptres(Decimal(value).quantize(Decimal("0.01")))
