"""The measured fault of a bench check, as the drawing of the frame takes it."""

from decimal import Decimal

from benchassist.geometry.fault import Fault
from benchassist.guide.flow import PromptStanding
from benchassist.guide.prompts import StepId
from benchassist.job.checks import Answer
from benchassist.job.document import Job
from benchassist.optics.eye import Eye
from benchassist.verdicts.finding import Finding

_LEFT_MINUS_RIGHT = {
    "skew": 1,
    "x-ing": 1,
    "four-point": 1,
    "open-angle": -1,
    "pantoscopic": -1,
}
"""The sign that turns a finding into left minus right, as `Fault` has it."""

_TABLE = {"table-upright": (Eye.LEFT, Eye.RIGHT), "table-inverted": (Eye.RIGHT, Eye.LEFT)}
"""For a table touch, the side whose gap counts as positive, and the other one."""


def measured_fault(job: Job, standing: PromptStanding) -> Fault | None:
    """What was measured for a bench check; None where nothing of it can be drawn."""
    prompt = standing.prompt
    if prompt.step is not StepId.BENCH:
        return None
    found = {one.key: one for one in standing.findings if one.found is not None}
    name = prompt.name
    if name in _TABLE:
        return _table_touch(name, job.now.bench.answers.get(name, Answer()))
    if name == "rotation":
        return _turned_lens(found)
    if name == "temple-bend":
        return _fault(name, found.get(f"{prompt.id}.drop"), -1)
    return _fault(name, found.get(prompt.id), _LEFT_MINUS_RIGHT.get(name, 0))


def _fault(name: str, finding: Finding | None, sign: int) -> Fault | None:
    if finding is None or not finding.found or not sign:
        return None
    return Fault(name, sign * float(finding.found))


def _table_touch(name: str, answer: Answer) -> Fault | None:
    plus, minus = _TABLE[name]
    zero = Decimal(0)
    gap = answer.measured.get(f"{plus}_gap", zero) - answer.measured.get(f"{minus}_gap", zero)
    return Fault(name, float(gap)) if gap else None


def _turned_lens(found: dict[str, Finding]) -> Fault | None:
    """The lens turned most, drawn on its own side."""
    turned = [
        Fault("rotation", float(one.found), one.eye)
        for one in found.values()
        if one.eye is not None and one.found
    ]
    return max(turned, key=lambda fault: abs(fault.value), default=None)
