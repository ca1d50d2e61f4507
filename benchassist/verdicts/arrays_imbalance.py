"""One direction of prism imbalance of many pairs beside its limits, in prism or millimetres."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

import numpy as np

from benchassist.limits.arrays import ABSENT, PARTS, RowLookup, Whole, is_judged
from benchassist.verdicts.arrays_trust import Trusted
from benchassist.verdicts.arrays_verdict import (
    NONE,
    Verdict,
    by_row,
    everywhere,
    replaced,
    unjudged,
    weighed,
)

_PER_MILLIONTH = PARTS // 1_000_000
_SILENT = np.int8(127)
"""Larger than anything that a cell says."""


@dataclass(frozen=True, slots=True, eq=False)
class Imbalances:
    """One direction of the imbalance of many pairs, in parts.

    Attributes:
        net: what is left after the ordered prism, prism dioptres.
        looked_up: the stronger power in the meridian and the larger ordered component.
        total_mm: gives the displacement of the pair, `ABSENT` where it cannot be told.
        each_mm: gives the larger displacement of the two lenses, `ABSENT` likewise.
        in_prism: gives the trust in the net prism.
        in_mm: gives the trust in the displacement.
    """

    net: Whole
    looked_up: Mapping[str, Whole]
    total_mm: Callable[[], Whole]
    each_mm: Callable[[], Whole]
    in_prism: Callable[[], Trusted]
    in_mm: Callable[[], Trusted]


def displacements(prism: Whole, power: Whole) -> Whole:
    """The decentration in parts of a millimetre behind a prism; `ABSENT` without power.

    Both sizes in parts, both whole millionths. Rounded to a millionth, half to even.
    """
    has_power = power > 0
    if has_power.all():
        return _quotients(np.abs(prism), power)
    moved = _quotients(np.abs(prism), np.where(has_power, power, _PER_MILLIONTH))
    return np.where(has_power, moved, np.where(prism == 0, 0, ABSENT))


def _quotients(prism: Whole, power: Whole) -> Whole:
    """Ten times the prism by the power: a binary estimate put right by its whole remainder."""
    top, below = prism // _PER_MILLIONTH * 10_000_000, power // _PER_MILLIONTH
    whole = np.rint(top / below).astype(np.int64)
    left = 2 * (top - whole * below)
    wrong = np.flatnonzero(np.abs(left) >= below)
    for place in wrong:
        whole[place] = _half_to_even(int(top[place]), int(below[place]))
    return whole * _PER_MILLIONTH


def _half_to_even(top: int, below: int) -> int:
    whole, left = divmod(2 * top + below, 2 * below)
    return whole - 1 if left == 0 and whole % 2 else whole


def judge_imbalances(row: RowLookup, imbalances: Imbalances) -> Verdict:
    """The verdicts of one direction.

    Of the cells of a row with `either` the one that the power chooses speaks first, another
    one only where it is kinder; what is not judged lets all pass and is kindest.
    """
    units = {band.unit for band in row.bands}
    if not row.either and "mm" not in units:
        return by_row(row, imbalances.looked_up, imbalances.net, imbalances.in_prism())
    return _kindest(row, imbalances)


def _kindest(row: RowLookup, imbalances: Imbalances) -> Verdict:
    """The verdict by the chosen cell, or by another one that is kinder."""
    length = len(imbalances.net)
    chosen = row.places(imbalances.looked_up, length)
    best, least = everywhere(NONE, length), np.broadcast_to(_SILENT, (length,))
    for place, band in enumerate(row.bands):
        if band.base is None:
            continue
        told = _by_band(row, place, imbalances)
        turn = np.where(chosen == place, np.int8(0), np.int8(place + 1))
        severity = (told.state + np.int8(1)) * (told.state != NONE).view(np.int8)
        order = severity * np.int8(len(row.bands) + 1) + turn
        silent = told.difference == ABSENT
        if not row.either:
            silent |= turn > 0
        better = (order < least) & ~silent
        least = np.where(better, order, least)
        best = replaced(best, told, better)
    return best


def _by_band(row: RowLookup, place: int, imbalances: Imbalances) -> Verdict:
    """What one cell says of every pair, whether it is chosen or not."""
    band = row.bands[place]
    if band.unit != "mm":
        size, trusted = imbalances.net, imbalances.in_prism
    else:
        size = imbalances.each_mm() if band.each else imbalances.total_mm()
        trusted = imbalances.in_mm
    if not is_judged(band):
        return unjudged(size)
    looked = row.look_by(place, imbalances.looked_up, len(size))
    told = np.where(size == ABSENT, 0, size)
    verdict = weighed(told, looked, trusted())
    return replace(verdict, difference=size)
