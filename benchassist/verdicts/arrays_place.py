"""Where the lenses of many pairs sit: centration distances and heights."""

from collections.abc import Iterator

import numpy as np

from benchassist.limits.arrays import ABSENT, Marks, RowLookup, Whole
from benchassist.optics.eye import Eye
from benchassist.verdicts.arrays_case import ArrayCase
from benchassist.verdicts.arrays_pairs import Lenses
from benchassist.verdicts.arrays_verdict import (
    MISSING,
    NOT_ASKED,
    Verdict,
    by_row,
    either,
    everywhere,
    filled,
    overruled,
    unjudged,
    unknown,
)


class Errors:
    """Found minus ordered lengths of both lenses, in parts.

    Attributes:
        right: of the right lens, nought where it is not known.
        left: of the left one.
        right_unknown: where it is not known on the right; None where it is known everywhere.
        left_unknown: the same on the left.
    """

    def __init__(self, case: ArrayCase, quantity: str) -> None:
        (self.right, self.right_unknown), (self.left, self.left_unknown) = (
            _error(
                column_of(case, side.ordered, quantity), column_of(case, side.found, quantity)
            )
            for side in case.sides
        )

    @property
    def unknown(self) -> Marks | None:
        """Where one of the two is not known."""
        return either(self.right_unknown, self.left_unknown)


def _error(ordered: Whole, found: Whole) -> tuple[Whole, Marks | None]:
    missing = either(unknown(ordered), unknown(found))
    return filled(found, missing) - filled(ordered, missing), missing


def column_of(case: ArrayCase, lenses: Lenses, quantity: str) -> Whole:
    """A column of lengths; absent throughout where it was left out."""
    column: Whole | None = getattr(lenses, quantity)
    return np.broadcast_to(np.int64(ABSENT), (case.length,)) if column is None else column


def are_given(case: ArrayCase, quantity: str) -> bool:
    """Whether any column of a length is given, ordered or found."""
    return any(
        getattr(lenses, quantity) is not None
        for side in case.sides
        for lenses in (side.ordered, side.found)
    )


def judge_centration(case: ArrayCase) -> Iterator[tuple[str, Verdict]]:
    """The verdicts on centration distances."""
    asked = MISSING if case.bench.design.varies else NOT_ASKED
    if not are_given(case, "distance"):
        yield from _not_given(case, "centration", asked, NOT_ASKED)
        return
    errors = Errors(case, "distance")
    row = case.bench.row("centration")
    for eye, lens in _lenses(case, row, "distance", errors, asked):
        yield f"{eye}.centration", lens
    together = unjudged(errors.right + errors.left)
    yield "pair.centration", overruled(together, errors.unknown, NOT_ASKED)


def judge_heights(case: ArrayCase) -> Iterator[tuple[str, Verdict]]:
    """The verdicts on heights; those of optical centres are judged by the prism they cause."""
    design = case.bench.design
    is_asked = design.varies or design.has_segment
    asked = MISSING if is_asked else NOT_ASKED
    if not are_given(case, "height"):
        yield from _not_given(case, "height", asked, asked)
        return
    errors = Errors(case, "height")
    row = case.bench.row("height") if is_asked else None
    for eye, lens in _lenses(case, row, "height", errors, asked):
        yield f"{eye}.height", lens
    if is_asked:
        trusted = case.pair("height", turned=True)
        apart = errors.right - errors.left
        verdict = by_row(case.bench.row("height-pair"), {}, apart, trusted)
        yield "pair.height", overruled(verdict, errors.unknown, MISSING)
    else:
        yield "pair.height", everywhere(NOT_ASKED, case.length)


def _lenses(
    case: ArrayCase, row: RowLookup | None, quantity: str, errors: Errors, asked: int
) -> Iterator[tuple[Eye, Verdict]]:
    of_eye = {
        Eye.RIGHT: (errors.right, errors.right_unknown),
        Eye.LEFT: (errors.left, errors.left_unknown),
    }
    for eye, (error, where) in of_eye.items():
        verdict = by_row(row, {}, error, case.lens(eye, quantity))
        yield eye, overruled(verdict, where, asked)


def _not_given(
    case: ArrayCase, name: str, asked: int, of_pair: int
) -> Iterator[tuple[str, Verdict]]:
    for eye in Eye:
        yield f"{eye}.{name}", everywhere(asked, case.length)
    yield f"pair.{name}", everywhere(of_pair, case.length)
