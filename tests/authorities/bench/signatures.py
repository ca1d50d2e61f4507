"""What the worked examples of slips share: their words, their lenses, and one job seen."""

from typing import Any

from benchassist.optics.eye import Eye
from benchassist.optics.power import Power
from benchassist.verdicts.diagnose.diagnose import diagnose
from benchassist.verdicts.diagnose.sight import sight_of
from benchassist.verdicts.exact import MinusForm
from benchassist.verdicts.finding import Finding, State
from benchassist.verdicts.judge import judge
from tests.verdicts.jobs import ANSI, display, job_of, plain_limits, power

Given = dict[str, Any]
EYES = {"R": Eye.RIGHT, "L": Eye.LEFT}

OURS = {
    "cylinder sign reversed": "cylinder-sign",
    "transposed without changing the cylinder sign": "transposed-sign-kept",
    "transposed without changing the axis": "transposed-axis-kept",
    "axis 90 deg off": "axis-90",
    "sphere sign reversed": "sphere-sign",
    "both signs reversed": "both-signs",
    "axis mirrored": "axis-mirrored",
    "axis digits in another order": "axis-digits",
    "sphere and cylinder entered in each other's place": "sphere-for-cylinder",
    "sphere one whole dioptre out": "whole-dioptre",
    "sphere decimal point moved": "decimal-point",
    "made to the other eye": "same-row",
    "add taken off": "distance-for-near",
    "right and left lenses changed over": "changed-over",
    "axes turned opposite ways": "turned-opposite",
    "same sphere offset in both lenses": "meter-zero",
    "same row used for both eyes": "same-row",
    "near PD used for distance": "near-for-distance-pd",
    "left at the boxed centres": "boxed-centre",
    "decentration doubled": "double-decentration",
    "decentred the wrong way": "decentred-wrong-way",
    "only half the decentration": "half-decentration",
    "base reversed, horizontal": "horizontal-reversed",
    "lenses upside down": "upside-down",
    "vertical prism in the wrong eye": "vertical-in-wrong-eye",
    "horizontal and vertical changed over": "directions-exchanged",
    "right and left changed over": "prisms-changed-over",
    "add read on the back of a front-surface addition": "wrong-surface",
    "near point read too high or beside the near zone": "beside-near-zone",
    "wrong engraving or engraving code misread": "engraving",
    "near total entered as the add": "near-total",
    "right and left heights changed over": "heights-changed-over",
    "front rolls on the face": "front-rolls",
}
"""The slips by the words of the examples; what follows them there is detail."""

ALSO_THE_SAME_LENS = {
    "axis-mirrored": {"from-front"},
    "horizontal-reversed": {"upside-down"},
}
"""Slips that give the same lens and that the examples do not count among those that fit."""


def ours(words: str) -> str:
    return next(slip for start, slip in OURS.items() if words.startswith(start))


def written(values: list[float]) -> dict[str, Any]:
    sphere, cylinder, axis = values
    return power(str(sphere), str(cylinder), str(axis) if cylinder else None)


def shown(values: list[float]) -> dict[str, Any]:
    sphere, cylinder, axis = values
    return display(str(sphere), str(cylinder), str(axis) if cylinder else None)


def lens(values: list[float]) -> Power:
    sphere, cylinder, axis = values
    return Power(sphere, cylinder, axis)


def numbers(power: MinusForm | None) -> list[float]:
    assert power is not None
    assert power.axis is not None
    return [float(power.sphere), float(power.cylinder), float(power.axis)]


class Seen:
    """One job judged and diagnosed by the tolerances that the examples name."""

    def __init__(self, order: Given, attempt: Given) -> None:
        job = job_of({"rule_set": ANSI, "design": "single-vision"} | order, attempt)
        limits = plain_limits(ANSI)
        found = judge(job, limits)
        self.findings: dict[str, Finding] = {finding.key: finding for finding in found}
        self.sight = sight_of(job, limits, found)
        self.suspicions = diagnose(job, limits, found)

    @property
    def slips(self) -> set[str]:
        return {slip for suspicion in self.suspicions for slip in suspicion.slips}

    def is_within(self, *keys: str) -> bool:
        return not any(
            finding.state is State.OUTSIDE
            for key, finding in self.findings.items()
            if key.startswith(keys)
        )

    def means(self, *words: str) -> None:
        """These slips are listed, and no others but those that give the very same lens."""
        expected = {ours(each) for each in words}
        same = {slip for each in expected for slip in ALSO_THE_SAME_LENS.get(each, set())}
        assert expected <= self.slips <= expected | same


def near_read(value: str, surface: str = "back") -> Given:
    return {"kind": "display", "surface": surface, "shown": value}
