"""How far many readings can be trusted: guards by the scalar reckoning, looked up or listed."""

from abc import ABC, abstractmethod
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from typing_extensions import override

from benchassist.limits.arrays import (
    PARTS,
    Ladder,
    Marks,
    Places,
    Whole,
    in_parts,
    ladder,
    of_parts,
)
from benchassist.limits.load import Limits
from benchassist.verdicts.doubt import Doubt
from benchassist.verdicts.exact import ZERO, millionth
from benchassist.verdicts.meters import MeterUsed
from benchassist.verdicts.trust import Trust, together

Floats = npt.NDArray[np.float64]

_MILLION = 1e6
_PER_MILLIONTH = PARTS // 1_000_000
_CLEARLY = 0.5 - 1e-6
"""Millionths away from a whole one, up to which binary noise cannot change the rounding."""


def millionths(values: Floats) -> tuple[Whole, Places]:
    """Values rounded to a millionth, in parts, and the places of those too near a tie for it.

    Below 4000 binary noise in the product stays far under the margin that is left to ties.
    """
    finer = values * _MILLION
    nearest = np.rint(finer)
    tied = np.flatnonzero(np.abs(finer - nearest) > _CLEARLY)
    return nearest.astype(np.int64) * _PER_MILLIONTH, tied


def rounded(values: Floats) -> Whole:
    """Values rounded to a millionth, in parts, each exactly as `exact.millionth` does it."""
    parts, tied = millionths(values)
    for place in tied:
        parts[place] = in_parts(millionth(float(values[place])))
    return parts


class Trusted(ABC):
    """The trust in one quantity of many lenses or pairs."""

    @property
    def has_repeats(self) -> bool:
        """Whether repeats may speak against their mean."""
        return False

    @abstractmethod
    def guards(self) -> Whole:
        """The guard of each lens in parts."""

    @abstractmethod
    def of(self, lens: int) -> Trust:
        """The trust in one of them, as the scalar judge has it."""

    @abstractmethod
    def widths(self) -> Floats:
        """Each guard in units, before it is rounded."""


class TrustTable:
    """Several trusts, each with its guard."""

    def __init__(self, trusts: Sequence[Trust]) -> None:
        self.trusts = tuple(trusts)
        self.guards = np.array([guard_of(trust) for trust in self.trusts], np.int64)
        self.widths = np.array([trust.factor * trust.uncertainty() for trust in self.trusts])


def guard_of(trust: Trust) -> int:
    """The guard in parts."""
    return in_parts(trust.guard())


@dataclass(frozen=True, slots=True, eq=False)
class Known(Trusted):
    """One of a few trusts for each lens.

    Attributes:
        table: the trusts that there are.
        places: which of them each lens has.
    """

    table: TrustTable
    places: npt.NDArray[np.signedinteger]

    @override
    def guards(self) -> Whole:
        return self.table.guards.take(self.places.astype(np.intp))

    @override
    def of(self, lens: int) -> Trust:
        return self.table.trusts[int(self.places[lens])]

    @override
    def widths(self) -> Floats:
        return self.table.widths.take(self.places.astype(np.intp))


@dataclass(frozen=True, slots=True, eq=False)
class Alike(Trusted):
    """One trust for all lenses."""

    table: TrustTable

    @override
    def guards(self) -> Whole:
        return self.table.guards

    @override
    def of(self, lens: int) -> Trust:
        return self.table.trusts[0]

    @override
    def widths(self) -> Floats:
        return self.table.widths


@dataclass(frozen=True, slots=True, eq=False)
class Listed(Trusted):
    """A trust of its own for each lens."""

    trusts: Sequence[Trust]

    @property
    @override
    def has_repeats(self) -> bool:
        return True

    @override
    def guards(self) -> Whole:
        return np.array([guard_of(trust) for trust in self.trusts], np.int64)

    @override
    def of(self, lens: int) -> Trust:
        return self.trusts[lens]

    @override
    def widths(self) -> Floats:
        return np.array([trust.factor * trust.uncertainty() for trust in self.trusts])


