"""Many lens pairs as columns of whole numbers: what was ordered and what was found."""

from dataclasses import dataclass, fields
from typing import Any, Self

from benchassist.limits.arrays import Marks, Whole
from benchassist.optics.eye import Eye
from benchassist.verdicts.meters import MeterUsed
from benchassist.verdicts.trust import Trust

A_DISPLAY = MeterUsed(name="", is_drum=False, known=None, is_checked=False)
"""A meter with a display, of which nothing is known but its class."""

A_DRUM = MeterUsed(name="", is_drum=True, known=None, is_checked=False)
"""A meter with a drum and a reticle, of which nothing is known but its class."""


@dataclass(frozen=True, slots=True, eq=False)
class Columns:
    """Columns of one length, of which some may be left out."""

    def columns(self) -> tuple[Any, ...]:
        """The columns in their order."""
        return tuple(getattr(self, field.name) for field in fields(self))

    def part(self, rows: slice) -> Self:
        """The same columns, these rows only."""
        parts = (None if column is None else column[rows] for column in self.columns())
        return type(self)(*parts)


@dataclass(frozen=True, slots=True, eq=False)
class Lenses(Columns):
    """One lens of each pair, as ordered or as found, in parts (see `limits.arrays.PARTS`).

    The power is in minus-cylinder form with 0 < axis <= 180, and axis 0 where there is no
    cylinder; prism has base in and base up positive. `ABSENT` stands for what is not known; a
    column left out is not known for any lens, but an ordered prism left out is none.

    Attributes:
        sphere: power along the axis; ordered, the one that the meter must show.
        cylinder: power across the axis minus the power along it, never above zero.
        axis: degrees of ISO 8429; ordered, in whole tenths.
        add: near addition.
        base_in: horizontal prism.
        base_up: vertical prism; absent wherever `base_in` is.
        distance: centration distance from the middle of the bridge, mm.
        height: over the lowest point of the boxed lens, mm.
    """

    sphere: Whole
    cylinder: Whole
    axis: Whole
    add: Whole | None = None
    base_in: Whole | None = None
    base_up: Whole | None = None
    distance: Whole | None = None
    height: Whole | None = None


@dataclass(frozen=True, slots=True, eq=False)
class Readings(Columns):
    """What is known of the readings behind the means that were found, one value a pair.

    Attributes:
        along: trust in the power along the axis; so the following ones, each in its quantity.
        across: in the power across the axis.
        cylinder: in the cylinder.
        axis: in the axis.
        add: in the addition.
        base_in: in the horizontal prism.
        base_up: in the vertical prism.
        distance: in the centration distance.
        height: in the height.
        along_eighths: whether all readings of the power along the axis show eighths of a
            dioptre; so the following ones.
        across_eighths: of the power across the axis.
        cylinder_eighths: of the cylinder.
        add_eighths: of the addition.
        unturned: whether the addition was read on the surface that does not carry it, where
            that matters.
    """

    along: tuple[Trust, ...]
    across: tuple[Trust, ...]
    cylinder: tuple[Trust, ...]
    axis: tuple[Trust, ...]
    add: tuple[Trust, ...]
    base_in: tuple[Trust, ...]
    base_up: tuple[Trust, ...]
    distance: tuple[Trust, ...]
    height: tuple[Trust, ...]
    along_eighths: Marks
    across_eighths: Marks
    cylinder_eighths: Marks
    add_eighths: Marks
    unturned: Marks


@dataclass(frozen=True, slots=True, eq=False)
class Side:
    """One lens of each pair.

    Attributes:
        ordered: what it should be.
        found: what was read, the mean where there are repeats.
        readings: what the means come from; None for single readings on the pairs' meter,
            additions on the right surface.
    """

    ordered: Lenses
    found: Lenses
    readings: Readings | None = None

    def part(self, rows: slice) -> "Side":
        """The same side of these pairs only."""
        readings = None if self.readings is None else self.readings.part(rows)
        return Side(self.ordered.part(rows), self.found.part(rows), readings)


@dataclass(frozen=True, slots=True, eq=False)
class LensPairs:
    """Many pairs.

    Attributes:
        right: the right lenses.
        left: the left lenses.
        meter: on what single readings were taken; it does not matter where the sides tell
            of their readings.

    Raises:
        ValueError: one side tells of its readings and the other does not.
    """

    right: Side
    left: Side
    meter: MeterUsed = A_DISPLAY

    def __post_init__(self) -> None:
        if (self.right.readings is None) != (self.left.readings is None):
            raise ValueError("either both sides tell of their readings, or none")

    def __len__(self) -> int:
        """How many pairs."""
        return len(self.right.ordered.sphere)

    def side(self, eye: Eye) -> Side:
        """The lenses of one eye."""
        return self.right if eye is Eye.RIGHT else self.left

    def part(self, rows: slice) -> "LensPairs":
        """These pairs only."""
        return LensPairs(self.right.part(rows), self.left.part(rows), self.meter)
