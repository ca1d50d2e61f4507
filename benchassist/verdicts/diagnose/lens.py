"""What a pair shows at the lens meter and under the rule, as exact values."""

from dataclasses import dataclass, replace
from decimal import Decimal
from typing import Literal

from benchassist.job.order import Design
from benchassist.optics.eye import Eye
from benchassist.optics.power import Power
from benchassist.verdicts.exact import ExactPrism, MinusForm, minus_form, turned

Quantity = Literal["power", "add", "engraved", "prism", "pd", "near_pd", "height", "cross_up"]
"""A quantity of one lens that a slip may change."""

QUANTITIES: tuple[Quantity, ...] = (
    "power",
    "add",
    "engraved",
    "prism",
    "pd",
    "near_pd",
    "height",
    "cross_up",
)

_THOUSANDTH = Decimal("0.001")
_TENTH = Decimal("0.1")


@dataclass(frozen=True, slots=True)
class Lens:
    """One lens as it should show, as it does show, or as it would show with a slip.

    Attributes:
        power: distance power, D, in minus form.
        add: addition, D.
        engraved: addition that the engraving names, D.
        prism: at the prism reference point, prism dioptres.
        pd: centration distance from the middle of the bridge, mm.
        near_pd: the same of the segment.
        height: over the lowest point of the boxed lens, mm.
        cross_up: fitting cross, or centre of the lens, above the pupil as worn, mm.
    """

    power: MinusForm | None = None
    add: Decimal | None = None
    engraved: Decimal | None = None
    prism: ExactPrism | None = None
    pd: Decimal | None = None
    near_pd: Decimal | None = None
    height: Decimal | None = None
    cross_up: Decimal | None = None

    def value(self, quantity: Quantity) -> MinusForm | ExactPrism | Decimal | None:
        """The value of one quantity; None where it is not known."""
        value: MinusForm | ExactPrism | Decimal | None = getattr(self, quantity)
        return value


@dataclass(frozen=True, slots=True)
class Pair:
    """Both lenses."""

    right: Lens
    left: Lens

    def eye(self, eye: Eye) -> Lens:
        """The lens of one eye."""
        return self.right if eye is Eye.RIGHT else self.left

    def with_eye(self, eye: Eye, lens: Lens) -> "Pair":
        """The pair with one lens replaced."""
        return replace(self, right=lens) if eye is Eye.RIGHT else replace(self, left=lens)


def findings_on(quantity: Quantity, eye: Eye, design: Design | None) -> tuple[str, ...]:
    """The keys of the findings that judge one quantity of one lens, its own one first."""
    varies = design is not None and design.varies
    sideways, upright = "pair.centration-horizontal", "pair.centration-vertical"
    by_height = (f"{eye}.height", "pair.height")
    by_prism = design is Design.SINGLE_VISION
    keys: dict[Quantity, tuple[str, ...]] = {
        "power": tuple(
            f"{eye}.{name}" for name in ("meridian-high", "meridian-other", "cylinder", "axis")
        ),
        "add": (f"{eye}.add",),
        "engraved": (f"{eye}.engraved-add",),
        "prism": ("pair.prism-horizontal", "pair.prism-vertical"),
        "pd": (f"{eye}.centration",) if varies else (sideways, upright),
        "near_pd": (f"{eye}.segment-distance-lens", "pair.segment-distance"),
        "height": (upright, sideways) if by_prism else by_height,
        "cross_up": (f"fit.cross.{eye}-up", "fit.cross.apart"),
    }
    return keys[quantity]


def power_of(power: Power) -> MinusForm:
    """A computed power to the thousandth of a dioptre and the tenth of a degree."""
    axis = None if power.axis is None else Decimal(power.axis)
    return as_writable(minus_form(Decimal(power.sphere), Decimal(power.cylinder), axis))


def as_writable(power: MinusForm) -> MinusForm:
    """A power rounded to the thousandth of a dioptre and the tenth of a degree."""
    sphere, cylinder = to_thousandth(power.sphere), to_thousandth(power.cylinder)
    axis = None if power.axis is None else turned(power.axis.quantize(_TENTH))
    return minus_form(sphere, cylinder, axis)


def to_thousandth(value: Decimal) -> Decimal:
    """A value as fine as an order can state it."""
    return value.quantize(_THOUSANDTH)
