"""Lens pairs as columns, taken from jobs."""

from collections.abc import Iterable, Mapping, Sequence
from decimal import Decimal
from typing import Any

import numpy as np

from benchassist.job.document import Job
from benchassist.limits.arrays import ABSENT, Whole, in_parts
from benchassist.limits.load import Limits
from benchassist.optics.eye import Eye
from benchassist.verdicts.arrays_pairs import Lenses, LensPairs, Readings, Side
from benchassist.verdicts.case import Case
from benchassist.verdicts.exact import ZERO, MinusForm, axis_difference, mean
from benchassist.verdicts.near import counted, must_turn, proposal
from benchassist.verdicts.trust import Trust

_LENSES = ("sphere", "cylinder", "axis", "add", "base_in", "base_up", "distance", "height")
_TRUSTS = (
    "along",
    "across",
    "cylinder",
    "axis",
    "add",
    "base_in",
    "base_up",
    "distance",
    "height",
)
_EIGHTHS = ("along", "across", "cylinder", "add")
_EIGHTH = Decimal("0.125")
_NOTHING_READ = Trust((), (), 0.0)

_Values = Mapping[str, Decimal | None]


def pairs_of(jobs: Iterable[Job], limits: Limits) -> LensPairs:
    """The pairs of these jobs with the means and uncertainties that their readings have.

    A distance that was measured for both lenses together is no length of a lens and left out.

    Args:
        jobs: jobs whose present attempt is taken.
        limits: the lens meter and the tools by which readings are trusted.
    """
    cases = [Case(job, limits) for job in jobs]
    right, left = (_side(cases, eye, [_Lens(case, eye) for case in cases]) for eye in Eye)
    return LensPairs(right, left)


def _side(cases: Sequence[Case], eye: Eye, lenses: Sequence["_Lens"]) -> Side:
    return Side(
        _lenses([_ordered(case, eye) for case in cases]),
        _lenses(
            [
                _found(case, eye, lens.values["add"])
                for case, lens in zip(cases, lenses, strict=True)
            ]
        ),
        _readings(lenses),
    )


def _lenses(rows: Sequence[_Values]) -> Lenses:
    return Lenses(**{name: _column([row.get(name) for row in rows]) for name in _LENSES})


def _column(values: Sequence[Decimal | None]) -> Whole:
    return np.array(
        [ABSENT if value is None else in_parts(value) for value in values], np.int64
    )


def _readings(lenses: Sequence["_Lens"]) -> Readings:
    columns: dict[str, Any] = {
        name: tuple(lens.trusts.get(name, _NOTHING_READ) for lens in lenses) for name in _TRUSTS
    }
    columns |= {
        f"{name}_eighths": np.array([lens.shows_eighths(name) for lens in lenses], np.bool_)
        for name in _EIGHTHS
    }
    unturned = np.array([lens.is_unturned for lens in lenses], np.bool_)
    return Readings(**columns, unturned=unturned)


def _ordered(case: Case, eye: Eye) -> _Values:
    prism, order = case.prism_to_find(eye), case.ordered(eye)
    return {
        **_power(case.power_to_find(eye)[0]),
        "add": case.add_to_find(eye)[0],
        "base_in": prism.base_in,
        "base_up": prism.base_up,
        "distance": order.distance_pd,
        "height": order.height,
    }


def _found(case: Case, eye: Eye, adds: Sequence[Decimal]) -> _Values:
    prism = case.prism_found(eye)
    layout = case.now.pair.eye(eye)
    return {
        **_power(case.power_found(eye)),
        "add": mean(adds) if adds else None,
        "base_in": prism.base_in if prism else None,
        "base_up": prism.base_up if prism else None,
        "distance": mean(layout.distance_pd) if layout.distance_pd else None,
        "height": mean(layout.height) if layout.height else None,
    }


def _power(power: MinusForm | None) -> _Values:
    if power is None:
        return {}
    return {
        "sphere": power.sphere,
        "cylinder": power.cylinder,
        "axis": power.axis or ZERO,
    }


class _Lens:
    """The readings of one lens of one job."""

    def __init__(self, case: Case, eye: Eye) -> None:
        self._case, self._eye = case, eye
        proposed = proposal(case.order, eye)
        judged = counted(case.now.eye(eye).near, proposed)
        self.is_unturned = must_turn(judged, proposed)
        self._meters = case.power_meters(eye), case.add_meters(judged)
        readings = case.power_readings(eye)
        self.values = {
            "along": [reading.along for reading in readings],
            "across": [reading.across for reading in readings],
            "cylinder": [reading.cylinder for reading in readings],
            "add": [one.addition for one in judged if one.addition is not None],
        }
        self._axes = [reading.axis for reading in readings if reading.axis is not None]
        self.trusts = {**self._of_powers(), **self._of_prism(), **self._of_lengths()}

    def shows_eighths(self, name: str) -> bool:
        """Whether all readings of a quantity show eighths of a dioptre."""
        return all(value % _EIGHTH == 0 for value in self.values[name])

    def _of_powers(self) -> Mapping[str, Trust]:
        doubt, (meters, add_meters) = self._case.doubt, self._meters
        reckoned = {
            "along": (doubt.power, meters),
            "across": (doubt.power, meters),
            "cylinder": (doubt.power_difference, meters),
            "add": (doubt.power_difference, add_meters),
        }
        trusts = {
            name: trust(self.values[name], used)
            for name, (trust, used) in reckoned.items()
            if self.values[name]
        }
        ordered = self._case.power_to_find(self._eye)[0]
        if ordered and ordered.axis is not None and self._axes:
            turns = [axis_difference(axis, ordered.axis) for axis in self._axes]
            trusts["axis"] = doubt.axis(turns)
        return trusts

    def _of_prism(self) -> Mapping[str, Trust]:
        case, eye = self._case, self._eye
        prisms, reticle = case.prism_readings(eye), case.on_reticle(eye)
        if not prisms:
            return {}
        return {
            "base_in": case.doubt.prism([one.base_in for one in prisms], reticle=reticle),
            "base_up": case.doubt.prism([one.base_up for one in prisms], reticle=reticle),
        }

    def _of_lengths(self) -> Mapping[str, Trust]:
        layout = self._case.now.pair.eye(self._eye)
        lengths = {"distance": layout.distance_pd, "height": layout.height}
        doubt = self._case.doubt
        return {
            name: doubt.measured(read, "step-rule") for name, read in lengths.items() if read
        }
