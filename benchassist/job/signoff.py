"""How a job ends, and who says so."""

from enum import StrEnum

from pydantic import AwareDatetime

from benchassist.job.base import Frozen


class Outcome(StrEnum):
    """What becomes of the pair."""

    RELEASE = "release"
    RELEASE_ACCEPTED = "release with accepted deviation"
    RETURN = "return to lab"
    HOLD = "hold"


class Role(StrEnum):
    """A trainee prepares, an optician releases, a supervisor countersigns."""

    TRAINEE = "trainee"
    OPTICIAN = "optician"
    SUPERVISOR = "supervisor"


class Person(Frozen):
    """Somebody at the bench."""

    name: str
    role: Role


class Signature(Frozen):
    """A name put to the job, and when."""

    person: Person
    at: AwareDatetime
    remark: str = ""


class SignOff(Frozen):
    """The end of one attempt.

    Attributes:
        outcome: what becomes of the pair.
        reason: why a deviation is accepted, the pair held or returned.
        prepared: the trainee's name, when a trainee prepared the record.
        dispensed: the dispensing optician's name: the outcome is decided.
        countersigned: the supervisor's name: the record is closed.
        sent_back: the supervisor's remark when the record was sent back instead.
    """

    outcome: Outcome | None = None
    reason: str = ""
    prepared: Signature | None = None
    dispensed: Signature | None = None
    countersigned: Signature | None = None
    sent_back: Signature | None = None
