"""Whether a slip's pair fits what was read, by the same code and limits as every verdict."""

from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal

from pydantic import ValidationError

from benchassist.job.document import Job
from benchassist.limits.load import Decision
from benchassist.optics.eye import Eye
from benchassist.optics.power import difference
from benchassist.verdicts.addition import judge_additions
from benchassist.verdicts.answers import judge_answer
from benchassist.verdicts.case import Case
from benchassist.verdicts.centration import judge_centration
from benchassist.verdicts.decentration import judge_decentration
from benchassist.verdicts.diagnose.lens import QUANTITIES, Lens, Pair, Quantity
from benchassist.verdicts.diagnose.sight import Sight
from benchassist.verdicts.diagnose.stand_in import Change, as_predicted, as_read
from benchassist.verdicts.exact import ZERO, ExactPrism, MinusForm
from benchassist.verdicts.finding import Finding, State
from benchassist.verdicts.fit import CROSS
from benchassist.verdicts.position import judge_positions
from benchassist.verdicts.power import judge_powers
from benchassist.verdicts.prism import judge_prisms

NEAR_POWER = 0.5
"""How near the power must be, as blur strength in D; own proposal.

With the share, wider than the limits of meridians, cylinder and axis together in any rule set:
no slip that explains the whole power is lost, and one that explains a part of it is not offered
for quite another lens.
"""

NEAR_SHARE = 0.025
"""What each dioptre of the lens adds to that."""

NEAR_MM = Decimal(1)
"""How near each lens must sit to where a slip puts it, mm; own proposal.

The prism of a pair is judged together, and in weak lenses many places would pass.
"""

NEAR_PRISM = Decimal("0.5")
"""How near each component of each prism must be, prism dioptres; own proposal."""

MOST_THINNING = Decimal(3)
"""The largest prism base down shared by two lenses to be thinned; own proposal."""


def _judge_cross(case: Case) -> tuple[Finding, ...]:
    return judge_answer(case, CROSS)


RULES_ON: dict[Quantity, tuple[Callable[[Case], tuple[Finding, ...]], ...]] = {
    "power": (judge_powers,),
    "add": (judge_additions,),
    "engraved": (judge_additions,),
    "prism": (judge_prisms,),
    "pd": (judge_centration, judge_decentration),
    "near_pd": (judge_positions,),
    "height": (judge_positions, judge_decentration),
    "cross_up": (_judge_cross,),
}
"""The rules of every verdict that judge a quantity."""


def changes_of(sight: Sight, pair: Pair) -> tuple[Change, ...]:
    """What differs between a predicted pair and the one to find, as far as it was read."""
    return tuple(
        (eye, quantity, value)
        for eye in Eye
        for quantity in QUANTITIES
        if (value := pair.eye(eye).value(quantity)) is not None
        and value != sight.wanted.eye(eye).value(quantity)
        and sight.found.eye(eye).value(quantity) is not None
    )


def may_explain(sight: Sight, changes: tuple[Change, ...]) -> bool:
    """Whether anything is outside of which a slip speaks."""
    return any(sight.is_outside(quantity, eye) for eye, quantity, _ in changes)


def explained(sight: Sight, pair: Pair, changes: tuple[Change, ...]) -> tuple[str, ...]:
    """The keys of the findings outside that a slip explains; none where it must not be offered.

    The reading must be within the limits of the slip's pair in everything that the slip
    speaks of, the whole power where it is a part of the power, or past one by no more than the
    reading itself is worth; and that pair must be outside the limits of the order. What no
    order can state is no slip.
    """
    if not is_near(sight, pair, changes):
        return ()
    related = [key for eye, name, _ in changes for key in sight.related(name, eye)]
    watched = {key for eye, name, _ in changes for key in sight.watched(name, eye)}
    try:
        read, predicted = as_read(sight, pair, changes), as_predicted(sight, pair, changes)
    except ValidationError:
        return ()
    left_over = _left_over(_judged(sight, read, changes))
    shown = _judged(sight, predicted, changes)
    if watched & left_over or not watched & _outside(shown):
        return ()
    outside = (key for key in dict.fromkeys(related) if sight.has_outside(key))
    return tuple(key for key in outside if key not in left_over)


def _judged(sight: Sight, job: Job, changes: tuple[Change, ...]) -> tuple[Finding, ...]:
    """The findings on a job by the rules on what a slip changes, guarded in any workshop."""
    case = Case(job, replace(sight.case.limits, decision=Decision()))
    rules = dict.fromkeys(rule for _, quantity, _ in changes for rule in RULES_ON[quantity])
    return tuple(finding for rule in rules for finding in rule(case))


def _left_over(findings: tuple[Finding, ...]) -> set[str]:
    """What is outside by more than the uncertainty of its reading."""
    return {
        finding.key
        for finding in findings
        if finding.state is State.OUTSIDE
        and (
            finding.limit is None
            or abs(finding.difference or ZERO) > finding.limit + finding.guard
        )
    }


def _outside(findings: tuple[Finding, ...]) -> set[str]:
    return {finding.key for finding in findings if finding.state is State.OUTSIDE}


def is_near(sight: Sight, pair: Pair, changes: tuple[Change, ...]) -> bool:
    """Whether each lens by itself is near the prediction.

    Where only the pair is judged, the lens that the slip leaves alone must be near as well.
    """
    quantities = {quantity for _, quantity, _ in changes}
    varies = sight.case.design is not None and sight.case.design.varies
    lens_by_lens: set[Quantity] = {"power", "pd"} if varies else {"power"}
    for eye in Eye:
        changed = {quantity for side, quantity, _ in changes if side is eye}
        near = changed | (quantities - lens_by_lens)
        if not _lens_is_near(sight.found.eye(eye), pair.eye(eye), near):
            return False
    return "prism" not in quantities or _prisms_near(sight, pair)


def _lens_is_near(found: Lens, predicted: Lens, quantities: set[Quantity]) -> bool:
    if "power" in quantities and not _is_like(found.power, predicted.power):
        return False
    places = (
        ("pd", found.pd, predicted.pd),
        ("near_pd", found.near_pd, predicted.near_pd),
        ("height", found.height, predicted.height),
    )
    return all(_close(*values) for name, *values in places if name in quantities)


def _is_like(found: MinusForm | None, predicted: MinusForm | None) -> bool:
    if found is None or predicted is None:
        return True
    apart = difference(found.power(), predicted.power()).length
    return apart <= NEAR_POWER + NEAR_SHARE * float(predicted.highest)


def _close(found: Decimal | None, predicted: Decimal | None) -> bool:
    return found is None or predicted is None or abs(found - predicted) <= NEAR_MM


def _prisms_near(sight: Sight, pair: Pair) -> bool:
    """Each component of each lens; vertically what thins a progressive pair is left out."""
    left_over = [
        ExactPrism(found.base_in - predicted.base_in, found.base_up - predicted.base_up)
        for eye in Eye
        if (found := sight.found.eye(eye).prism) is not None
        and (predicted := pair.eye(eye).prism) is not None
    ]
    thinning = ZERO
    if sight.case.design and sight.case.design.varies and len(left_over) == len(Eye):
        common = sum((prism.base_up for prism in left_over), ZERO) / len(Eye)
        thinning = min(ZERO, max(-MOST_THINNING, common))
    return all(
        abs(prism.base_in) <= NEAR_PRISM and abs(prism.base_up - thinning) <= NEAR_PRISM
        for prism in left_over
    )
