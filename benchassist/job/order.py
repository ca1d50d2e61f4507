"""The order: what the wearer should get."""

from collections.abc import Sequence
from decimal import Decimal
from enum import StrEnum
from typing import Annotated, Literal

from pydantic import Field

from benchassist.job.base import (
    Addition,
    Angle,
    Axis,
    Base,
    Cylinder,
    Dioptre,
    Frozen,
    Index,
    Line,
    Millimetre,
    PrismAmount,
    PrismComponent,
    Remark,
)
from benchassist.optics.eye import Eye


class Design(StrEnum):
    """The kind of lens, in words of ISO 13666."""

    SINGLE_VISION = "single-vision"
    BIFOCAL = "bifocal"
    TRIFOCAL = "trifocal"
    PROGRESSIVE = "progressive"
    DEGRESSIVE = "degressive"

    @property
    def has_segment(self) -> bool:
        """Whether the lens is a multifocal: its near portion has a visible edge."""
        return self in {Design.BIFOCAL, Design.TRIFOCAL}

    @property
    def has_addition(self) -> bool:
        """Whether an addition is ordered and read."""
        return self in {Design.BIFOCAL, Design.TRIFOCAL, Design.PROGRESSIVE}

    @property
    def varies(self) -> bool:
        """Whether it is a power-variation lens, set by a fitting cross and engravings."""
        return self in {Design.PROGRESSIVE, Design.DEGRESSIVE}


class LensMaterial(StrEnum):
    """What the lens is made of, by its generic name."""

    STANDARD_PLASTIC = "standard plastic"
    URETHANE = "urethane"
    POLYCARBONATE = "polycarbonate"
    HIGH_INDEX_PLASTIC = "high-index plastic"
    GLASS = "glass"


class FrameMaterial(StrEnum):
    """What the frame is made of, by its generic name."""

    ACETATE = "acetate"
    PROPIONATE = "propionate"
    NYLON = "nylon"
    EPOXY = "epoxy"
    CARBON = "carbon fibre"
    METAL = "metal"
    TITANIUM = "titanium"
    MEMORY_ALLOY = "memory alloy"


class Rim(StrEnum):
    """How the lens is held."""

    FULL = "full rim"
    HALF = "half rim"
    RIMLESS = "rimless"


class Treatment(StrEnum):
    """What was done to the lens surfaces or its material."""

    HARD = "hard coat"
    ANTI_REFLECTION = "anti-reflection"
    PHOTOCHROMIC = "photochromic"
    POLARISED = "polarised"
    TINTED = "tinted"


class Surface(StrEnum):
    """A surface of the lens: the one on the stop, or the one that carries the addition."""

    BACK = "back"
    FRONT = "front"


class ComponentPrism(Frozen):
    """Prism as its two components, prism dioptres: base in and base up positive."""

    form: Literal["components"] = "components"
    base_in: PrismComponent = Decimal(0)
    base_up: PrismComponent = Decimal(0)


class PolarPrism(Frozen):
    """Prism as an amount, prism dioptres, and the direction of its base, degrees 0 to 360."""

    form: Literal["polar"] = "polar"
    amount: PrismAmount
    base: Base


WrittenPrism = Annotated[ComponentPrism | PolarPrism, Field(discriminator="form")]
"""Prism in the form in which somebody wrote it."""


class WrittenPower(Frozen):
    """A sphero-cylindrical power as somebody wrote it, in either cylinder form, D and degrees.

    A part not yet known is None. An absent cylinder reads as zero; a cylinder other than zero
    needs its axis before the power is complete.
    """

    sphere: Dioptre | None = None
    cylinder: Cylinder | None = None
    axis: Axis | None = None

    @property
    def is_complete(self) -> bool:
        """Whether the power is known in every meridian."""
        return self.sphere is not None and (not self.cylinder or self.axis is not None)


class Verification(Frozen):
    """What a lens meter must show, by the maker, on a lens compensated as worn."""

    power: WrittenPower = WrittenPower()
    add: Addition | None = None
    prism: WrittenPrism | None = None


class EyeOrder(Frozen):
    """What was ordered for one eye.

    Distances are mm from the middle of the bridge; the height is mm above the lowest point of
    the boxed lens: of the fitting cross (power-variation lens), the top of the segment
    (multifocal) or the optical centre (single vision).
    """

    power: WrittenPower = WrittenPower()
    add: Addition | None = None
    intermediate: Addition | None = None
    prism: WrittenPrism | None = None
    distance_pd: Millimetre | None = None
    near_pd: Millimetre | None = None
    height: Millimetre | None = None
    centre_thickness: Millimetre | None = None
    base_curve: Dioptre | None = None
    verification: Verification | None = None


class FrameOrder(Frozen):
    """The frame, in the boxing system, mm and degrees."""

    name: Line = ""
    a: Millimetre | None = None
    b: Millimetre | None = None
    dbl: Millimetre | None = None
    ed: Millimetre | None = None
    temple_length: Millimetre | None = None
    tilt: Angle | None = None
    face_form: Angle | None = None
    material: FrameMaterial | None = None
    rim: Rim | None = None

    def lacking(self, sizes: Sequence[str]) -> tuple[str, ...]:
        """Which of these sizes are not stated, as the trade writes them: 'DBL' for 'dbl'."""
        return tuple(name.upper() for name in sizes if getattr(self, name) is None)


class Order(Frozen):
    """One pair as ordered. What is not yet known is None or empty."""

    wearer: Line = ""
    design: Design | None = None
    material: LensMaterial | None = None
    index: Index | None = None
    treatments: tuple[Treatment, ...] = ()
    tint: Line = ""
    addition_surface: Surface | None = None
    """Which surface carries the addition; None when the maker does not say."""
    minimum_height: Millimetre | None = None
    """The shortest fitting height that the design allows."""
    segment_width: Millimetre | None = None
    segment_depth: Millimetre | None = None
    vertex_distance: Millimetre | None = None
    right: EyeOrder = EyeOrder()
    left: EyeOrder = EyeOrder()
    frame: FrameOrder = FrameOrder()
    rule_set: Line = "iso-21987-2017"
    remark: Remark = ""
    confirmed: tuple[str, ...] = ()
    """Plausibility questions, as they were asked, that a person has looked at and confirmed."""
    language: Line = ""
    """The language in which the wearer reads, such as 'de'; empty where nobody said."""

    @property
    def pd(self) -> Decimal | None:
        """The ordered centration distances of both eyes together, mm; None unless both are."""
        right, left = self.right.distance_pd, self.left.distance_pd
        return None if right is None or left is None else right + left

    def eye(self, eye: Eye) -> EyeOrder:
        """The order of one eye."""
        return self.right if eye is Eye.RIGHT else self.left
