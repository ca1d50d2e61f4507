"""The measured checks of the frame on the bench, through the geometry to a verdict."""

from collections.abc import Callable
from dataclasses import dataclass
from decimal import Decimal

from benchassist.geometry.measured import Measured
from benchassist.optics.eye import Eye
from benchassist.verdicts import frame_measured as found
from benchassist.verdicts.answers import MeasuredCheck, Measures, subject_of
from benchassist.verdicts.bench_limits import LOOK_AGAIN, bench_finding, bench_limit
from benchassist.verdicts.case import Case
from benchassist.verdicts.consequence import consequence
from benchassist.verdicts.exact import millionth
from benchassist.verdicts.finding import Finding, State
from benchassist.verdicts.rocking_told import why_it_rocks
from benchassist.verdicts.weigh import Subject, Value
from benchassist.verdicts.words import (
    degrees,
    limit_size,
    millimetres,
    size,
    size_beside,
    tenth,
)

COVERS = Decimal(2)
"""So many standard uncertainties are told as what a number is known to: about 95 %."""


def bench_check(
    name: str, findings: Callable[[Case, Measures], tuple[Finding, ...]]
) -> MeasuredCheck:
    """A check of the bench with what its numbers need."""
    needs = found.NEEDS[name]
    return MeasuredCheck(f"bench.{name}", needs.read, findings, needs.sizes)


def _part(check: str, part: str, what: str, eye: Eye | None = None) -> Subject:
    """One of several findings of a check."""
    return Subject(f"{check}.{part}" if part else check, check, what, eye)


@dataclass(frozen=True, slots=True)
class _Number:
    """A number of the frame that should be zero, as the bench found it.

    Attributes:
        value: to a millionth, mm or degrees.
        unit: 'mm' or '°'.
        known_to: half of the span in which it lies with about 95 %.
        per_half_mm: by how much half a millimetre misread moves it.
    """

    value: Decimal
    unit: str
    known_to: Decimal
    per_half_mm: Decimal

    @classmethod
    def of(cls, measured: Measured, unit: str) -> "_Number":
        known_to = COVERS * Decimal(measured.uncertainty)
        return cls(
            millionth(measured.value),
            unit,
            tenth(known_to),
            tenth(measured.per_half_mm),
        )

    @property
    def doubt(self) -> str:
        """What is said between good and put right."""
        return f"{LOOK_AGAIN} (0.5 mm misread is {size(self.per_half_mm, self.unit)})"

    def beside(self, limit: Decimal) -> str:
        """Its size and how well that is known: '1.2 mm ± 0.4 mm'."""
        known = f" ± {size(self.known_to, self.unit)}" if self.known_to else ""
        return f"{size_beside(self.value, limit, self.unit)}{known}"


def _consequence(case: Case, name: str, size_of_it: Decimal) -> str:
    """What it does before the eyes, where it is not good."""
    limit, guard = bench_limit(case, name)
    return "" if abs(size_of_it) <= limit.value - guard else consequence(case, name, size_of_it)


def _off_zero(  # noqa: PLR0913, PLR0917  (one call for every number that should be zero)
    case: Case, subject: Subject, name: str, number: _Number, what: str, way: str
) -> Finding:
    """The finding on a number that should be zero, with what it does before the eyes."""
    limit, _ = bench_limit(case, name)
    said = f"{what} {number.beside(limit.value)}" + (f", {way}" if number.value else "")
    value = Value(
        found=number.value,
        difference=number.value,
        sign="",
        remark=_consequence(case, name, number.value),
        doubt=number.doubt,
    )
    return bench_finding(case, subject, name, value, said)


def _rotation(case: Case, read: Measures) -> tuple[Finding, ...]:
    return tuple(_turn(case, eye, found.lens_turn_of(eye, read)) for eye in Eye)


def _turn(case: Case, eye: Eye, measured: Measured) -> Finding:
    """A lens turned in its rim; the turn is an axis error where a cylinder is ordered."""
    number = _Number.of(measured, "°")
    turn = number.value
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
    said = f"Lens turned {number.beside(limit.value)} {way}" if turn else "Not turned"
    value = Value(found=turn, difference=turn, unit="°", sign="", doubt=number.doubt)
    return subject.judged(value, limit, min(guard, limit.value), f"{said}{remark}")


def _skew(case: Case, read: Measures) -> tuple[Finding, ...]:
    step = _Number.of(found.skew_of(case.order.frame, read), "mm")
    way = f"{'left' if step.value > 0 else 'right'} side higher"
    return (_off_zero(case, subject_of("bench.skew"), "skew", step, "Skew step", way),)


def _x_ing(case: Case, read: Measures) -> tuple[Finding, ...]:
    twist = _Number.of(found.x_ing_of(read), "°")
    side = "left" if twist.value > 0 else "right"
    way = f"the {side} lens leans further forward at the top"
    return (_off_zero(case, subject_of("bench.x-ing"), "x-ing", twist, "X-ing", way),)


def _four_point(case: Case, read: Measures) -> tuple[Finding, ...]:
    front = found.front_of(case.order.frame, read)
    step = _Number.of(front.step, "mm")
    way = f"{'left' if step.value > 0 else 'right'} lens further forward"
    subject = _part("bench.four-point", "", "Plane step")
    return (
        _off_zero(case, subject, "plane-step", step, "Plane step", way),
        _whole_form(case, millionth(front.total.value)),
    )


