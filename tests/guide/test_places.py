"""A defect at its place answers its check, until that is to be looked at again."""

from dataclasses import replace
from decimal import Decimal

import pytest

from benchassist.guide.answers import is_given, with_answer, with_defects
from benchassist.guide.guide import Guide
from benchassist.guide.prompts import Kind, Prompt, StepId
from benchassist.guide.sound import faults
from benchassist.job.checks import Answer, Seen
from benchassist.job.document import Job
from benchassist.job.surface import Defect
from benchassist.optics.eye import Eye
from tests.job.samples import bookbinders_job

PIT = Defect(check="scratches", eye=Eye.RIGHT, across=Decimal(3), up=Decimal(-5))


@pytest.fixture
def prompt(guide: Guide) -> Prompt:
    return guide.prompt("surface.scratches")


def marked(prompt: Prompt) -> Job:
    return with_defects(bookbinders_job(), prompt, (PIT,))


def test_what_is_marked_answers_its_own_check(guide: Guide, prompt: Prompt) -> None:
    job = marked(prompt)
    assert not is_given(bookbinders_job(), prompt)
    assert is_given(job, prompt)
    assert not is_given(job, guide.prompt("surface.edge"))
    assert not is_given(job, guide.prompt("surface.waves"))
    assert not is_given(with_defects(job, prompt, ()), prompt)


def test_to_be_looked_at_again_it_waits_for_a_new_word(prompt: Prompt) -> None:
    again = with_answer(marked(prompt), prompt, Answer(again_because=("bench.screws",)))
    assert not is_given(again, prompt)
    assert is_given(with_answer(again, prompt, Answer(seen=Seen.GOOD)), prompt)


def test_a_skipped_check_is_asked_again(prompt: Prompt) -> None:
    job = bookbinders_job()
    skipped = {"surface.scratches": "dark", "surface.strain": "no viewer"}
    job = job.with_now(job.now.with_(skipped=skipped))
    kept = with_defects(job, prompt, (PIT,)).now.skipped
    assert dict(kept) == {"surface.strain": "no viewer"}


def test_the_checks_that_take_places(guide: Guide) -> None:
    named = [prompt.id for prompt in guide.prompts if prompt.has_places]
    assert named == ["surface.scratches", "surface.coating", "surface.edge"]


def test_only_a_check_of_the_surfaces_by_eye_has_places(guide: Guide, prompt: Prompt) -> None:
    wrong = replace(prompt, view="top")
    steps = tuple(
        replace(step, prompts=(wrong,)) if step.id is StepId.SURFACE else step
        for step in guide.steps
    )
    said = list(faults(replace(guide, steps=steps)))
    assert "surface.scratches: only a check of the surfaces by eye has places." in said
    assert wrong.kind is Kind.CHECK
