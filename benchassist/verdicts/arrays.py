"""The verdicts on many lens pairs at once, state by state those of the scalar judge."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import islice

import numpy as np
import numpy.typing as npt

from benchassist.job.order import Design
from benchassist.limits.load import Limits
from benchassist.verdicts.arrays_case import ArrayCase, Bench
from benchassist.verdicts.arrays_caused import judge_decentration
from benchassist.verdicts.arrays_pairs import LensPairs
from benchassist.verdicts.arrays_place import judge_centration, judge_heights
from benchassist.verdicts.arrays_power import judge_additions, judge_powers
from benchassist.verdicts.arrays_prism import judge_prisms
from benchassist.verdicts.arrays_verdict import MISSING, NONE, Verdict, Verdicts

ARRAY_RULES: tuple[Callable[[ArrayCase], Iterator[tuple[str, Verdict]]], ...] = (
    judge_powers,
    judge_additions,
    judge_prisms,
    judge_centration,
    judge_decentration,
    judge_heights,
)
"""What is judged of many pairs, in the order of the scalar rules."""

Column = npt.NDArray[np.signedinteger]

_AT_ONCE = 1 << 15
"""So many pairs at a time: their columns stay in the processor's cache."""


def judge_pairs(pairs: LensPairs, limits: Limits, design: Design) -> Verdicts:
    """The verdicts on these pairs, all of one lens design.

    The scalar judge is the authority: differences, limits, guards and states are exactly those
    of its findings on power, near addition, prism, distances and heights and the prism that
    these cause. Only to it are left an intermediate or engraved addition, tilt, thickness,
    base curve and segments, sentences, answers by eye and what a person marked as not
    applicable: the worst of a pair's states here is no verdict on all of it.

    Args:
        pairs: what was ordered and found.
        limits: the rule set, the meter and how uncertainty enters.
        design: the lens design of every pair.

    Raises:
        ValueError: an ordered axis is finer than a tenth of a degree.
    """
    bench = Bench(limits, design, pairs.meter)
    judged = _judged(pairs.part(slice(0, _AT_ONCE)), bench)
    gathered = _Gathered(_columns(judged), len(pairs))
    for start in range(_AT_ONCE, len(pairs), _AT_ONCE):
        rows = slice(start, start + _AT_ONCE)
        gathered.put(rows, _columns(_judged(pairs.part(rows), bench)))
    whole = iter(gathered.columns)
    return Verdicts({key: Verdict(*islice(whole, 4)) for key in judged})


def _judged(pairs: LensPairs, bench: Bench) -> dict[str, Verdict]:
    case = ArrayCase(pairs, bench)
    judged = (told for rule in ARRAY_RULES for told in rule(case))
    return {key: _unless_off(bench, key, verdict) for key, verdict in judged}


def _unless_off(bench: Bench, key: str, verdict: Verdict) -> Verdict:
    """What a house rule has switched off waits for no reading."""
    place, _, name = key.partition(".")
    caused = name.replace("centration-", "prism-")
    asked = (f"{name}-pair", caused) if place == "pair" else (name,)
    row = next(filter(None, map(bench.row, asked)), None)
    if row is None or not row.bands[0].rule.off:
        return verdict
    state = np.where(verdict.state == MISSING, np.int8(NONE), verdict.state)
    return replace(verdict, state=state)


def _columns(judged: Mapping[str, Verdict]) -> tuple[Column, ...]:
    return tuple(column for verdict in judged.values() for column in verdict.columns())


class _Gathered:
    """Columns of consecutive pairs put together.

    What all pairs share is kept once, and the rest in one block: the system hands out one
    large piece of memory much faster than many.

    Attributes:
        columns: the whole columns.
    """

    def __init__(self, first: Sequence[Column], length: int) -> None:
        wide = sum(column.dtype == np.int64 and not _is_shared(column) for column in first)
        block = iter(np.empty((wide, length), np.int64))
        self.columns: list[Column] = []
        for column in first:
            if _is_shared(column):
                self.columns.append(np.broadcast_to(column[0], (length,)))
            elif column.dtype == np.int64:
                self.columns.append(next(block))
            else:
                self.columns.append(np.empty(length, column.dtype))
        self.put(slice(0, len(first[0])), first)

    def put(self, rows: slice, parts: Sequence[Column]) -> None:
        """Add the next pairs."""
        for place, part in enumerate(parts):
            whole = self.columns[place]
            if _is_shared(whole):
                if _is_shared(part) and part[0] == whole[0]:
                    continue
                whole = self.columns[place] = whole.copy()
            whole[rows] = part


def _is_shared(column: Column) -> bool:
    """Whether one value stands for all of them."""
    return bool(column.size) and column.strides == (0,)
