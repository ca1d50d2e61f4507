"""What must hold for every pair, whatever was ordered, read and slipped."""

from collections.abc import Iterable
from decimal import Decimal
from typing import Any

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from benchassist.job.document import Job
from benchassist.verdicts.diagnose.diagnose import diagnose, unexplained
from benchassist.verdicts.diagnose.suspicion import Suspicion
from benchassist.verdicts.finding import State
from benchassist.verdicts.judge import judge
from tests.job.strategies import jobs
from tests.verdicts.diagnose.lens_changes import mirrored
from tests.verdicts.diagnose.pairs import Drawn, pairs
from tests.verdicts.diagnose.plants import PLANTS, POWER
from tests.verdicts.jobs import plain_limits

SLOW = list(HealthCheck)

NOT_SYMMETRIC = {"axis-digits"}
"""Whose figures are not in mirror image when the lenses are."""


def seen(job: Job) -> tuple[Suspicion, ...]:
    return diagnose(job, plain_limits(), judge(job, plain_limits()))


@st.composite
def slipped(draw: st.DrawFn, without: Iterable[str] = ()) -> Drawn:
    """A pair with one slip."""
    case = PLANTS[draw(st.sampled_from(sorted(PLANTS.keys() - set(without))))]
    pair = draw(pairs(draw(st.sampled_from(case.designs))))
    case.plant(pair, draw(st.data()))
    return pair


@settings(max_examples=20, deadline=None, suppress_health_check=SLOW)
@given(st.sampled_from(("single-vision", "bifocal", "progressive")).flatmap(pairs))
def test_a_pair_within_gives_nothing(pair: Drawn) -> None:
    assert seen(pair.job()) == ()


@settings(max_examples=20, deadline=None, suppress_health_check=SLOW)
@given(slipped(), st.sampled_from(("order", "readings", "both")))
def test_the_form_of_writing_does_not_change_the_list(pair: Drawn, where: str) -> None:
    as_drawn = seen(pair.job())
    if where != "readings":
        for lens in pair.ordered:
            lens.transposed()
        for more in pair.of_lens.values():
            _transpose_stated(more)
    if where != "order":
        for lens in pair.lenses:
            lens.transposed()
    assert seen(pair.job()) == as_drawn


def _transpose_stated(more: dict[str, Any]) -> None:
    """The maker's verification power in the other form."""
    stated = more.get("verification", {}).get("power")
    if stated:
        sphere, cylinder, axis = (Decimal(stated[part]) for part in POWER)
        stated["sphere"], stated["cylinder"] = sphere + cylinder, -cylinder
        stated["axis"] = (axis + 90) % 180 or 180


@settings(max_examples=20, deadline=None, suppress_health_check=SLOW)
@given(slipped(NOT_SYMMETRIC))
def test_a_pair_in_mirror_image_has_the_same_list(pair: Drawn) -> None:
    as_drawn = described(seen(pair.job()), {"right": "left", "left": "right"})
    pair.right, pair.left = pair.left, pair.right
    pair.ordered = pair.ordered[::-1]
    pair.of_lens = dict(zip(pair.of_lens, reversed(pair.of_lens.values()), strict=True))
    for lens in (*pair.lenses, *pair.ordered):
        mirrored(lens)
    for more in pair.of_lens.values():
        _mirror_stated(more)
    assert described(seen(pair.job()), {}) == as_drawn


def _mirror_stated(more: dict[str, Any]) -> None:
    stated = more.get("verification", {}).get("power")
    if stated:
        stated["axis"] = 180 - Decimal(stated["axis"]) or 180


def described(
    suspicions: tuple[Suspicion, ...], sides: dict[str, str]
) -> set[tuple[str, frozenset[str], frozenset[str]]]:
    """Scope, slips and findings of each suspicion, the sides renamed."""

    def side(words: str) -> str:
        head, dot, rest = words.partition(".")
        if head == "fit":
            return words.replace("right", "*").replace("left", "*")
        return sides.get(head, head) + dot + rest

    return {
        (
            side(str(suspicion.scope)),
            frozenset(suspicion.slips) - NOT_SYMMETRIC,
            frozenset(map(side, suspicion.explains)),
        )
        for suspicion in suspicions
        if set(suspicion.slips) - NOT_SYMMETRIC
    }


@settings(max_examples=15, deadline=None, suppress_health_check=SLOW)
@given(jobs)
def test_any_job_can_be_diagnosed(job: Job) -> None:
    findings = judge(job, plain_limits())
    suspicions = diagnose(job, plain_limits(), findings)
    assert suspicions == diagnose(job, plain_limits(), findings)
    outside = {finding.key for finding in findings if finding.state is State.OUTSIDE}
    for suspicion in suspicions:
        assert suspicion.explains
        assert set(suspicion.explains) <= outside
        assert suspicion.id == suspicion.slips[0]
        assert len(suspicion.names) >= len(suspicion.slips)
    assert set(unexplained(job, plain_limits(), findings, suspicions)) <= outside


@settings(max_examples=25, deadline=None, suppress_health_check=SLOW)
@given(slipped())
def test_each_suspicion_is_listed_once(pair: Drawn) -> None:
    suspicions = seen(pair.job())
    assert len({suspicion.reading_would_be for suspicion in suspicions}) == len(suspicions)
    ranks = [suspicion.rank for suspicion in suspicions if suspicion.scope == "pair"]
    assert ranks == sorted(ranks)
