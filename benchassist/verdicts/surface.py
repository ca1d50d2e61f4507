"""Surface and edge: defects by their zone, the tint of the pair, evidence of impact tests."""

import re
from collections.abc import Mapping
from dataclasses import replace
from decimal import Decimal

from benchassist.geometry.zones import LensPlace, Zone, zone_at
from benchassist.job.order import Order, Treatment
from benchassist.job.plan import front_plan
from benchassist.job.surface import Defect, DefectKind, DefectSurface
from benchassist.limits.rule import Rule
from benchassist.optics.eye import Eye
from benchassist.verdicts.answers import MeasuredCheck, Measures
from benchassist.verdicts.bench_limits import bench_finding
from benchassist.verdicts.case import Case
from benchassist.verdicts.exact import millionth
from benchassist.verdicts.finding import Finding, State
from benchassist.verdicts.weigh import Subject, Value
from benchassist.verdicts.words import PERCENT, trimmed

_STEP = "surface"
_IMPACT = "surface.impact"
_TINT = "surface.transmittance"

_SURFACE_NOTE, _IMPACT_NOTE = "Surface quality", "Impact resistance"
"""Titles of the notes of a rule set; one that has the second asks for evidence."""

_NAMES = {
    DefectKind.COATING: "coating fault",
    DefectKind.OTHER: "defect",
}
_LIES = {
    DefectSurface.FRONT: "on the front surface",
    DefectSurface.BACK: "on the back surface",
    DefectSurface.EDGE: "at the edge",
}
_DANGEROUS = {
    DefectKind.CHIP: "a chipped edge cuts and can run on, so it is outside anywhere",
    DefectKind.CRACK: "a crack runs on, so it is outside anywhere",
    DefectKind.SHARP: "it can cut, so it is outside",
}
"""What is outside in every zone, and why. Common practice, no source."""

_LOOKED_THROUGH = "none may be seen where the wearer looks through"
_ASIDE = "away from where the wearer looks: look again, a supervisor decides"
_SPREADS = "a coating that comes off there can spread: look again, a supervisor decides"
_AT_RIM = "on what the rim or the bevel takes up: look again, a supervisor decides"


