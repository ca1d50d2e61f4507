"""Many differences beside their limits: the states they give."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from benchassist.limits.arrays import (
    ABSENT,
    PARTS,
    Looked,
    Marks,
    Places,
    RowLookup,
    Whole,
    of_parts,
)
from benchassist.verdicts.arrays_trust import Trusted
from benchassist.verdicts.finding import WORST_FIRST, State
from benchassist.verdicts.weigh import Value

Codes = npt.NDArray[np.int8]
"""A column of states, by their places in `STATES`, or `NOT_ASKED`."""

STATES = (State.WITHIN, State.CLOSE, State.OUTSIDE, State.MISSING, State.NONE)
"""What the codes mean."""

NOT_ASKED = len(STATES)
"""The code where the scalar judge gives no finding at all."""

WITHIN, CLOSE, OUTSIDE, MISSING, NONE = range(len(STATES))

_EIGHTH = PARTS // 8
_HUNDREDTH = PARTS // 100
_NOISE = PARTS // 100_000


@dataclass(frozen=True, slots=True, eq=False)
class Verdict:
    """One quantity of many pairs beside its limits.

    Attributes:
        difference: found minus ordered, or the size that the limit bounds, in parts; `ABSENT`
            where there is none.
        limit: largest size allowed, in parts; `ABSENT` where none applies.
        guard: half-width of the zone inside the limit where the reading decides, in parts.
        state: how it stands.
    """

    difference: Whole
    limit: Whole
    guard: Whole
    state: Codes

    def columns(self) -> Iterator[npt.NDArray[np.signedinteger]]:
        """The four columns in this order."""
        yield from (self.difference, self.limit, self.guard, self.state)


@dataclass(frozen=True, slots=True, eq=False)
class Verdicts:
    """What was judged of many pairs.

    Attributes:
        by_key: one verdict a quantity, by the keys of findings, such as 'right.cylinder'.
    """

    by_key: Mapping[str, Verdict]

    def worst(self) -> Codes:
        """The state of each pair that needs a person most."""
        worst: Codes = np.full(len(next(iter(self.by_key.values())).state), NONE, np.int8)
        for state in reversed(WORST_FIRST):
            code = STATES.index(state)
            found = np.logical_or.reduce(
                [one.state == code for one in self.by_key.values()], axis=0
            )
            worst = np.where(found, np.int8(code), worst)
        return worst


def weighed(
    difference: Whole, looked: Looked, trusted: Trusted, *, in_eighths: Marks | None = None
) -> Verdict:
    """Each difference beside its limit: on the limit is within, unless the guard reaches it.

    Args:
        difference: of either sign.
        looked: the limits.
        trusted: how far the readings can be trusted.
        in_eighths: where all readings show eighths of a dioptre; None for other units.
    """
    limit = looked.limits
    written = _written(in_eighths, looked)
    compared = difference if written is None else as_written(difference, written)
    size = np.abs(compared)
    guard = trusted.guards()
    if not looked.all_judged:
        guard = np.where(limit == ABSENT, 0, guard)
    state: Codes = (size > limit).view(np.int8)
    state += (size > limit - guard).view(np.int8)
    for lens in _to_ask(size, looked, trusted):
        value = Value(
            difference=of_parts(difference[lens]),
            in_eighths=written is not None and bool(written[lens]),
        )
        if value.is_contradicted(trusted.of(int(lens)), of_parts(limit[lens])):
            state[lens] = CLOSE
    if not looked.all_judged:
        state = np.where(limit == ABSENT, np.int8(NONE), state)
    return Verdict(compared, limit, guard, state)


def _written(in_eighths: Marks | None, looked: Looked) -> Marks | None:
    """Where a difference is compared as the trade writes eighths: beside a written figure."""
    if in_eighths is None:
        return None
    if looked.grown is not None:
        in_eighths = in_eighths & ~looked.grown
    return in_eighths if looked.all_judged else in_eighths & (looked.limits != ABSENT)


def _to_ask(size: Whole, looked: Looked, trusted: Trusted) -> Places:
    """Which lenses the scalar judge is asked about, whether repeats speak against their mean.

    Single readings do not, but that it rounds them to a hundred-thousandth before it asks.
    """
    if trusted.has_repeats:
        return np.flatnonzero(looked.limits != ABSENT)
    if looked.is_coarse:
        return np.zeros(0, np.intp)
    return np.flatnonzero((size <= looked.limits) & (size > looked.limits - _NOISE))


def as_written(difference: Whole, where: Marks) -> Whole:
    """The differences, whole eighths among the marked ones cut to hundredths."""
    places = np.flatnonzero(where)
    marked = difference[places]
    is_whole = marked % _EIGHTH == 0
    places, marked = places[is_whole], marked[is_whole]
    size = np.abs(marked)
    written = difference.copy()
    written[places] = np.sign(marked) * (size - size % _HUNDREDTH)
    return written


def shows_eighths(found: Whole) -> Marks:
    """Where a reading shows eighths of a dioptre."""
    shows: Marks = found // _EIGHTH * _EIGHTH == found
    return shows


def by_row(
    row: RowLookup | None,
    looked_up: Mapping[str, Whole],
    difference: Whole,
    trusted: Trusted,
    *,
    in_eighths: Marks | None = None,
) -> Verdict:
    """Each difference beside the limit of a row; told and not judged where there is no row."""
    if row is None:
        return unjudged(difference)
    looked = row.look(looked_up, len(difference))
    return weighed(difference, looked, trusted, in_eighths=in_eighths)


def unjudged(difference: Whole) -> Verdict:
    """Differences that are told and not judged."""
    length = len(difference)
    return Verdict(
        difference,
        np.broadcast_to(np.int64(ABSENT), (length,)),
        np.broadcast_to(np.int64(0), (length,)),
        np.broadcast_to(np.int8(NONE), (length,)),
    )


def everywhere(code: int, length: int) -> Verdict:
    """One state for all, without numbers."""
    absent = np.broadcast_to(np.int64(ABSENT), (length,))
    guard = np.broadcast_to(np.int64(0), (length,))
    return Verdict(absent, absent, guard, np.broadcast_to(np.int8(code), (length,)))


def overruled(verdict: Verdict, where: Marks | None, code: int) -> Verdict:
    """The verdict with another state and no numbers on some pairs."""
    if where is None:
        return verdict
    return replaced(verdict, everywhere(code, len(where)), where)


def replaced(old: Verdict, new: Verdict, where: Marks) -> Verdict:
    """The old verdict, on some pairs the new one."""
    columns = zip(old.columns(), new.columns(), strict=True)
    return Verdict(*(np.where(where, after, before) for before, after in columns))


def unknown(*columns: Whole | None) -> Marks | None:
    """Where one of these is not known, if anywhere; columns left out are skipped."""
    places = [
        column == ABSENT
        for column in columns
        if column is not None and column.size and column.min() == ABSENT
    ]
    return np.logical_or.reduce(places) if places else None


def either(*marks: Marks | None) -> Marks | None:
    """Where one of these marks stands, if there is such a place."""
    known = [mark for mark in marks if mark is not None]
    return np.logical_or.reduce(known) if known else None


def filled(column: Whole, where: Marks | None) -> Whole:
    """The column with nought where it is not known."""
    return column if where is None else np.where(where, np.int64(0), column)
