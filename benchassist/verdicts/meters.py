"""The lens meters behind the readings: which, whether checked, and what each takes off."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from decimal import Decimal

from benchassist.job.document import Attempt, Job
from benchassist.job.instrument import Instrument
from benchassist.job.readings import DrumAdd, DrumReading, LensReadings, PowerReading
from benchassist.verdicts.exact import ZERO, MinusForm, read_power
from benchassist.verdicts.words import listed, signed_dioptres

_ONE_DAY = timedelta(hours=24)


@dataclass(frozen=True, slots=True)
class MeterUsed:
    """The lens meter of one reading.

    Attributes:
        name: what the reading calls it; empty when it does not say.
        is_drum: whether the reading was taken from a drum.
        known: the instrument of that name; None when the job knows none.
        is_checked: whether it had passed a check that can be of the day of the reading.
    """

    name: str
    is_drum: bool
    known: Instrument | None
    is_checked: bool

    @property
    def checked(self) -> Instrument | None:
        """The instrument, if its check counts."""
        return self.known if self.is_checked else None

    @property
    def zero(self) -> Decimal:
        """What it shows without a lens, D, by its check."""
        return self.known.zero if self.known else ZERO


@dataclass(frozen=True, slots=True)
class Meters:
    """The instruments that an attempt names.

    Attributes:
        attempt: the attempt with its instruments.
        began: when its readings can have begun.
    """

    attempt: Attempt
    began: datetime

    @classmethod
    def of(cls, job: Job) -> "Meters":
        """Those of the present attempt.

        Its readings began no earlier than the last signature of the attempt before it, or
        than the job itself.
        """
        signed = [
            signature.at
            for attempt in job.attempts[:-1]
            for signature in (
                attempt.signoff.prepared,
                attempt.signoff.dispensed,
                attempt.signoff.countersigned,
            )
            if signature
        ]
        return cls(job.now, max((job.created, *signed)))

    def used(self, name: str, *, is_drum: bool) -> MeterUsed:
        """The meter that a reading names.

        When a reading was taken is not known to the job. A check counts unless it is more than
        24 hours older than the earliest moment at which it can have been taken: it is then
        surely not of that day. Own decision.
        """
        known = self.attempt.instruments.get(name) if name else None
        checked = known.checked if known else None
        counts = checked is not None and self.began - checked <= _ONE_DAY
        return MeterUsed(name, is_drum, known, counts)

    def of_power(self, reading: PowerReading) -> MeterUsed:
        """The meter of a distance reading."""
        return self.used(reading.meter, is_drum=isinstance(reading, DrumReading))

    def all_of(self, lens: LensReadings) -> tuple[MeterUsed, ...]:
        """The meter of every reading of one lens, in the order of the readings."""
        drums = (DrumReading, DrumAdd)
        taken = (*lens.distance, *lens.near, *lens.intermediate, *lens.prism)
        return tuple(
            self.used(reading.meter, is_drum=isinstance(reading, drums)) for reading in taken
        )

    def power(self, reading: PowerReading) -> MinusForm | None:
        """The exact minus form of a reading without its meter's zero; None if not complete."""
        shown = read_power(reading)
        if shown is None:
            return None
        zero = self.of_power(reading).zero
        return MinusForm(shown.sphere - zero, shown.cylinder, shown.axis)


def zero_taken_off(meters: Sequence[MeterUsed]) -> str:
    """What was taken off readings of these meters, for the end of a sentence; often empty."""
    zeros = tuple(dict.fromkeys(meter.zero for meter in meters if meter.zero))
    if not zeros:
        return ""
    return f" (zero error of {listed(tuple(map(signed_dioptres, zeros)))} taken off)"
