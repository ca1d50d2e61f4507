"""The measured checks of the frame on the bench, through the geometry to a verdict."""

from decimal import Decimal

from benchassist.geometry.alignment import (
    AlongFront,
    LeanGaps,
    four_point,
    lens_turn,
    open_angle,
    pantoscopic_angle,
    skew,
    x_ing,
)
from benchassist.geometry.touch import Gaps, inverted_angle, upright_angle
from benchassist.limits.rule import Limit
from benchassist.optics.eye import Eye
from benchassist.verdicts.answers import MeasuredCheck, Measures, subject_of
from benchassist.verdicts.case import Case
from benchassist.verdicts.exact import ZERO, millionth
from benchassist.verdicts.finding import Finding
from benchassist.verdicts.weigh import Subject, Value
from benchassist.verdicts.words import degrees, limit_size, millimetres, size_beside

LOOK_AGAIN = "not good and not yet to be put right: look again"


def bench_finding(case: Case, subject: Subject, name: str, value: Value, said: str) -> Finding:
    """The finding by a proposed bench limit: between good and put right, look again.

    Args:
        case: the job and its limits.
        subject: what is judged.
        name: the row of the bench limits.
        value: the numbers; its difference is judged.
        said: the sentence up to the limit.
    """
    limit, guard = bench_limit(case, name)
    numbers = Value(
        value.ordered,
        value.found,
        value.difference,
        limit.unit,
        value.sign,
        value.remark,
        LOOK_AGAIN,
    )
    return subject.judged(numbers, limit, guard, said)


def bench_limit(case: Case, name: str) -> tuple[Limit, Decimal]:
    """A proposed limit (where it is put right) and the width from there down to good.

    Raises:
        LookupError: the bench limits have no such row.
    """
    row = case.limits.bench.row(name)
    limit = row.bands[0].limit({}) if row else None
    if row is None or limit is None:
        raise LookupError(f"the bench limits have no row {name}")
    good = row.bands[0].good
    return limit, ZERO if good is None else limit.value - good


def _plain(found: Decimal, unit: str) -> Value:
    """A size that should be zero."""
    return Value(found=found, difference=found, unit=unit, sign="")


def _part(check: str, part: str, what: str, eye: Eye | None = None) -> Subject:
    """One of several findings of a check."""
    return Subject(f"{check}.{part}" if part else check, check, what, eye)


def _rotation(case: Case, read: Measures) -> tuple[Finding, ...]:
    return tuple(
        _turn(case, eye, float(read[f"{eye}_marks"]), float(read["separation"])) for eye in Eye
    )


def _turn(case: Case, eye: Eye, marks: float, separation: float) -> Finding:
    """A lens turned in its rim; the turn is an axis error where a cylinder is ordered."""
    turn = millionth(lens_turn(eye, marks, separation))
    subject = _part("bench.rotation", eye, "Lens turn", eye)
    limit, guard = bench_limit(case, "rotation")
    remark = ""
    power, _ = case.power_to_find(eye)
    row = case.row("axis")
    if power and power.axis is not None and row and case.design:
        looked_up = {"cylinder": abs(power.cylinder), "power": power.highest}
        axis_limit = row.band(looked_up).limit(looked_up)
        if axis_limit and not axis_limit.rule.off:
            allowed = limit_size(axis_limit.value, "°")
            remark = f", an axis error of {degrees(abs(turn))} where {allowed} is allowed"
            limit = min(axis_limit, limit, key=lambda bound: bound.value)
    way = "counter-clockwise" if turn > 0 else "clockwise"
    said = f"Lens turned {size_beside(turn, limit.value, '°')} {way}" if turn else "Not turned"
    value = Value(found=turn, difference=turn, unit="°", sign="", doubt=LOOK_AGAIN)
    return subject.judged(value, limit, min(guard, limit.value), f"{said}{remark}")


def _front(case: Case) -> tuple[float, float]:
    """A and half of DBL, mm.

    Raises:
        ValueError: the frame's A or DBL is not ordered.
    """
    frame = case.order.frame
    if frame.a is None or frame.dbl is None:
        raise ValueError("the frame's A and DBL are needed and not ordered yet")
    return float(frame.a), float(frame.dbl) / 2.0


def _skew(case: Case, read: Measures) -> tuple[Finding, ...]:
    heights = AlongFront(
        float(read["right_outer"]),
        float(read["right_inner"]),
        float(read["left_inner"]),
        float(read["left_outer"]),
    )
    step = millionth(skew(heights, *_front(case)).step)
    side = "left" if step > 0 else "right"
    said = f"Skew step {millimetres(abs(step))}" + (f", {side} side higher" if step else "")
    return (bench_finding(case, subject_of("bench.skew"), "skew", _plain(step, "mm"), said),)


def _x_ing(case: Case, read: Measures) -> tuple[Finding, ...]:
    right = LeanGaps(float(read["right_top"]), float(read["right_bottom"]))
    left = LeanGaps(float(read["left_top"]), float(read["left_bottom"]))
    twist = millionth(x_ing(right, left, float(read["apart"])))
    side = "left" if twist > 0 else "right"
    leaning = f", the {side} lens leans further forward at the top" if twist else ""
    said = f"X-ing {degrees(abs(twist))}{leaning}"
    return (bench_finding(case, subject_of("bench.x-ing"), "x-ing", _plain(twist, "°"), said),)


