"""Each lens that was read says on which meters, and whether these were checked."""

from datetime import UTC, datetime, timedelta
from typing import Any

from benchassist.job.document import Attempt, Job
from benchassist.job.signoff import Outcome
from benchassist.verdicts.finding import State
from tests.verdicts.jobs import display, drum, found_in, job_of, judged, plain_limits, shown_add

MORNING = datetime(2026, 3, 2, 8, 0, tzinfo=UTC)


def instrument(**changes: Any) -> dict[str, Any]:
    usual = {"name": "bench 2", "speech": "display", "step": "0.01", "checked": MORNING}
    return usual | changes


def sentence(readings: dict[str, Any], **instruments: dict[str, Any]) -> str:
    return judged({}, {"right": readings, "instruments": instruments})["right.meter"].sentence


def on(meter: str, reading: dict[str, Any]) -> dict[str, Any]:
    return reading | {"meter": meter}


def test_a_lens_that_was_not_read_says_nothing() -> None:
    findings = judged({}, {"right": {"near": [shown_add("1")]}})
    assert findings["right.meter"].state is State.NONE
    assert findings["right.meter"].prompt == "right.distance"
    assert "left.meter" not in findings


def test_readings_are_counted_by_meter_and_the_unchecked_are_marked() -> None:
    readings = {
        "distance": [on("a", display("1")), on("a", display("1")), display("1")],
        "near": [on("b", shown_add("2"))],
        "prism": [on("b", {"prism": {"form": "components"}})],
    }
    assert sentence(readings, a=instrument(), b=instrument(checked=None, zero="0.03")) == (
        "Lens meter: 2 readings on bench 2, checked 2 March 2026, 08:00, no known lens read; "
        "1 reading on a meter not named, meter not checked; "
        "2 readings on b, meter not checked, zero error of +0.03 D taken off."
    )


def test_a_name_that_the_job_does_not_know_is_not_checked() -> None:
    assert sentence({"distance": [on("c", drum("1", "1"))]}) == (
        "Lens meter: 1 reading on c, meter not checked."
    )


def test_the_known_lens_is_told() -> None:
    readings = {"distance": [on("a", display("1"))]}
    right = sentence(readings, a=instrument(known_lens_error="0"))
    wrong = sentence(readings, a=instrument(known_lens_error="-0.03"))
    assert right.endswith("known lens read right.")
    assert wrong.endswith("known lens read −0.03 D wrong.")


def meter_of(job: Job) -> str:
    return found_in(job, plain_limits())["right.meter"].sentence


def test_a_check_of_another_day_does_not_count() -> None:
    readings = {"right": {"distance": [on("a", display("1"))]}}
    job = job_of({}, readings | {"instruments": {"a": instrument()}})
    assert "checked 2 March" in meter_of(job)
    late = job.with_(created=MORNING + timedelta(hours=24, seconds=1))
    assert "not checked" in meter_of(late)


def test_an_attempt_begins_after_the_last_signature_of_the_one_before() -> None:
    readings = {"right": {"distance": [on("a", display("1"))]}}
    job = job_of({}, readings | {"instruments": {"a": instrument()}})
    person = {"name": "Ilse Varga", "role": "optician"}
    signoff = {
        "outcome": Outcome.RETURN,
        "reason": "The left axis is off.",
        "dispensed": {"person": person, "at": MORNING + timedelta(hours=25)},
    }
    before = Attempt.model_validate({"signoff": signoff})
    assert "not checked" in meter_of(job.with_(attempts=(before, job.now)))
