"""How a job stands: done, skipped, reopened, next, previous, and the states."""

from dataclasses import replace
from decimal import Decimal
from typing import Any

import pytest

from benchassist.guide.answers import ANSWERED, with_answer
from benchassist.guide.flow import Standing, standing
from benchassist.guide.guide import Guide
from benchassist.guide.prompts import Kind, Prompt, StepId
from benchassist.job.checks import Answer, Seen
from benchassist.job.document import Job
from benchassist.job.order import Design
from benchassist.job.readings import DisplayAdd, DisplayReading, DrumReading, PrismReading
from benchassist.verdicts.finding import Finding, State
from tests.guide.jobs import eye_order, job_for

GOOD = Answer(seen=Seen.GOOD)


def found(prompt: str, state: State) -> Finding:
    return Finding(key=prompt, prompt=prompt, what="Something", state=state, sentence="So.")


def stand(job: Job, guide: Guide, *findings: Finding) -> Standing:
    return standing(job, findings, guide)


def state_of(job: Job, guide: Guide, prompt: str, *findings: Finding) -> State:
    item = stand(job, guide, *findings).prompt(prompt)
    assert item is not None
    return item.state


def is_done(job: Job, guide: Guide, prompt: str, *findings: Finding) -> bool:
    item = stand(job, guide, *findings).prompt(prompt)
    assert item is not None
    return item.is_done


def answered(job: Job, guide: Guide, prompt: str, answer: Any) -> Job:
    return with_answer(job, guide.prompt(prompt), answer)


def an_answer(prompt: Prompt) -> Any:
    match prompt.kind:
        case Kind.POWER:
            return (DisplayReading(sphere=Decimal(-2), cylinder=Decimal(0)),)
        case Kind.ADDITION:
            return (DisplayAdd(shown=Decimal(2)),)
        case Kind.PRISM:
            return (PrismReading.model_validate({"prism": {"form": "components"}}),)
        case Kind.ENGRAVED:
            return Decimal(2)
        case Kind.LAYOUT:
            return ((Decimal(18),), (Decimal(18),))
        case Kind.CHOICE:
            return Answer(choice=prompt.options[0])
        case _:
            return GOOD


def test_a_fresh_job_has_its_order_and_nothing_else(guide: Guide) -> None:
    now = stand(job_for(Design.PROGRESSIVE), guide)
    order = now.step(StepId.ORDER)
    assert (order.done, order.total, order.is_complete) == (4, 4, True)
    assert order.state is State.WITHIN
    right = now.step(StepId.RIGHT)
    assert (right.done, right.total, right.is_complete) == (0, 6, False)
    assert right.state is State.MISSING
    first = now.next_open(None)
    assert first is not None
    assert first.id == "right.distance"
    assert now.todo == sum(step.total for step in now.steps[1:-1])


@pytest.mark.parametrize(
    ("changes", "prompt"),
    [
        ({"wearer": ""}, "order.wearer-and-lenses"),
        ({"right": eye_order(power={})}, "order.right"),
        ({"right": eye_order(add=None)}, "order.right"),
        ({"left": eye_order(height=None)}, "order.left"),
        ({"left": eye_order(distance_pd=None)}, "order.left"),
        ({"frame": {"a": 52, "b": 38}}, "order.frame"),
    ],
)
def test_an_order_with_a_gap_is_not_done(
    guide: Guide, changes: dict[str, object], prompt: str
) -> None:
    job = job_for(Design.PROGRESSIVE)
    assert is_done(job, guide, prompt)
    assert not is_done(job.with_(order=job.order.with_(**changes)), guide, prompt)


def test_single_vision_needs_no_addition_and_no_height(guide: Guide) -> None:
    bare = eye_order(add=None, height=None)
    assert is_done(job_for(Design.SINGLE_VISION, right=bare), guide, "order.right")
    assert is_done(job_for(None, right=bare), guide, "order.right")


def test_the_whole_walk_visits_every_prompt_once(guide: Guide) -> None:
    job = job_for(Design.TRIFOCAL)
    seen: list[str] = []
    at: str | None = None
    while True:
        prompt = stand(job, guide).next_open(at)
        assert prompt is not None
        if prompt.kind is Kind.SIGN:
            break
        seen.append(prompt.id)
        at = prompt.id
        job = with_answer(job, prompt, an_answer(prompt))
    now = stand(job, guide)
    asked = [item.prompt for item in now.prompts]
    assert seen == [item.id for item in asked if item.kind not in {Kind.FORM, Kind.SIGN}]
    assert [item.prompt.id for item in now.prompts if not item.is_done] == [
        "record.outcome",
        "record.countersign",
    ]
    assert all(step.is_complete for step in now.steps if step.step.id is not StepId.RECORD)


def test_next_goes_round_once(guide: Guide) -> None:
    job = job_for(Design.SINGLE_VISION)
    now = stand(job, guide)
    ids = [item.prompt.id for item in now.prompts]
    following = now.next_open(ids[-1])
    assert following is not None
    assert following.id == "right.distance"
    after_unknown = now.next_open("pair.segment-width")
    assert after_unknown is not None
    assert after_unknown.id == "right.distance"


