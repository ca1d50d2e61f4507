"""The powers of many lenses: principal meridians, cylinder, axis and addition."""

from collections.abc import Iterator, Mapping
from dataclasses import replace

import numpy as np

from benchassist.limits.arrays import ABSENT, PARTS, Looked, Marks, Whole
from benchassist.optics.eye import Eye
from benchassist.verdicts.arrays_case import ArrayCase
from benchassist.verdicts.arrays_trust import Trusted, chosen
from benchassist.verdicts.arrays_verdict import (
    CLOSE,
    MISSING,
    NONE,
    Verdict,
    by_row,
    either,
    everywhere,
    filled,
    overruled,
    unjudged,
    unknown,
    weighed,
)

_HALF_TURN = 180 * PARTS
_QUARTER_TURN = 90 * PARTS


def judge_powers(case: ArrayCase) -> Iterator[tuple[str, Verdict]]:
    """The verdicts on the distance powers of both lenses."""
    for eye in Eye:
        for name, verdict in _LensPowers(case, eye).verdicts():
            yield f"{eye}.{name}", verdict


def judge_additions(case: ArrayCase) -> Iterator[tuple[str, Verdict]]:
    """The verdicts on the near additions of both lenses."""
    for eye in Eye:
        yield f"{eye}.add", _addition(case, eye)


def _addition(case: ArrayCase, eye: Eye) -> Verdict:
    if not case.bench.design.has_addition:
        return everywhere(NONE, case.length)
    side = case.pairs.side(eye)
    ordered, found = side.ordered.add, side.found.add
    if ordered is None or found is None:
        return everywhere(MISSING, case.length)
    missing = either(unknown(ordered), unknown(found))
    ordered, found = filled(ordered, missing), filled(found, missing)
    verdict = by_row(
        case.bench.row("add"),
        {"add": ordered},
        found - ordered,
        case.lens(eye, "add"),
        in_eighths=case.in_eighths(eye, "add", found),
    )
    if side.readings is not None:
        to_turn = side.readings.unturned & (verdict.limit != ABSENT)
        state = np.where(to_turn, np.int8(CLOSE), verdict.state)
        verdict = replace(verdict, state=state)
    return overruled(verdict, missing, MISSING)


def _weighed(
    difference: Whole, looked: Looked | None, trusted: Trusted, in_eighths: Marks
) -> Verdict:
    if looked is None:
        return unjudged(difference)
    return weighed(difference, looked, trusted, in_eighths=in_eighths)


class _LensPowers:
    """One lens of each pair."""

    def __init__(self, case: ArrayCase, eye: Eye) -> None:
        self._case, self._eye = case, eye
        ordered, found = case.pairs.side(eye).ordered, case.pairs.side(eye).found
        self._not_ordered = unknown(ordered.sphere)
        self._missing = either(self._not_ordered, unknown(found.sphere))
        self._ordered_axis = filled(ordered.axis, self._not_ordered)
        self._found_axis = filled(found.axis, self._missing)
        along = filled(ordered.sphere, self._missing)
        cylinder = filled(ordered.cylinder, self._missing)
        self._found_along = filled(found.sphere, self._missing)
        self._found_cylinder = filled(found.cylinder, self._missing)
        self._found_across = self._found_along + self._found_cylinder
        self._cylinder_off = self._found_cylinder - cylinder
        self._along_off = self._found_along - along
        self._across_off = self._along_off + self._cylinder_off
        self._along, self._across = np.abs(along), np.abs(along + cylinder)
        self._looked_up: Mapping[str, Whole] = {
            "power": np.maximum(self._along, self._across),
            "cylinder": -cylinder,
        }

    def verdicts(self) -> Iterator[tuple[str, Verdict]]:
        """Each quantity with its verdict."""
        for name, verdict in self._meridians():
            yield name, overruled(verdict, self._missing, MISSING)
        cylinder = by_row(
            self._case.bench.row("cylinder"),
            self._looked_up,
            self._cylinder_off,
            self._case.lens(self._eye, "cylinder"),
            in_eighths=self._case.in_eighths(self._eye, "cylinder", self._found_cylinder),
        )
        yield "cylinder", overruled(cylinder, self._missing, MISSING)
        yield "axis", self._axis()

    def _meridians(self) -> Iterator[tuple[str, Verdict]]:
        """The meridian of higher absolute power, and the other one."""
        case, eye = self._case, self._eye
        across_first = self._across_first()
        along, across = case.lens(eye, "along"), case.lens(eye, "across")
        along_eighths = case.in_eighths(eye, "along", self._found_along)
        across_eighths = case.in_eighths(eye, "across", self._found_across)
        high = np.where(across_first, self._across_off, self._along_off)
        other = self._along_off + self._across_off - high
        high_row, other_row = case.bench.row("meridian-high"), case.bench.row("meridian-other")
        looked = None if high_row is None else high_row.look(self._looked_up, case.length)
        yield (
            "meridian-high",
            _weighed(
                high,
                looked,
                chosen(across_first, across, along),
                np.where(across_first, across_eighths, along_eighths),
            ),
        )
        if other_row is not high_row:
            looked = None if other_row is None else other_row.look(self._looked_up, case.length)
        yield (
            "meridian-other",
            _weighed(
                other,
                looked,
                chosen(across_first, along, across),
                np.where(across_first, along_eighths, across_eighths),
            ),
        )

    def _across_first(self) -> Marks:
        """Whether the meridian across the axis is the higher; of two alike, the one missed."""
        missed = np.abs(self._across_off) > np.abs(self._along_off)
        alike = self._along == self._across
        first: Marks = (self._across > self._along) | (alike & missed)
        return first

    def _axis(self) -> Verdict:
        is_ordered = self._ordered_axis > 0
        apart = ~(is_ordered & (self._found_axis > 0))
        turned = self._found_axis - self._ordered_axis
        turned += (turned <= -_QUARTER_TURN) * np.int64(_HALF_TURN)
        turned -= (turned > _QUARTER_TURN) * np.int64(_HALF_TURN)
        verdict = self._judged_axis(np.where(apart, np.int64(ABSENT), turned), apart)
        if self._missing is not None:
            verdict = overruled(verdict, self._missing & is_ordered, MISSING)
        return overruled(verdict, self._not_ordered, MISSING)

    def _judged_axis(self, turned: Whole, apart: Marks) -> Verdict:
        """The axis where both have one, not judged where one has none."""
        row = self._case.bench.row("axis")
        if row is None:
            return unjudged(turned)
        looked = row.look(self._looked_up, self._case.length)
        limits = np.where(apart, np.int64(ABSENT), looked.limits)
        judged = replace(looked, limits=limits, all_judged=False)
        return weighed(turned, judged, self._case.lens(self._eye, "axis"))
