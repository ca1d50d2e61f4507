"""All that a slip is guessed from: the pair to find, the pair found, and what is outside."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from benchassist.job.document import Job
from benchassist.job.order import FrameOrder
from benchassist.limits.load import Limits
from benchassist.optics.eye import Eye
from benchassist.verdicts.case import Case
from benchassist.verdicts.centration import distance_found
from benchassist.verdicts.diagnose.lens import Lens, Pair, Quantity, findings_on
from benchassist.verdicts.exact import ZERO, mean
from benchassist.verdicts.finding import Finding, State

_BY_PLACE = ("pair.centration-horizontal", "pair.centration-vertical")
"""Findings on the prism that the places of both lenses cause."""


@dataclass(frozen=True, slots=True)
class Sight:
    """One job seen whole.

    Attributes:
        case: the job and its limits.
        wanted: the lenses that the readings are judged against.
        found: the means of the readings; None where there is none.
        findings: the findings by their keys.
    """

    case: Case
    wanted: Pair
    found: Pair
    findings: Mapping[str, Finding]

    @property
    def frame(self) -> FrameOrder:
        """The frame ordered."""
        return self.case.order.frame

    def related(self, quantity: Quantity, eye: Eye) -> tuple[str, ...]:
        """The keys of the findings that judge this quantity of this lens."""
        return findings_on(quantity, eye, self.case.design)

    def watched(self, quantity: Quantity, eye: Eye) -> tuple[str, ...]:
        """Those of them that must be within, if a slip in this quantity is the whole story.

        By an oblique cylinder an error sideways also causes vertical prism, and the reverse.
        That counts only while nothing is outside in the direction of the error itself, so that
        two slips in one pair are both found.
        """
        own, *others = self.related(quantity, eye)
        return (own,) if own in _BY_PLACE and self.has_outside(own) else (own, *others)

    def outside(self, quantity: Quantity, eye: Eye) -> tuple[str, ...]:
        """Those of them that are outside."""
        return tuple(filter(self.has_outside, self.related(quantity, eye)))

    def is_outside(self, quantity: Quantity, eye: Eye) -> bool:
        """Whether any of them is outside."""
        return bool(self.outside(quantity, eye))

    def has_outside(self, key: str) -> bool:
        """Whether a finding is there and outside."""
        finding = self.findings.get(key)
        return finding is not None and finding.state is State.OUTSIDE

    def is_sound(self, quantity: Quantity, eye: Eye) -> bool:
        """Whether this quantity of this lens was read and nothing on it is outside."""
        return self.found.eye(eye).value(quantity) is not None and not self.is_outside(
            quantity, eye
        )

    def limit(self, key: str) -> Decimal | None:
        """The limit that was applied in a finding; None where there was none."""
        finding = self.findings.get(key)
        return finding.limit if finding else None


def sight_of(job: Job, limits: Limits, findings: Sequence[Finding]) -> Sight:
    """The job as slips see it."""
    case = Case(job, limits)
    by_key = {finding.key: finding for finding in findings}
    wanted = Pair(*(_wanted(case, eye) for eye in Eye))
    found = Pair(*(_found(case, eye, by_key) for eye in Eye))
    return Sight(case, wanted, found, by_key)


def _wanted(case: Case, eye: Eye) -> Lens:
    ordered = case.ordered(eye)
    return Lens(
        power=case.power_to_find(eye)[0],
        add=case.add_to_find(eye)[0],
        engraved=ordered.add,
        prism=case.prism_to_find(eye),
        pd=ordered.distance_pd,
        near_pd=ordered.near_pd,
        height=ordered.height,
        cross_up=ZERO,
    )


def _found(case: Case, eye: Eye, findings: Mapping[str, Finding]) -> Lens:
    layout, addition = case.now.pair.eye(eye), findings.get(f"{eye}.add")
    cross = case.now.fit.answers.get("cross")
    return Lens(
        power=case.power_found(eye),
        add=addition.found if addition else None,
        engraved=case.now.eye(eye).engraved_add,
        prism=case.prism_found(eye),
        pd=distance_found(case, eye),
        near_pd=mean(layout.near_pd) if layout.near_pd else None,
        height=mean(layout.height) if layout.height else None,
        cross_up=cross.measured.get(f"{eye}_up") if cross else None,
    )
