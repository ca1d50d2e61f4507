"""A lens meter as it was when it was read."""

from decimal import Decimal
from enum import StrEnum
from typing import Annotated

from pydantic import AwareDatetime

from benchassist.job.base import Dioptre, Frozen, Line, exact

Step = Annotated[Decimal, exact("0.001", "0.25", 3)]
"""The step in which a power is read, D."""


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
    zero: Dioptre = Decimal(0)
    known_lens_error: Dioptre | None = None
