"""A lens meter as it was when it was read."""

from decimal import ROUND_DOWN, ROUND_HALF_UP, Decimal
from enum import StrEnum
from typing import Annotated

from pydantic import AwareDatetime, StringConstraints

from benchassist.job.base import Frozen, Line, exact

Step = Annotated[Decimal, exact("0.001", "0.25", 4)]
"""The step in which a power is read, D; a sixteenth is 0.0625."""

ShownPower = Annotated[Decimal, exact("-40", "40", 4)]
"""A power as a lens meter gives it, D; a sixteenth needs four places."""

ShownCylinder = Annotated[Decimal, exact("-20", "20", 4)]
"""A cylinder as a lens meter gives it, D, in either form."""

ShownAddition = Annotated[Decimal, exact("-10", "10", 4)]
"""An addition as a lens meter gives it, D: a slip may make it negative."""

LONGEST_NAME = 60
"""Characters of a meter's name: readings name it and its check on one line. Our own bound."""

MeterName = Annotated[Line, StringConstraints(min_length=1, max_length=LONGEST_NAME)]
"""What the workshop calls a lens meter; never empty."""

_SIXTEENTH = Decimal("0.0625")
_HUNDREDTH = Decimal("0.01")


def as_shown(value: Decimal) -> Decimal:
    """A power as two places show it: of a sixteenth of a dioptre the rest is cut off, D."""
    if value % _SIXTEENTH:
        return value
    return value.quantize(_HUNDREDTH, ROUND_DOWN)


def exact_of(shown: Decimal, step: Decimal) -> Decimal:
    """The power of which a display shows this figure: 2.62 is 2.625 in steps of an eighth.

    Displays cut their figures to two places or round them. A figure that no whole number of
    steps gives stays as it is.

    Args:
        shown: the size of a power as it stands on the display, D.
        step: the step of the display, a whole number of sixteenths, D.
    """
    power = (shown / step).to_integral_value() * step
    figures = {as_shown(power), power.quantize(_HUNDREDTH, ROUND_HALF_UP)}
    return power.normalize() if power != shown and shown in figures else shown


class Speech(StrEnum):
    """How a lens meter gives a power."""

    DRUM = "drum"
    DISPLAY = "display"


class Instrument(Frozen):
    """A lens meter of the workshop with its last check.

    Attributes:
        name: what the workshop calls it.
        speech: how it gives a power.
        step: the step in which powers are read, D.
        checked: when it last passed the daily check; None when it never did.
        zero: what it showed without a lens at that check, D; subtracted from every sphere.
        known_lens_error: what it showed of a known lens minus that lens's power, after the
            zero was subtracted, D; None when no known lens was read.
    """

    name: Line
    speech: Speech
    step: Step
    checked: AwareDatetime | None = None
    zero: ShownPower = Decimal(0)
    known_lens_error: ShownPower | None = None

    @property
    def cut_step(self) -> Decimal | None:
        """The step, D, of a display whose figures are sixteenths cut short; None for others."""
        is_cut = self.speech is Speech.DISPLAY and self.step % _SIXTEENTH == 0
        return self.step if is_cut else None
