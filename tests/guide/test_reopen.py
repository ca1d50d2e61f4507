"""What a correction reopens, for every correction of the guide."""

from decimal import Decimal

import pytest

from benchassist.guide.answers import ANSWERED, answer_to, with_answer
from benchassist.guide.conditions import why_not
from benchassist.guide.flow import standing
from benchassist.guide.guide import Guide
from benchassist.guide.load import load_guide
from benchassist.guide.prompts import Kind, StepId
from benchassist.guide.reopening import Done, reopen
from benchassist.guide.taken import NOTHING
from benchassist.job.checks import Answer, Correction, Seen
from benchassist.job.document import Job
from benchassist.job.order import Design, FrameMaterial, Treatment
from benchassist.job.readings import DrumReading
from benchassist.optics.eye import Eye
from benchassist.verdicts.finding import State
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


ASKED = {item.prompt.id for item in standing(READY, (), GUIDE).prompts}


@pytest.mark.parametrize(("check", "remedy"), CORRECTIONS)
def test_everything_disturbed_is_asked_again_and_nothing_else(check: str, remedy: str) -> None:
    after = reopen(READY, GUIDE, Done(check, remedy))
    disturbed = {check, *GUIDE.prompt(check).remedy(remedy).disturbs} & ASKED
    for prompt in GUIDE.prompts:
        before = answer_to(READY, prompt)
        if prompt.id not in disturbed:
            assert answer_to(after, prompt) == before
        elif prompt.kind in ANSWERED:
            assert answer_to(after, prompt) == before.with_(again_because=(check,))
        else:
            assert before
            assert answer_to(after, prompt) == NOTHING[prompt.kind]
    still_open = {item.prompt.id: item for item in standing(after, (), GUIDE).prompts}
    to_do = {name for name, item in still_open.items() if not item.is_done}
    assert to_do == disturbed | {"record.outcome", "record.countersign"}
    (logged,) = after.now.corrections
    readings = {name for name in disturbed if GUIDE.prompt(name).kind not in ANSWERED}
    assert set(logged.rereads) == readings
    assert all(still_open[name].again_because for name in disturbed)


@pytest.mark.parametrize(("check", "remedy"), CORRECTIONS)
def test_a_correction_is_logged(check: str, remedy: str) -> None:
    after = reopen(READY, GUIDE, Done(check, remedy, remark="twice"))
    (logged,) = after.now.corrections
    described = GUIDE.prompt(check).remedy(remedy)
    assert logged.check == check
    assert logged.action == described.does
    assert logged.tool == described.tool
    assert logged.remark.startswith("twice")


def test_readings_from_before_a_bend_are_set_aside_and_told_in_the_remark() -> None:
    after = reopen(READY, GUIDE, Done("bench.rotation", "turn"))
    assert after.now.right.distance == after.now.left.distance == ()
    assert after.now.pair.right.height == after.now.pair.left.height == ()
    assert after.now.right.near == READY.now.right.near
    assert after.now.pair.right.distance_pd == READY.now.pair.right.distance_pd
    (logged,) = after.now.bench.corrections
    assert logged.remark == (
        "Read again: right lens distance power (\u22122.00); left lens distance power "
        "(\u22122.00); right lens prism (none); left lens prism (none); "
        "segment height (right 18.0 mm and left 18.0 mm); segment tilt (right 18° and "
        "left 18°)."
    )


def test_a_reading_set_aside_is_to_do_until_a_newer_one_is_there() -> None:
    after = reopen(READY, GUIDE, Done("bench.skew", "lift"))
    prompt = GUIDE.prompt("left.distance")
    item = standing(after, (), GUIDE).prompt("left.distance")
    assert item is not None
    assert (item.is_done, item.state) == (False, State.MISSING)
    assert item.again_because == "Read again: 'Skewed bridge' was corrected since."
    newer = with_answer(after, prompt, an_answer(prompt))
    item = standing(newer, (), GUIDE).prompt("left.distance")
    assert item is not None
    assert (item.is_done, item.again_because) == (True, "")


def test_a_half_typed_reading_from_before_a_bend_is_set_aside_too() -> None:
    half = (DrumReading(sphere_lines=Decimal(-2)),)
    job = with_answer(READY, GUIDE.prompt("right.distance"), half)
    after = reopen(job, GUIDE, Done("bench.skew", "lift"))
    assert after.now.right.distance == ()
    (logged,) = after.now.bench.corrections
    assert "Read again: right lens distance power; left lens" in logged.remark


def test_it_says_why_a_check_is_to_be_looked_at_again() -> None:
    stands = standing(reopen(READY, GUIDE, Done("bench.skew", "lift")), (), GUIDE)
    told = {item.prompt.id: item.again_because for item in stands.prompts}
    assert told["bench.skew"] == "Look again: it was corrected since."
    assert told["bench.x-ing"] == "Look again: 'Skewed bridge' was corrected since."
    assert told["bench.screws"] == told["right.near"] == ""


