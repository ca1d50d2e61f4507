"""What each act of signing makes of a job."""

from datetime import datetime
from typing import assert_never

from benchassist.job import signing
from benchassist.job.document import Job
from benchassist.job.signoff import Person
from benchassist.people.roles import Act


def carried_out(job: Job, act: Act, person: Person, at: datetime, remark: str = "") -> Job:
    """The job after an act that `may` and the guide allow.

    Raises:
        ValueError: the act is not one of signing, or the job is not in a state for it.
    """
    signoff = job.now.signoff
    match act:
        case Act.PREPARE:
            return signing.prepare(job, person, at, remark)
        case Act.DISPENSE:
            if signoff.outcome is None:
                raise ValueError("An outcome is chosen before it is signed.")
            return signing.dispense(job, person, at, signoff.outcome, signoff.reason)
        case Act.COUNTERSIGN:
            return signing.countersign(job, person, at, remark)
        case Act.SEND_BACK:
            return signing.send_back(job, person, at, remark)
        case Act.NEW_ATTEMPT:
            return signing.new_attempt(job)
        case Act.EDIT:
            raise ValueError("An edit is written, not signed.")
        case _:
            assert_never(act)