def test_next_comes_back_to_the_only_open_prompt_and_ends_with_none(guide: Guide) -> None:
    job = job_for(Design.SINGLE_VISION)
    every = [item.prompt.id for item in stand(job, guide).prompts]
    only = {name: "not today" for name in every if name != "bench.skew"}
    left = stand(job.with_now(job.now.with_(skipped=only)), guide)
    again = left.next_open("bench.skew")
    assert again is not None
    assert again.id == "bench.skew"
    assert left.todo == 1
    all_of_them = dict.fromkeys(every, "not today")
    done = stand(job.with_now(job.now.with_(skipped=all_of_them)), guide)
    assert done.next_open("bench.skew") is None
    assert done.todo == 0


def test_previous(guide: Guide) -> None:
    now = stand(job_for(Design.SINGLE_VISION), guide)
    before = now.previous("left.distance")
    assert before is not None
    assert before.id == "right.horizontal"
    assert now.previous("order.wearer-and-lenses") is None
    assert now.previous("right.near") is None


def test_a_prompt_that_is_not_asked_has_no_standing(guide: Guide) -> None:
    assert stand(job_for(Design.SINGLE_VISION), guide).prompt("right.near") is None


def test_a_skipped_prompt_is_done_and_not_applicable(guide: Guide) -> None:
    job = job_for(Design.BIFOCAL)
    skipped = job.with_now(job.now.with_(skipped={"surface.strain": "no strain viewer"}))
    item = stand(skipped, guide).prompt("surface.strain")
    assert item is not None
    assert (item.is_done, item.is_skipped, item.state) == (True, True, State.NONE)


def test_a_reading_counts_when_every_repeat_is_complete(guide: Guide) -> None:
    whole = DrumReading(sphere_lines=Decimal(-2), cylinder_lines=Decimal(-2))
    half = DrumReading(sphere_lines=Decimal(-2))
    job = job_for(Design.PROGRESSIVE)
    assert not is_done(job, guide, "right.distance")
    assert is_done(
        answered(job, guide, "right.distance", (whole, whole)), guide, "right.distance"
    )
    assert not is_done(
        answered(job, guide, "right.distance", (whole, half)), guide, "right.distance"
    )
    assert not is_done(answered(job, guide, "right.near", (DisplayAdd(),)), guide, "right.near")


def test_a_layout_counts_when_both_sides_are_there(guide: Guide) -> None:
    job = job_for(Design.PROGRESSIVE)
    one = answered(job, guide, "pair.height", ((Decimal(18),), ()))
    assert not is_done(one, guide, "pair.height")
    both = answered(job, guide, "pair.height", ((Decimal(18),), (Decimal(18),)))
    assert is_done(both, guide, "pair.height")


def test_a_thickness_ordered_for_one_eye_is_measured_on_that_eye(guide: Guide) -> None:
    job = job_for(Design.PROGRESSIVE, left=eye_order(centre_thickness=Decimal(2)))
    measured = answered(job, guide, "pair.thickness", ((), (Decimal("2.1"),)))
    assert is_done(measured, guide, "pair.thickness")
    assert not is_done(
        answered(job, guide, "pair.thickness", ((Decimal(2),), ())), guide, "pair.thickness"
    )


@pytest.mark.parametrize(
    ("prompt", "answer", "counts"),
    [
        ("bench.skew", Answer(seen=Seen.GOOD), True),
        ("bench.skew", Answer(seen=Seen.FAULT), True),
        ("bench.skew", Answer(remark="later"), False),
        ("bench.skew", Answer(measured={"right_outer": Decimal(20)}), False),
        (
            "bench.skew",
            Answer(
                measured=dict.fromkeys(
                    ("right_outer", "right_inner", "left_inner", "left_outer"), Decimal(20)
                )
            ),
            True,
        ),
        ("bench.skew", Answer(seen=Seen.GOOD, again_because=("bench.screws",)), False),
        ("bench.identify", Answer(seen=Seen.GOOD), True),
        ("bench.identify", Answer(seen=Seen.FAULT), False),
        ("surface.impact", Answer(choice="tested"), True),
        ("surface.impact", Answer(seen=Seen.GOOD), False),
        ("right.horizontal", Answer(seen=Seen.GOOD), True),
        ("fit.level", Answer(seen=Seen.FAULT), True),
        ("handover.care", Answer(seen=Seen.GOOD), True),
    ],
)
def test_which_answers_count(
    guide: Guide, prompt: str, answer: Answer, *, counts: bool
) -> None:
    job = answered(job_for(Design.BIFOCAL), guide, prompt, answer)
    assert is_done(job, guide, prompt) == counts


def test_measurements_that_cannot_be_judged_do_not_count(guide: Guide) -> None:
    gaps = dict.fromkeys(("right_gap", "left_gap", "run"), Decimal(60))
    job = answered(job_for(Design.BIFOCAL), guide, "bench.table-upright", Answer(measured=gaps))
    impossible = found("bench.table-upright", State.MISSING)
    assert is_done(job, guide, "bench.table-upright")
    assert not is_done(job, guide, "bench.table-upright", impossible)
    by_eye = answered(job, guide, "bench.table-upright", GOOD)
    assert is_done(by_eye, guide, "bench.table-upright", impossible)
    assert not is_done(job_for(Design.BIFOCAL), guide, "bench.table-upright", impossible)


