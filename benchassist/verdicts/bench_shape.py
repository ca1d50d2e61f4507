"""The checks of the bench that a rule can add to the eye: face form by depth, pads, fold."""

from decimal import Decimal

from benchassist.geometry.bench_measured import measured_fold, measured_form_from_depth
from benchassist.optics.eye import Eye
from benchassist.verdicts.answers import Measures, subject_of
from benchassist.verdicts.bench import against_order, bench_check
from benchassist.verdicts.bench_limits import bench_finding
from benchassist.verdicts.case import Case
from benchassist.verdicts.exact import millionth
from benchassist.verdicts.finding import Finding
from benchassist.verdicts.frame_measured import RULE
from benchassist.verdicts.weigh import Subject, Value
from benchassist.verdicts.words import degrees, millimetres


def _face_form(case: Case, read: Measures) -> tuple[Finding, ...]:
    """The form of each side by the depth of the bridge, twice against twice the order."""
    each = measured_form_from_depth(float(read["depth"]), float(read["width"]), RULE).value
    subject = Subject("bench.face-form", "bench.face-form", "Total face form by depth")
    ordered = case.order.frame.face_form
    total = 2 * millionth(each)
    if ordered is None:
        return (against_order(case, subject, "face-form", total, None),)
    how = f" ({degrees(ordered)} for each lens)"
    return (against_order(case, subject, "face-form", total, 2 * ordered, how),)


def _pads(case: Case, read: Measures) -> tuple[Finding, ...]:
    return (
        _pad_pair(case, read, "height", "Height of the pads", "higher"),
        _pad_pair(case, read, "stand", "Distance of the pads from the lenses", "further off"),
    )


def _pad_pair(case: Case, read: Measures, name: str, what: str, more: str) -> Finding:
    right, left = read[f"right_{name}"], read[f"left_{name}"]
    apart = right - left
    subject = Subject(f"bench.pads.{name}", "bench.pads", what)
    side = f", the {Eye.RIGHT if apart > 0 else Eye.LEFT} one {more}" if apart else ""
    said = (
        f"{what} {millimetres(right)} right and {millimetres(left)} left: "
        f"{millimetres(abs(apart))} apart{side}"
    )
    return bench_finding(case, subject, "pads", _plain(apart), said)


def _fold(case: Case, read: Measures) -> tuple[Finding, ...]:
    """How unequally the folded temples climb, from their heights over the middle."""
    right, left = read["right_height"], read["left_height"]
    apart = measured_fold(float(right), float(left), float(read["half_width"]), RULE)
    value = millionth(apart.value)
    climbs = f", the {Eye.RIGHT if value > 0 else Eye.LEFT} one climbs more" if value else ""
    said = f"Folded temples {degrees(abs(value))} apart{climbs}"
    return (bench_finding(case, subject_of("bench.fold"), "fold", _plain(value), said),)


def _plain(difference: Decimal) -> Value:
    """A size that should be zero."""
    return Value(found=difference, difference=difference, sign="")


SHAPE_CHECKS = (
    bench_check("face-form", _face_form),
    bench_check("pads", _pads),
    bench_check("fold", _fold),
)
"""Checks that are usually answered by eye and can be measured."""
