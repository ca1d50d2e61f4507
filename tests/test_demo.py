"""Each demo job tells its story, and nothing else is wrong with it."""

from pathlib import Path

import pytest
from pypdfium2 import PdfDocument

from benchassist.cli import record_of
from benchassist.guide.answers import ANSWERED
from benchassist.guide.flow import standing
from benchassist.guide.load import load_guide
from benchassist.guide.prompts import StepId
from benchassist.job.document import Job, JobState
from benchassist.job.signoff import Outcome
from benchassist.job.upgrade import read, write
from benchassist.limits.load import load_limits
from benchassist.optics.eye import Eye
from benchassist.records.demo import demo_files, demo_workshop, last_moment
from benchassist.records.pdf import record_pdf
from benchassist.records.tables import is_simply_good, numbers_say_it
from benchassist.verdicts.finding import Finding, State
from benchassist.verdicts.judge import judge
from benchassist.verdicts.meters import Meters

FILES = demo_files()
GUIDE = load_guide()


def job_of(name: str) -> Job:
    return read(next(file for file in FILES if file.stem == name).read_bytes())


def judged(job: Job) -> tuple[Finding, ...]:
    return judge(job, load_limits(job.order.rule_set))


STORIES: tuple[tuple[str, JobState, set[str]], ...] = (
    ("1-progressive-all-within", JobState.TO_COUNTERSIGN, set()),
    ("2-single-vision-axis-outside", JobState.OPEN, {"right.axis"}),
    ("3-bifocal-segment-low", JobState.TO_COUNTERSIGN, {"left.height"}),
    (
        "4-high-minus-centration",
        JobState.HELD,
        {"pair.prism-horizontal", "pair.centration-horizontal"},
    ),
    ("5-back-from-the-lab", JobState.CLOSED, set()),
    ("6-first-job", JobState.OPEN, set()),
    ("7-prism-accepted-deviation", JobState.CLOSED, {"surface.match"}),
    (
        "8-frame-out-of-true",
        JobState.OPEN,
        {"bench.x-ing", "bench.table-inverted", "bench.table-upright"},
    ),
)


_LOOK_AGAIN = {"7-prism-accepted-deviation": {"surface.scratches.1"}}
"""What a supervisor decided on: a pit in the outer zone."""


def test_every_demo_job_has_a_story_here() -> None:
    assert [file.stem for file in FILES] == [name for name, _, _ in STORIES]


@pytest.mark.parametrize(("name", "state", "outside"), STORIES)
def test_the_story_and_nothing_else(name: str, state: JobState, outside: set[str]) -> None:
    job = job_of(name)
    findings = judged(job)
    assert job.state is state
    assert {one.key for one in findings if one.state is State.OUTSIDE} == outside
    assert {one.key for one in findings if one.state is State.CLOSE} == _LOOK_AGAIN.get(
        name, set()
    )


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_a_demo_file_is_a_job_file_as_the_program_writes_it(file: Path) -> None:
    text = file.read_text(encoding="utf-8")
    assert write(read(text)) == text


@pytest.mark.parametrize(
    ("name", "steps"),
    [
        ("1-progressive-all-within", set(StepId)),
        ("2-single-vision-axis-outside", {"order", "right", "left", "pair"}),
        ("3-bifocal-segment-low", {"order", "right", "left", "pair", "surface", "bench"}),
        ("4-high-minus-centration", {"order", "right", "left", "pair", "surface", "bench"}),
        ("5-back-from-the-lab", set(StepId)),
        ("6-first-job", {"order"}),
        ("7-prism-accepted-deviation", set(StepId)),
        ("8-frame-out-of-true", {"order", "right", "left", "pair"}),
    ],
)
def test_every_prompt_of_the_steps_done_is_answered(name: str, steps: set[StepId]) -> None:
    job = job_of(name)
    stands = standing(job, judged(job), GUIDE)
    waiting = [
        item.prompt.id
        for item in stands.prompts
        if item.prompt.step in steps - {StepId.RECORD} and not item.is_done
    ]
    assert waiting == []


