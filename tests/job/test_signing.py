from collections.abc import Callable

import pytest

from benchassist.job.document import Job, JobState
from benchassist.job.signing import (
    countersign,
    decide,
    dispense,
    new_attempt,
    prepare,
    send_back,
)
from benchassist.job.signoff import Outcome, Signature
from tests.job.samples import (
    OPTICIAN,
    SUPERVISOR,
    TRAINEE,
    bookbinders_job,
    later,
    with_reading,
)

Step = Callable[[Job], Job]


def released(job: Job) -> Job:
    return dispense(job, OPTICIAN, later(30), Outcome.RELEASE)


def returned(job: Job) -> Job:
    return dispense(job, OPTICIAN, later(30), Outcome.RETURN, "axis 8 degrees off")


def held(job: Job) -> Job:
    return dispense(job, OPTICIAN, later(30), Outcome.HOLD, "waiting for the wearer")


def closed(job: Job) -> Job:
    return countersign(job, SUPERVISOR, later(40))


def opened(job: Job) -> Job:
    return send_back(job, SUPERVISOR, later(40), "read the add again")


def after(*steps: Step) -> Job:
    job = with_reading(bookbinders_job(), "-2.25")
    for step in steps:
        job = step(job)
    return job


def test_a_job_goes_from_prepared_to_closed() -> None:
    job = after(lambda job: prepare(job, TRAINEE, later(20), "all read"), released)
    assert job.state is JobState.TO_COUNTERSIGN
    signoff = closed(job).now.signoff
    assert signoff.prepared == Signature(person=TRAINEE, at=later(20), remark="all read")
    assert signoff.dispensed == Signature(person=OPTICIAN, at=later(30))
    assert signoff.countersigned == Signature(person=SUPERVISOR, at=later(40))
    assert closed(job).state is JobState.CLOSED
    assert closed(job).now.right == job.now.right


def test_sending_back_takes_the_name_off_and_keeps_the_remark() -> None:
    job = after(released, opened)
    assert job.state is JobState.OPEN
    signoff = job.now.signoff
    assert (signoff.dispensed, signoff.outcome) == (None, Outcome.RELEASE)
    assert signoff.sent_back is not None
    assert signoff.sent_back.remark == "read the add again"
    assert released(job).now.signoff.sent_back == signoff.sent_back


def test_a_pair_on_hold_is_taken_up_again() -> None:
    job = after(held)
    assert job.state is JobState.HELD
    assert opened(job).state is JobState.OPEN


def test_a_returned_pair_comes_back_as_a_new_attempt() -> None:
    job = after(returned, closed)
    assert job.state is JobState.AT_LAB
    again = new_attempt(job)
    assert again.state is JobState.OPEN
    assert again.attempts[0] == job.now
    assert again.now.right.distance == ()


def test_an_outcome_is_proposed_and_changed_before_it_is_signed() -> None:
    job = decide(after(), Outcome.HOLD, "waiting for the frame")
    assert (job.now.signoff.outcome, job.now.signoff.dispensed) == (Outcome.HOLD, None)
    assert decide(job, None).now.signoff.outcome is None


@pytest.mark.parametrize(
    "outcome", [Outcome.RELEASE_ACCEPTED, Outcome.RETURN, Outcome.HOLD], ids=str
)
def test_any_outcome_but_a_plain_release_needs_a_reason(outcome: Outcome) -> None:
    with pytest.raises(ValueError, match="needs a reason"):
        dispense(after(), OPTICIAN, later(30), outcome, "  ")


@pytest.mark.parametrize(
    ("steps", "impossible"),
    [
        ((released,), released),
        ((released,), lambda job: prepare(job, TRAINEE, later(50))),
        ((released,), lambda job: decide(job, Outcome.HOLD)),
        ((released,), new_attempt),
        ((released, closed), released),
        ((released, closed), closed),
        ((released, closed), opened),
        ((returned,), new_attempt),
        ((held,), closed),
        ((held,), new_attempt),
        ((), closed),
        ((), opened),
        ((), new_attempt),
        ((released,), lambda job: send_back(job, SUPERVISOR, later(40), " ")),
    ],
)
def test_what_cannot_follow_is_refused(steps: tuple[Step, ...], impossible: Step) -> None:
    job = after(*steps)
    with pytest.raises(ValueError, match=r"signed|countersigned|sent back|new attempt"):
        impossible(job)
