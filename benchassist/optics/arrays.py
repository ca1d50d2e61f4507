"""The same sphero-cylinder arithmetic over many lenses at once.

An array has no None: a lens without a cylinder is written with axis 0, which is no axis on
the scale 0 < axis <= 180. Signs and directions are those of `Power` and `Prism`.
"""

from dataclasses import dataclass
from typing import Self

import numpy as np
import numpy.typing as npt

from benchassist.optics.power import VANISHING

Column = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class PowerVectors:
    """Power vectors of many lenses, D: three columns of one length."""

    m: Column
    j0: Column
    j45: Column

    def __add__(self, other: Self) -> "PowerVectors":
        return PowerVectors(self.m + other.m, self.j0 + other.j0, self.j45 + other.j45)

    def __sub__(self, other: Self) -> "PowerVectors":
        return PowerVectors(self.m - other.m, self.j0 - other.j0, self.j45 - other.j45)

    @property
    def length(self) -> Column:
        """The blur strength of each lens, D."""
        return np.sqrt(self.m**2 + self.j0**2 + self.j45**2)

    def powers(self) -> "Powers":
        """The powers in minus-cylinder form; a cylinder of rounding noise is none."""
        cylinder = -2.0 * np.hypot(self.j0, self.j45)
        cylinder = np.where(cylinder > -VANISHING, 0.0, cylinder)
        axis = normal_axes(np.degrees(np.arctan2(self.j45, self.j0)) / 2.0)
        return Powers(self.m - cylinder / 2.0, cylinder, np.where(cylinder == 0.0, 0.0, axis))


@dataclass(frozen=True, slots=True, eq=False)
class PowerMatrices:
    """Dioptric power matrices of many lenses, x to the observer's right and y up."""

    f11: Column
    f12: Column
    f22: Column

    def vectors(self) -> PowerVectors:
        """The power vectors of the same lenses."""
        return PowerVectors((self.f11 + self.f22) / 2.0, (self.f11 - self.f22) / 2.0, self.f12)


@dataclass(frozen=True, slots=True, eq=False)
class Prisms:
    """Prism of many lenses, prism dioptres, base in and base up positive."""

    base_in: Column
    base_up: Column


@dataclass(frozen=True, slots=True, eq=False)
class Powers:
    """Sphero-cylindrical powers of many lenses, D and degrees, in either cylinder form."""

    sphere: Column
    cylinder: Column
    axis: Column

    def transposed(self) -> "Powers":
        """The same lenses written in the other cylinder form."""
        across = np.where(self.cylinder == 0.0, 0.0, normal_axes(self.axis + 90.0))
        return Powers(self.sphere + self.cylinder, 0.0 - self.cylinder, across)

    def along(self, meridian: npt.ArrayLike) -> Column:
        """The curvature power of each lens along a meridian in degrees."""
        turned = np.radians(np.asarray(meridian, dtype=np.float64) - self.axis)
        share: Column = np.sin(turned) ** 2
        return self.sphere + self.cylinder * share

    def vectors(self) -> PowerVectors:
        """The power vectors, the same for both cylinder forms."""
        double = np.radians(2.0 * self.axis)
        half = -self.cylinder / 2.0
        mean = self.sphere + self.cylinder / 2.0
        return PowerVectors(mean, half * np.cos(double), half * np.sin(double))

    def matrices(self) -> PowerMatrices:
        """The dioptric power matrices."""
        vectors = self.vectors()
        return PowerMatrices(vectors.m + vectors.j0, vectors.j45, vectors.m - vectors.j0)

    def prentice(
        self, nasal_sign: npt.ArrayLike, oc_in: npt.ArrayLike, oc_up: npt.ArrayLike
    ) -> Prisms:
        """The prism of each lens by Prentice's rule with the whole power matrix.

        Args:
            nasal_sign: +1 for a right lens, -1 for a left one.
            oc_in: optical centre minus the point looked through, mm, positive nasally.
            oc_up: the same, positive upwards.
        """
        sign = np.asarray(nasal_sign, dtype=np.float64)
        matrices = self.matrices()
        x = sign * np.asarray(oc_in, dtype=np.float64)
        y = np.asarray(oc_up, dtype=np.float64)
        right = matrices.f11 * x + matrices.f12 * y
        return Prisms(sign * right / 10.0, (matrices.f12 * x + matrices.f22 * y) / 10.0)


def columns(
    sphere: npt.ArrayLike, cylinder: npt.ArrayLike = 0.0, axis: npt.ArrayLike = 0.0
) -> Powers:
    """Powers from anything that numpy reads as numbers, brought to one length."""
    parts = (np.asarray(part, dtype=np.float64) for part in (sphere, cylinder, axis))
    return Powers(*np.broadcast_arrays(*parts))


def normal_axes(axes: Column) -> Column:
    """Axes in degrees brought into 0 < axis <= 180, as `power.normal_axis` does."""
    turned = axes % 180.0
    return np.where(turned > VANISHING, turned, 180.0)
