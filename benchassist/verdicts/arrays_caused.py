"""The prism that wrong places of the optical centres cause in many pairs."""

from collections.abc import Iterator

import numpy as np

from benchassist.job.order import Design
from benchassist.limits.arrays import ABSENT, PARTS, Marks, Whole
from benchassist.optics.eye import Eye
from benchassist.verdicts.arrays_case import ArrayCase
from benchassist.verdicts.arrays_imbalance import Imbalances, displacements, judge_imbalances
from benchassist.verdicts.arrays_place import Errors, are_given, column_of
from benchassist.verdicts.arrays_prism import PairOfLenses, largest
from benchassist.verdicts.arrays_trust import Scaled, Summed, Trusted, rounded
from benchassist.verdicts.arrays_verdict import (
    MISSING,
    NONE,
    NOT_ASKED,
    Verdict,
    either,
    everywhere,
    filled,
    overruled,
    unknown,
)

_PER_MILLIONTH = PARTS // 1_000_000
_HORIZONTAL, _VERTICAL = "pair.centration-horizontal", "pair.centration-vertical"


def judge_decentration(case: ArrayCase) -> Iterator[tuple[str, Verdict]]:
    """The verdicts on the prism that the places of the optical centres cause."""
    design, length = case.bench.design, case.length
    of_centres = design is Design.SINGLE_VISION
    if design.varies:
        yield _HORIZONTAL, everywhere(NOT_ASKED, length)
        yield _VERTICAL, everywhere(NOT_ASKED, length)
    elif are_given(case, "distance") or are_given(case, "height"):
        caused = _Caused(case)
        yield _HORIZONTAL, caused.horizontal()
        yield _VERTICAL, caused.vertical() if of_centres else everywhere(NONE, length)
    else:
        yield _HORIZONTAL, everywhere(MISSING, length)
        yield _VERTICAL, everywhere(NOT_ASKED if of_centres else NONE, length)


def _nought_where(where: Marks | None, right: Whole, left: Whole) -> tuple[Whole, Whole]:
    return filled(right, where), filled(left, where)


class _Caused:
    """The prism of both lenses by their whole power and both errors of their centres."""

    def __init__(self, case: ArrayCase) -> None:
        self._case = case
        self._lenses = PairOfLenses(case)
        distances = Errors(case, "distance")
        self._distances_unknown = distances.unknown
        self._wider = _nought_where(distances.unknown, distances.right, distances.left)
        self._heights = Errors(case, "height")
        self._heights_unread = either(
            *(unknown(column_of(case, side.found, "height")) for side in case.sides)
        )
        self._higher = self._height_errors()
        (right_in, right_up), (left_in, left_up) = (
            lens.prentice(eye, -wider / PARTS, higher / PARTS)
            for lens, eye, wider, higher in zip(
                (self._lenses.right, self._lenses.left),
                Eye,
                self._wider,
                self._higher,
                strict=True,
            )
        )
        self._net = {
            "horizontal": rounded(right_in + left_in),
            "vertical": rounded(right_up - left_up),
        }

    def horizontal(self) -> Verdict:
        """By the distances."""
        right, left = self._wider
        verdict = self._by_prism("horizontal", self._wider, np.abs(right + left))
        return overruled(verdict, self._distances_unknown, MISSING)

    def vertical(self) -> Verdict:
        """By the heights of the optical centres."""
        right, left = self._higher
        verdict = self._by_prism("vertical", self._higher, np.abs(right - left))
        if self._heights_unread is None:
            return verdict
        ordered = [
            column_of(self._case, side.ordered, "height") != ABSENT for side in self._case.sides
        ]
        verdict = overruled(verdict, self._heights_unread, MISSING)
        nothing = self._heights_unread & ~(ordered[0] | ordered[1])
        return overruled(verdict, nothing, NOT_ASKED)

    def _height_errors(self) -> tuple[Whole, Whole]:
        """Found minus ordered heights; where one is not ordered both should be level."""
        if self._case.bench.design is not Design.SINGLE_VISION:
            nothing = np.zeros(self._case.length, np.int64)
            return nothing, nothing
        if self._heights.unknown is None:
            return self._heights.right, self._heights.left
        found = [
            filled(column_of(self._case, side.found, "height"), self._heights_unread)
            for side in self._case.sides
        ]
        level = _mean(*found)
        right, left = (
            np.where(self._heights.unknown, height - level, error)
            for height, error in zip(
                found, (self._heights.right, self._heights.left), strict=True
            )
        )
        return _nought_where(self._heights_unread, right, left)

    def _by_prism(
        self, direction: str, errors: tuple[Whole, Whole], measured: Whole
    ) -> Verdict:
        case, lenses, net = self._case, self._lenses, self._net[direction]
        row = case.bench.row(f"prism-{direction}")
        if row is None:
            return overruled(everywhere(NONE, case.length), lenses.unknown, MISSING)
        strongest = largest(lenses.along(direction))
        is_vertical = direction == "vertical"
        name = "height" if is_vertical else "distance"

        def total_mm() -> Whole:
            by_prism = displacements(net, strongest)
            return np.where(by_prism == ABSENT, ABSENT, np.maximum(by_prism, measured))

        def in_prism() -> Trusted:
            scale = strongest / PARTS / 10.0
            turned = [np.full(case.length, is_vertical and eye is Eye.LEFT) for eye in Eye]
            right, left = (
                Scaled(case.lens(eye, name), scale, way)
                for eye, way in zip(Eye, turned, strict=True)
            )
            return Summed(right, left)

        ordered = lenses.prism_ordered(direction)
        imbalances = Imbalances(
            net=net,
            looked_up={"power": strongest, "prism": largest(ordered)},
            total_mm=total_mm,
            each_mm=lambda: largest(errors),
            in_prism=in_prism,
            in_mm=lambda: case.pair(name, turned=is_vertical),
        )
        verdict = judge_imbalances(row, imbalances)
        return overruled(verdict, lenses.unknown, MISSING)


def _mean(right: Whole, left: Whole) -> Whole:
    """The mean of two columns of whole millionths, rounded to a millionth, half to even."""
    total = (right + left) // _PER_MILLIONTH
    half = total // 2
    return (half + (total % 2) * (half % 2)) * _PER_MILLIONTH