def _whole_form(case: Case, total: Decimal) -> Finding:
    """The face form of both lenses together against twice the form ordered for each."""
    subject = _part("bench.four-point", "form", "Total face form")
    ordered = case.order.frame.face_form
    if ordered is None:
        return against_order(case, subject, "face-form", total, None)
    each = f" ({degrees(ordered)} for each lens)"
    return against_order(case, subject, "face-form", total, 2 * ordered, each)


def against_order(  # noqa: PLR0913, PLR0917  (one call for every angle that is ordered)
    case: Case,
    subject: Subject,
    name: str,
    measured: Decimal,
    ordered: Decimal | None,
    how: str = "",
) -> Finding:
    """An angle of the frame against the order; for information where none is ordered.

    `how` says in brackets how the order states it.
    """
    opening = f"{subject.what} {degrees(measured)} found"
    if ordered is None:
        value = Value(found=measured, unit="°")
        return subject.none(f"{opening}; none was ordered to compare it with.", value)
    value = Value(ordered, measured, measured - ordered, "°")
    return bench_finding(
        case, subject, name, value, f"{opening}, {degrees(ordered)} ordered{how}"
    )


def _open_angle(case: Case, read: Measures) -> tuple[Finding, ...]:
    right, left = (found.open_angle_of(eye, read) for eye in Eye)
    return (_two_sides(case, "open-angle", "Open temple angles", right, left),)


def _pantoscopic(case: Case, read: Measures) -> tuple[Finding, ...]:
    right, left = (found.pantoscopic_of(eye, case.order.frame, read) for eye in Eye)
    return (_two_sides(case, "pantoscopic", "Pantoscopic angles", right, left),)


def _two_sides(case: Case, name: str, what: str, right: Measured, left: Measured) -> Finding:
    """The right angle against the left one."""
    apart = _Number.of(right.minus(left), "°")
    limit, _ = bench_limit(case, name)
    sides = " and ".join(
        f"{degrees(millionth(one.value))} {eye}"
        for one, eye in zip((right, left), Eye, strict=True)
    )
    value = Value(
        found=apart.value,
        difference=apart.value,
        sign="",
        remark=_consequence(case, name, apart.value),
        doubt=apart.doubt,
    )
    said = f"{what} {sides}: {apart.beside(limit.value)} apart"
    return bench_finding(case, subject_of(f"bench.{name}"), name, value, said)


def _table_inverted(case: Case, read: Measures) -> tuple[Finding, ...]:
    return _table(case, "bench.table-inverted", "shaft", read, found.at_plate(read))


def _table_upright(case: Case, read: Measures) -> tuple[Finding, ...]:
    return _table(case, "bench.table-upright", "tip", read, found.at_tips(read))


def _table(
    case: Case, check: str, part: str, read: Measures, lower: Measured
) -> tuple[Finding, ...]:
    """The gap is judged, the angle that opens it is told, and why where it is not good."""
    gap = abs(read["right_gap"] - read["left_gap"])
    side = "right" if read["right_gap"] > read["left_gap"] else "left"
    limit, _ = bench_limit(case, "table-touch")
    said = "Nothing lifts"
    if gap:
        temple = "right" if lower.value > 0 else "left"
        angle = degrees(millionth(abs(lower.value)))
        said = f"The {side} {part} lifts {size_beside(gap, limit.value, 'mm')}"
        said += f", as if the {temple} temple pointed {angle} lower"
    value = Value(
        found=gap, difference=gap, sign="", remark=_consequence(case, "table-touch", gap)
    )
    judged = bench_finding(case, subject_of(check), "table-touch", value, said)
    if judged.state in {State.OUTSIDE, State.CLOSE}:
        return (judged, why_it_rocks(case, check))
    return (judged,)


def _temple_bend(case: Case, read: Measures) -> tuple[Finding, ...]:
    start = read["right_start"] - read["left_start"]
    drop = read["right_drop"] - read["left_drop"]
    starts = (
        f"Bends start at {millimetres(read['right_start'])} right and "
        f"{millimetres(read['left_start'])} left: {millimetres(abs(start))} apart"
    )
    drops = (
        f"Drops {degrees(read['right_drop'])} right and {degrees(read['left_drop'])} left: "
        f"{degrees(abs(drop))} apart"
    )
    begin = _part("bench.temple-bend", "", "Start of the bend")
    fall = _part("bench.temple-bend", "drop", "Drop of the bend")
    return (
        bench_finding(case, begin, "bend-start", _plain(start), starts),
        bench_finding(case, fall, "bend-drop", _plain(drop), drops),
    )


def _plain(difference: Decimal) -> Value:
    """A size that should be zero."""
    return Value(found=difference, difference=difference, sign="")


BENCH_CHECKS = (
    bench_check("rotation", _rotation),
    bench_check("skew", _skew),
    bench_check("x-ing", _x_ing),
    bench_check("four-point", _four_point),
    bench_check("open-angle", _open_angle),
    bench_check("pantoscopic", _pantoscopic),
    bench_check("table-inverted", _table_inverted),
    bench_check("table-upright", _table_upright),
    bench_check("temple-bend", _temple_bend),
)
"""The bench checks whose measurements are judged, in the order of the bench."""
