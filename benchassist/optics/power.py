"""The power of a spectacle lens: sphere, cylinder and axis, and their arithmetic."""

from collections.abc import Iterable
from dataclasses import dataclass
from math import asin, atan2, cos, degrees, fsum, hypot, isfinite, radians, sin, sqrt

VANISHING = 1e-9
"""Below this size, in dioptres or degrees, a value is rounding noise and counts as nothing."""


def normal_axis(axis: float) -> float:
    """The axis in degrees brought into 0 < axis <= 180; a horizontal axis is written 180."""
    turned = axis % 180.0
    return turned if turned > VANISHING else 180.0


def axis_difference(axis: float, reference: float) -> float:
    """Degrees from `reference` to `axis` the short way round, -90 < difference <= 90.

    Positive is counter-clockwise for the person facing the wearer.
    """
    turned = (axis - reference) % 180.0
    return turned - 180.0 if turned > 90.0 else turned  # noqa: PLR2004  (half a half-turn)


@dataclass(frozen=True, slots=True)
class Power:
    """A sphero-cylindrical power in dioptres, in either cylinder form.

    The power along the axis meridian is `sphere`, across it `sphere + cylinder`. The axis
    follows ISO 8429: facing the wearer, 0 at the observer's right, counter-clockwise, and
    0 < axis <= 180, alike for both eyes. A lens without a cylinder has no axis: one that is
    handed in is dropped. Back vertex power, unless the caller says otherwise.

    Raises:
        ValueError: a value is not finite, the axis is outside 0 < axis <= 180, or a cylinder
            has no axis.
    """

    sphere: float
    cylinder: float = 0.0
    axis: float | None = None

    def __post_init__(self) -> None:
        if not (isfinite(self.sphere) and isfinite(self.cylinder)):
            raise ValueError(f"power {self.sphere} / {self.cylinder} D is not finite")
        if self.axis is not None and not 0.0 < self.axis <= 180.0:  # noqa: PLR2004  (half a turn)
            raise ValueError(f"axis {self.axis} is outside 0 < axis <= 180")
        if self.cylinder == 0.0:
            object.__setattr__(self, "cylinder", 0.0)
            object.__setattr__(self, "axis", None)
        elif self.axis is None:
            raise ValueError(f"a cylinder of {self.cylinder} D needs an axis")

    def transposed(self) -> "Power":
        """The same lens written in the other cylinder form."""
        if self.axis is None:
            return self
        across = normal_axis(self.axis + 90.0)
        return Power(self.sphere + self.cylinder, -self.cylinder, across)

    def in_minus_form(self) -> "Power":
        """The same lens with a cylinder that is not positive."""
        return self.transposed() if self.cylinder > 0.0 else self

    def in_plus_form(self) -> "Power":
        """The same lens with a cylinder that is not negative."""
        return self.transposed() if self.cylinder < 0.0 else self

    @property
    def spherical_equivalent(self) -> float:
        """The mean of the two principal powers, S + C/2."""
        return self.sphere + self.cylinder / 2.0

    @property
    def principal(self) -> tuple[float, float]:
        """The powers along the axis meridian and across it: S, S + C."""
        return self.sphere, self.sphere + self.cylinder

    def along(self, meridian: float) -> float:
        """The curvature power along a meridian in degrees, S + C sin^2(meridian - axis).

        It is not the whole story of an oblique meridian: light is also bent sideways, which
        the matrix holds and this figure does not. Source: the oblique-meridian modules of
        the NFOS opticianry course, http://www.nfos.org/degree/opt11/practice_answers_10a.html
        """
        if self.axis is None:
            return self.sphere
        return self.sphere + self.cylinder * sin(radians(meridian - self.axis)) ** 2

    @property
    def horizontal(self) -> float:
        """The curvature power along the 180 meridian."""
        return self.along(180.0)

    @property
    def vertical(self) -> float:
        """The curvature power along the 90 meridian."""
        return self.along(90.0)

    def vector(self) -> "PowerVector":
        """The power vector, the same for both cylinder forms.

        Source: Thibos, Wheeler and Horner, Power vectors (1997),
        doi 10.1097/00006324-199706000-00019: J0 = -(C/2) cos 2A, J45 = -(C/2) sin 2A.
        """
        double = radians(2.0 * (self.axis or 0.0))
        half = -self.cylinder / 2.0
        return PowerVector(self.spherical_equivalent, half * cos(double), half * sin(double))

    def matrix(self) -> "PowerMatrix":
        """The dioptric power matrix, x to the observer's right and y up.

        Source: the matrix of Long (1976) and Keating (1980), from memory; a ray trace of
        toric lenses agrees with it to 2e-6 D.
        """
        vector = self.vector()
        return PowerMatrix(vector.m + vector.j0, vector.j45, vector.m - vector.j0)