@dataclass(frozen=True, slots=True, eq=False)
class Scaled:
    """One reading that enters a sum so many times over.

    Attributes:
        trusted: the trust in it.
        scale: how many times, for each lens, never below zero.
        turned: where it enters with its sign turned.
    """

    trusted: Trusted
    scale: Floats
    turned: Marks

    def of(self, lens: int) -> Trust:
        """The trust in what enters."""
        scaled = self.trusted.of(lens).scaled(float(self.scale[lens]))
        return scaled.turned() if self.turned[lens] else scaled


@dataclass(frozen=True, slots=True, eq=False)
class Summed(Trusted):
    """The trust in a sum of two scaled readings."""

    right: Scaled
    left: Scaled

    @property
    @override
    def has_repeats(self) -> bool:
        return self.right.trusted.has_repeats

    @override
    def guards(self) -> Whole:
        guards, tied = millionths(self.widths())
        for place in tied:
            guards[place] = guard_of(self.of(int(place)))
        return guards

    @override
    def of(self, lens: int) -> Trust:
        return together([self.right.of(lens), self.left.of(lens)])

    @override
    def widths(self) -> Floats:
        return np.hypot(
            self.right.trusted.widths() * self.right.scale,
            self.left.trusted.widths() * self.left.scale,
        )


def summed(right: Trusted, left: Trusted, length: int, *, turned: bool) -> Trusted:
    """The trust in a sum of two readings, or with the left one turned in their difference."""
    pairs = ((right.of(lens), left.of(lens)) for lens in range(length))
    return Listed(
        [together([one, other.turned() if turned else other]) for one, other in pairs]
    )


def chosen(where: Marks, there: Trusted, elsewhere: Trusted) -> Trusted:
    """The one trust on some lenses and the other one on the rest."""
    if isinstance(there, Known) and isinstance(elsewhere, Known):
        return Known(there.table, np.where(where, there.places, elsewhere.places))
    return Listed(
        [(there if is_there else elsewhere).of(lens) for lens, is_there in enumerate(where)]
    )


class SingleReadings:
    """The trust in single readings, all on one meter."""

    def __init__(self, limits: Limits, meter: MeterUsed) -> None:
        doubt, meters = Doubt(limits.meter, limits.decision), (meter,)
        nought = (ZERO,)
        self._powers = _ladder_of(limits, "error-power", "power")
        self._prisms = _ladder_of(limits, "error-prism", "prism")
        by_prism = [
            doubt.prism((of_parts(low),), reticle=reticle)
            for reticle in (meter.is_drum, True)
            for low in self._prisms.lowest
        ]
        self._power = TrustTable(
            [doubt.power((of_parts(low),), meters) for low in self._powers.lowest]
        )
        self._prism = TrustTable(by_prism)
        self._prism_pair = TrustTable(
            [together([right, left]) for right in by_prism for left in by_prism]
        )
        length = doubt.measured(nought, "step-rule")
        self.cylinder = Alike(TrustTable([doubt.power_difference(nought, meters)]))
        self.add = self.cylinder
        self.axis = Alike(TrustTable([doubt.axis(nought)]))
        self.distance = self.height = Alike(TrustTable([length]))
        self.length_pair = Alike(TrustTable([together([length, length])]))

    def power(self, found: Whole) -> Known:
        """In a principal power, by its size."""
        return Known(self._power, self._powers.steps(np.abs(found)))

    def prism(self, found: Whole, on_reticle: Marks | None) -> Known:
        """In a component of prism, by its size.

        Args:
            found: what was found.
            on_reticle: where no power was read with it: it is then taken as read on a reticle.
        """
        places = self._prisms.steps(np.abs(found))
        if on_reticle is not None:
            places += on_reticle.view(np.int8) * np.int8(len(self._prisms.lowest))
        return Known(self._prism, places)

    def prism_pair(self, right: Known, left: Known) -> Trusted:
        """In the net of two components of prism."""
        places = right.places.astype(np.int16) * len(self._prism.trusts)
        return Known(self._prism_pair, places + left.places)


def _ladder_of(limits: Limits, quantity: str, of: str) -> Ladder:
    row = limits.meter.row(quantity)
    if row is None:
        raise LookupError(f"no figure for {quantity}")
    return ladder(of, tuple(span for band in row.bands for span in band.spans))
