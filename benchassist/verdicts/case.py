"""One job before its limits: what every verdict asks for."""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from benchassist.job.document import Attempt, Job
from benchassist.job.order import Design, EyeOrder, Order, WrittenPower
from benchassist.job.readings import AddReading, DrumAdd, DrumReading
from benchassist.limits.load import Limits
from benchassist.limits.table import Row
from benchassist.optics.eye import Eye
from benchassist.verdicts.doubt import Doubt
from benchassist.verdicts.exact import (
    ExactPrism,
    MinusForm,
    mean_power,
    mean_prism,
    written_power,
    written_prism,
)
from benchassist.verdicts.meters import Meters, MeterUsed

ORDERED = "ordered"
BY_MAKER = "by the maker's verification power"


@dataclass(frozen=True, slots=True)
class Case:
    """A job and the limits by which it is judged."""

    job: Job
    limits: Limits

    @property
    def order(self) -> Order:
        """What was ordered."""
        return self.job.order

    @property
    def now(self) -> Attempt:
        """The attempt being judged: the last one."""
        return self.job.now

    @property
    def design(self) -> Design | None:
        """The lens design ordered."""
        return self.job.order.design

    @property
    def lens(self) -> str:
        """The lens design in words: 'a bifocal lens'."""
        return f"a {self.design.replace('-', ' ')} lens" if self.design else "an unknown lens"

    @property
    def doubt(self) -> Doubt:
        """How far readings can be trusted."""
        return Doubt(self.limits.meter, self.limits.decision)

    @property
    def meters(self) -> Meters:
        """The lens meters that readings name."""
        return Meters.of(self.job)

    def row(self, quantity: str) -> Row | None:
        """The row of the rule set that limits a quantity of this lens design."""
        return self.limits.rules.row(quantity, self.design)

    def ordered(self, eye: Eye) -> EyeOrder:
        """What was ordered for one eye."""
        return self.order.eye(eye)

    def ordered_power(self, eye: Eye) -> MinusForm | None:
        """The power as it is to work at the eye; None while it is not complete."""
        return written_power(self.ordered(eye).power)

    def power_to_find(self, eye: Eye) -> tuple[MinusForm | None, str]:
        """The power that the lens meter must show, and whose word it is.

        The maker's verification power where one is begun, otherwise the ordered power; None
        while the one to take is not complete.
        """
        verification = self.ordered(eye).verification
        if verification is not None and verification.power != WrittenPower():
            return written_power(verification.power), BY_MAKER
        return self.ordered_power(eye), ORDERED

    def add_to_find(self, eye: Eye) -> tuple[Decimal | None, str]:
        """The addition that the lens meter must show, and whose word it is."""
        verification = self.ordered(eye).verification
        if verification and verification.add is not None:
            return verification.add, BY_MAKER
        return self.ordered(eye).add, ORDERED

    def prism_to_find(self, eye: Eye) -> ExactPrism:
        """The prism that the lens meter must show at the prism reference point."""
        verification = self.ordered(eye).verification
        if verification and verification.prism is not None:
            return written_prism(verification.prism, eye)
        return written_prism(self.ordered(eye).prism, eye)

    def power_readings(self, eye: Eye) -> tuple[MinusForm, ...]:
        """Each complete reading of the distance power, in minus form.

        What its lens meter shows without a lens is taken off.
        """
        read = map(self.meters.power, self.now.eye(eye).distance)
        return tuple(power for power in read if power)

    def power_meters(self, eye: Eye) -> tuple[MeterUsed, ...]:
        """The lens meter of each of these readings."""
        meters, distance = self.meters, self.now.eye(eye).distance
        return tuple(meters.of_power(reading) for reading in distance if reading.is_complete)

    def add_meters(self, readings: Sequence[AddReading]) -> tuple[MeterUsed, ...]:
        """The lens meter of each of these readings of an addition."""
        meters = self.meters
        return tuple(
            meters.used(reading.meter, is_drum=isinstance(reading, DrumAdd))
            for reading in readings
        )

    def power_found(self, eye: Eye) -> MinusForm | None:
        """The mean of the distance readings; None where none is complete."""
        read = self.power_readings(eye)
        return mean_power(read) if read else None

    def prism_readings(self, eye: Eye) -> tuple[ExactPrism, ...]:
        """Each reading of prism, by components."""
        return tuple(written_prism(read.prism, eye) for read in self.now.eye(eye).prism)

    def prism_found(self, eye: Eye) -> ExactPrism | None:
        """The mean of the prism readings; None where there is none."""
        read = self.prism_readings(eye)
        return mean_prism(read) if read else None

    def on_drum(self, eye: Eye) -> bool:
        """Whether this lens was read on a manual meter, at least once."""
        return any(isinstance(read, DrumReading) for read in self.now.eye(eye).distance)

    def on_reticle(self, eye: Eye) -> bool:
        """Whether its prism must be taken as read on a reticle: no display is known."""
        return not self.now.eye(eye).distance or self.on_drum(eye)


def no_limit(case: Case) -> str:
    """Why a quantity is not judged that the rule set does not name for this design."""
    return f"this rule set has no limit for it on {case.lens}"