def _four_point(case: Case, read: Measures) -> tuple[Finding, ...]:
    gaps = AlongFront(
        float(read["right_temporal"]),
        float(read["right_nasal"]),
        float(read["left_nasal"]),
        float(read["left_temporal"]),
    )
    found = four_point(gaps, *_front(case))
    step, total = millionth(found.step), millionth(found.total)
    side = "left" if step > 0 else "right"
    said = f"Plane step {millimetres(abs(step))}"
    forward = f", {side} lens further forward" if step else ""
    subject = _part("bench.four-point", "", "Plane step")
    return (
        bench_finding(case, subject, "plane-step", _plain(step, "mm"), said + forward),
        _whole_form(case, total),
    )


def _whole_form(case: Case, total: Decimal) -> Finding:
    """The face form of both lenses together against twice the form ordered for each."""
    subject = _part("bench.four-point", "form", "Total face form")
    ordered = case.order.frame.face_form
    if ordered is None:
        return against_order(case, subject, "face-form", total, None)
    return against_order(case, subject, "face-form", total, 2 * ordered)


def against_order(
    case: Case, subject: Subject, name: str, found: Decimal, ordered: Decimal | None
) -> Finding:
    """An angle of the frame against the order; for information where none is ordered."""
    opening = f"{subject.what} {degrees(found)} found"
    if ordered is None:
        value = Value(found=found, unit="°")
        return subject.none(f"{opening}; none was ordered to compare it with.", value)
    value = Value(ordered, found, found - ordered, "°")
    return bench_finding(case, subject, name, value, f"{opening}, {degrees(ordered)} ordered")


def _open_angle(case: Case, read: Measures) -> tuple[Finding, ...]:
    right, left = (
        millionth(open_angle(float(read[f"{eye}_out"]), float(read[f"{eye}_back"])))
        for eye in Eye
    )
    subject = subject_of("bench.open-angle")
    said = _two_sides("Open temple angles", right, left)
    return (bench_finding(case, subject, "open-angle", _plain(right - left, "°"), said),)


def _pantoscopic(case: Case, read: Measures) -> tuple[Finding, ...]:
    b = case.order.frame.b
    if b is None:
        raise ValueError("the frame's B is needed and not ordered yet")
    right, left = (
        millionth(pantoscopic_angle(float(read[f"{eye}_offset"]), float(b))) for eye in Eye
    )
    subject = subject_of("bench.pantoscopic")
    said = _two_sides("Pantoscopic angles", right, left)
    return (bench_finding(case, subject, "pantoscopic", _plain(right - left, "°"), said),)


def _two_sides(what: str, right: Decimal, left: Decimal) -> str:
    apart = degrees(abs(right - left))
    return f"{what} {degrees(right)} right and {degrees(left)} left: {apart} apart"


def _table_inverted(case: Case, read: Measures) -> tuple[Finding, ...]:
    gaps = Gaps(float(read["right_gap"]), float(read["left_gap"]))
    lower = inverted_angle(gaps, float(read["run"]))
    return (_table(case, "bench.table-inverted", "shaft", read, millionth(lower)),)


def _table_upright(case: Case, read: Measures) -> tuple[Finding, ...]:
    gaps = Gaps(float(read["right_gap"]), float(read["left_gap"]))
    lower = upright_angle(gaps, float(read["run"]))
    return (_table(case, "bench.table-upright", "tip", read, millionth(lower)),)


def _table(case: Case, check: str, part: str, read: Measures, lower: Decimal) -> Finding:
    """The larger gap is judged; the angle between the temples is told."""
    right, left = read["right_gap"], read["left_gap"]
    gap = max(right, left)
    side = "right" if right > left else "left"
    said = "Nothing lifts"
    if gap:
        temple = "right" if lower > 0 else "left"
        angle = f", the {temple} temple points {degrees(abs(lower))} lower" if lower else ""
        said = f"The {side} {part} lifts {millimetres(gap)}{angle}"
    return bench_finding(case, subject_of(check), "table-touch", _plain(gap, "mm"), said)


def _temple_bend(case: Case, read: Measures) -> tuple[Finding, ...]:
    start = read["right_start"] - read["left_start"]
    drop = read["right_drop"] - read["left_drop"]
    starts = (
        f"Bends start at {millimetres(read['right_start'])} right and "
        f"{millimetres(read['left_start'])} left: {millimetres(abs(start))} apart"
    )
    drops = _two_sides("Drops", read["right_drop"], read["left_drop"])
    begin = _part("bench.temple-bend", "", "Start of the bend")
    fall = _part("bench.temple-bend", "drop", "Drop of the bend")
    return (
        bench_finding(case, begin, "bend-start", _plain(start, "mm"), starts),
        bench_finding(case, fall, "bend-drop", _plain(drop, "°"), drops),
    )


BENCH_CHECKS = (
    MeasuredCheck("bench.rotation", ("right_marks", "left_marks", "separation"), _rotation),
    MeasuredCheck(
        "bench.skew", ("right_outer", "right_inner", "left_inner", "left_outer"), _skew
    ),
    MeasuredCheck(
        "bench.x-ing",
        ("right_top", "right_bottom", "left_top", "left_bottom", "apart"),
        _x_ing,
    ),
    MeasuredCheck(
        "bench.four-point",
        ("right_nasal", "right_temporal", "left_nasal", "left_temporal"),
        _four_point,
    ),
    MeasuredCheck(
        "bench.open-angle", ("right_out", "right_back", "left_out", "left_back"), _open_angle
    ),
    MeasuredCheck("bench.pantoscopic", ("right_offset", "left_offset"), _pantoscopic),
    MeasuredCheck("bench.table-inverted", ("right_gap", "left_gap", "run"), _table_inverted),
    MeasuredCheck("bench.table-upright", ("right_gap", "left_gap", "run"), _table_upright),
    MeasuredCheck(
        "bench.temple-bend",
        ("right_start", "left_start", "right_drop", "left_drop"),
        _temple_bend,
    ),
)
"""The bench checks whose measurements are judged, in the order of the bench."""
