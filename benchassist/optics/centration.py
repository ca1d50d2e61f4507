"""What centration does to the pair: prism by fitting error, at near, and by thinning."""

from dataclasses import dataclass
from math import atan2, degrees, hypot, radians, sin

from benchassist.optics.eye import Eye
from benchassist.optics.power import VANISHING, Power, axis_difference
from benchassist.optics.prism import Imbalance, Prism, imbalance, prentice


@dataclass(frozen=True, slots=True)
class Centre:
    """Where a point of one lens lies, mm.

    Attributes:
        pd: monocular centration distance, from the middle of the bridge.
        height: over the lowest point of the boxed lens.
    """

    pd: float
    height: float


def fitting_error_prism(power: Power, eye: Eye, ordered: Centre, measured: Centre) -> Prism:
    """The prism that a misplaced optical centre gives to an eye at the ordered point.

    Args:
        power: back vertex power.
        eye: which lens.
        ordered: the pupil, as ordered.
        measured: the optical centre, as dotted.
    """
    return prentice(power, eye, ordered.pd - measured.pd, measured.height - ordered.height)


def imbalance_below(right: Power, left: Power, level: float) -> Imbalance:
    """The imbalance of a pair when both eyes look `level` mm below the optical centres."""
    return imbalance(
        prentice(right, Eye.RIGHT, 0.0, level), prentice(left, Eye.LEFT, 0.0, level)
    )


def split(total: Imbalance) -> tuple[Prism, Prism]:
    """A pair's prism shared equally: right, left.

    Horizontal prism keeps its word in both eyes, vertical prism takes opposite words. Source:
    Durham Tech OPH 142, prism base module, part a,
    http://courses.durhamtech.edu/opticianry/oph142/NFOS-12/prism_base/module_01_a.html
    """
    horizontal, vertical = total.horizontal / 2.0, total.vertical / 2.0
    return Prism(horizontal, vertical), Prism(horizontal, -vertical)


def thinning_prism(addition: float) -> Prism:
    """The customary thinning prism of a progressive lens: two thirds of the addition, down.

    Equal in both eyes, so that the pair is balanced. An old rule for plus lenses; makers now
    choose it from shape and power. Source: a laboratory's training note
    of 2016, https://expertoptics.net/?p=447
    """
    return Prism(0.0, -2.0 * addition / 3.0)


def image_jump(addition: float, segment_top_to_centre: float) -> float:
    """The jump at the top of a segment, prism dioptres: its depth in cm times the addition."""
    return addition * segment_top_to_centre / 10.0


@dataclass(frozen=True, slots=True)
class PrismBand:
    """The band of a lens within which vertical prism stays below an amount.

    Attributes:
        half_width: from the optical centre square to the band's edge, mm.
        inclination: meridian of the band, degrees, -90 < inclination <= 90.
    """

    half_width: float
    inclination: float

    def reach(self, meridian: float) -> float | None:
        """Millimetres from the optical centre to the edge along a meridian; None if never."""
        steepness = abs(sin(radians(meridian - self.inclination)))
        return self.half_width / steepness if steepness > VANISHING else None


def vertical_prism_band(power: Power, amount: float) -> PrismBand | None:
    """Where vertical prism stays below `amount`; None for a lens that gives none anywhere.

    The half-width is the amount over the length of the matrix's lower row. Source: Jalie, The
    Indian Optician, September-October 2022,
    https://tionet.in/Mags/2022/Sept-Oct%202022/files/basic-html/page112.html

    Raises:
        ValueError: the amount is negative.
    """
    if amount < 0.0:
        raise ValueError(f"prism {amount} cannot be below zero here")
    matrix = power.matrix()
    strength = hypot(matrix.f12, matrix.f22)
    if strength < VANISHING:
        return None
    inclination = axis_difference(degrees(atan2(-matrix.f12, matrix.f22)), 0.0)
    return PrismBand(10.0 * amount / strength, inclination)