def test_the_last_of_several_corrections_is_named() -> None:
    once = reopen(READY, GUIDE, Done("bench.skew", "lift"))
    prompt = GUIDE.prompt("right.prism")
    newer = with_answer(once, prompt, an_answer(prompt))
    twice = reopen(newer, GUIDE, Done("bench.x-ing", "wring"))
    stands = standing(twice, (), GUIDE)
    told = {item.prompt.id: item.again_because for item in stands.prompts}
    assert told["right.prism"] == "Read again: 'X-ing' was corrected since."
    assert told["left.prism"] == "Read again: 'Skewed bridge' was corrected since."
    assert twice.now.bench.corrections[1].rereads == ("right.prism",)


def test_what_was_not_answered_is_left_alone() -> None:
    fresh = job_for(Design.BIFOCAL)
    after = reopen(fresh, GUIDE, Done("bench.table-upright", "bend-tip"))
    assert after.now.bench.answers == {}
    assert [item.check for item in after.now.bench.corrections] == ["bench.table-upright"]
    assert after.now.bench.corrections[0].remark == ""


def test_readings_not_yet_taken_are_not_named() -> None:
    after = reopen(job_for(Design.BIFOCAL), GUIDE, Done("bench.rotation", "turn"))
    assert after.now.bench.corrections[0].remark == ""


def test_corrections_are_kept_oldest_first() -> None:
    once = reopen(READY, GUIDE, Done("bench.skew", "lift"))
    twice = reopen(once, GUIDE, Done("bench.x-ing", "wring"))
    checks = [item.check for item in twice.now.bench.corrections]
    assert checks == ["bench.skew", "bench.x-ing"]
    assert isinstance(twice.now.bench.corrections[0], Correction)


def test_a_repeated_check_counts_again() -> None:
    after = reopen(READY, GUIDE, Done("bench.skew", "lift"))
    repeated = with_answer(after, GUIDE.prompt("bench.skew"), Answer(seen=Seen.GOOD))
    item = standing(repeated, (), GUIDE).prompt("bench.skew")
    assert item is not None
    assert item.is_done


@pytest.mark.parametrize(("check", "remedy"), [("bench.skw", "lift"), ("bench.skew", "lft")])
def test_an_unknown_correction_is_our_fault(check: str, remedy: str) -> None:
    with pytest.raises(KeyError):
        reopen(READY, GUIDE, Done(check, remedy))


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


def test_a_tip_disturbs_the_upright_touch_and_its_own_bend_only() -> None:
    for check, remedy in (
        ("bench.table-upright", "bend-tip"),
        ("bench.temple-bend", "new-bend"),
    ):
        disturbs = {check, *GUIDE.prompt(check).remedy(remedy).disturbs}
        at_bench = {name for name in disturbs if name.startswith("bench.")}
        assert at_bench == {"bench.table-upright", "bench.temple-bend", "bench.last-look"}
        assert {name.partition(".")[0] for name in disturbs - at_bench} == {"fit"}


FRONT_SITS = {"fit.cross", "fit.vertex", "fit.level", "fit.tilt", "fit.face-form"}
SEEN = {"fit.distance-vision", "fit.near-vision"}


@pytest.mark.parametrize(
    ("check", "remedy"),
    [
        (prompt.id, remedy.id)
        for step in (StepId.BENCH, StepId.FIT)
        for prompt in GUIDE.step(step).prompts
        for remedy in prompt.remedies
        if remedy.bend not in {"screw", "lens"}
    ],
)
def test_what_moves_the_front_before_the_eyes_is_seen_anew(check: str, remedy: str) -> None:
    """A hand-written rule that reads no table: heights, distances and zones move with it."""
    disturbs = {check, *GUIDE.prompt(check).remedy(remedy).disturbs}
    assert disturbs >= FRONT_SITS | SEEN


def test_pressure_taken_away_reopens_all_that_is_worn() -> None:
    disturbs = set(GUIDE.prompt("fit.comfort").remedy("relieve").disturbs)
    assert disturbs >= {"fit.behind-ear", "fit.slipping", "fit.bridge", "fit.temples"}


def test_a_lens_taken_out_of_its_cord_is_read_anew() -> None:
    disturbs = set(GUIDE.prompt("bench.planes").remedy("s-bend-bar").disturbs)
    assert disturbs >= LENS_MOVES | LENSES_PART | {"bench.seating", "bench.rotation"}


def test_an_endpiece_bent_at_the_plate_disturbs_the_angles_it_may_hide() -> None:
    disturbs = GUIDE.prompt("bench.table-inverted").remedy("incline").disturbs
    assert {"bench.x-ing", "bench.pantoscopic", "bench.table-upright"} <= set(disturbs)


LENS_MOVES = {"right.distance", "left.distance", "right.prism", "left.prism", "pair.height"}
LENSES_PART = {"pair.distance-pd", "pair.near-pd"}