@dataclass(frozen=True, slots=True)
class PowerVector:
    """A power as three dioptre components that add like lengths.

    Attributes:
        m: mean sphere.
        j0: cross cylinder at 180 and 90; positive where the minus cylinder's axis is 180.
        j45: cross cylinder at 45 and 135; positive where the minus cylinder's axis is 45.
    """

    m: float
    j0: float
    j45: float

    def __add__(self, other: "PowerVector") -> "PowerVector":
        return PowerVector(self.m + other.m, self.j0 + other.j0, self.j45 + other.j45)

    def __sub__(self, other: "PowerVector") -> "PowerVector":
        return self + other.scaled(-1.0)

    def scaled(self, factor: float) -> "PowerVector":
        """Every component times `factor`."""
        return PowerVector(self.m * factor, self.j0 * factor, self.j45 * factor)

    @property
    def length(self) -> float:
        """The blur strength in dioptres, sqrt(M^2 + J0^2 + J45^2)."""
        return sqrt(self.m**2 + self.j0**2 + self.j45**2)

    @property
    def cross_cylinder(self) -> float:
        """The size of the cylinder in dioptres, never negative, 2 sqrt(J0^2 + J45^2)."""
        return 2.0 * hypot(self.j0, self.j45)

    def power(self) -> Power:
        """The power in minus-cylinder form; a cylinder of rounding noise is none."""
        cylinder = -self.cross_cylinder
        if cylinder > -VANISHING:
            return Power(self.m)
        axis = normal_axis(degrees(atan2(self.j45, self.j0)) / 2.0)
        return Power(self.m - cylinder / 2.0, cylinder, axis)


@dataclass(frozen=True, slots=True)
class PowerMatrix:
    """The symmetric dioptric power matrix, x to the observer's right and y up.

    Attributes:
        f11: power that bends horizontally what is displaced horizontally.
        f12: power that bends vertically what is displaced horizontally, and the reverse.
        f22: power that bends vertically what is displaced vertically.
    """

    f11: float
    f12: float
    f22: float

    def __add__(self, other: "PowerMatrix") -> "PowerMatrix":
        return PowerMatrix(self.f11 + other.f11, self.f12 + other.f12, self.f22 + other.f22)

    def times(self, x: float, y: float) -> tuple[float, float]:
        """The matrix times the column (x, y)."""
        return self.f11 * x + self.f12 * y, self.f12 * x + self.f22 * y

    def vector(self) -> PowerVector:
        """The power vector of the same lens."""
        return PowerVector((self.f11 + self.f22) / 2.0, (self.f11 - self.f22) / 2.0, self.f12)

    def power(self) -> Power:
        """The power in minus-cylinder form; a cylinder of rounding noise is none."""
        return self.vector().power()


def sum_of(powers: Iterable[Power]) -> Power:
    """The power of thin lenses in contact, in minus-cylinder form; none at all is plano."""
    return _total(tuple(power.vector() for power in powers)).power()


def mean_of(powers: Iterable[Power]) -> Power:
    """The mean of several readings of one lens, in minus-cylinder form.

    The power vectors are averaged, never sphere, cylinder and axis by themselves. Source:
    Kusel and Oechsner, DOG 2000, P540, http://www.dog.org/2000/e-abstract_2000/540.html

    Raises:
        ValueError: there is no reading.
    """
    vectors = tuple(power.vector() for power in powers)
    if not vectors:
        raise ValueError("the mean of no readings is not defined")
    return _total(vectors).scaled(1.0 / len(vectors)).power()


def _total(vectors: tuple[PowerVector, ...]) -> PowerVector:
    """The sum, by exact summation: the order of the readings changes not even the last bit."""
    return PowerVector(
        fsum(vector.m for vector in vectors),
        fsum(vector.j0 for vector in vectors),
        fsum(vector.j45 for vector in vectors),
    )


def axis_error_cylinder(cylinder: float, error: float) -> float:
    """The size of the cylinder left by an axis error in degrees, 2 |C| sin error, D.

    From memory; the same as the length of the power-vector difference, times two.
    """
    return 2.0 * abs(cylinder) * sin(radians(abs(error)))


def axis_error_for(cylinder: float, left: float) -> float:
    """The axis error in degrees that leaves a cylinder of `left` dioptres.

    Source of the formula: OLA White Paper on ANSI Z80.1-2005, which so explains its
    table, https://www.scribd.com/document/40096878/ANSI-Z80-1-2005

    Raises:
        ValueError: the cylinder cannot leave so much at any axis.
    """
    if not 0.0 <= left <= 2.0 * abs(cylinder) or cylinder == 0.0:
        raise ValueError(f"a cylinder of {cylinder} D cannot leave {left} D by its axis")
    return degrees(asin(left / (2.0 * abs(cylinder))))


def difference(measured: Power, ordered: Power) -> PowerVector:
    """Measured minus ordered, as a vector; its length is the blur strength."""
    return measured.vector() - ordered.vector()
