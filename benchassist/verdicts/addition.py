"""The additions of each lens: near, intermediate, and the one engraved."""

from dataclasses import replace
from decimal import Decimal

from benchassist.job.order import Design, Surface
from benchassist.job.readings import AddReading, DrumAdd
from benchassist.optics.eye import Eye
from benchassist.verdicts.case import ORDERED, Case, no_limit
from benchassist.verdicts.exact import mean
from benchassist.verdicts.finding import Finding, State
from benchassist.verdicts.weigh import Subject, compared, off_by
from benchassist.verdicts.words import signed_dioptres

_STEPS_DECIDE = (
    "so near the limit that the reading steps decide (the meter's own error is common to both "
    "readings and falls out): read it again"
)
_ON_STOP = {
    Surface.BACK: "back surface on the stop",
    Surface.FRONT: "front surface on the stop",
}
_TENTH = Decimal("0.1")


def judge_additions(case: Case) -> tuple[Finding, ...]:
    """The findings on the additions of both lenses."""
    return tuple(finding for eye in Eye for finding in _lens(case, eye))


def _lens(case: Case, eye: Eye) -> tuple[Finding, ...]:
    readings = case.now.eye(eye)
    ordered, origin = case.add_to_find(eye)
    near = Subject(f"{eye}.add", f"{eye}.near", "Addition", eye)
    findings = [_addition(case, near, ordered, origin, readings.near)]
    if case.design is Design.TRIFOCAL:
        middle = Subject(
            f"{eye}.intermediate", f"{eye}.intermediate", "Intermediate addition", eye
        )
        wanted = case.ordered(eye).intermediate
        findings.append(_addition(case, middle, wanted, ORDERED, readings.intermediate))
    if case.design is Design.PROGRESSIVE:
        findings.append(_engraved(case, eye))
    return tuple(findings)


def _addition(
    case: Case,
    subject: Subject,
    ordered: Decimal | None,
    origin: str,
    readings: tuple[AddReading, ...],
) -> Finding:
    if case.design is None:
        return subject.missing("The lens design is not ordered yet, so no limit can be chosen.")
    if not case.design.has_addition:
        return subject.none(f"No addition is read on {case.lens}.")
    if ordered is None:
        return subject.missing(f"{subject.what}: none is ordered yet.")
    read = [reading for reading in readings if reading.addition is not None]
    wanted = f"{signed_dioptres(ordered)} {origin}"
    if not read:
        return subject.missing(f"{subject.what} not read yet, {wanted}.", ordered, "D")
    values = [reading.addition for reading in read if reading.addition is not None]
    found = mean(values)
    opening = f"{subject.what} {signed_dioptres(found)} found{_surface(read)}, {wanted}"
    row = case.row(subject.key.partition(".")[2])
    looked_up = {"add": ordered}
    limit = row.band(looked_up).limit(looked_up) if row else None
    value = compared(found, ordered, "D")
    if limit is None:
        return subject.none(f"{opening}; {no_limit(case)}.", value)
    doubt = case.doubt
    drum = any(isinstance(reading, DrumAdd) for reading in read)
    guard = doubt.guard(doubt.power_difference(values, drum=drum), limit.value)
    off = off_by(found - ordered, limit, "stronger", "weaker")
    return subject.judged(
        replace(value, doubt=_STEPS_DECIDE), limit, guard, f"{opening}: {off}"
    )


def _surface(readings: list[AddReading]) -> str:
    """The surface on the stop, where all readings used the same one."""
    surfaces = {reading.surface for reading in readings}
    return f" ({_ON_STOP[surfaces.pop()]})" if len(surfaces) == 1 else ""


def _engraved(case: Case, eye: Eye) -> Finding:
    """The engraved addition names the lens: it must be the ordered one, without a limit."""
    subject = Subject(f"{eye}.engraved-add", f"{eye}.engraved-add", "Engraved addition", eye)
    ordered, found = case.ordered(eye).add, case.now.eye(eye).engraved_add
    if ordered is None:
        return subject.missing("Engraved addition: none is ordered yet.")
    if found is None:
        wanted = f"{signed_dioptres(ordered)} ordered"
        return subject.missing(f"Engraved addition not read yet, {wanted}.", ordered, "D")
    same = found == ordered or found == ordered // _TENTH * _TENTH
    opening = f"Engraved addition {signed_dioptres(found)}, {signed_dioptres(ordered)} ordered"
    said = "the same" if same else "another lens than ordered"
    return Finding(
        key=subject.key,
        prompt=subject.prompt,
        what=subject.what,
        state=State.WITHIN if same else State.OUTSIDE,
        sentence=f"{opening}: {said}.",
        eye=eye,
        ordered=ordered,
        found=found,
        difference=Decimal(0) if same else found - ordered,
        unit="D",
    )