@pytest.mark.parametrize(
    ("states", "worst"),
    [
        ((), State.NONE),
        ((State.MISSING,), State.NONE),
        ((State.WITHIN, State.OUTSIDE), State.OUTSIDE),
        ((State.CLOSE, State.WITHIN), State.CLOSE),
        ((State.NONE,), State.NONE),
        ((State.WITHIN, State.MISSING), State.WITHIN),
    ],
)
def test_a_done_prompt_has_the_worst_state_of_its_findings(
    guide: Guide, states: tuple[State, ...], worst: State
) -> None:
    prompt = guide.prompt("right.distance")
    job = with_answer(job_for(Design.SINGLE_VISION), prompt, an_answer(prompt))
    findings = [found("right.distance", state) for state in states]
    assert state_of(job, guide, "right.distance", *findings) is worst


@pytest.mark.parametrize(
    "name", ["right.distance", "left.near", "right.prism", "left.engraved-add", "pair.height"]
)
def test_a_reading_that_nothing_was_judged_from_is_not_within(guide: Guide, name: str) -> None:
    prompt = guide.prompt(name)
    job = with_answer(job_for(Design.PROGRESSIVE), prompt, an_answer(prompt))
    assert is_done(job, guide, name)
    assert state_of(job, guide, name) is State.NONE
    assert state_of(answered(job, guide, "bench.skew", GOOD), guide, "bench.skew") is (
        State.WITHIN
    )


def test_the_prism_of_the_pair_stands_at_both_lenses(guide: Guide) -> None:
    right, left = guide.prompt("right.prism"), guide.prompt("left.prism")
    one = with_answer(job_for(Design.BIFOCAL), right, an_answer(right))
    unread = replace(found("left.prism", State.MISSING), key="pair.prism-vertical")
    assert state_of(one, guide, "right.prism", unread) is State.NONE
    assert state_of(one, guide, "left.prism", unread) is State.MISSING
    both = with_answer(one, left, an_answer(left))
    judged = tuple(
        replace(found("left.prism", state), key=f"pair.prism-{direction}")
        for direction, state in (("horizontal", State.WITHIN), ("vertical", State.OUTSIDE))
    )
    now = stand(both, guide, *judged)
    assert now.findings == judged
    for item in (now.prompt("right.prism"), now.prompt("left.prism")):
        assert item is not None
        assert item.findings == judged
        assert item.state is State.OUTSIDE
    assert (
        state_of(both, guide, "right.prism", found("left.prism", State.OUTSIDE)) is State.NONE
    )


def test_each_step_says_what_is_not_asked_and_why(guide: Guide) -> None:
    now = stand(job_for(Design.SINGLE_VISION), guide)
    assert ("Near addition", "This lens has no near addition to read.") in (
        now.step(StepId.RIGHT).not_asked
    )
    assert [item.title for item in now.step(StepId.SURFACE).not_asked] == [
        "Coatings",
        "Tint, measured",
        "Glass lenses",
    ]
    assert now.step(StepId.ORDER).not_asked == ()
    total = sum(len(step.not_asked) + step.total for step in now.steps)
    assert total == len(guide.prompts)


def test_what_is_not_done_is_at_least_to_do(guide: Guide) -> None:
    job = job_for(Design.SINGLE_VISION)
    name = "right.distance"
    assert state_of(job, guide, name, found(name, State.NONE)) is State.MISSING
    assert state_of(job, guide, name, found(name, State.OUTSIDE)) is State.OUTSIDE


def test_findings_go_to_their_prompts(guide: Guide) -> None:
    out = found("pair.height", State.OUTSIDE)
    now = stand(job_for(Design.BIFOCAL), guide, out, found("right.distance", State.WITHIN))
    item = now.prompt("pair.height")
    assert item is not None
    assert item.findings == (out,)
    assert now.outside == (out,)
    assert now.step(StepId.PAIR).state is State.OUTSIDE


def test_a_check_names_the_checks_that_should_stand_first(guide: Guide) -> None:
    job = job_for(Design.BIFOCAL)
    ready = answered(answered(job, guide, "bench.screws", GOOD), guide, "bench.seating", GOOD)
    now = stand(ready, guide, found("bench.seating", State.OUTSIDE))
    skew = now.prompt("bench.skew")
    assert skew is not None
    assert skew.waits_for == ("Lenses held firm", "Turned lens")
    settled = stand(answered(ready, guide, "bench.rotation", GOOD), guide).prompt("bench.skew")
    assert settled is not None
    assert settled.waits_for == ()


def test_no_answer_for_the_order_and_the_record(guide: Guide) -> None:
    for prompt in guide.prompts:
        if prompt.kind not in ANSWERED and prompt.kind in {Kind.FORM, Kind.SIGN}:
            with pytest.raises(ValueError, match="takes no single answer"):
                with_answer(job_for(Design.BIFOCAL), prompt, GOOD)
