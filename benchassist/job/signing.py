"""How an attempt ends: each step of its signing gives a new job."""

from datetime import datetime

from benchassist.job.document import Job, JobState
from benchassist.job.signoff import (
    Ask,
    Outcome,
    Person,
    Signature,
    SignOff,
    deciding_fault,
)


def prepare(job: Job, person: Person, at: datetime, remark: str = "") -> Job:
    """The job prepared for the optician.

    Raises:
        ValueError: the attempt is signed.
    """
    _refuse_signed(job)
    return _with_signoff(job, prepared=Signature(person=person, at=at, remark=remark))


def decide(
    job: Job, outcome: Outcome | None, reason: str = "", asks: tuple[Ask, ...] = ()
) -> Job:
    """The job with the outcome that somebody proposes, not yet signed.

    Args:
        job: the job.
        outcome: what is to become of the pair.
        reason: why.
        asks: what the lab is asked for, where the pair goes back.

    Raises:
        ValueError: the attempt is signed.
    """
    _refuse_signed(job)
    return _with_signoff(job, outcome=outcome, reason=reason, asks=asks)


def dispense(job: Job, person: Person, at: datetime, outcome: Outcome, reason: str = "") -> Job:
    """The job with its outcome decided and signed by the dispensing optician.

    Raises:
        ValueError: the attempt is signed, an outcome other than a plain release has no reason,
            or the person is a trainee.
    """
    _refuse_signed(job)
    if fault := deciding_fault(outcome, reason):
        raise ValueError(fault)
    dispensed = Signature(person=person, at=at)
    return _with_signoff(job, outcome=outcome, reason=reason, dispensed=dispensed)


def countersign(job: Job, person: Person, at: datetime, remark: str = "") -> Job:
    """The job with its record closed by the supervisor.

    Raises:
        ValueError: there is nothing to countersign: not dispensed, on hold, or closed; or the
            person is no supervisor, or has dispensed.
    """
    if job.state is not JobState.TO_COUNTERSIGN:
        raise ValueError(f"A job that is {job.state.value} is not countersigned.")
    return _with_signoff(job, countersigned=Signature(person=person, at=at, remark=remark))


def send_back(job: Job, person: Person, at: datetime, remark: str) -> Job:
    """The job opened again: sent back with a remark, or taken up after being on hold.

    The outcome and its reason stay as a proposal; the dispenser's name is taken off, and the
    remark stays to be read.

    Raises:
        ValueError: the attempt is not signed, it is closed, or there is no remark.
    """
    if job.state not in {JobState.TO_COUNTERSIGN, JobState.HELD}:
        raise ValueError(f"A job that is {job.state.value} is not sent back.")
    if not remark.strip():
        raise ValueError("A job is sent back with a remark.")
    sent_back = Signature(person=person, at=at, remark=remark)
    return _with_signoff(job, dispensed=None, sent_back=sent_back)


def new_attempt(job: Job) -> Job:
    """The job as it comes back in the tray, with a fresh attempt; the earlier ones stay.

    Raises:
        ValueError: the present attempt is not closed by a countersignature.
    """
    if job.state not in {JobState.AT_LAB, JobState.CLOSED}:
        raise ValueError(f"A job that is {job.state.value} has no new attempt.")
    return job.with_new_attempt()


def _refuse_signed(job: Job) -> None:
    if job.now.signoff.dispensed is not None:
        raise ValueError("The attempt is signed; it is sent back before anything changes.")


def _with_signoff(
    job: Job, **changes: Outcome | Signature | str | tuple[Ask, ...] | None
) -> Job:
    signoff: SignOff = job.now.signoff.with_(**changes)
    return job.with_now(job.now.with_(signoff=signoff))
