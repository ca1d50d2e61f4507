"""How the front sits: level, face form of both sides, slipping, and comfort after a while."""

from decimal import Decimal

from benchassist.geometry import usual
from benchassist.geometry.angles import angle_of_rise
from benchassist.geometry.on_face import cross_height_difference
from benchassist.job.checks import Seen
from benchassist.optics.eye import Eye
from benchassist.verdicts.answers import Measures
from benchassist.verdicts.bench import against_order
from benchassist.verdicts.bench_limits import bench_finding, bench_limit
from benchassist.verdicts.case import Case
from benchassist.verdicts.consequence import between_the_eyes, centre_distance
from benchassist.verdicts.finding import Finding, State
from benchassist.verdicts.usual_range import usual_finding
from benchassist.verdicts.weigh import Subject, Value
from benchassist.verdicts.words import degrees, millimetres, prism_amount, size_beside, tenth

LONG_ENOUGH = Decimal(5)
"""Minutes after which redness shows where a pair presses; common practice, no source."""


def level_findings(case: Case, read: Measures) -> tuple[Finding, ...]:
    """The outer ends of the front, right minus left, and what the roll does to the centres."""
    higher = read["ends"]
    limit, guard = bench_limit(case, "worn-level")
    subject = Subject("fit.level", "fit.level", "Level on the face")
    frame = case.order.frame
    roll = angle_of_rise(float(higher), usual.between_ends(frame.a, frame.dbl))
    said = "Both ends level"
    if higher:
        side = "right" if higher > 0 else "left"
        said = f"The {side} end {size_beside(higher, limit.value, 'mm')} higher"
    remark = "" if abs(higher) <= limit.value - guard else _rolled(case, roll)
    value = Value(found=abs(higher), difference=higher, sign="", remark=remark)
    return (bench_finding(case, subject, "worn-level", value, said),)


def _rolled(case: Case, roll: float) -> str:
    """What a rolled front does before the eyes, after the limit."""
    pd, assumed = centre_distance(case)
    apart = cross_height_difference(float(pd), roll)
    crosses = tenth(abs(apart))
    turned = degrees(tenth(abs(roll)))
    said = f"; a roll of {turned} carries the centres {millimetres(crosses)} apart{assumed}"
    felt = between_the_eyes(case, apart)
    return f"{said}, {prism_amount(felt)} between the eyes" if felt else said


def form_findings(case: Case, read: Measures) -> tuple[Finding, ...]:
    """The face form of each side against the order, and of the sides against each other."""
    each = (_form(case, eye, read[eye]) for eye in Eye)
    right, left = read[Eye.RIGHT], read[Eye.LEFT]
    apart = right - left
    turned = f": {_turned(apart)}" if apart else ""
    said = f"Face form as worn {degrees(right)} right and {degrees(left)} left{turned}"
    pair = Subject("fit.face-form", "fit.face-form", "Face form as worn, right against left")
    value = Value(found=abs(apart), difference=apart, sign="")
    return (bench_finding(case, pair, "worn-form-sides", value, said), *each)


def _form(case: Case, eye: Eye, measured: Decimal) -> Finding:
    """The face form of one lens against the order, or what is usual where none is ordered."""
    subject = Subject(f"fit.face-form.{eye}", "fit.face-form", "Face form as worn", eye)
    ordered = case.order.frame.face_form
    if ordered is None:
        return usual_finding(case, subject, "form-usual", measured)
    return against_order(case, subject, "worn-form", measured, ordered)


def _turned(apart: Decimal) -> str:
    """By how much a front is turned whose right form is larger by so much, and which way.

    A turn of the front takes one outer end back by as much as it brings the other forward, so
    it is half of the difference, and the lens whose form looks larger has come nearer to its
    eye. Own derivation.
    """
    nearer = Eye.RIGHT if apart > 0 else Eye.LEFT
    turned = degrees(abs(apart) / 2)
    return f"the front is turned by {turned}, the {nearer} lens nearer to the face"


def slip_findings(case: Case, read: Measures) -> tuple[Finding, ...]:
    """How far the front came down when the wearer looked down and shook the head."""
    slip = read["slip"]
    limit, _ = bench_limit(case, "worn-slip")
    said = "It stays where it was"
    if slip:
        said = f"It came down {size_beside(slip, limit.value, 'mm')}"
    subject = Subject("fit.slipping", "fit.slipping", "Holds its place")
    value = Value(found=slip, difference=slip, sign="")
    return (bench_finding(case, subject, "worn-slip", value, said),)


def comfort_findings(case: Case, read: Measures) -> tuple[Finding, ...]:
    """Whether the pair was worn for long enough before it was found comfortable."""
    minutes = read["minutes"]
    answer = case.now.fit.answers["comfort"]
    worn_for = f"Comfort: worn for {_minutes(minutes)}"
    if answer.seen is None:
        state, said = State.CLOSE, f"{worn_for}; say whether it was good or a fault."
    elif minutes < LONG_ENOUGH:
        why = f"redness shows after about {_minutes(LONG_ENOUGH)} (common practice, no source)"
        state, said = State.CLOSE, f"{worn_for} only: look again, {why}."
    else:
        good = "found good" if answer.seen is Seen.GOOD else "a fault was seen"
        state, said = State.WITHIN, f"{worn_for}, {good}."
    return (Finding("fit.comfort", "fit.comfort", "Comfort", state, said),)


def _minutes(minutes: Decimal) -> str:
    return f"{minutes.normalize():f} minute{'' if minutes == 1 else 's'}"
