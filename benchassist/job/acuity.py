"""The lines that a wearer reads on a chart or card, as they were written down."""

from decimal import Decimal
from enum import StrEnum
from typing import Annotated

from benchassist.job.base import Frozen, Line, exact

Centimetre = Annotated[Decimal, exact("5", "1000", 1)]
"""From the eye to the chart or card, cm."""


class Seeing(StrEnum):
    """Who reads: one eye with the other covered, or both."""

    RIGHT = "right"
    LEFT = "left"
    BOTH = "both"


class LineRead(Frozen):
    """One line of a chart or card, in the notation of whoever wrote it.

    Attributes:
        read: the smallest line read, such as '6/6', '20/25', '0.8', 'logMAR 0.1' or 'N5'.
        expected: the line on the prescription or with the last pair.
    """

    read: Line = ""
    expected: Line = ""


class Acuity(Frozen):
    """What was read at one distance.

    Attributes:
        card: which chart or card.
        distance: from the eye to it, cm; None when not measured.
        right: by the right eye.
        left: by the left eye.
        both: by both eyes.
    """

    card: Line = ""
    distance: Centimetre | None = None
    right: LineRead = LineRead()
    left: LineRead = LineRead()
    both: LineRead = LineRead()

    def by(self, seeing: Seeing) -> LineRead:
        """The line of one eye, or of both."""
        line: LineRead = getattr(self, seeing.value)
        return line
