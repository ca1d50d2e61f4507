"""The measured checks of the frame on the bench, through the geometry to a verdict."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from decimal import Decimal

from benchassist.geometry.measured import Measured
from benchassist.limits.rule import Limit
from benchassist.optics.eye import Eye
from benchassist.verdicts import frame_measured as found
from benchassist.verdicts.answers import MeasuredCheck, Measures, subject_of
from benchassist.verdicts.bench_limits import LOOK_AGAIN, bench_finding, bench_limit
from benchassist.verdicts.case import Case
from benchassist.verdicts.consequence import consequence, turn_leaves
from benchassist.verdicts.exact import millionth
from benchassist.verdicts.finding import Finding, State
from benchassist.verdicts.rocking_told import why_it_rocks
from benchassist.verdicts.usual_range import each_side, usual_finding
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
class Number:
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
    def of(cls, measured: Measured, unit: str) -> "Number":
        """A measured number in the unit in which it is told."""
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
        return f"{size_beside(self.value, limit, self.unit)}{self.known}"

    @property
    def known(self) -> str:
        """How well it is known, such as ' ± 0.4 mm'; empty where that would not show."""
        return f" ± {size(self.known_to, self.unit)}" if self.known_to else ""


def _consequence(case: Case, name: str, size_of_it: Decimal) -> str:
    """What it does before the eyes, where it is not good."""
    limit, guard = bench_limit(case, name)
    return "" if abs(size_of_it) <= limit.value - guard else consequence(case, name, size_of_it)


def _off_zero(  # noqa: PLR0913, PLR0917  (one call for every number that should be zero)
    case: Case, subject: Subject, name: str, number: Number, what: str, way: str
) -> Finding:
    """The finding on a number that should be zero, with what it does before the eyes."""
    limit, _ = bench_limit(case, name)
    said = f"{what} {number.beside(limit.value)}" + (f", {way}" if number.value else "")
    value = Value(
        found=abs(number.value),
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
    number = Number.of(measured, "°")
    turn = number.value
    subject = _part("bench.rotation", eye, "Lens turn", eye)
    limit, guard = bench_limit(case, "rotation")
    axis_limit = _axis_limit(case, eye)
    whose = ""
    if axis_limit and limit.value < axis_limit.value:
        allowed = limit_size(axis_limit.value, "°")
        whose = f", our own and tighter than the {allowed} allowed as an axis error"
    elif axis_limit:
        limit, whose = axis_limit, ", that of an axis error"
    way = "counter-clockwise" if turn > 0 else "clockwise"
    said = f"Lens turned {number.beside(limit.value)} {way}" if turn else "Not turned"
    remark = f"{whose}{turn_leaves(case, eye, turn)}"
    value = Value(
        found=turn, difference=turn, unit="°", sign="", remark=remark, doubt=number.doubt
    )
    return subject.judged(value, limit, min(guard, limit.value), said)


def _axis_limit(case: Case, eye: Eye) -> Limit | None:
    """What the rule set allows of the axis; None where no cylinder is ordered or judged."""
    power, _ = case.power_to_find(eye)
    row = case.row("axis")
    if not (power and power.axis is not None and row and case.design):
        return None
    looked_up = {"cylinder": abs(power.cylinder), "power": power.highest}
    limit = row.band(looked_up).limit(looked_up)
    return None if limit is None or limit.rule.off else limit


def _skew(case: Case, read: Measures) -> tuple[Finding, ...]:
    step = Number.of(found.skew_of(case.order.frame, read), "mm")
    way = f"{'left' if step.value > 0 else 'right'} side higher"
    return (_off_zero(case, subject_of("bench.skew"), "skew", step, "Skew step", way),)


def _x_ing(case: Case, read: Measures) -> tuple[Finding, ...]:
    twist = Number.of(found.x_ing_of(read), "°")
    side = "left" if twist.value > 0 else "right"
    way = f"the {side} lens leans further forward at the top"
    return (_off_zero(case, subject_of("bench.x-ing"), "x-ing", twist, "X-ing", way),)


def _four_point(case: Case, read: Measures) -> tuple[Finding, ...]:
    front = found.front_of(case.order.frame, read)
    step = Number.of(front.step, "mm")
    way = f"{'left' if step.value > 0 else 'right'} lens further forward"
    subject = _part("bench.four-point", "", "Plane step")
    form = _part("bench.four-point", "form", "Total face form")
    return (
        _off_zero(case, subject, "plane-step", step, "Plane step", way),
        whole_form(case, form, front.total),
    )


def whole_form(case: Case, subject: Subject, total: Measured) -> Finding:
    """The face form of both lenses together against twice the form ordered for each."""
    number = Number.of(total, "°")
    ordered = case.order.frame.face_form
    each = "" if ordered is None else f" ({degrees(ordered)} for each lens)"
    whole = None if ordered is None else 2 * ordered
    return against_order(case, subject, "face-form", number.value, whole, each, number.known)


def against_order(  # noqa: PLR0913, PLR0917  (one call for every angle that is ordered)
    case: Case,
    subject: Subject,
    name: str,
    measured: Decimal,
    ordered: Decimal | None,
    how: str = "",
    known: str = "",
) -> Finding:
    """An angle of the frame against the order; for information where none is ordered.

    `how` says in brackets how the order states it, `known` how well the angle is known.
    """
    opening = f"{subject.what} {degrees(measured)}{known} found"
    if ordered is None:
        value = Value(found=measured, unit="°")
        return subject.none(f"{opening}; none was ordered to compare it with.", value)
    value = Value(ordered, measured, measured - ordered, "°")
    return bench_finding(
        case, subject, name, value, f"{opening}, {degrees(ordered)} ordered{how}"
    )


def _open_angle(case: Case, read: Measures) -> tuple[Finding, ...]:
    right, left = sides = [found.open_angle_of(eye, read) for eye in Eye]
    pair = _two_sides(case, "open-angle", "Open temple angles", sides, right.minus(left))
    each = (
        _usual_side(case, each_side(eye, "open-angle", "Open temple angle"), one)
        for eye, one in zip(Eye, sides, strict=True)
    )
    return (pair, *each)


def _usual_side(case: Case, subject: Subject, measured: Measured) -> Finding:
    """One open angle against what is usual: two may be splayed or pinched alike."""
    number = Number.of(measured, "°")
    return usual_finding(case, subject, "open-angle-usual", number.value, number.known)


def _pantoscopic(case: Case, read: Measures) -> tuple[Finding, ...]:
    frame = case.order.frame
    sides = [found.pantoscopic_of(eye, frame, read) for eye in Eye]
    apart = found.pantoscopic_apart(frame, read)
    each = (
        _leaning_side(case, each_side(eye, "pantoscopic", "Pantoscopic angle"), one)
        for eye, one in zip(Eye, sides, strict=True)
    )
    return (_two_sides(case, "pantoscopic", "Pantoscopic angles", sides, apart), *each)


def _leaning_side(case: Case, subject: Subject, measured: Measured) -> Finding:
    """One pantoscopic angle against the tilt ordered, or what is usual: both may err alike."""
    number = Number.of(measured, "°")
    ordered = case.order.frame.tilt
    if ordered is None:
        return usual_finding(case, subject, "tilt-usual", number.value, number.known)
    return against_order(
        case, subject, "pantoscopic-ordered", number.value, ordered, known=number.known
    )


def _two_sides(
    case: Case, name: str, what: str, sides: Sequence[Measured], difference: Measured
) -> Finding:
    """The right angle against the left one."""
    apart = Number.of(difference, "°")
    limit, _ = bench_limit(case, name)
    each = " and ".join(
        f"{degrees(millionth(one.value))} {eye}" for one, eye in zip(sides, Eye, strict=True)
    )
    value = Value(
        found=abs(apart.value),
        difference=apart.value,
        sign="",
        remark=_consequence(case, name, apart.value),
        doubt=apart.doubt,
    )
    said = f"{what} {each}: {apart.beside(limit.value)} apart"
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
    limit, guard = bench_limit(case, "table-touch")
    said = "Nothing lifts"
    if gap:
        temple = "right" if lower.value > 0 else "left"
        angle = degrees(millionth(abs(lower.value)))
        said = f"The {side} {part} lifts {size_beside(gap, limit.value, 'mm')}"
        said += f", as if the {temple} temple pointed {angle} lower"
    opened = millionth(lower.value)
    is_good = gap <= limit.value - guard
    remark = "" if is_good else consequence(case, "table-touch", opened)
    value = Value(found=gap, difference=gap, sign="", remark=remark)
    judged = bench_finding(case, subject_of(check), "table-touch", value, said)
    if judged.state in {State.OUTSIDE, State.CLOSE}:
        return (judged, why_it_rocks(case, check))
    return (judged,)


def _temple_bend(case: Case, read: Measures) -> tuple[Finding, ...]:
    start = Number.of(found.bend_starts_apart(read), "mm")
    drop = Number.of(found.apart(read, "drop"), "°")
    starts = (
        f"Bends start at {millimetres(read['right_start'])} right and "
        f"{millimetres(read['left_start'])} left: "
        f"{millimetres(abs(start.value))}{start.known} apart"
    )
    drops = (
        f"Drops {degrees(read['right_drop'])} right and {degrees(read['left_drop'])} left: "
        f"{degrees(abs(drop.value))}{drop.known} apart"
    )
    begin = _part("bench.temple-bend", "", "Start of the bend")
    fall = _part("bench.temple-bend", "drop", "Drop of the bend")
    return (
        bench_finding(case, begin, "bend-start", size_of(start.value), starts),
        bench_finding(case, fall, "bend-drop", size_of(drop.value), drops),
    )


def size_of(difference: Decimal) -> Value:
    """A size that should be zero; which side has more of it is said in the sentence."""
    return Value(found=abs(difference), difference=difference, sign="")


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
