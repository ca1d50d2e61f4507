"""When a chosen outcome may be signed."""

from decimal import Decimal

import pytest

from benchassist.guide.ending import not_ready
from benchassist.guide.flow import standing
from benchassist.guide.guide import Guide
from benchassist.job.document import Job
from benchassist.job.order import Design
from benchassist.job.readings import DisplayReading, LensReadings
from benchassist.job.signoff import Outcome, SignOff
from benchassist.verdicts.finding import Finding, State
from tests.guide.jobs import job_for

OUT = Finding(
    key="right.axis", prompt="right.distance", what="Axis", state=State.OUTSIDE, sentence="So."
)


ZERO = Decimal(0)
KNOWN = frozenset(
    {"order.wearer-and-lenses", "order.right", "order.left", "order.frame"}
    | {"right.distance", "left.distance"}
)
"""What no release goes without: the order and both powers."""


def all_skipped(guide: Guide, *but: str) -> Job:
    """A job with its order and powers, and all else skipped but what is named."""
    job = job_for(Design.SINGLE_VISION)
    kept = {*but, *KNOWN}
    skipped = {prompt.id: "tried" for prompt in guide.prompts if prompt.id not in kept}
    read = LensReadings(distance=(DisplayReading(sphere=ZERO, cylinder=ZERO),))
    return job.with_now(job.now.with_(skipped=skipped, right=read, left=read))


@pytest.mark.parametrize("prompt", sorted(KNOWN))
def test_no_release_goes_without_the_order_and_both_powers(guide: Guide, prompt: str) -> None:
    job = all_skipped(guide)
    skipped = {**job.now.skipped, prompt: "no time"}
    without = job.with_now(job.now.with_(skipped=skipped))
    refused = refusal(without, guide, SignOff(outcome=Outcome.RELEASE)) or ""
    assert "only with its order entered and both powers read" in refused


def refusal(job: Job, guide: Guide, signoff: SignOff, *findings: Finding) -> str | None:
    signed = job.with_now(job.now.with_(signoff=signoff))
    return not_ready(standing(signed, findings, guide))


@pytest.mark.parametrize(
    ("signoff", "words"),
    [
        (SignOff(), "Choose first"),
        (SignOff(outcome=Outcome.RELEASE_ACCEPTED), "needs a reason"),
        (SignOff(outcome=Outcome.RETURN), "needs a reason"),
        (SignOff(outcome=Outcome.HOLD), "needs a reason"),
    ],
)
def test_an_outcome_needs_its_reason(guide: Guide, signoff: SignOff, words: str) -> None:
    assert words in (refusal(all_skipped(guide), guide, signoff) or "")


@pytest.mark.parametrize("outcome", [Outcome.RETURN, Outcome.HOLD])
def test_a_pair_may_be_returned_or_held_at_any_point(guide: Guide, outcome: Outcome) -> None:
    signoff = SignOff(outcome=outcome, reason="axis out")
    assert refusal(job_for(Design.BIFOCAL), guide, signoff, OUT) is None


def test_a_release_needs_every_prompt_before_the_record(guide: Guide) -> None:
    release = SignOff(outcome=Outcome.RELEASE)
    assert refusal(all_skipped(guide), guide, release) is None
    one = refusal(all_skipped(guide, "bench.skew"), guide, release) or ""
    assert one.startswith("1 prompt is still to do.")
    two = refusal(all_skipped(guide, "bench.skew", "fit.level"), guide, release) or ""
    assert two.startswith("2 prompts are still to do.")


def test_a_deviation_is_accepted_with_a_reason_or_not_released(guide: Guide) -> None:
    done = all_skipped(guide)
    refused = refusal(done, guide, SignOff(outcome=Outcome.RELEASE), OUT) or ""
    assert refused.startswith("1 outside the limit.")
    accepted = SignOff(outcome=Outcome.RELEASE_ACCEPTED, reason="the wearer has agreed")
    assert refusal(done, guide, accepted, OUT) is None