def judge_surface(case: Case, answered: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """The findings on answered checks, those of surface and edge made exact.

    Where defects were noted at their places, each is judged by its zone instead of the word
    of the whole check, as long as that is not to be looked at again.
    """
    noted = {f"{_STEP}.{defect.check}" for defect in case.now.surface.defects}
    kept = (one for one in answered if one.key not in noted or _is_to_repeat(case, one.prompt))
    exact = tuple(_impact(case, one) if one.key == _IMPACT else one for one in kept)
    return (*exact, *_defects(case))


def _is_to_repeat(case: Case, check_id: str) -> bool:
    answer = case.now.surface.answers.get(check_id.partition(".")[2])
    return answer is not None and bool(answer.again_because)


def _defects(case: Case) -> tuple[Finding, ...]:
    """Check by check, the right lens first."""
    numbered = enumerate(case.now.surface.defects, start=1)
    eyes = tuple(Eye)
    ordered = sorted(numbered, key=lambda one: (one[1].check, eyes.index(one[1].eye), one[0]))
    return tuple(_defect(case, number, defect) for number, defect in ordered)


def _defect(case: Case, number: int, defect: Defect) -> Finding:
    zone = zone_of(case.order, defect)
    state, why = _judged(defect, zone)
    check = f"{_STEP}.{defect.check}"
    remark = f" ({defect.remark.removesuffix('.')})" if defect.remark else ""
    said = defect_words(case.order, defect)
    return Finding(
        key=f"{check}.{number}",
        prompt=check,
        what=f"Defect {number}",
        state=state,
        sentence=f"{said[:1].upper()}{said[1:]}: {why}{remark}.",
        eye=defect.eye,
        rule=None if defect.kind in _DANGEROUS else _rule_of(case, zone),
    )


def _judged(defect: Defect, zone: Zone) -> tuple[State, str]:
    if defect.kind in _DANGEROUS:
        return State.OUTSIDE, _DANGEROUS[defect.kind]
    if zone in {Zone.CENTRAL, Zone.NEAR}:
        return State.OUTSIDE, _LOOKED_THROUGH
    if defect.kind is DefectKind.COATING:
        return State.CLOSE, _SPREADS
    return State.CLOSE, _AT_RIM if zone is Zone.EDGE else _ASIDE


def _rule_of(case: Case, zone: Zone) -> Rule | None:
    """The note on surfaces; the near zone of a lens without a segment is our own proposal."""
    has_segment = case.design is not None and case.design.has_segment
    is_own = zone is Zone.EDGE or (zone is Zone.NEAR and not has_segment)
    return None if is_own else _note(case, _SURFACE_NOTE)


def _note(case: Case, title: str) -> Rule | None:
    notes = case.limits.rule_set.notes
    return next((note for note in notes if note.title == title), None)


def zone_of(order: Order, defect: Defect) -> Zone:
    """The zone in which a defect lies; what is at the edge is so wherever it was pointed at."""
    if defect.surface is DefectSurface.EDGE:
        return Zone.EDGE
    place = LensPlace(defect.eye, float(defect.across), float(defect.up))
    return zone_at(front_plan(order), place)


def defect_words(order: Order, defect: Defect) -> str:
    """What it is and where: 'scratch on the front surface, 1 mm long, 3 mm nasal, ...'."""
    name = _NAMES.get(defect.kind, defect.kind.value)
    lies = "" if defect.kind is DefectKind.SHARP else f" {_lies(defect)}"
    long = f", {trimmed(defect.size)} mm large" if defect.size else ""
    return f"{name}{lies}{long}, {place_words(defect)}, {zone_of(order, defect)} zone"


def list_words(order: Order, defect: Defect) -> str:
    """The same in few words for a list: 'right, central zone: scratch, 3 mm nasal, ...'."""
    name = _NAMES.get(defect.kind, defect.kind.value)
    return f"{defect.eye}, {zone_of(order, defect)} zone: {name}, {place_words(defect)}"


def _lies(defect: Defect) -> str:
    """An inclusion lies within the lens and is only seen from a side."""
    is_within = defect.kind is DefectKind.INCLUSION
    if is_within and defect.surface is not DefectSurface.EDGE:
        return f"seen from the {defect.surface}"
    return _LIES[defect.surface]


def place_words(defect: Defect) -> str:
    """Where it is, from the boxed centre: '3 mm nasal, 5 mm below the centre'."""
    across, up = defect.across, defect.up
    sideways = "nasal" if across > 0 else "temporal"
    upwards = "above" if up > 0 else "below"
    if not across and not up:
        return "at the centre"
    if not up:
        return f"{trimmed(across)} mm {sideways} of the centre"
    vertical = f"{trimmed(up)} mm {upwards} the centre"
    return f"{trimmed(across)} mm {sideways}, {vertical}" if across else vertical


def _impact(case: Case, finding: Finding) -> Finding:
    """The answer on impact tests, told beside what the rule set asks for.

    Who may waive and on what terms: 21 CFR 801.410, from memory.
    """
    if finding.state is State.MISSING:
        return finding
    choice = case.now.surface.answers["impact"].choice.casefold()
    rule = _note(case, _IMPACT_NOTE)
    said = finding.sentence.removesuffix(".")
    if choice == "waived in writing":
        sentence = (
            f"{said}: only the prescriber can waive it, for this wearer alone, who is told in "
            "writing; keep the waiver with the record."
        )
        return replace(finding, state=State.NONE, sentence=sentence, rule=rule, is_told=True)
    if rule is None:
        return finding
    if choice == "not required here":
        sentence = (
            f"{said}, but {rule.edition} points to 21 CFR 801.410, which asks for evidence in "
            "the United States: look again, a supervisor decides."
        )
        return replace(finding, state=State.CLOSE, sentence=sentence, rule=rule)
    return replace(finding, rule=rule)


_CATEGORIES: Mapping[int, tuple[Decimal, Decimal]] = {
    0: (Decimal(80), Decimal(100)),
    1: (Decimal(43), Decimal(80)),
    2: (Decimal(18), Decimal(43)),
    3: (Decimal(8), Decimal(18)),
    4: (Decimal(3), Decimal(8)),
}
"""Tint categories by luminous transmittance, %, above the first figure and up to the second.

Source: College of Optometrists, guidance on tints and driving, as read in its summary.
"""

_DUSK = Decimal(75)
"""Below this transmittance, %, no lens for driving at dusk or at night; the same source."""

_DARKEST = 4
_ORDERED = re.compile(r"\bcat(?:egory|\.)?\s*([0-4])\b", re.IGNORECASE)


def category(transmittance: Decimal) -> int | None:
    """The tint category of a transmittance, %; None for what is darker than all of them."""
    for number, (low, high) in _CATEGORIES.items():
        if low < transmittance <= high:
            return number
    return None


def _transmittance(case: Case, read: Measures) -> tuple[Finding, ...]:
    right, left = read[Eye.RIGHT], read[Eye.LEFT]
    for passes in (right, left):
        if not 0 < passes <= 100:  # noqa: PLR2004  (per cent)
            raise ValueError(f"no lens passes {trimmed(passes)} % of the light")
    apart = millionth(float(100 * (right - left) / max(right, left)))
    said = (
        f"Right {trimmed(right)} %, left {trimmed(left)} % of the light: "
        f"{trimmed(apart.quantize(Decimal('0.1')))} % apart"
    )
    pair = Subject(_TINT, _TINT, "Tint, right against left")
    value = Value(found=apart, difference=apart, unit=PERCENT, sign="")
    lenses = (_shade(case, eye, read[eye]) for eye in Eye)
    return (bench_finding(case, pair, "tint-pair", value, said), *lenses)


def _shade(case: Case, eye: Eye, passes: Decimal) -> Finding:
    """The tint category of one lens beside that of the order, and what it rules out."""
    found = category(passes)
    named = "darker than every category" if found is None else f"category {found}"
    caution = ""
    if found is None or found == _DARKEST:
        caution = "; never for driving"
    elif passes < _DUSK:
        caution = "; not for driving at dusk or at night"
    subject = Subject(f"{_TINT}.{eye}", _TINT, "Tint category", eye)
    said = f"Tint category: {trimmed(passes)} % of the light is {named}"
    finding = subject.none(f"{said}{caution}.", is_told=bool(caution))
    ordered = _ORDERED.search(case.order.tint)
    if ordered is None or Treatment.PHOTOCHROMIC in case.order.treatments:
        return finding
    state = State.WITHIN if str(found) == ordered[1] else State.OUTSIDE
    sentence = f"{said}, category {ordered[1]} ordered{caution}."
    return replace(finding, state=state, sentence=sentence)


SURFACE_CHECKS = (MeasuredCheck(_TINT, (Eye.RIGHT, Eye.LEFT), _transmittance),)
"""The checks of surface and edge whose measurements are judged."""
