"""The measured checks of the fit: where the pair sits, and what that does to the eyes."""

from dataclasses import replace
from decimal import Decimal

from benchassist.job.order import Design
from benchassist.limits.rule import Limit
from benchassist.optics.eye import Eye
from benchassist.optics.prism import prentice
from benchassist.optics.tilt import centre_drop
from benchassist.optics.vertex import effect_at
from benchassist.verdicts.answers import MeasuredCheck, Measures
from benchassist.verdicts.bench import against_order
from benchassist.verdicts.bench_limits import LOOK_AGAIN, bench_finding, bench_limit
from benchassist.verdicts.case import Case
from benchassist.verdicts.exact import ZERO, millionth
from benchassist.verdicts.finding import Finding
from benchassist.verdicts.usual_range import usual_finding
from benchassist.verdicts.weigh import Subject, Value
from benchassist.verdicts.words import (
    degrees,
    millimetres,
    prism,
    signed_dioptres,
    size_beside,
    tenth,
)
from benchassist.verdicts.worn import power_worn_findings, worn
from benchassist.verdicts.worn_prism import fitting_prism, off_place
from benchassist.verdicts.worn_seat import (
    comfort_findings,
    form_findings,
    level_findings,
    slip_findings,
)
from benchassist.verdicts.worn_zones import zones


def _vertex(case: Case, read: Measures) -> tuple[Finding, ...]:
    right, left = read[Eye.RIGHT], read[Eye.LEFT]
    apart = right - left
    said = (
        f"Vertex distance {millimetres(right)} right and {millimetres(left)} left: "
        f"{millimetres(abs(apart))} apart"
    )
    pair = Subject("fit.vertex", "fit.vertex", "Vertex distance, right against left")
    value = Value(found=abs(apart), difference=apart, unit="mm", sign="")
    return (
        bench_finding(case, pair, "vertex-difference", value, said),
        *(_power_at_eye(case, eye, read[eye]) for eye in Eye),
    )


def _power_at_eye(case: Case, eye: Eye, worn: Decimal) -> Finding:
    """The change of the lens's effect by another vertex distance than that of refraction.

    Where that is not ordered the distance itself is held against what is usual.
    """
    refracted = case.order.vertex_distance
    if refracted is None:
        usual = Subject(f"fit.vertex.usual-{eye}", "fit.vertex", "Vertex distance", eye)
        return usual_finding(case, usual, "vertex-usual", worn)
    subject = Subject(f"fit.vertex.{eye}", "fit.vertex", "Change of power at the eye", eye)
    ordered = case.ordered_power(eye)
    if ordered is None:
        return subject.none(f"{subject.what}: no power is ordered to compare with.")
    power = ordered.power()
    effect = effect_at(power, float(refracted), float(worn))
    changes = [
        millionth(worth - made)
        for worth, made in zip(effect.principal, power.principal, strict=True)
    ]
    largest = max(changes, key=abs)
    change = f"worth {signed_dioptres(largest)} more at most" if largest else "worth the same"
    said = (
        f"Worn at {millimetres(worn)}, refracted at {millimetres(refracted)}: "
        f"the lens is {change}"
    )
    value = Value(found=largest, difference=largest, unit="D")
    return bench_finding(case, subject, "vertex-power", value, said)


def _cross(case: Case, read: Measures) -> tuple[Finding, ...]:
    prisms = fitting_prism(case, read)
    findings = []
    for eye in Eye:
        across, up = read[f"{eye}_across"], read[f"{eye}_up"]
        off = _off_place(case, eye, read)
        caused = _caused(case, eye, across, off)
        is_sideways = abs(across) >= abs(off)
        findings += [
            _off_pupil(case, eye, "across", across, caused if is_sideways else ""),
            _off_pupil(case, eye, "up", up, "" if is_sideways else caused),
        ]
    if case.design is Design.SINGLE_VISION:
        findings.append(_centres_apart(case, read["right_up"] - read["left_up"], prisms))
    return (*findings, *prisms, *zones(case, read))


def _off_place(case: Case, eye: Eye, read: Measures) -> Decimal:
    """How far a centre is off in height, mm: from its place below the pupil where that counts.

    The prism of a centre lowered on purpose is the same before both eyes and no error.
    """
    if _told_only(case, eye, "up"):
        return read[f"{eye}_up"]
    return millionth(off_place(case, eye, read))


def _centres_apart(case: Case, apart: Decimal, prisms: tuple[Finding, ...]) -> Finding:
    """The heights of single-vision centres against each other: a tilt lowers both alike.

    Where the powers are known their vertical prism is judged and the heights are told only:
    what they matter depends on the power.
    """
    what = "Height, right against left"
    subject = Subject("fit.cross.apart", "fit.cross", what)
    said = f"{what}: {millimetres(abs(apart))} apart"
    value = Value(found=abs(apart), difference=apart, unit="mm", sign="")
    if _has_prism(case, "up"):
        return subject.none(f"{said}; prism is ordered, so the centres need not match.", value)
    if any(one.key == "fit.cross.prism-vertical" and one.limit for one in prisms):
        return subject.none(f"{said}; for information, their vertical prism is judged.", value)
    return bench_finding(case, subject, "fitting-cross", value, said)


def _has_prism(case: Case, way: str) -> bool:
    """Whether prism is ordered in this direction, on either lens."""
    prisms = [case.prism_to_find(eye) for eye in Eye]
    return any(prism.base_in if way == "across" else prism.base_up for prism in prisms)


def _told_only(case: Case, eye: Eye, way: str) -> str:
    """Why a single-vision centre off the pupil is not judged; empty where it is."""
    if case.design is not Design.SINGLE_VISION:
        return ""
    if _has_prism(case, way):
        return "for information, prism is ordered and moves the centre"
    if way == "up" and worn(case, eye).tilt is None:
        return "for information, a centre belongs about 1 mm below the pupil per 2° of tilt"
    return ""


