"""By how much to bend for an offset seen on the face, and how well that is known.

Lengths mm, angles degrees; every offset and every amount is a size without a sign, the words
of the adjustment say the way. Own derivations, idealised: the front turns about the place
named, the nose is a wedge, nothing else gives.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from math import radians, tan

from benchassist.geometry import usual
from benchassist.geometry.angles import (
    QUARTER_TURN,
    angle_of_gap,
    angle_of_rise,
    finite,
    not_negative,
)
from benchassist.geometry.measured import Measured, Reading, measured
from benchassist.geometry.on_face import temple_difference_for_ears
from benchassist.optics.tilt import ROTATION_CENTRE

MOST_AT_ONCE = 5.0
"""Degrees beyond which a bend is halved: more in one go cracks plating, lens or warm plastic.
Common practice, no source."""

READ_TO = 0.5
"""Standard uncertainty of an offset read with a rule on the face, mm. Own proposal."""

USUAL_FRONTAL, USUAL_SPLAY = 20.0, 30.0
"""Angles of a usual nose from the front and from above, degrees. Own choice: brought nearer by
1 mm each, pads then lift the front 2.7 mm or move it 1.7 mm forward."""


def open_for_vertex(closer: float, pd: float) -> float:
    """Degrees of one open temple angle for a lens that stands so much closer, mm.

    The front turns by half of the difference of the open angles, and turned by y one lens
    comes PD sin y closer than the other: 2 asin(d / PD).

    Raises:
        Impossible: the difference is larger than the PD.
    """
    return 2.0 * angle_of_rise(closer, pd)


def open_for_width(narrower: float, joint_to_ear: float) -> float:
    """Degrees of each open temple angle for temples too narrow by so much in all, mm.

    Each side gives half of it at the ear: atan(w / 2E).
    """
    return angle_of_gap(narrower / 2.0, joint_to_ear)


def pads_for_way(way: float, angle: float) -> float:
    """The mm by which each pad moves for a front that is to go so far up or forward, mm.

    Args:
        way: up by the frontal angle of the nose, or forward by its splay.
        angle: that angle, degrees.

    A wedge of this angle gives way by d / tan(angle) for pads nearer by d each, so
    d = way tan(angle). A real nose gives a mixture of both ways.

    Raises:
        ValueError: the angle is not between 0 and 90 degrees.
    """
    if not 0.0 < finite(angle, "angle") < QUARTER_TURN:
        raise ValueError(f"angle {angle} must lie between 0 and 90")
    return finite(way, "way") * tan(radians(angle))


def tilt_for_offset(offset: float, rotation: float = ROTATION_CENTRE) -> float:
    """Degrees of tilt that make up for a centre so far too high or low, mm.

    A tilt of t asks for a centre lower by s tan t: atan(offset / s), about 2 degrees a mm.
    """
    return angle_of_gap(offset, rotation)


def tilt_for_gap(gap: float, depth: float) -> float:
    """Degrees of tilt that move a rim away by so much, mm.

    The rim swings about the joints, a lens depth away at most: asin(gap / depth).

    Raises:
        Impossible: the gap is larger than the lens is deep.
    """
    return angle_of_rise(gap, depth)


def form_for_gap(gap: float, width: float) -> float:
    """Degrees of face form of one half for a lens nearer at one end by so much, mm."""
    return angle_of_rise(gap, width)


def bend_shift(gap: float) -> float:
    """The mm to move a bend: as far as it stands from the back of the ear's top."""
    return finite(gap, "gap")


def tip_for_gap(gap: float, tip: float = usual.END) -> float:
    """Degrees to curve a tip whose end stands off, or digs in, by so much, mm."""
    return angle_of_gap(gap, tip)


@dataclass(frozen=True, slots=True)
class Lengths:
    """What an amount is reckoned from besides the offset, each with its uncertainty.

    Attributes:
        joint_to_ear: from the joint to the top of the ear, mm.
        pd: between the pupils, mm.
        width: boxed lens width A, mm.
        depth: boxed lens depth B, mm.
        rotation: from the lens to the eye's centre of rotation, mm.
        tip: the end behind the ear, mm.
        frontal: angle of the nose from the front, degrees.
        splay: angle of the nose from above, degrees.
    """

    joint_to_ear: Reading
    pd: Reading
    width: Reading
    depth: Reading
    rotation: Reading
    tip: Reading
    frontal: Reading
    splay: Reading


@dataclass(frozen=True, slots=True)
class Reckoning:
    """How an amount follows from an offset.

    Attributes:
        formula: of the offset and, where there is one, of the length.
        length: name of the field of `Lengths`; empty where the offset alone decides.
        unit: 'mm' or '°', of the amount.
    """

    formula: Callable[..., float]
    length: str
    unit: str


RECKONINGS: Mapping[str, Reckoning] = {
    "temple-for-height": Reckoning(temple_difference_for_ears, "joint_to_ear", "°"),
    "open-for-vertex": Reckoning(open_for_vertex, "pd", "°"),
    "open-for-width": Reckoning(open_for_width, "joint_to_ear", "°"),
    "pads-for-height": Reckoning(pads_for_way, "frontal", "mm"),
    "pads-for-forward": Reckoning(pads_for_way, "splay", "mm"),
    "tilt-for-offset": Reckoning(tilt_for_offset, "rotation", "°"),
    "tilt-for-gap": Reckoning(tilt_for_gap, "depth", "°"),
    "form-for-gap": Reckoning(form_for_gap, "width", "°"),
    "bend-shift": Reckoning(bend_shift, "", "mm"),
    "tip-for-gap": Reckoning(tip_for_gap, "tip", "°"),
}
"""Every reckoning that an adjustment may name."""


@dataclass(frozen=True, slots=True)
class Amount:
    """How far to bend.

    Attributes:
        needed: in all, with its uncertainty.
        unit: 'mm' or '°'.
        now: in this go; less than needed where that is more than one dares at once.
    """

    needed: Measured
    unit: str
    now: float

    @property
    def is_halved(self) -> bool:
        """Whether more is left to do after looking again."""
        return self.now < self.needed.value


def amount_for(name: str, offset: float, lengths: Lengths) -> Amount:
    """The amount that a reckoning gives for an offset.

    Args:
        name: one of `RECKONINGS`.
        offset: as measured on the face, mm, not negative.
        lengths: of this frame and wearer.

    Raises:
        Impossible: the offset is negative or larger than the formula can take.
        KeyError: no such reckoning.
    """
    way = RECKONINGS[name]
    readings = {"offset": Reading(not_negative(offset, "offset"), READ_TO)}
    if way.length:
        readings["length"] = getattr(lengths, way.length)

    def bend(**values: float) -> float:
        return way.formula(*values.values())

    needed = measured(bend, **readings)
    now = in_one_go(needed.value) if way.unit == "°" else needed.value
    return Amount(needed, way.unit, now)


def in_one_go(needed: float) -> float:
    """Degrees to bend now: all of it up to 5, else half and never more than 5."""
    if needed <= MOST_AT_ONCE:
        return needed
    return min(needed / 2.0, MOST_AT_ONCE)
