"""The job: one pair of spectacles, from the tray to the drawer."""

from enum import StrEnum
from typing import Annotated, Literal

from pydantic import AwareDatetime, Field, StringConstraints

from benchassist.job.base import Frozen, FrozenMap, Remark
from benchassist.job.checks import Checks, Correction, HandWork
from benchassist.job.instrument import Instrument
from benchassist.job.order import Order
from benchassist.job.readings import LensReadings, PairReadings
from benchassist.job.signoff import Outcome, SignOff
from benchassist.job.surface import Inspection
from benchassist.optics.eye import Eye

SCHEMA: Literal[1] = 1
"""The newest schema of a job file; a file of a newer one is refused."""

JobNumber = Annotated[
    str,
    StringConstraints(pattern=r"^[0-9A-Za-z][0-9A-Za-z ./_-]{0,39}$", strip_whitespace=True),
]


class Attempt(Frozen):
    """Everything done with the pair between one arrival in the tray and its outcome.

    `skipped` maps the id of a prompt that was marked not applicable to the reason given;
    `instruments` maps what readings name as their `meter` to that lens meter as it was then.
    """

    right: LensReadings = LensReadings()
    left: LensReadings = LensReadings()
    pair: PairReadings = PairReadings()
    surface: Inspection = Inspection()
    bench: HandWork = HandWork()
    fit: HandWork = HandWork()
    handover: Checks = Checks()
    signoff: SignOff = SignOff()
    instruments: FrozenMap[Instrument] = Field(default_factory=dict, validate_default=True)
    skipped: FrozenMap[Remark] = Field(default_factory=dict, validate_default=True)

    @property
    def corrections(self) -> tuple[Correction, ...]:
        """What was bent, at the bench and then on the wearer, each oldest first."""
        return (*self.bench.corrections, *self.fit.corrections)

    def eye(self, eye: Eye) -> LensReadings:
        """The readings of one lens."""
        return self.right if eye is Eye.RIGHT else self.left


class JobState(StrEnum):
    """Where a job stands."""

    OPEN = "open"
    HELD = "on hold"
    TO_COUNTERSIGN = "to countersign"
    AT_LAB = "at the lab"
    CLOSED = "closed"


class Job(Frozen):
    """One pair of spectacles: its order and each attempt at it, oldest first.

    The last attempt is the one being worked on; a pair that comes back from the lab starts a
    new attempt, and the earlier ones stay readable.
    """

    schema_version: Literal[1] = SCHEMA
    number: JobNumber
    created: AwareDatetime
    order: Order = Order()
    attempts: Annotated[tuple[Attempt, ...], Field(min_length=1)] = (Attempt(),)

    @property
    def now(self) -> Attempt:
        """The attempt being worked on."""
        return self.attempts[-1]

    def with_now(self, attempt: Attempt) -> "Job":
        """The job with its present attempt replaced."""
        return self.with_(attempts=(*self.attempts[:-1], attempt))

    def with_new_attempt(self) -> "Job":
        """The job as it comes back from the lab: a fresh attempt after the present one."""
        return self.with_(attempts=(*self.attempts, Attempt()))

    @property
    def state(self) -> JobState:
        """Where the job stands, read off its last sign-off."""
        signoff = self.now.signoff
        if signoff.dispensed is None:
            return JobState.OPEN
        if signoff.outcome is Outcome.HOLD:
            return JobState.HELD
        if signoff.countersigned is None:
            return JobState.TO_COUNTERSIGN
        return JobState.AT_LAB if signoff.outcome is Outcome.RETURN else JobState.CLOSED
