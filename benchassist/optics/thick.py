"""The form of a lens: surfaces, thickness, vertex powers and magnification."""

from dataclasses import dataclass
from math import copysign, isfinite, sqrt


def _checked_index(index: float) -> float:
    if not (isfinite(index) and index > 1.0):
        raise ValueError(f"refractive index {index} must be above 1")
    return index


def _shape_factor(power: float, thickness: float, index: float) -> float:
    """1 / (1 - t F / n), t in mm: how much a surface's effect grows by the glass behind it."""
    left = 1.0 - thickness / 1000.0 / index * power
    if left <= 0.0:
        raise ValueError(f"a surface of {power} D focuses within {thickness} mm of lens")
    return 1.0 / left


@dataclass(frozen=True, slots=True)
class ThickLens:
    """A spherical lens with thickness, or one meridian of a toric lens.

    Attributes:
        front: surface power of the front, D.
        back: surface power of the back, D.
        thickness: centre thickness, mm.
        index: refractive index.

    Raises:
        ValueError: a power is not finite, the thickness is negative, the index is not above
            1, or a surface would focus inside the lens.
    """

    front: float
    back: float
    thickness: float
    index: float

    def __post_init__(self) -> None:
        if not (isfinite(self.front) and isfinite(self.back)):
            raise ValueError(f"surface powers {self.front} and {self.back} D are not finite")
        if not (isfinite(self.thickness) and self.thickness >= 0.0):
            raise ValueError(f"thickness {self.thickness} cannot be below zero")
        _checked_index(self.index)
        _shape_factor(self.front, self.thickness, self.index)
        _shape_factor(self.back, self.thickness, self.index)

    @property
    def nominal_power(self) -> float:
        """The sum of the surface powers, D."""
        return self.front + self.back

    @property
    def equivalent_power(self) -> float:
        """The power at the principal planes, F1 + F2 - (t/n) F1 F2, D."""
        reduced = self.thickness / 1000.0 / self.index
        return self.front + self.back - reduced * self.front * self.back

    @property
    def shape_factor(self) -> float:
        """1 / (1 - (t/n) F1): the share of magnification by form."""
        return _shape_factor(self.front, self.thickness, self.index)

    @property
    def back_vertex_power(self) -> float:
        """F1 / (1 - (t/n) F1) + F2, D: what a lens meter shows with the back on the stop.

        Source: NFOS opticianry course, module 11, and a ray trace that agrees to 4e-5 D,
        http://www.nfos.org/degree/opt11/practice_answers_11a.html
        """
        return self.front * self.shape_factor + self.back

    @property
    def front_vertex_power(self) -> float:
        """F2 / (1 - (t/n) F2) + F1, D: what a lens meter shows with the front on the stop."""
        return self.back * _shape_factor(self.back, self.thickness, self.index) + self.front


def surface_power(radius: float, index: float) -> float:
    """1000 (n - 1) / r, D, from the radius of a front surface in mm, convex positive.

    Raises:
        ValueError: the radius is zero, or the index is not above 1.
    """
    if radius == 0.0:
        raise ValueError("a radius of 0 mm is no surface")
    return 1000.0 * (_checked_index(index) - 1.0) / radius


def surface_radius(power: float, index: float) -> float:
    """1000 (n - 1) / F, mm, convex positive.

    Raises:
        ValueError: the surface is flat, or the index is not above 1.
    """
    if power == 0.0:
        raise ValueError("a surface of 0 D is flat and has no radius")
    return 1000.0 * (_checked_index(index) - 1.0) / power


def clocked_power(reading: float, index: float, tool_index: float) -> float:
    """The true surface power from a lens clock reading, D.

    Args:
        reading: what the clock shows, D.
        index: refractive index of the lens.
        tool_index: the index for which the clock is made. 1.523 and 1.530 are both in use, so
            the caller states it.
    """
    return reading * (_checked_index(index) - 1.0) / (_checked_index(tool_index) - 1.0)


def clocked_index(front: float, back: float, power: float, tool_index: float) -> float:
    """The refractive index of a thin lens from both clock readings and its power.

    Raises:
        ValueError: the clock readings cancel.
    """
    total = front + back
    if total == 0.0:
        raise ValueError(f"clock readings {front} and {back} D cancel and give no index")
    return 1.0 + power * (_checked_index(tool_index) - 1.0) / total


def sag(radius: float, semi_diameter: float) -> float:
    """The depth of a surface over a chord, r - sqrt(r^2 - y^2), mm, with the radius's sign.

    The short form y^2 / 2r is 2 per cent short already at r 88, y 25, so it is not used.

    Raises:
        ValueError: the chord is wider than the sphere.
    """
    if abs(semi_diameter) > abs(radius):
        raise ValueError(f"no sag: {semi_diameter} mm lies outside a radius of {radius} mm")
    return copysign(abs(radius) - sqrt(radius**2 - semi_diameter**2), radius)


def edge_thickness(
    centre: float, front_radius: float, back_radius: float, semi_diameter: float
) -> float:
    """The edge thickness in mm; a radius is positive with its centre behind the surface.

    Both radii of a meniscus are therefore positive, and a negative result means that the lens
    comes to a knife edge before that diameter.
    """
    return centre - sag(front_radius, semi_diameter) + sag(back_radius, semi_diameter)


def thickness_difference(power: float, semi_diameter: float, index: float) -> float:
    """Centre minus edge thickness by the short form F y^2 / (2000 (n - 1)), mm."""
    return power * semi_diameter**2 / (2000.0 * (_checked_index(index) - 1.0))


def base_curve_by_vogel(spherical_equivalent: float) -> float:
    """A first guess at the base curve, D: SE + 6 for plus lenses, SE/2 + 6 for minus.

    Vogel's rule; makers' own base curves differ. Source: open examination guide, chapter 3.2,
    https://open-exam-prep.com/study-guides/abo-advanced/optics-ii/thickness-magnification-effective-power
    """
    share = 1.0 if spherical_equivalent > 0.0 else 0.5
    return spherical_equivalent * share + 6.0


def power_magnification(back_vertex_power: float, distance: float) -> float:
    """The share of spectacle magnification by power, 1 / (1 - d F).

    Args:
        back_vertex_power: D.
        distance: from the back vertex to the entrance pupil, mm, about 3 mm more than to the
            cornea, from which some texts count.

    Raises:
        ValueError: the focus falls at or before the pupil.
    """
    left = 1.0 - distance / 1000.0 * back_vertex_power
    if left <= 0.0:
        raise ValueError(f"{back_vertex_power} D at {distance} mm focuses before the pupil")
    return 1.0 / left


def spectacle_magnification(lens: ThickLens, distance: float) -> float:
    """Shape times power magnification; `distance` as for `power_magnification`."""
    return lens.shape_factor * power_magnification(lens.back_vertex_power, distance)
