"""The record holds what the job, its findings and its imprint say, and nothing else."""

import json
import os
from dataclasses import replace
from decimal import Decimal
from pathlib import Path

from benchassist.guide.load import load_guide
from benchassist.guide.prompts import StepId
from benchassist.job.checks import Answer
from benchassist.job.document import Job
from benchassist.job.order import WrittenPower
from benchassist.job.signoff import Outcome
from benchassist.limits.load import load_limits
from benchassist.optics.eye import Eye
from benchassist.records.demo import demo_files
from benchassist.records.making import make_record
from benchassist.records.record import Part, Record
from benchassist.store.files import load_job_file
from benchassist.verdicts.finding import State
from benchassist.verdicts.judge import judge
from tests.records import bench

SNAPSHOT = Path(__file__).parent / "record.json"


def text_of(record: Record) -> str:
    """The record as text, its digest out of the way."""
    text = record.model_dump_json(indent=1) + "\n"
    return text.replace(record.imprint.digest, "<digest>")


def part(record: Record, step: StepId) -> Part:
    found = record.part(step)
    assert found is not None
    return found


def test_the_record_is_as_it_was() -> None:
    """Compares with the text kept beside this file; BENCHASSIST_RENEW=1 writes it anew."""
    text = text_of(bench.record())
    if os.environ.get("BENCHASSIST_RENEW"):
        SNAPSHOT.write_text(text, encoding="utf-8")
    assert text == SNAPSHOT.read_text(encoding="utf-8")


def test_the_record_survives_its_own_json() -> None:
    record = bench.record()
    assert Record.model_validate_json(record.model_dump_json()) == record


def test_each_finding_is_there_once_under_its_step() -> None:
    record = bench.record()
    assert [line.key for line in record.findings] == [
        "right.axis",
        "right.prism",
        "left.axis",
        "pair.height",
        "bench.screws",
    ]
    assert {line.key for line in part(record, StepId.RIGHT).findings} == {
        "right.axis",
        "right.prism",
    }


def test_findings_refer_to_their_rule_by_number() -> None:
    record = bench.record()
    axis = record.findings[0]
    assert axis.rule == 1
    assert axis.share == Decimal("1.25")
    assert record.rules[0].clause == "table 1"


def test_counts_run_from_the_worst_state() -> None:
    counts = bench.record().counts
    assert [count.state for count in counts] == [
        State.OUTSIDE,
        State.CLOSE,
        State.MISSING,
        State.WITHIN,
        State.NONE,
    ]
    assert sum(count.number for count in counts) == len(bench.findings())


def test_readings_stand_as_they_were_typed() -> None:
    left = part(bench.record(), StepId.LEFT)
    assert left.readings[0].values == ("sphere lines −2.00 D, cylinder lines −2.00 D",)
    assert left.readings[0].meters == ("meter 1",)
    pair = part(bench.record(), StepId.PAIR)
    assert [line.title for line in pair.readings] == ["Height, right"]


def test_answers_corrections_and_skipped_prompts_are_told_by_their_titles() -> None:
    record = bench.record()
    at_bench = part(record, StepId.BENCH)
    assert at_bench.answers[0].remark == "One was loose."
    assert at_bench.answers[1].measured == ("right gap 1.5 mm",)
    assert at_bench.answers[1].again == "Screws"
    assert at_bench.corrections[0].check == "Screws"
    assert [line.title for line in at_bench.open] == ["Table touch"]
    assert part(record, StepId.SURFACE).skipped[0].reason == "demonstration lenses"
    handover = part(record, StepId.HANDOVER)
    assert [(line.seen, line.choice) for line in handover.answers] == [
        ("done", ""),
        ("", "worn"),
    ]


def test_the_drawing_gets_what_was_found_in_the_form_of_the_order() -> None:
    spots = {spot.spot: spot.text for spot in bench.record().spots}
    assert spots["right.distance"] == "−1.50 +1.00 × 95"
    assert spots["left.distance"] == "−2.00"
    assert spots["left.prism"] == "1.25 Δ in"
    assert spots["right.prism"] == ""


def test_repeats_are_averaged_for_the_drawing() -> None:
    right = bench.record().centration.eye(Eye.RIGHT)
    assert right.height == Decimal("20.25")
    assert (right.distance_pd, right.near_pd) == (None, None)


