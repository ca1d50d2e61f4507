"""The defects of the lenses at their places, for the drawing and for who reads the data."""

from benchassist.job.document import Job
from benchassist.records.record import DefectLine
from benchassist.verdicts.finding import Finding, State
from benchassist.verdicts.surface import defect_words, zone_of


def defect_lines(job: Job, findings: tuple[Finding, ...]) -> tuple[DefectLine, ...]:
    """One line for each defect of the present attempt, by its number."""
    states = {finding.key: finding.state for finding in findings}
    return tuple(
        DefectLine(
            number=number,
            eye=defect.eye,
            across=defect.across,
            up=defect.up,
            zone=zone_of(job.order, defect).value,
            state=states.get(f"surface.{defect.check}.{number}", State.NONE),
            text=defect_words(job.order, defect),
        )
        for number, defect in enumerate(job.now.surface.defects, start=1)
    )
