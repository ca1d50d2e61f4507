"""The checks of the bench that a rule can add to the eye: face form by depth, pads, fold."""

from benchassist.optics.eye import Eye
from benchassist.verdicts import frame_measured as found
from benchassist.verdicts.answers import Measures, subject_of
from benchassist.verdicts.bench import Number, bench_check, size_of, whole_form
from benchassist.verdicts.bench_limits import bench_finding
from benchassist.verdicts.case import Case
from benchassist.verdicts.finding import Finding
from benchassist.verdicts.usual_range import each_side, usual_finding
from benchassist.verdicts.weigh import Subject
from benchassist.verdicts.words import millimetres, size


def _face_form(case: Case, read: Measures) -> tuple[Finding, ...]:
    """The form of each side by the depth of the bridge, twice against twice the order."""
    subject = Subject("bench.face-form", "bench.face-form", "Total face form by depth")
    return (whole_form(case, subject, found.form_by_depth(read)),)


def _pads(case: Case, read: Measures) -> tuple[Finding, ...]:
    return (
        _pad_pair(case, read, "height", "Height of the pads", "higher"),
        _pad_pair(case, read, "stand", "Distance of the pads from the lenses", "further off"),
    )


def _pad_pair(case: Case, read: Measures, name: str, what: str, more: str) -> Finding:
    right, left = read[f"right_{name}"], read[f"left_{name}"]
    number = Number.of(found.apart(read, name), "mm")
    apart = number.value
    subject = Subject(f"bench.pads.{name}", "bench.pads", what)
    side = f", the {Eye.RIGHT if apart > 0 else Eye.LEFT} one {more}" if apart else ""
    said = (
        f"{what} {millimetres(right)} right and {millimetres(left)} left: "
        f"{millimetres(abs(apart))}{number.known} apart{side}"
    )
    return bench_finding(case, subject, "pads", size_of(apart), said)


def _fold(case: Case, read: Measures) -> tuple[Finding, ...]:
    """How unequally the folded temples climb over the middle, and each against level."""
    number = Number.of(found.fold_apart(read), "°")
    value = number.value
    climbs = f", the {Eye.RIGHT if value > 0 else Eye.LEFT} one climbs more" if value else ""
    said = f"Folded temples {size(value, '°')}{number.known} apart{climbs}"
    pair = bench_finding(case, subject_of("bench.fold"), "fold", size_of(value), said)
    return (pair, *(_climb(case, eye, read) for eye in Eye))


def _climb(case: Case, eye: Eye, read: Measures) -> Finding:
    """One folded temple against level: both may climb or sink alike."""
    number = Number.of(found.fold_of(eye, read), "°")
    subject = each_side(eye, "fold", "Climb of the folded temple")
    return usual_finding(case, subject, "fold-level", number.value, number.known)


SHAPE_CHECKS = (
    bench_check("face-form", _face_form),
    bench_check("pads", _pads),
    bench_check("fold", _fold),
)
"""Checks that are usually answered by eye and can be measured."""
