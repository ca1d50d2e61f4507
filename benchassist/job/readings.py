"""What was read at the lens meter and with the rule."""

from decimal import Decimal
from enum import StrEnum
from typing import Annotated, Literal

from pydantic import Field

from benchassist.job.base import (
    Angle,
    Axis,
    Dioptre,
    Frozen,
    FrozenMap,
    Line,
    Millimetre,
    ReadAddition,
)
from benchassist.job.checks import Answer
from benchassist.job.instrument import ShownAddition, ShownCylinder, ShownPower
from benchassist.job.order import Surface, WrittenPrism
from benchassist.optics.eye import Eye


class DrumReading(Frozen):
    """A power as a manual lens meter gives it.

    Attributes:
        sphere_lines: drum where the sphere lines are sharp and unbroken, D.
        cylinder_lines: drum where the cylinder lines are sharp, D; for a spherical lens it is
            the same as sphere_lines.
        axis_wheel: axis wheel with the sphere lines unbroken, degrees; not needed for a sphere.
        meter: id of the lens meter; empty when not stated.
    """

    kind: Literal["drum"] = "drum"
    sphere_lines: ShownPower | None = None
    cylinder_lines: ShownPower | None = None
    axis_wheel: Axis | None = None
    meter: Line = ""

    @property
    def is_complete(self) -> bool:
        """Whether the reading gives a power."""
        if self.sphere_lines is None or self.cylinder_lines is None:
            return False
        return self.sphere_lines == self.cylinder_lines or self.axis_wheel is not None


class DisplayReading(Frozen):
    """A power as a digital lens meter shows it, in either cylinder form, D and degrees."""

    kind: Literal["display"] = "display"
    sphere: ShownPower | None = None
    cylinder: ShownCylinder | None = None
    axis: Axis | None = None
    meter: Line = ""

    @property
    def is_complete(self) -> bool:
        """Whether the reading gives a power."""
        if self.sphere is None or self.cylinder is None:
            return False
        return not self.cylinder or self.axis is not None


PowerReading = Annotated[DrumReading | DisplayReading, Field(discriminator="kind")]


class DrumAdd(Frozen):
    """An addition from two drum readings of one set of lines, one surface on the stop, D."""

    kind: Literal["drum"] = "drum"
    surface: Surface = Surface.BACK
    distance_lines: ShownPower | None = None
    near_lines: ShownPower | None = None
    meter: Line = ""

    @property
    def addition(self) -> Decimal | None:
        """Near reading minus distance reading, D."""
        if self.near_lines is None or self.distance_lines is None:
            return None
        return self.near_lines - self.distance_lines


class DisplayAdd(Frozen):
    """An addition as a digital lens meter shows it, D."""

    kind: Literal["display"] = "display"
    surface: Surface = Surface.BACK
    shown: ShownAddition | None = None
    meter: Line = ""

    @property
    def addition(self) -> Decimal | None:
        """The addition shown, D."""
        return self.shown


AddReading = Annotated[DrumAdd | DisplayAdd, Field(discriminator="kind")]


class PrismReading(Frozen):
    """Prism found at the prism reference point."""

    prism: WrittenPrism
    meter: Line = ""


class LensReadings(Frozen):
    """All that was read on one lens; several readings of one point are repeats."""

    distance: tuple[PowerReading, ...] = ()
    near: tuple[AddReading, ...] = ()
    intermediate: tuple[AddReading, ...] = ()
    prism: tuple[PrismReading, ...] = ()
    engraved_add: ReadAddition | None = None
    answers: FrozenMap[Answer] = Field(default_factory=dict, validate_default=True)


class EyeLayout(Frozen):
    """Where one lens sits and how large it is; several values of one quantity are repeats.

    Distances in mm from the middle of the bridge, heights in mm above the lowest point of the
    boxed lens, tilt in degrees of ISO 8429 (counter-clockwise positive, facing the wearer).
    """

    distance_pd: tuple[Millimetre, ...] = ()
    near_pd: tuple[Millimetre, ...] = ()
    height: tuple[Millimetre, ...] = ()
    tilt: tuple[Angle, ...] = ()
    thickness: tuple[Millimetre, ...] = ()
    base_curve: tuple[Dioptre, ...] = ()
    segment_width: tuple[Millimetre, ...] = ()
    segment_depth: tuple[Millimetre, ...] = ()


class Datum(StrEnum):
    """From where centration distances were measured; they are kept from the nose line."""

    NOSE_LINE = "middle of the bridge"
    LENS_EDGE = "nasal edge of the boxed lens"


class PairReadings(Frozen):
    """What was measured on the mounted pair.

    Attributes:
        datum: from where the distances of each lens were measured.
        right: of the right lens.
        left: of the left lens.
        distance_pd: distance from one optical centre to the other, mm, where both lenses were
            measured together; several are repeats. The distances of each lens go before it.
    """

    datum: Datum = Datum.NOSE_LINE
    right: EyeLayout = EyeLayout()
    left: EyeLayout = EyeLayout()
    distance_pd: tuple[Millimetre, ...] = ()

    def eye(self, eye: Eye) -> EyeLayout:
        """The layout of one eye."""
        return self.right if eye is Eye.RIGHT else self.left
