"""The drawing of the bench shows every fault that is measured and still counts."""

from decimal import Decimal

from benchassist.geometry.fault import Faults
from benchassist.guide.flow import standing
from benchassist.guide.load import load_guide
from benchassist.job.checks import Answer, Correction, Seen
from benchassist.job.document import Job
from benchassist.limits.load import load_limits
from benchassist.records.demo import demo_files
from benchassist.store.files import load_job_file
from benchassist.ui.asking.faults import faults_for
from benchassist.ui.asking.scenes import scene_for
from benchassist.verdicts.judge import judge

GUIDE = load_guide()
SKEW = {"right_outer": "20", "right_inner": "20", "left_inner": "22", "left_outer": "22"}
LEVEL = SKEW | {"left_inner": "20.2", "left_outer": "20.2"}
CORRECTION = Correction(
    check="bench.skew",
    action="Lifted.",
    measured={name: Decimal(text) for name, text in SKEW.items()},
)
TOUCH = {"right_gap": "1.5", "left_gap": "0", "run": "120"}


def answer(read: dict[str, str], **more: object) -> Answer:
    values = {name: Decimal(text) for name, text in read.items()}
    return Answer(measured=values).with_(**more)


def job_with(answers: dict[str, Answer], *corrections: Correction) -> Job:
    job = load_job_file(demo_files()[0])
    bench = job.now.bench.with_(answers=answers, corrections=corrections)
    return job.with_now(job.now.with_(bench=bench))


def faults(job: Job, prompt: str) -> Faults:
    judged = judge(job, load_limits(job.order.rule_set))
    return faults_for(standing(job, judged, GUIDE), GUIDE.prompt(prompt))


def test_all_that_is_measured_is_drawn_and_what_is_asked_comes_first() -> None:
    job = job_with({"skew": answer(SKEW), "table-upright": answer(TOUCH)})
    shown = faults(job, "bench.table-upright")
    assert [one.kind for one in shown.found] == ["table-upright", "skew"]
    assert shown.about == "table-upright"
    assert not any(one.is_within for one in shown.found)
    assert shown.before is None


def test_what_is_to_be_repeated_is_not_drawn() -> None:
    again = answer(SKEW, again_because=("bench.skew",))
    assert faults(job_with({"skew": again}, CORRECTION), "bench.skew") == Faults((), "skew")


def test_before_and_after_a_correction_are_drawn() -> None:
    shown = faults(job_with({"skew": answer(LEVEL)}, CORRECTION), "bench.skew")
    (now,) = shown.found
    assert now.is_within
    assert shown.before is not None
    assert [round(one.value, 3) for one in shown.before] == [2.0]


def test_found_good_by_eye_after_a_correction_it_is_drawn_true() -> None:
    seen = {"skew": Answer(seen=Seen.GOOD)}
    shown = faults(job_with(seen, CORRECTION), "bench.skew")
    assert shown.found == ()
    assert shown.before


def test_between_before_and_after_only_what_is_asked_is_marked() -> None:
    job = job_with({"skew": answer(LEVEL)}, CORRECTION)
    stands = standing(job, judge(job, load_limits(job.order.rule_set)), GUIDE)
    scene = scene_for(stands, GUIDE.prompt("bench.skew"), hides_order=False)
    assert {mark.prompt_id for mark in scene.marks} == {"bench.skew"}


def test_away_from_the_bench_no_fault_is_drawn() -> None:
    job = job_with({"skew": answer(SKEW)})
    assert faults(job, "right.distance") == Faults()
