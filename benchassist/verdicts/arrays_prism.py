"""Prism of many pairs as read at the reference points."""

from collections.abc import Iterator
from math import cos, radians, sin

import numpy as np

from benchassist.limits.arrays import ABSENT, PARTS, Marks, Whole
from benchassist.optics.eye import Eye
from benchassist.verdicts.arrays_case import ArrayCase
from benchassist.verdicts.arrays_imbalance import Imbalances, displacements, judge_imbalances
from benchassist.verdicts.arrays_pairs import Lenses
from benchassist.verdicts.arrays_trust import Floats, Scaled, Summed, Trusted, rounded
from benchassist.verdicts.arrays_verdict import (
    MISSING,
    NONE,
    Verdict,
    either,
    everywhere,
    filled,
    overruled,
    unknown,
)

_TENTH = PARTS // 10
_TENTHS = [tenths / 10 for tenths in range(1801)]
_MERIDIANS = {
    "horizontal": np.array([sin(radians(180.0 - axis)) ** 2 for axis in _TENTHS]),
    "vertical": np.array([sin(radians(90.0 - axis)) ** 2 for axis in _TENTHS]),
}
"""The share of a cylinder along each meridian, by its axis in tenths of a degree."""
_COSINES = np.array([cos(radians(2.0 * axis)) for axis in _TENTHS])
_SINES = np.array([sin(radians(2.0 * axis)) for axis in _TENTHS])
_COMPONENT = {"horizontal": "base_in", "vertical": "base_up"}


class OrderedLenses:
    """The ordered powers of one side, ready for trigonometry as the scalar judge does it."""

    def __init__(self, ordered: Lenses) -> None:
        self.unknown = unknown(ordered.sphere)
        axis = filled(ordered.axis, self.unknown)
        self._tenths = axis // _TENTH
        if (self._tenths * _TENTH != axis).any():
            raise ValueError("an ordered axis is finer than a tenth of a degree")
        self._sphere = filled(ordered.sphere, self.unknown) / PARTS
        self._cylinder = filled(ordered.cylinder, self.unknown) / PARTS

    def along(self, direction: str) -> Whole:
        """The power along the meridian of a direction, in parts."""
        share = _MERIDIANS[direction].take(self._tenths)
        return rounded(self._sphere + self._cylinder * share)

    def prentice(self, eye: Eye, oc_in: Floats, oc_up: Floats) -> tuple[Floats, Floats]:
        """The prism, base in and base up, of decentrations in mm, as `optics.prism` has it."""
        half = -self._cylinder / 2.0
        mean = self._sphere + self._cylinder / 2.0
        j0, j45 = half * _COSINES.take(self._tenths), half * _SINES.take(self._tenths)
        x, y = oc_in * eye.nasal_sign, oc_up
        right = (mean + j0) * x + j45 * y
        return right * eye.nasal_sign / 10.0, (j45 * x + (mean - j0) * y) / 10.0


class PairOfLenses:
    """Both ordered lenses of each pair."""

    def __init__(self, case: ArrayCase) -> None:
        self.right, self.left = (OrderedLenses(side.ordered) for side in case.sides)
        self.unknown = either(self.right.unknown, self.left.unknown)
        self._case = case

    def along(self, direction: str) -> tuple[Whole, Whole]:
        """Both powers in a meridian."""
        return self.right.along(direction), self.left.along(direction)

    def prism_ordered(self, direction: str) -> tuple[Whole, Whole]:
        """The ordered component of each lens; none where no prism is ordered."""
        name = _COMPONENT[direction]
        nothing = np.broadcast_to(np.int64(0), (self._case.length,))
        right, left = (
            nothing if column is None else column
            for side in self._case.sides
            for column in [getattr(side.ordered, name)]
        )
        return right, left


def judge_prisms(case: ArrayCase) -> Iterator[tuple[str, Verdict]]:
    """The verdicts on the prism read, of the pair in both directions."""
    lenses = PairOfLenses(case)
    for direction in _COMPONENT:
        yield f"pair.prism-{direction}", _read_prism(case, lenses, direction)


