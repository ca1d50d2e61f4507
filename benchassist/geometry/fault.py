"""A measured fault of the frame, and how it moves the frame's rigid pieces."""

from dataclasses import dataclass
from enum import StrEnum

from benchassist.optics.eye import Eye

_FACTORS = (1, 2, 3, 5, 8, 10, 15, 20, 30, 50)


class Piece(StrEnum):
    """A rigid piece of the frame; what lies outboard of it moves with it."""

    HALF = "half"
    LENS = "lens"
    TEMPLE = "temple"
    TIP = "tip"
    PAD = "pad"


class Motion(StrEnum):
    """How a piece is out of place: shifted along, or turned about, an axis.

    x to the right facing the wearer, y up, z out of the front.
    """

    SHIFT_Y = "shift y"
    SHIFT_Z = "shift z"
    TURN_X = "turn x"
    TURN_Y = "turn y"
    TURN_Z = "turn z"


@dataclass(frozen=True, slots=True)
class Fault:
    """A fault as measured.

    Attributes:
        kind: the check that found it, such as 'skew' or 'table-upright'.
        value: mm or degrees. Where it compares the sides it is left minus right: positive is
            the left half higher (skew), further forward (planes), leaning forward at the top
            (x-ing), more open (open-angle), its temple lower (pantoscopic) or its tip bent
            lower (temple-bend). Of 'face-form' it is the total that is too much; of 'rotation'
            the lens turned counter-clockwise facing the wearer; of a table touch the gap,
            positive where the left tip lifts upright or the right shaft upside down.
        eye: the side to draw it on, whole; None shares it between the sides.
    """

    kind: str
    value: float
    eye: Eye | None = None


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of fault that can be drawn.

    Attributes:
        name: the check's id.
        view: where it shows best.
        piece: what is out of place.
        motion: how.
        shown: the size to which it is enlarged, about, in mm or degrees.
        unit: 'mm' or '°'.
        is_mirrored: whether both sides move alike towards or away from the middle.
    """

    name: str
    view: str
    piece: Piece
    motion: Motion
    shown: float
    unit: str
    is_mirrored: bool = False


KINDS = (
    Kind("rotation", "front", Piece.LENS, Motion.TURN_Z, 12.0, "°"),
    Kind("skew", "front", Piece.HALF, Motion.SHIFT_Y, 8.0, "mm"),
    Kind("x-ing", "side", Piece.HALF, Motion.TURN_X, 24.0, "°"),
    Kind("planes", "top", Piece.HALF, Motion.SHIFT_Z, 12.0, "mm"),
    Kind("four-point", "top", Piece.HALF, Motion.SHIFT_Z, 12.0, "mm"),
    Kind("face-form", "top", Piece.HALF, Motion.TURN_Y, 20.0, "°", is_mirrored=True),
    Kind("pads", "front", Piece.PAD, Motion.SHIFT_Y, 5.0, "mm"),
    Kind("open-angle", "top", Piece.TEMPLE, Motion.TURN_Y, 12.0, "°"),
    Kind("pantoscopic", "side", Piece.TEMPLE, Motion.TURN_X, 10.0, "°"),
    Kind("table-inverted", "table", Piece.TEMPLE, Motion.TURN_X, 16.0, "mm"),
    Kind("table-upright", "table", Piece.TEMPLE, Motion.TURN_X, 16.0, "mm"),
    Kind("temple-bend", "side", Piece.TIP, Motion.TURN_X, 24.0, "°"),
)
"""The faults that can be drawn, in the order of the bench."""


@dataclass(frozen=True, slots=True)
class Enlarged:
    """A fault as it is drawn."""

    fault: Fault
    kind: Kind

    @property
    def factor(self) -> int:
        """How many times larger it is drawn: a round number that shows it well, at least 1."""
        size = abs(self.fault.value)
        fitting = [factor for factor in _FACTORS if factor * size <= self.kind.shown]
        return max(fitting, default=1)

    def amount(self, eye: Eye) -> float:
        """How much of it is drawn on one side, mm or degrees, with the sign of its motion."""
        drawn = self.fault.value * self.factor
        if self.fault.eye is not None:
            return drawn if eye is self.fault.eye else 0.0
        if self.kind.is_mirrored or self.kind.motion is Motion.TURN_Z:
            return drawn / 2
        return drawn / 2 if eye is Eye.LEFT else -drawn / 2

    def on(self, eye: Eye, value: float) -> "Enlarged":
        """The fault drawn whole on one side, with another value of the same size."""
        return Enlarged(Fault(self.fault.kind, value, eye), self.kind)


def enlarged(fault: Fault | None, view: str) -> Enlarged | None:
    """The fault as that view draws it, None where there is none or it does not show there."""
    if fault is None or not fault.value:
        return None
    kinds = (kind for kind in KINDS if kind.name == fault.kind and kind.view == view)
    return next((Enlarged(fault, kind) for kind in kinds), None)
