"""Limits looked up for many lenses at once, in whole numbers so that edges stay exact."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import ROUND_CEILING, ROUND_FLOOR, Decimal
from itertools import product

import numpy as np
import numpy.typing as npt

from benchassist.limits.table import Band, Row, Span

Whole = npt.NDArray[np.int64]
"""A column of values in parts."""

Marks = npt.NDArray[np.bool_]
"""A column of yes and no."""

Steps = npt.NDArray[np.int8]
"""A column of small places."""

Places = npt.NDArray[np.intp]
"""A column of places in a small table."""

PARTS = 1_000_000_000
"""So many parts make one dioptre, prism dioptre, millimetre or degree.

A reading's mean is told to a millionth; a limit that grows with a power is finer still.
"""

ABSENT = int(np.iinfo(np.int64).min)
"""What stands in a column of parts where nothing is known; it is no value."""

_HUNDRED_THOUSANDTH = PARTS // 100_000

_FINE = 100_000_000
"""Parts of a part, in which a growing limit is reckoned before it is cut to whole parts."""


def in_parts(value: Decimal) -> int:
    """A value in parts.

    Raises:
        ValueError: it is finer than a part.
    """
    parts = value * PARTS
    whole = int(parts)
    if whole != parts:
        raise ValueError(f"{value} is finer than a part of {PARTS}")
    return whole


def of_parts(parts: int) -> Decimal:
    """The value that so many parts are."""
    return Decimal(int(parts)) / PARTS


@dataclass(frozen=True, slots=True)
class Ladder:
    """The edges of a row along one looked-up quantity.

    Attributes:
        of: the quantity looked up.
        starts: the lowest value of each step but the first, in parts, rising.
    """

    of: str
    starts: tuple[int, ...]

    @property
    def lowest(self) -> tuple[int, ...]:
        """The lowest value of every step, in parts."""
        return (0, *self.starts)

    def steps(self, values: Whole) -> Steps:
        """On which step each value lies, the first being 0."""
        reached = np.zeros(values.shape, np.int8)
        for start in self.starts:
            reached += (values >= start).view(np.int8)
        return reached


def ladder(of: str, spans: tuple[Span, ...]) -> Ladder:
    """The ladder that these spans make of one quantity."""
    starts = {start for span in spans if span.of == of for start in _starts(span)}
    return Ladder(of, tuple(sorted(starts - {0})))


def _starts(span: Span) -> tuple[int, ...]:
    """The lowest whole part within the span, and the lowest one past it."""
    starts = []
    if span.low is not None:
        starts.append(_first_from(span.low, takes=span.takes_low))
    if span.high is not None:
        starts.append(_first_from(span.high, takes=not span.takes_high))
    return tuple(starts)


def _first_from(edge: Decimal, *, takes: bool) -> int:
    """The lowest whole part from an edge upwards, the edge itself taken or not."""
    parts = int((edge * PARTS).to_integral_value(ROUND_CEILING))
    return parts if takes or parts != edge * PARTS else parts + 1


@dataclass(frozen=True, slots=True, eq=False)
class Looked:
    """The limits of many lenses by one row.

    Attributes:
        limits: in parts, `ABSENT` where the row judges nothing. A limit finer than a part is
            cut down to it: no state depends on the rest, for what is compared with it comes
            in whole parts.
        grown: where the limit grows with what was looked up; None where none does.
        all_judged: whether there is a limit everywhere.
        is_coarse: whether every limit is a whole number of hundred-thousandths.
    """

    limits: Whole
    grown: Marks | None
    all_judged: bool
    is_coarse: bool


class RowLookup:
    """One row of a rule set made ready for columns of looked-up values.

    Attributes:
        bands: the row's cells.
        either: whether being within one of them is enough.
    """

    def __init__(self, row: Row) -> None:
        spans = tuple(span for band in row.bands for span in band.spans)
        names = sorted({span.of for span in spans})
        self._ladders = tuple(ladder(name, spans) for name in names)
        corners = product(*(one.lowest for one in self._ladders))
        places = [
            _place(row, dict(zip(names, map(of_parts, corner), strict=True)))
            for corner in corners
        ]
        self._growths = tuple(_Growth.from_band(band) for band in row.bands)
        self._place_of = np.array(places, np.intp)
        self._of_cell = _Growths([self._growths[place] for place in places])
        self.bands = row.bands
        self.either = row.either

    def places(self, looked_up: Mapping[str, Whole], length: int) -> Places:
        """The place in `bands` of the one that holds for each lens."""
        return self._place_of.take(self._cells(looked_up, length))

    def look(self, looked_up: Mapping[str, Whole], length: int) -> Looked:
        """The limits by the bands that hold."""
        if not self._ladders:
            return self.look_by(0, looked_up, length)
        return self._of_cell.look(self._cells(looked_up, length), looked_up)

    def look_by(self, place: int, looked_up: Mapping[str, Whole], length: int) -> Looked:
        """The limits by the band at one place, whether it holds or not."""
        cells = np.broadcast_to(np.intp(0), (length,))
        return _Growths([self._growths[place]]).look(cells, looked_up)

    def _cells(self, looked_up: Mapping[str, Whole], length: int) -> Places:
        """In which cell each lens lies, by the steps of all looked-up quantities."""
        cell = np.zeros(length, np.int8)
        for one in self._ladders:
            cell *= len(one.lowest)
            cell += one.steps(looked_up[one.of])
        return cell.astype(np.intp)


def is_judged(band: Band) -> bool:
    """Whether a band has a limit that somebody is held to."""
    return band.base is not None and not band.rule.off


def _place(row: Row, looked_up: dict[str, Decimal]) -> int:
    held = row.band(looked_up)
    return next(place for place, band in enumerate(row.bands) if band is held)


@dataclass(frozen=True, slots=True)
class _Growth:
    """The limit of one band: parts, and parts of a part for each part of what it grows with."""

    base: int
    finest: int
    per: int
    of: str

    @classmethod
    def from_band(cls, band: Band) -> "_Growth":
        """The limit of a band.

        Raises:
            ValueError: it grows by a figure of more than eight decimals.
        """
        if band.base is None or not is_judged(band):
            return cls(ABSENT, 0, 0, "")
        per = band.per * _FINE
        if int(per) != per:
            raise ValueError(f"a limit that grows by {band.per} is too fine to look up")
        finest = int((band.base * PARTS * _FINE).to_integral_value(ROUND_FLOOR))
        return cls(finest // _FINE, finest, int(per), band.of)


class _Growths:
    """The limits of several cells, to be taken cell by cell."""

    def __init__(self, growths: Sequence[_Growth]) -> None:
        self._base = np.array([growth.base for growth in growths], np.int64)
        self._grows = np.array([growth.of != "" for growth in growths])
        self._per = {
            of: np.array([growth.per * (growth.of == of) for growth in growths], np.int64)
            for of in sorted({growth.of for growth in growths if growth.per})
        }
        finest = [growth.finest if self._per else 0 for growth in growths]
        self._finest = np.array(finest, np.int64)
        self._all_judged = all(growth.base != ABSENT for growth in growths)
        self._is_coarse = not self._per and all(
            growth.base == ABSENT or growth.base % _HUNDRED_THOUSANDTH == 0
            for growth in growths
        )

    def look(self, cells: Places, looked_up: Mapping[str, Whole]) -> Looked:
        """The limit of each lens, by the cell in which it lies."""
        if not self._per:
            limits = self._base.take(cells)
            return Looked(limits, None, self._all_judged, self._is_coarse)
        limits = self._finest.take(cells)
        for of, per in self._per.items():
            limits += per.take(cells) * looked_up[of]
        limits //= _FINE
        if not self._all_judged:
            limits = np.where(self._base.take(cells) == ABSENT, ABSENT, limits)
        return Looked(limits, self._grows.take(cells), self._all_judged, self._is_coarse)
