"""What a correction reopens, for every correction of the guide."""

import pytest

from benchassist.guide.answers import ANSWERED, answer_to, with_answer
from benchassist.guide.conditions import why_not
from benchassist.guide.flow import reopen, standing
from benchassist.guide.guide import Guide
from benchassist.guide.load import load_guide
from benchassist.guide.prompts import Kind, StepId
from benchassist.job.checks import Answer, Correction, Seen
from benchassist.job.document import Job
from benchassist.job.order import Design, FrameMaterial, Treatment
from tests.guide.jobs import job_for
from tests.guide.test_standing import an_answer

GUIDE = load_guide()
CORRECTIONS = [(prompt.id, remedy.id) for prompt in GUIDE.prompts for remedy in prompt.remedies]


def all_answered(guide: Guide) -> Job:
    job = job_for(Design.BIFOCAL, treatments=(Treatment.HARD,))
    for prompt in guide.prompts:
        if prompt.kind not in {Kind.FORM, Kind.SIGN} and why_not(prompt, job) is None:
            job = with_answer(job, prompt, an_answer(prompt))
    return job


READY = all_answered(GUIDE)


@pytest.mark.parametrize(("check", "remedy"), CORRECTIONS)
def test_everything_disturbed_is_asked_again_and_nothing_else(check: str, remedy: str) -> None:
    after = reopen(READY, GUIDE, check, remedy)
    disturbed = {check, *GUIDE.prompt(check).remedy(remedy).disturbs}
    for prompt in GUIDE.prompts:
        before = answer_to(READY, prompt)
        if before and prompt.kind in ANSWERED and prompt.id in disturbed:
            assert answer_to(after, prompt) == before.with_(again_because=check)
        else:
            assert answer_to(after, prompt) == before
    still_open = {
        item.prompt.id for item in standing(after, (), GUIDE).prompts if not item.is_done
    }
    answerable = {name for name in disturbed if GUIDE.prompt(name).kind in ANSWERED}
    asked = {prompt.prompt.id for prompt in standing(READY, (), GUIDE).prompts}
    assert still_open == (answerable & asked) | {"record.outcome", "record.countersign"}


@pytest.mark.parametrize(("check", "remedy"), CORRECTIONS)
def test_a_correction_is_logged(check: str, remedy: str) -> None:
    after = reopen(READY, GUIDE, check, remedy, remark="twice")
    (logged,) = after.now.bench.corrections
    described = GUIDE.prompt(check).remedy(remedy)
    assert logged.check == check
    assert logged.action == described.does
    assert logged.tool == described.tool
    assert logged.remark.startswith("twice")


def test_readings_at_the_meter_are_kept_and_named() -> None:
    after = reopen(READY, GUIDE, "bench.rotation", "turn")
    assert after.now.right == READY.now.right
    assert after.now.pair == READY.now.pair
    (logged,) = after.now.bench.corrections
    assert logged.remark == "Read again: Distance power, Distance power, Segment height."


def test_what_was_not_answered_is_left_alone() -> None:
    fresh = job_for(Design.BIFOCAL)
    after = reopen(fresh, GUIDE, "bench.table-upright", "bend-tip")
    assert after.now.bench.answers == {}
    assert [item.check for item in after.now.bench.corrections] == ["bench.table-upright"]
    assert after.now.bench.corrections[0].remark == ""


def test_readings_not_yet_taken_are_not_named() -> None:
    after = reopen(job_for(Design.BIFOCAL), GUIDE, "bench.rotation", "turn")
    assert after.now.bench.corrections[0].remark == ""


def test_corrections_are_kept_oldest_first() -> None:
    once = reopen(READY, GUIDE, "bench.skew", "lift")
    twice = reopen(once, GUIDE, "bench.x-ing", "wring")
    checks = [item.check for item in twice.now.bench.corrections]
    assert checks == ["bench.skew", "bench.x-ing"]
    assert isinstance(twice.now.bench.corrections[0], Correction)


def test_a_repeated_check_counts_again() -> None:
    after = reopen(READY, GUIDE, "bench.skew", "lift")
    repeated = with_answer(after, GUIDE.prompt("bench.skew"), Answer(seen=Seen.GOOD))
    item = standing(repeated, (), GUIDE).prompt("bench.skew")
    assert item is not None
    assert item.is_done


@pytest.mark.parametrize(("check", "remedy"), [("bench.skw", "lift"), ("bench.skew", "lft")])
def test_an_unknown_correction_is_our_fault(check: str, remedy: str) -> None:
    with pytest.raises(KeyError):
        reopen(READY, GUIDE, check, remedy)


def test_every_bench_correction_reopens_the_last_look() -> None:
    for prompt in GUIDE.step(StepId.BENCH).prompts:
        for remedy in prompt.remedies:
            assert "bench.last-look" in remedy.disturbs


def test_the_checks_stand_in_an_order_without_circle() -> None:
    place = {prompt.id: at for at, prompt in enumerate(GUIDE.step(StepId.BENCH).prompts)}
    for prompt in GUIDE.step(StepId.BENCH).prompts:
        assert all(place[name] < place[prompt.id] for name in prompt.after)


def test_the_bends_of_the_bridge_disturb_what_lies_outboard() -> None:
    """A hand-written part of the matrix that reads no table."""
    expected = {
        ("bench.skew", "lift"): {"x-ing", "planes", "face-form", "pads", "table-upright"},
        ("bench.x-ing", "wring"): {"skew", "planes", "pantoscopic", "table-inverted", "fold"},
        ("bench.face-form", "form"): {"open-angle", "planes", "x-ing", "pads", "seating"},
        ("bench.open-angle", "bring-in"): {"pantoscopic", "table-inverted", "fold", "screws"},
        ("bench.pantoscopic", "incline"): {"open-angle", "table-upright", "seating"},
        ("bench.shafts", "straighten"): {"open-angle", "temple-bend", "fold"},
        ("bench.fold", "set-joint"): {"screws", "open-angle", "pantoscopic"},
    }
    for (check, remedy), names in expected.items():
        disturbs = GUIDE.prompt(check).remedy(remedy).disturbs
        assert {f"bench.{name}" for name in names} <= set(disturbs)


def test_a_tip_disturbs_the_upright_touch_only() -> None:
    for check, remedy in (
        ("bench.table-upright", "bend-tip"),
        ("bench.temple-bend", "new-bend"),
    ):
        disturbs = set(GUIDE.prompt(check).remedy(remedy).disturbs)
        assert disturbs == {"bench.table-upright", "bench.last-look"}


@pytest.mark.parametrize("material", [item for item in FrameMaterial if item != "carbon fibre"])
def test_each_frame_that_can_be_bent_has_a_remedy_for_its_temples(
    material: FrameMaterial,
) -> None:
    for name in ("open-angle", "pantoscopic", "table-inverted", "table-upright"):
        remedies = GUIDE.prompt(f"bench.{name}").remedies
        assert any(not item.materials or material in item.materials for item in remedies)
