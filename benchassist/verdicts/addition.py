"""The additions of each lens: near, intermediate, and the one engraved."""

from dataclasses import replace
from decimal import ROUND_HALF_UP, Decimal

from benchassist.job.order import Design
from benchassist.job.readings import AddReading
from benchassist.optics.eye import Eye
from benchassist.verdicts.case import ORDERED, Case, no_limit
from benchassist.verdicts.exact import ZERO, mean
from benchassist.verdicts.finding import Finding, State
from benchassist.verdicts.near import counted, must_turn, proposal, remark
from benchassist.verdicts.weigh import Subject, Value, compared, in_eighths, off_by
from benchassist.verdicts.words import signed_dioptres

_STEPS_DECIDE = (
    "so near the limit that the reading steps decide (the meter's own error is common to both "
    "readings and falls out)"
)
OTHER_SURFACE = "turn the lens and read it again"
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
        findings.append(_intermediate(case, eye, ordered))
    if case.design is Design.PROGRESSIVE:
        findings.append(_engraved(case, eye))
    return tuple(findings)


def _intermediate(case: Case, eye: Eye, near: Decimal | None) -> Finding:
    """The intermediate addition of a trifocal; the usual half is told where none is ordered."""
    subject = Subject(
        f"{eye}.intermediate", f"{eye}.intermediate", "Intermediate addition", eye
    )
    ordered = case.ordered(eye).intermediate
    readings = case.now.eye(eye).intermediate
    if ordered is not None or near is None:
        return _addition(case, subject, ordered, ORDERED, readings)
    usual = f"none is ordered, half of the near addition would be {signed_dioptres(near / 2)}"
    judged = counted(readings, proposal(case.order, eye))
    if not judged:
        return subject.missing(f"{subject.what} not read yet; {usual}.")
    found = mean([reading.addition or ZERO for reading in judged])
    read = f"{subject.what} {signed_dioptres(found)} found ({_on_stop(judged)})"
    return subject.none(f"{read}; {usual}.", Value(found=found, unit="D"))


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
        return subject.none(_no_addition(case))
    if ordered is None:
        return subject.missing(f"{subject.what}: none is ordered yet.")
    proposed = proposal(case.order, subject.eye or Eye.RIGHT)
    judged = counted(readings, proposed)
    wanted = f"{signed_dioptres(ordered)} {origin}"
    if not judged:
        return subject.missing(f"{subject.what} not read yet, {wanted}.", ordered, "D")
    values = [reading.addition or ZERO for reading in judged]
    found = mean(values)
    opening = f"{subject.what} {signed_dioptres(found)} found ({_on_stop(judged)}), {wanted}"
    row = case.row(subject.key.partition(".")[2])
    looked_up = {"add": ordered}
    band = row.band(looked_up) if row else None
    limit = band.limit(looked_up) if band else None
    written = band is not None and in_eighths(values, band)
    value = compared(found, ordered, "D", in_eighths=written)
    if limit is None:
        return subject.none(f"{opening}; {no_limit(case)}.", value)
    off = off_by(value.compared_with, limit, "stronger", "weaker")
    kept = remark(readings, proposed)
    told = replace(value, doubt=_STEPS_DECIDE, remark=kept, is_told=bool(kept))
    trust = case.doubt.power_difference(values, case.add_meters(judged))
    finding = subject.weighed(told, limit, trust, f"{opening}: {off}")
    return _on_other_surface(finding) if must_turn(judged, proposed) else finding


def _on_other_surface(finding: Finding) -> Finding:
    """Read on the other surface, where that is off by more than can be passed over."""
    if finding.limit is None:
        return finding
    said = finding.sentence.removesuffix(".")
    sentence = f"{said}; {OTHER_SURFACE}."
    return replace(finding, state=State.CLOSE, sentence=sentence, more_readings=None)


def _on_stop(readings: tuple[AddReading, ...]) -> str:
    """The surface on the stop in all of these readings."""
    return f"{readings[0].surface.value} surface on the stop"


def _no_addition(case: Case) -> str:
    if case.design is Design.DEGRESSIVE:
        return (
            "No addition is read on a degressive lens: its power is compared with the order at "
            "the primary reference point, which lies in the near part."
        )
    return f"No addition is read on {case.lens}."


def _engraved(case: Case, eye: Eye) -> Finding:
    """The engraved addition names the lens: it must be the ordered one, without a limit."""
    subject = Subject(f"{eye}.engraved-add", f"{eye}.engraved-add", "Engraved addition", eye)
    ordered, found = case.ordered(eye).add, case.now.eye(eye).engraved_add
    if ordered is None:
        return subject.missing("Engraved addition: none is ordered yet.")
    if found is None:
        wanted = f"{signed_dioptres(ordered)} ordered"
        return subject.missing(f"Engraved addition not read yet, {wanted}.", ordered, "D")
    cut, rounded = ordered // _TENTH * _TENTH, ordered.quantize(_TENTH, ROUND_HALF_UP)
    same = found in {ordered, cut, rounded}
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