def _lowered(case: Case, eye: Eye, up: Decimal, caused: str) -> Finding:
    """A single-vision centre against its place below the pupil, 27 tan t by the tilt.

    The limit grows as the lens grows weaker: it bounds the cylinder that a centre in another
    place leaves of the tilt, about F (off / 27)^2.
    """
    tilt = worn(case, eye).tilt or ZERO
    drop = millionth(centre_drop(float(tilt)))
    subject = Subject(f"fit.cross.{eye}-up", "fit.cross", "Centre of the lens, height", eye)
    limit, guard = _drop_limit(case, eye)
    off = up + drop
    seen = f"{millimetres(abs(up))} {'above' if up > 0 else 'below'} the pupil"
    place = f"{millimetres(tenth(drop))} below the pupil with {degrees(tilt)} of tilt"
    told = off if abs(tenth(off)) == limit.value else tenth(off)
    way = "above" if off > 0 else "below"
    aside = f"{size_beside(told, limit.value, 'mm')} {way} that"
    said = f"{_mark(case)} {seen if up else 'on the pupil'}, it belongs {place}: {aside}"
    value = Value(found=off, difference=off, unit="mm", remark=caused)
    return subject.judged(replace(value, doubt=LOOK_AGAIN), limit, guard, said)


def _drop_limit(case: Case, eye: Eye) -> tuple[Limit, Decimal]:
    """The proposed limit for a lowered centre by the power of its lens, and down to good."""
    row, lens = case.limits.bench.row("centre-drop"), case.power_to_find(eye)[0]
    looked_up = {"power": lens.highest if lens else ZERO}
    band = row.band(looked_up) if row else None
    limit = band.limit(looked_up) if band else None
    if band is None or limit is None or band.good is None:
        raise LookupError("the bench limits have no row centre-drop")
    return limit, limit.value - band.good


_TOWARDS = {"across": ("towards the nose", "towards the temple"), "up": ("too high", "too low")}
_PLACES = {
    False: ("on the pupil", ""),
    True: ("at its ordered place", " against its ordered place"),
}
"""Where a mark belongs, by whether it is a segment, and what its offset is counted from: a
segment belongs at its ordered height and not on the pupil."""

_ROWS = {"across": "centration", "up": "height"}


def _off_pupil(case: Case, eye: Eye, way: str, off: Decimal, caused: str) -> Finding:
    """By the rule set's limit for a power-variation lens, by a proposed one for others."""
    mark = _mark(case)
    what = f"{mark}, {'sideways' if way == 'across' else 'height'}"
    subject = Subject(f"fit.cross.{eye}-{way}", "fit.cross", what, eye)
    row = case.row(_ROWS[way]) if case.design and case.design.varies else None
    limit = row.band({}).limit({}) if row else None
    bound, guard = (limit, ZERO) if limit else bench_limit(case, "fitting-cross")
    at, away = _PLACES[case.design is not None and case.design.has_segment]
    said = at
    if off:
        direction = _TOWARDS[way][0 if off > 0 else 1]
        said = f"{size_beside(off, bound.value, 'mm')} {direction}{away}"
    value = Value(found=off, difference=off, unit="mm", remark=caused)
    told = _told_only(case, eye, way)
    if told:
        return subject.none(f"{mark} {said}{caused}; {told}.", value)
    if way == "up" and case.design is Design.SINGLE_VISION:
        return _lowered(case, eye, off, caused)
    if limit:
        trust = case.doubt.measured((off,), "step-rule")
        return subject.weighed(value, limit, trust, f"{mark} {said}")
    return subject.judged(replace(value, doubt=LOOK_AGAIN), bound, guard, f"{mark} {said}")


def _mark(case: Case) -> str:
    if case.design and case.design.varies:
        return "Fitting cross"
    return "Segment" if case.design and case.design.has_segment else "Centre of the lens"


def _caused(case: Case, eye: Eye, across: Decimal, up: Decimal) -> str:
    """The prism that the error causes, in words; nothing where there is none to tell."""
    ordered = case.ordered_power(eye)
    has_segment = case.design is not None and case.design.has_segment
    if ordered is None or has_segment or not (across or up):
        return ""
    vague = prentice(ordered.power(), eye, float(across), float(up))
    words = prism(millionth(vague.base_in), millionth(vague.base_up))
    return f", it causes {words if words != 'none' else 'no prism'}"


def _tilt(case: Case, read: Measures) -> tuple[Finding, ...]:
    subject = Subject("fit.tilt", "fit.tilt", "Pantoscopic tilt as worn")
    ordered = case.order.frame.tilt
    tilt = (
        usual_finding(case, subject, "tilt-usual", read["tilt"])
        if ordered is None
        else against_order(case, subject, "worn-tilt", read["tilt"], ordered)
    )
    return (tilt, *power_worn_findings(case))


CROSS = MeasuredCheck(
    "fit.cross", ("right_across", "right_up", "left_across", "left_up"), _cross
)
"""Where the fitting crosses, or the centres of the lenses, stand before the pupils."""

FIT_CHECKS = (
    MeasuredCheck("fit.vertex", ("right", "left"), _vertex),
    MeasuredCheck("fit.level", ("ends",), level_findings),
    CROSS,
    MeasuredCheck("fit.tilt", ("tilt",), _tilt),
    MeasuredCheck("fit.face-form", ("right", "left"), form_findings),
    MeasuredCheck("fit.slipping", ("slip",), slip_findings),
    MeasuredCheck("fit.comfort", ("minutes",), comfort_findings),
)
"""The checks of the fit whose measurements are judged, in the order of the fit."""
