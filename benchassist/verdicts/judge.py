"""The verdict on a job: every rule applied, one finding per quantity."""

from collections.abc import Callable
from dataclasses import replace

from benchassist.job.document import Job
from benchassist.limits.load import Limits
from benchassist.verdicts.addition import judge_additions
from benchassist.verdicts.answers import judge_answers
from benchassist.verdicts.as_worn import judge_as_worn
from benchassist.verdicts.bench import BENCH_CHECKS
from benchassist.verdicts.bench_shape import SHAPE_CHECKS
from benchassist.verdicts.case import Case
from benchassist.verdicts.centration import judge_centration
from benchassist.verdicts.decentration import judge_decentration
from benchassist.verdicts.finding import Finding, State
from benchassist.verdicts.fit import FIT_CHECKS
from benchassist.verdicts.position import judge_positions
from benchassist.verdicts.power import judge_powers
from benchassist.verdicts.prism import judge_prisms
from benchassist.verdicts.surface import SURFACE_CHECKS, judge_surface
from benchassist.verdicts.trace import judge_meters
from benchassist.verdicts.worn_acuity import judge_acuity


def _judge_checks(case: Case) -> tuple[Finding, ...]:
    checks = (*BENCH_CHECKS, *SHAPE_CHECKS, *FIT_CHECKS, *SURFACE_CHECKS)
    return judge_surface(case, judge_answers(case, checks))


RULES: tuple[Callable[[Case], tuple[Finding, ...]], ...] = (
    judge_powers,
    judge_as_worn,
    judge_additions,
    judge_prisms,
    judge_centration,
    judge_decentration,
    judge_positions,
    judge_meters,
    _judge_checks,
    judge_acuity,
)
"""Everything that is judged, in the order in which findings are listed."""

_PAIR = "pair"
_ON_BENCH = ("bench", "fit")
"""What keys begin with whose quantities are limited for the pair, or on the bench."""


def judge(job: Job, limits: Limits) -> tuple[Finding, ...]:
    """The findings on the attempt being worked on; the same job always gives the same ones.

    Exact decimals decide and on the limit is within; a prompt marked not applicable no longer
    waits for its reading, nor does a quantity that the workshop has switched off.
    """
    case = Case(job, limits)
    found = (finding for rule in RULES for finding in rule(case))
    return tuple(_unless_off(case, _unless_skipped(case, finding)) for finding in found)


def _unless_skipped(case: Case, finding: Finding) -> Finding:
    reason = case.now.skipped.get(finding.prompt)
    if reason is None or finding.state is not State.MISSING:
        return finding
    why = f": {reason.rstrip('.')}" if reason else ""
    return replace(
        finding, state=State.NONE, sentence=f"{finding.what} marked not applicable{why}."
    )


def _unless_off(case: Case, finding: Finding) -> Finding:
    """What waits for a reading although a house rule has switched its limit off."""
    if finding.state is not State.MISSING:
        return finding
    place, _, name = finding.key.partition(".")
    table = case.limits.bench if place in _ON_BENCH else case.limits.rules
    caused = name.replace("centration-", "prism-")
    for quantity in (f"{name}-pair", caused) if place == _PAIR else (name,):
        row = table.row(quantity, case.design)
        if row is not None:
            rule = row.bands[0].rule
            if not rule.off:
                return finding
            sentence = f"{finding.what}: {rule.off}."
            return replace(finding, state=State.NONE, rule=rule, sentence=sentence)
    return finding
