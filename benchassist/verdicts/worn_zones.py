"""Which zone of each lens the wearer looks through, far, at a screen and reading."""

from dataclasses import dataclass
from decimal import Decimal

from benchassist.geometry import usual
from benchassist.geometry.gaze import FAR, GAZES, READING, Gaze, depth_below
from benchassist.job.order import Design
from benchassist.optics.eye import Eye
from benchassist.optics.prism import imbalance, prentice
from benchassist.verdicts.answers import Measures
from benchassist.verdicts.case import Case
from benchassist.verdicts.finding import Finding
from benchassist.verdicts.prism import lenses_to_find
from benchassist.verdicts.weigh import Subject
from benchassist.verdicts.words import degrees, millimetres, prism_amount, tenth
from benchassist.verdicts.worn import worn

FAR_DOWN_TO = 2.0
"""So many mm below the cross a progressive lens still serves for far; own proposal."""

USUAL_CORRIDOR = 14.0
"""From the cross to the full reading power, mm, where the maker does not say; own choice."""

BELOW_READING = 4.0
"""What a minimum fitting height keeps below the full reading power, mm; own choice."""

NEAR_FROM = 0.85
"""From this share of the corridor on the lens serves for reading; own choice."""

TOPS_BELOW = {Design.BIFOCAL: 5.0, Design.TRIFOCAL: 2.0}
"""From the pupil to the usual segment top, mm: at the lower lid, or at the lower edge of a
pupil of 4 mm. Common practice, no source."""

MIDDLE_DEPTH = 7.0
"""Depth of a usual trifocal's middle segment, mm; common practice, no source."""

RIM_ROOM = 2.0
"""Nearer than so many mm to the rim nobody reads; own choice."""

FELT = 1.0
"""Vertical prism between the eyes that is told, prism dioptres; own choice."""

ROLLS = 1.0
"""Marks further apart in height than so many mm say that the front rolls; as much as a fitting
cross may stand off the pupil. Own choice."""

_RIM = "lower rim"

_BELONGS = {"far": "far portion", "reading": "near portion"}


@dataclass(frozen=True, slots=True)
class _Through:
    """Where one eye looks through: mm below the pupil, and the portion met there."""

    below: float
    portion: str


def zones(case: Case, read: Measures) -> tuple[Finding, ...]:
    """For information, which portion each eye meets; told where it is not the one meant."""
    has_zones = case.design is not None and case.design.has_addition
    subject = Subject("fit.cross.zones", "fit.cross", "Looked through")
    met = {gaze: _met(case, gaze, read) for gaze in (GAZES if has_zones else (READING,))}
    is_rolled = abs(read["right_up"] - read["left_up"]) > ROLLS
    wrong = [_wrong(gaze, eyes, is_rolled=is_rolled) for gaze, eyes in met.items()]
    wrong.append(_imbalance(case, met[READING], read))
    said = "; ".join(f"{_habit(gaze)} {_place(eyes)}" for gaze, eyes in met.items())
    more = "".join(wrong)
    sentence = f"{subject.what}: {said}{_assumed(case)}{more or ', for information'}."
    return (subject.none(sentence, is_told=bool(more)),)


def _met(case: Case, gaze: Gaze, read: Measures) -> dict[Eye, _Through]:
    return {eye: _through(case, eye, gaze, read[f"{eye}_up"]) for eye in Eye}


def _habit(gaze: Gaze) -> str:
    if gaze.distance is None:
        return gaze.name
    return (
        f"{gaze.name} ({gaze.distance / 10:.0f} cm, eyes {degrees(Decimal(gaze.lowered))} down)"
    )


def _place(met: dict[Eye, _Through]) -> str:
    depth = tenth(max(one.below for one in met.values()))
    place = f"{millimetres(depth)} below the pupil" if depth else "at the pupil"
    return f"{place}{_portions(met)}"


def _assumed(case: Case) -> str:
    known = worn(case, Eye.RIGHT).tilt
    return "" if known is not None else f", with a usual tilt of {degrees(Decimal(usual.TILT))}"


def _through(case: Case, eye: Eye, gaze: Gaze, up: Decimal) -> _Through:
    seat = worn(case, eye)
    tilt = usual.TILT if seat.tilt is None else seat.tilt
    below = depth_below(gaze.lowered, float(tilt), seat.rotation)
    if _is_past_rim(case, eye, below, float(up)):
        return _Through(below, _RIM)
    return _Through(below, _portion(case, below, float(up)))


def _is_past_rim(case: Case, eye: Eye, below: float, up: float) -> bool:
    """Whether the place lies at the rim or past it, by the ordered height of the mark."""
    height, design = case.ordered(eye).height, case.design
    if height is None or design is None:
        return False
    pupil = float(height) - up + TOPS_BELOW.get(design, 0.0)
    return below > 0.0 and below > pupil - RIM_ROOM


def _portion(case: Case, below: float, up: float) -> str:
    """The portion of the lens at a depth below the pupil; empty where it has none."""
    design = case.design
    if design is Design.PROGRESSIVE:
        return _progressive(case, below + up)
    if design is None or design not in TOPS_BELOW:
        return ""
    into = below - (TOPS_BELOW[design] - up)
    if into < 0.0:
        return "far portion"
    is_middle = design is Design.TRIFOCAL and into < MIDDLE_DEPTH
    return "middle portion" if is_middle else "near portion"


def _progressive(case: Case, below_cross: float) -> str:
    shortest = case.order.minimum_height
    corridor = USUAL_CORRIDOR if shortest is None else float(shortest) - BELOW_READING
    if below_cross <= FAR_DOWN_TO:
        return "far portion"
    return "near portion" if below_cross >= NEAR_FROM * corridor else "corridor"


def _portions(met: dict[Eye, _Through]) -> str:
    right, left = met[Eye.RIGHT].portion, met[Eye.LEFT].portion
    if right == left:
        return f", {right}" if right else ""
    return "".join(f", {eye} {one.portion}" for eye, one in met.items() if one.portion)


def _wrong(gaze: Gaze, met: dict[Eye, _Through], *, is_rolled: bool) -> str:
    """What is wrong where an eye misses its portion, and which way the front should go.

    Raising or lowering brings no two crosses to one height: a front that rolls is levelled
    before its height means anything.
    """
    meant = _BELONGS.get(gaze.name, "")
    at_rim = [eye for eye, one in met.items() if one.portion == _RIM]
    if at_rim:
        lens = "lens" if len(at_rim) == len(met) else f"{at_rim[0]} lens"
        return f"; for {gaze.name} the {lens} is too shallow, or sits too low"
    if not meant or all(one.portion == meant for one in met.values() if one.portion):
        return ""
    missed = f"; for {gaze.name} it should be the {meant}"
    if is_rolled:
        return f"{missed}: the front rolls, level it first"
    return f"{missed}: {'lower' if gaze is FAR else 'raise'} the front"


def _imbalance(case: Case, met: dict[Eye, _Through], read: Measures) -> str:
    """The vertical prism between unlike lenses at the depth of reading, where it is felt."""
    lenses = lenses_to_find(case)
    if case.design is not Design.SINGLE_VISION or lenses is None:
        return ""
    prisms = [
        prentice(lens.power(), eye, 0.0, met[eye].below + float(read[f"{eye}_up"]))
        for lens, eye in zip(lenses, Eye, strict=True)
    ]
    apart = abs(imbalance(*prisms).vertical)
    if apart < FELT:
        return ""
    return f"; reading, the eyes differ by {prism_amount(Decimal(apart))} of vertical prism"
