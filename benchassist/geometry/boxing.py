"""The boxing system: where the lens centres of a frame are, and what blank they need."""

from dataclasses import dataclass
from math import hypot

from benchassist.geometry.angles import finite, not_negative, positive


@dataclass(frozen=True, slots=True)
class Boxing:
    """A frame in the boxing system of ISO 8624, mm.

    Attributes:
        a: horizontal boxed lens size.
        b: vertical boxed lens size.
        dbl: distance between lenses.
        ed: effective diameter, twice the longest radius from the boxed centre; None when it
            is not known.

    Raises:
        Impossible: a size is not above zero.
    """

    a: float
    b: float
    dbl: float
    ed: float | None = None

    def __post_init__(self) -> None:
        positive(self.a, "A")
        positive(self.b, "B")
        positive(self.dbl, "DBL")
        if self.ed is not None:
            positive(self.ed, "ED")

    @property
    def centre_distance(self) -> float:
        """The distance between the boxed centres, A + DBL, in mm: the trade's frame PD."""
        return self.a + self.dbl

    @property
    def has_possible_ed(self) -> bool:
        """Whether the effective diameter lies between the longer side and the diagonal.

        The outline touches all four sides of its box and does not leave it, so no other
        value can be right. An unknown effective diameter is not impossible.
        """
        return self.ed is None or max(self.a, self.b) <= self.ed <= hypot(self.a, self.b)

    def decentration(self, monocular_pd: float) -> float:
        """The decentration of one lens from its boxed centre, mm, positive inwards.

        (A + DBL) / 2 - monocular centration distance. Source: optical training course
        'Ophthalmic Frames', page 5,
        https://www.opticaltraining.com/html/continuing_ed/wbt/ABO/Ophthalmic_Frames/page_five.html
        """
        return self.centre_distance / 2.0 - finite(monocular_pd, "PD")

    def decentration_for_pair(self, pd: float) -> float:
        """The decentration of each lens for a centration distance of both eyes together."""
        return self.decentration(finite(pd, "PD") / 2.0)

    def height_above_centre_line(self, height: float) -> float:
        """A height over the lowest point of the lens, as a height over the centre line, mm.

        Negative is below the horizontal centre line, which is B / 2 over the lowest point.
        """
        return finite(height, "height") - self.b / 2.0


def blank_size(ed: float, decentration: float, allowance: float, raised: float = 0.0) -> float:
    """The smallest round uncut lens that covers the shape, mm.

    Args:
        ed: effective diameter, mm.
        decentration: horizontal decentration of the lens, mm, either way.
        allowance: extra for edging, mm. The sources disagree: 0 (an examination form), 1 or
            2 mm are taught, and a laboratory writer calls every such rule an approximation,
            so the caller states it.
        raised: vertical decentration, mm, either way.

    ED + 2 x decentration + allowance. It is an approximation, exact only where the longest
    radius lies opposite to the decentration.

    Raises:
        Impossible: the diameter is not above zero, or the allowance is negative.
    """
    away = hypot(finite(decentration, "decentration"), finite(raised, "height"))
    return positive(ed, "ED") + 2.0 * away + not_negative(allowance, "allowance")