def test_good_is_told_where_a_zone_before_the_limit_was_set() -> None:
    axis = bench.findings()[0]
    reckoned = replace(axis, key="right.cylinder", probability=Decimal("0.01"))
    plain = replace(axis, key="right.meridian-high", guard=Decimal(0))
    made = (axis, reckoned, plain)
    record = make_record(bench.job(), made, bench.guide(), bench.LIMITS, bench.IMPRINT)
    assert {line.key: line.good for line in record.findings} == {
        "right.axis": Decimal(3),
        "right.cylinder": None,
        "right.meridian-high": None,
    }


def test_earlier_attempts_stay_readable() -> None:
    record = bench.record()
    assert record.attempt == 2
    assert [(each.number, each.outcome, each.reason) for each in record.earlier] == [
        (1, Outcome.RETURN, "Lenses exchanged.")
    ]


def test_everybody_named_is_listed_once() -> None:
    assert bench.record().people == (bench.OPTICIAN,)


def test_a_fresh_job_makes_a_record_too() -> None:
    fresh = Job(number="FH-2", created=bench.MADE_AT)
    record = make_record(fresh, (), bench.guide(), bench.LIMITS, bench.IMPRINT)
    assert record.findings == ()
    assert record.decision.outcome is None
    assert all(not part.answers for part in record.parts)


def test_a_correction_of_a_check_no_longer_in_the_guide_keeps_its_name() -> None:
    job = bench.job()
    work = job.now.bench
    old = work.corrections[0].with_(check="bench.gone")
    answer = Answer(remark="x", again_because=("bench.gone",))
    answers = {**work.answers, "screws": answer}
    job = job.with_now(job.now.with_(bench=work.with_(corrections=(old,), answers=answers)))
    record = make_record(job, (), bench.guide(), bench.LIMITS, bench.IMPRINT)
    assert part(record, StepId.BENCH).corrections[0].check == "bench.gone"
    assert part(record, StepId.BENCH).answers[0].again == "bench.gone"


def test_a_told_finding_is_marked() -> None:
    told = replace(bench.findings()[1], is_told=True)
    record = make_record(bench.job(), (told,), bench.guide(), bench.LIMITS, bench.IMPRINT)
    assert [line.is_told for line in record.findings] == [True]


def demo_record(number: str) -> Record:
    jobs = (load_job_file(file) for file in demo_files())
    job = next(job for job in jobs if job.number == number)
    limits = load_limits(job.order.rule_set)
    return make_record(job, judge(job, limits), load_guide(), limits, bench.IMPRINT)


def test_with_which_surface_an_addition_is_read_is_told_beside_it() -> None:
    methods = {line.key: line.method for line in demo_record("FH-2611-041").findings}
    assert {key for key, method in methods.items() if method} == {"right.add"}
    assert methods["right.add"].endswith(
        "take both readings with the back surface on the stop."
    )


def test_what_the_other_surface_would_show_is_told_where_it_matters() -> None:
    job = next(job for job in map(load_job_file, demo_files()) if job.number == "FH-2611-041")
    strong = WrittenPower(sphere=Decimal(8))
    lenses = {eye.value: job.order.eye(eye).with_(power=strong) for eye in Eye}
    job = job.with_(order=job.order.with_(**lenses))
    limits = load_limits(job.order.rule_set)
    record = make_record(job, judge(job, limits), load_guide(), limits, bench.IMPRINT)
    methods = {line.key: line.method for line in record.findings if line.method}
    assert methods["right.add"].startswith("The order does not say which surface carries")
    assert "The front would show" in methods["right.add"]
    assert methods["left.add"].startswith("The front would show")


def test_a_slip_stands_once_in_the_first_step_it_is_about() -> None:
    record = demo_record("FH-2611-055")
    slips = {each.step: [slip.about for slip in each.slips] for each in record.parts}
    pair = ["Horizontal prism by centration", "Horizontal prism imbalance"]
    assert {step: said for step, said in slips.items() if said} == {StepId.PAIR: pair}


def test_a_record_written_before_slips_were_told_still_loads() -> None:
    data = json.loads(bench.record().model_dump_json())
    for each in data["parts"]:
        del each["slips"]
        for line in each["findings"]:
            del line["is_told"], line["method"]
    loaded = Record.model_validate(data)
    assert [each.slips for each in loaded.parts] == [()] * len(loaded.parts)
    assert loaded.findings == bench.record().findings
