"""Where answers live: the distance of both lenses together."""

from decimal import Decimal

import pytest

from benchassist.guide.answers import answer_to, is_given, may_be_together, with_answer
from benchassist.guide.guide import Guide
from benchassist.guide.taken import has_reading, taken
from benchassist.job.order import Design
from tests.guide.jobs import job_for

RIGHT, LEFT, BOTH = (Decimal(31),), (Decimal(32),), (Decimal("63.5"), Decimal(64))


ENOUGH = {Design.SINGLE_VISION, Design.BIFOCAL, Design.TRIFOCAL}


@pytest.mark.parametrize("design", [*Design, None], ids=str)
def test_both_together_are_enough_where_the_lens_does_not_vary(
    guide: Guide, design: Design | None
) -> None:
    prompt = guide.prompt("pair.distance-pd")
    job, is_enough = job_for(design), design in ENOUGH
    assert may_be_together(job.order) is is_enough
    assert not is_given(job, prompt)
    together = with_answer(job, prompt, ((), (), BOTH))
    assert together.now.pair.distance_pd == BOTH
    assert is_given(together, prompt) is is_enough
    each = with_answer(job, prompt, (RIGHT, LEFT))
    assert is_given(each, prompt)


def test_the_answer_holds_them_only_where_they_were_measured(guide: Guide) -> None:
    prompt = guide.prompt("pair.distance-pd")
    job = with_answer(job_for(Design.SINGLE_VISION), prompt, (RIGHT, LEFT))
    assert answer_to(job, prompt) == (RIGHT, LEFT)
    both = with_answer(job, prompt, (RIGHT, (), BOTH))
    assert answer_to(both, prompt) == (RIGHT, (), BOTH)
    assert answer_to(with_answer(both, prompt, ((), ())), prompt) == ((), ())


def test_they_are_told_when_a_correction_sets_them_aside(guide: Guide) -> None:
    prompt = guide.prompt("pair.distance-pd")
    job = with_answer(job_for(Design.SINGLE_VISION), prompt, ((), (), BOTH))
    assert has_reading(job, prompt)
    assert taken(job, prompt) == "both together 63.5 mm and 64.0 mm"


def test_near_distances_know_no_both_together(guide: Guide) -> None:
    prompt = guide.prompt("pair.near-pd")
    job = with_answer(job_for(Design.BIFOCAL), prompt, (RIGHT, LEFT))
    assert answer_to(job, prompt) == (RIGHT, LEFT)
    assert job.now.pair.distance_pd == ()
