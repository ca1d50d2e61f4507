"""The measured checks of the fit: vertex distances, fitting crosses, tilt and face form."""

from decimal import Decimal

from benchassist.limits.rule import Limit
from benchassist.optics.eye import Eye
from benchassist.optics.prism import prentice
from benchassist.optics.vertex import effect_at
from benchassist.verdicts.answers import MeasuredCheck, Measures
from benchassist.verdicts.bench import LOOK_AGAIN, against_order, bench_finding, bench_limit
from benchassist.verdicts.case import Case
from benchassist.verdicts.exact import millionth
from benchassist.verdicts.finding import Finding
from benchassist.verdicts.weigh import READING_DECIDES, Subject, Value
from benchassist.verdicts.words import millimetres, prism, signed_dioptres, size_beside


def _vertex(case: Case, read: Measures) -> tuple[Finding, ...]:
    right, left = read[Eye.RIGHT], read[Eye.LEFT]
    apart = right - left
    said = (
        f"Vertex distance {millimetres(right)} right and {millimetres(left)} left: "
        f"{millimetres(abs(apart))} apart"
    )
    pair = Subject("fit.vertex", "fit.vertex", "Vertex distance, right against left")
    value = Value(found=apart, difference=apart, unit="mm", sign="")
    return (
        bench_finding(case, pair, "vertex-difference", value, said),
        *(_power_at_eye(case, eye, read[eye]) for eye in Eye),
    )


def _power_at_eye(case: Case, eye: Eye, worn: Decimal) -> Finding:
    """The change of the lens's effect by another vertex distance than that of refraction."""
    subject = Subject(f"fit.vertex.{eye}", "fit.vertex", "Change of power at the eye", eye)
    refracted = case.order.vertex_distance
    ordered = case.ordered_power(eye)
    if refracted is None or ordered is None:
        lacking = "vertex distance of the refraction" if ordered else "power"
        return subject.none(f"{subject.what}: no {lacking} is ordered to compare with.")
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
    findings = []
    for eye in Eye:
        across, up = read[f"{eye}_across"], read[f"{eye}_up"]
        caused = _caused(case, eye, across, up)
        findings += [
            _off_pupil(case, eye, "across", across, caused),
            _off_pupil(case, eye, "up", up, caused),
        ]
    return tuple(findings)


_TOWARDS = {"across": ("towards the nose", "towards the temple"), "up": ("too high", "too low")}
_ROWS = {"across": "centration", "up": "height"}


def _off_pupil(case: Case, eye: Eye, way: str, off: Decimal, caused: str) -> Finding:
    mark = "Fitting cross" if case.design and case.design.varies else "Centre of the lens"
    what = f"{mark} against the pupil, {'sideways' if way == 'across' else 'in height'}"
    subject = Subject(f"fit.cross.{eye}-{way}", "fit.cross", what, eye)
    limit, guard, doubt = _fitting_limit(case, way)
    said = "on the pupil"
    if off:
        direction = _TOWARDS[way][0 if off > 0 else 1]
        said = f"{size_beside(off, limit.value, 'mm')} {direction}"
    value = Value(found=off, difference=off, unit="mm", remark=caused, doubt=doubt)
    return subject.judged(value, limit, guard, f"{mark} {said}")


def _fitting_limit(case: Case, way: str) -> tuple[Limit, Decimal, str]:
    """The rule set's limit for a power-variation lens, a proposed one for others."""
    row = case.row(_ROWS[way]) if case.design and case.design.varies else None
    limit = row.band({}).limit({}) if row else None
    if limit is None:
        return (*bench_limit(case, "fitting-cross"), LOOK_AGAIN)
    guard = case.doubt.guard(case.doubt.step("step-rule"), limit.value)
    return limit, guard, READING_DECIDES


def _caused(case: Case, eye: Eye, across: Decimal, up: Decimal) -> str:
    """The prism that the error causes, in words; nothing where there is none to tell."""
    ordered = case.ordered_power(eye)
    if ordered is None or not (across or up):
        return ""
    vague = prentice(ordered.power(), eye, float(across), float(up))
    words = prism(millionth(vague.base_in), millionth(vague.base_up))
    return f", it causes {words if words != 'none' else 'no prism'}"


def _tilt(case: Case, read: Measures) -> tuple[Finding, ...]:
    subject = Subject("fit.tilt", "fit.tilt", "Pantoscopic tilt as worn")
    ordered = case.order.frame.tilt
    return (against_order(case, subject, "worn-tilt", read["tilt"], ordered),)


def _form(case: Case, read: Measures) -> tuple[Finding, ...]:
    subject = Subject("fit.face-form", "fit.face-form", "Face form as worn")
    ordered = case.order.frame.face_form
    return (against_order(case, subject, "worn-form", read["form"], ordered),)


FIT_CHECKS = (
    MeasuredCheck("fit.vertex", ("right", "left"), _vertex),
    MeasuredCheck("fit.cross", ("right_across", "right_up", "left_across", "left_up"), _cross),
    MeasuredCheck("fit.tilt", ("tilt",), _tilt),
    MeasuredCheck("fit.face-form", ("form",), _form),
)
"""The checks of the fit whose measurements are judged."""