def _read_prism(case: ArrayCase, lenses: PairOfLenses, direction: str) -> Verdict:
    name = _COMPONENT[direction]
    found = [getattr(side.found, name) for side in case.sides]
    if found[0] is None or found[1] is None:
        return everywhere(MISSING, case.length)
    missing = either(unknown(*found), lenses.unknown)
    row = case.bench.row(f"prism-{direction}")
    if row is None:
        return overruled(everywhere(NONE, case.length), missing, MISSING)
    ordered, powers = lenses.prism_ordered(direction), lenses.along(direction)
    right, left = (
        filled(read, missing) - wanted for read, wanted in zip(found, ordered, strict=True)
    )
    is_turned = direction == "vertical"
    net = right - left if is_turned else right + left
    moved = _Moved((right, left), powers, is_turned=is_turned)
    imbalances = Imbalances(
        net=net,
        looked_up={"power": largest(powers), "prism": largest(ordered)},
        total_mm=moved.total,
        each_mm=moved.each,
        in_prism=lambda: case.pair(name, turned=is_turned),
        in_mm=lambda: _in_mm(case, name, powers, is_turned=is_turned),
    )
    return overruled(judge_imbalances(row, imbalances), missing, MISSING)


def largest(pair: tuple[Whole, Whole]) -> Whole:
    """The larger of two sizes."""
    sizes: Whole = np.maximum(np.abs(pair[0]), np.abs(pair[1]))
    return sizes


class _Moved:
    """How far the centres are off, by the prism of each lens and its own power."""

    def __init__(
        self, left_over: tuple[Whole, Whole], powers: tuple[Whole, Whole], *, is_turned: bool
    ) -> None:
        self._left_over, self._powers, self._is_turned = left_over, powers, is_turned

    def total(self) -> Whole:
        """Of the pair, mm in parts; `ABSENT` where one lens has prism and no power."""
        (right, left), untold = self._lenses()
        net = right - left if self._is_turned else right + left
        return np.where(untold, ABSENT, np.abs(net))

    def each(self) -> Whole:
        """The larger of both."""
        lenses, untold = self._lenses()
        return np.where(untold, ABSENT, largest(lenses))

    def _lenses(self) -> tuple[tuple[Whole, Whole], Marks]:
        """Both, inwards or upwards positive, and where they cannot be told."""
        right, left = self._left_over
        if self._is_turned:
            common = _common(right, left)
            right, left = right - common, left - common
        sizes = [
            displacements(prism, np.abs(power))
            for prism, power in zip((right, left), self._powers, strict=True)
        ]
        untold = (sizes[0] == ABSENT) | (sizes[1] == ABSENT)
        signed = (
            np.where(untold, 0, size) * np.sign(prism) * np.sign(power)
            for size, prism, power in zip(sizes, (right, left), self._powers, strict=True)
        )
        first, second = signed
        return (first, second), untold


def _common(right: Whole, left: Whole) -> Whole:
    """The vertical prism that both lenses have alike."""
    smaller = np.where(np.abs(left) < np.abs(right), left, right)
    return np.where(np.sign(right) * np.sign(left) > 0, smaller, 0)


def _in_mm(
    case: ArrayCase, name: str, powers: tuple[Whole, Whole], *, is_turned: bool
) -> Trusted:
    right, left = (
        Scaled(
            case.lens(eye, name),
            _mm_per_prism(np.abs(power)),
            (power < 0) ^ (is_turned and eye is Eye.LEFT),
        )
        for eye, power in zip(Eye, powers, strict=True)
    )
    return Summed(right, left)


def _mm_per_prism(power: Whole) -> Floats:
    """The displacement that one prism dioptre amounts to, mm; none without power."""
    has_power = power > 0
    if has_power.all():
        return 10.0 / (power / PARTS)
    return np.where(has_power, 10.0 / (np.maximum(power, 1) / PARTS), 0.0)
