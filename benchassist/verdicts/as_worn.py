"""What a lens compensated for its place on the face would show, where no maker says so."""

from decimal import Decimal

from benchassist.optics.eye import Eye
from benchassist.optics.power import Power, normal_axis
from benchassist.optics.tilt import combined_tilt, made_for_eye
from benchassist.optics.vertex import replaced_at
from benchassist.verdicts.case import Case
from benchassist.verdicts.exact import written_power
from benchassist.verdicts.finding import Finding
from benchassist.verdicts.form import index_of
from benchassist.verdicts.weigh import Subject
from benchassist.verdicts.words import degrees, millimetres, power

_HUNDREDTH = Decimal("0.01")


def judge_as_worn(case: Case) -> tuple[Finding, ...]:
    """The compensated power of each lens, for information only: it never enters a verdict.

    Given where the order states tilt, face form and vertex distance but no complete
    verification power.
    """
    findings = (_one_lens(case, eye) for eye in Eye)
    return tuple(finding for finding in findings if finding)


def as_worn_power(case: Case, eye: Eye) -> Power | None:
    """What the meter would show of a lens compensated as worn, exact for a thin lens, D.

    The lens gives the ordered power to the eye through the order's tilt and face form, at the
    vertex distance measured on the wearer where it was, else at the ordered one. None where
    the order does not state all of it, or no such lens is possible.
    """
    ordered, refracted = case.ordered_power(eye), case.order.vertex_distance
    frame = case.order.frame
    if ordered is None or refracted is None or frame.tilt is None or frame.face_form is None:
        return None
    worn = _worn_at(case, eye)
    try:
        tilt = combined_tilt(float(frame.tilt), float(frame.face_form), eye)
        moved = ordered.power()
        if worn is not None:
            moved = replaced_at(moved, float(refracted), float(worn))
        return made_for_eye(moved, tilt, index_of(case.order)[0])
    except ValueError:
        return None


def _worn_at(case: Case, eye: Eye) -> Decimal | None:
    """The vertex distance measured on the wearer, mm."""
    answer = case.now.fit.answers.get("vertex")
    return answer.measured.get(eye) if answer else None


def _one_lens(case: Case, eye: Eye) -> Finding | None:
    by_maker = case.ordered(eye).verification
    if by_maker and written_power(by_maker.power):
        return None
    shown = as_worn_power(case, eye)
    if shown is None:
        return None
    subject = Subject(f"{eye}.as-worn", f"{eye}.distance", "Compensated as worn", eye)
    return subject.none(
        f"{subject.what}: {_written(shown)} on the meter ({_assumptions(case, eye)}); for "
        "information, the order is judged.",
        is_told=True,
    )


def _written(shown: Power) -> str:
    sphere, cylinder = (
        Decimal(value).quantize(_HUNDREDTH) for value in (shown.sphere, shown.cylinder)
    )
    if shown.axis is None or not cylinder:
        return power(sphere)
    return power(sphere, cylinder, Decimal(normal_axis(round(shown.axis))))


def _assumptions(case: Case, eye: Eye) -> str:
    frame, refracted = case.order.frame, case.order.vertex_distance or Decimal(0)
    worn = _worn_at(case, eye)
    place = millimetres(refracted)
    if worn is not None and worn != refracted:
        place = f"refracted at {millimetres(refracted)} and worn at {millimetres(worn)}"
    tilt, form = (degrees(angle or Decimal(0)) for angle in (frame.tilt, frame.face_form))
    index = index_of(case.order)[1]
    return f"thin lens, {index}, tilt {tilt}, face form {form}, {place}"