def test_the_skew_was_corrected_once_and_measured_again() -> None:
    bench = job_of("3-bifocal-segment-low").now.bench
    assert [correction.check for correction in bench.corrections] == ["bench.skew"]
    assert bench.answers["skew"].again_because == ()


def test_the_frame_out_of_true_rocks_by_its_bridge() -> None:
    told = {one.key: one.sentence for one in judged(job_of("8-frame-out-of-true"))}
    for check in ("table-inverted", "table-upright"):
        assert told[f"bench.{check}.why"].endswith("Put right first: X-ing.")


def test_what_the_correction_may_have_moved_was_read_again() -> None:
    job = job_of("3-bifocal-segment-low")
    (correction,) = job.now.bench.corrections
    remedies = GUIDE.prompt(correction.check).remedies
    disturbs = next(one.disturbs for one in remedies if one.does == correction.action)
    asked = {item.prompt.id: item.prompt for item in standing(job, (), GUIDE).prompts}
    readings = {name for name in disturbs if name in asked and asked[name].kind not in ANSWERED}
    assert set(correction.rereads) == readings
    assert correction.remark.startswith(
        "Left side raised at the bridge. Read again: right lens"
    )


def test_every_reading_is_from_a_meter_checked_that_day_but_one() -> None:
    unchecked = []
    for file in FILES:
        job = read(file.read_bytes())
        for at in range(1, len(job.attempts) + 1):
            earlier = job.with_(attempts=job.attempts[:at])
            meters = Meters.of(earlier)
            for eye in Eye:
                for meter in meters.all_of(earlier.now.eye(eye)):
                    assert meter.known is not None
                    if not meter.is_checked:
                        unchecked.append((file.stem, eye, meter.name))
    one = ("2-single-vision-axis-outside", Eye.LEFT, "manual meter, bench 1")
    assert unchecked == [one]


@pytest.mark.parametrize(
    ("step", "check"),
    [
        ("bench", "skew"),
        ("bench", "open-angle"),
        ("bench", "pantoscopic"),
        ("bench", "table-upright"),
        ("fit", "cross"),
        ("fit", "tilt"),
        ("fit", "vertex"),
    ],
)
def test_no_two_pairs_have_the_same_figures(step: str, check: str) -> None:
    measured = []
    for file in FILES:
        now = read(file.read_bytes()).now
        answers = now.bench.answers if step == "bench" else now.fit.answers
        if check in answers:
            measured.append(dict(answers[check].measured))
    assert len(measured) >= 3
    assert all(measured.count(one) == 1 for one in measured)


def test_the_pair_came_back_from_the_lab() -> None:
    job = job_of("5-back-from-the-lab")
    assert [attempt.signoff.outcome for attempt in job.attempts] == [
        Outcome.RETURN,
        Outcome.RELEASE,
    ]
    first = job.with_(attempts=job.attempts[:1])
    assert {one.key for one in judged(first) if one.state is State.OUTSIDE} == {
        "left.meridian-high"
    }


def test_the_deviation_was_accepted_with_a_reason() -> None:
    signoff = job_of("7-prism-accepted-deviation").now.signoff
    assert signoff.outcome is Outcome.RELEASE_ACCEPTED
    assert signoff.reason


def test_whoever_countersigned_did_not_dispense() -> None:
    for file in FILES:
        for attempt in read(file.read_bytes()).attempts:
            signoff = attempt.signoff
            if signoff.dispensed and signoff.countersigned:
                assert signoff.dispensed.person != signoff.countersigned.person
                assert signoff.dispensed.at < signoff.countersigned.at


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_its_record_tells_every_finding_on_two_to_five_pages(file: Path) -> None:
    job = read(file.read_bytes())
    record = record_of(job, demo_workshop(), last_moment(job))
    document = PdfDocument(record_pdf(record))
    said = "".join("".join(page.get_textpage().get_text_range().split()) for page in document)
    assert 2 <= len(document) <= 5
    assert len(record.findings) == len(judged(job))
    for finding in record.findings:
        is_short = is_simply_good(finding) or numbers_say_it(finding)
        assert "".join((finding.what if is_short else finding.sentence).split()) in said
