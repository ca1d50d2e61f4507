"""What was found on the surfaces and edges of the lenses, each defect at its place."""

from decimal import Decimal
from enum import StrEnum
from typing import Annotated

from benchassist.job.base import Frozen, Millimetre, Name, Remark, exact
from benchassist.job.checks import Checks
from benchassist.optics.eye import Eye

Place = Annotated[Decimal, exact("-100", "100", 1)]
"""A distance from the boxed centre of the lens, mm."""


class DefectKind(StrEnum):
    """What a defect is."""

    SCRATCH = "scratch"
    PIT = "pit"
    INCLUSION = "inclusion"
    COATING = "coating"
    CHIP = "chip"
    CRACK = "crack"
    SHARP = "sharp edge"
    OTHER = "other"


class DefectSurface(StrEnum):
    """Where in the depth of the lens a defect lies, or from which side it is seen."""

    FRONT = "front"
    BACK = "back"
    EDGE = "edge"


class Defect(Frozen):
    """One defect that was seen at the usual distance of inspection.

    Attributes:
        check: the name of the check in whose answer it was noted, such as 'scratches'.
        eye: on which lens.
        across: from the boxed centre, mm, positive towards the nose.
        up: from the boxed centre, mm, positive upwards.
        kind: what it is.
        surface: on which surface, or at the edge.
        size: its longest extent, mm; None where nobody measured it.
        remark: free text.
    """

    check: Name
    eye: Eye
    across: Place
    up: Place
    kind: DefectKind = DefectKind.SCRATCH
    surface: DefectSurface = DefectSurface.FRONT
    size: Millimetre | None = None
    remark: Remark = ""


class Inspection(Checks):
    """The answers of the step 'surface and edge', and the defects in the order noted."""

    defects: tuple[Defect, ...] = ()

    def noted_at(self, check: str) -> tuple[tuple[int, Defect], ...]:
        """The defects of one check, each with its number in the whole list, from 1."""
        numbered = enumerate(self.defects, start=1)
        return tuple((number, defect) for number, defect in numbered if defect.check == check)