@pytest.mark.parametrize(
    ("check", "remedies", "parts"),
    [
        ("screws", "tighten replace", False),
        ("seating", "tighten-rim tighten-mount", False),
        ("seating", "reform-rim warm-rim", True),
        ("rotation", "turn set-level", False),
        ("rotation", "turn-warm", True),
        ("skew", "lift lift-warm lift-held", True),
        ("x-ing", "wring wring-warm", True),
        ("planes", "s-bend-warm", True),
        ("face-form", "form form-warm", True),
        ("open-angle", "press-warm", True),
        ("table-inverted", "incline-warm", True),
    ],
)
def test_what_moves_a_lens_disturbs_its_readings(
    check: str, remedies: str, *, parts: bool
) -> None:
    for remedy in remedies.split():
        disturbs = set(GUIDE.prompt(f"bench.{check}").remedy(remedy).disturbs)
        assert disturbs >= LENS_MOVES | {"pair.tilt", "right.horizontal", "left.horizontal"}
        assert bool(disturbs & LENSES_PART) == parts


@pytest.mark.parametrize(
    ("check", "remedy"),
    [
        ("planes", "s-bend"),
        ("open-angle", "bring-in"),
        ("pantoscopic", "incline"),
        ("shafts", "straighten"),
        ("pads", "set-pads"),
    ],
)
def test_what_moves_no_lens_leaves_the_readings(check: str, remedy: str) -> None:
    after = reopen(READY, GUIDE, Done(f"bench.{check}", remedy))
    assert after.now.pair == READY.now.pair
    assert after.now.right == READY.now.right
    assert after.now.bench.corrections[0].rereads == ()


@pytest.mark.parametrize("material", [item for item in FrameMaterial if item != "carbon fibre"])
def test_each_frame_that_can_be_bent_has_a_remedy_for_its_temples(
    material: FrameMaterial,
) -> None:
    for name in ("open-angle", "pantoscopic", "table-inverted", "table-upright"):
        remedies = GUIDE.prompt(f"bench.{name}").remedies
        assert any(not item.materials or material in item.materials for item in remedies)


def test_what_was_passed_over_is_asked_again_when_it_is_disturbed() -> None:
    skipped = {"bench.planes": "no time", "fit.cross": "no marks"}
    job = READY.with_now(READY.now.with_(skipped=skipped))
    after = reopen(job, GUIDE, Done("bench.skew", "lift"))
    assert after.now.skipped == {}
    (logged,) = after.now.bench.corrections
    assert "planes of the lenses: no longer 'no time'." in logged.remark.lower()
    left = reopen(job, GUIDE, Done("bench.table-upright", "bend-tip"))
    assert left.now.skipped == {"bench.planes": "no time"}


def test_every_cause_that_is_still_open_is_named() -> None:
    once = reopen(READY, GUIDE, Done("bench.skew", "lift"))
    twice = reopen(once, GUIDE, Done("bench.x-ing", "wring"))
    answer = twice.now.bench.answers["table-inverted"]
    assert answer.again_because == ("bench.skew", "bench.x-ing")
    told = standing(twice, (), GUIDE).prompt("bench.table-inverted")
    assert told is not None
    assert told.again_because == (
        "Look again: 'Skewed bridge' and 'X-ing' were corrected since."
    )


def test_what_is_bent_on_the_wearer_is_logged_there_and_reopens_the_bench() -> None:
    after = reopen(READY, GUIDE, Done("fit.vertex", "right-closer", side=Eye.RIGHT))
    assert after.now.bench.corrections == ()
    (logged,) = after.now.fit.corrections
    assert (logged.check, logged.side) == ("fit.vertex", Eye.RIGHT)
    assert after.now.bench.answers["screws"].again_because == ("fit.vertex",)
    assert after.now.corrections == (logged,)


def test_a_correction_keeps_side_amount_tool_and_what_was_measured() -> None:
    measured = {"right_gap": Decimal("1.4"), "left_gap": Decimal(0), "run": Decimal(100)}
    answers = {**READY.now.bench.answers, "table-inverted": Answer(measured=measured)}
    job = READY.with_now(READY.now.with_(bench=READY.now.bench.with_(answers=answers)))
    done = Done(
        "bench.table-inverted", "incline", "fingers", Eye.RIGHT, Decimal("0.8"), "°", "stiff"
    )
    (logged,) = reopen(job, GUIDE, done).now.bench.corrections
    assert (logged.tool, logged.side, logged.amount, logged.unit) == (
        "fingers", Eye.RIGHT, Decimal("0.8"), "°",
    )  # fmt: skip
    assert logged.measured == measured
    assert logged.remark == "stiff"


def test_what_lies_further_inwards_is_looked_at_first_after_a_correction() -> None:
    stands = standing(reopen(READY, GUIDE, Done("bench.x-ing", "wring")), (), GUIDE)
    first = stands.next_open("bench.x-ing")
    assert first is not None
    assert first.id == "bench.seating"
    place = [item.prompt.id for item in stands.prompts]
    assert place.index("bench.seating") < place.index("bench.x-ing")
    further = stands.next_open("bench.screws")
    assert further is not None
    assert further.id == "bench.seating"
