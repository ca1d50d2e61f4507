"""How a frame sits on the face: roll, yaw, and what they do to the lenses.

Own derivations, idealised: a symmetrical head, temples of equal stiffness, a front that rests
freely on the nose. Lengths mm, angles degrees.
"""

from dataclasses import dataclass
from math import radians, sin, tan

from benchassist.geometry.angles import (
    angle_of_gap,
    angle_of_rise,
    finite,
    positive,
)


@dataclass(frozen=True, slots=True)
class Roll:
    """The front out of level: mm by which the right end is higher, and degrees of roll."""

    right_end_higher: float
    angle: float


@dataclass(frozen=True, slots=True)
class Sides:
    """One angle of the right and of the left temple, degrees."""

    right: float
    left: float


def roll(
    pantoscopic: Sides, right_ear_higher: float, hinge_to_ear: float, hinge_separation: float
) -> Roll:
    """The roll of the front on the face.

    Args:
        pantoscopic: angle of each temple, positive pointing down from the front.
        right_ear_higher: mm by which the right ear root is higher than the left.
        hinge_to_ear: from the hinge to the top of the ear, mm.
        hinge_separation: between the hinges, mm.

    Raises:
        Impossible: the height difference is larger than the hinge separation.
    """
    reach = positive(hinge_to_ear, "hinge to ear")
    right = tan(radians(finite(pantoscopic.right, "right pantoscopic")))
    left = tan(radians(finite(pantoscopic.left, "left pantoscopic")))
    higher = finite(right_ear_higher, "ear difference") + reach * (right - left)
    return Roll(higher, angle_of_rise(higher, hinge_separation))


def temple_difference_for_ears(right_ear_higher: float, hinge_to_ear: float) -> float:
    """Degrees by which the left temple must point lower to level the front on unequal ears.

    The end of a front rises and falls with the line from ear to joint, atan(dh / E); so it is
    also what brings down an end that stands higher by dh.
    A pair set so must fail the table touch: the wearer is asymmetrical, not the frame.
    """
    return angle_of_gap(right_ear_higher, hinge_to_ear)


def cross_height_difference(pd: float, roll_angle: float) -> float:
    """The mm by which a roll raises the right fitting cross over the left."""
    return positive(pd, "PD") * sin(radians(finite(roll_angle, "roll")))


@dataclass(frozen=True, slots=True)
class Yaw:
    """The front turned on the face: degrees, and mm by which the right lens is closer."""

    angle: float
    right_closer: float


def yaw(open_angles: Sides, pd: float) -> Yaw:
    """The turn of the front by unequal open temple angles.

    The front turns by half their difference until both temples press alike; the lens on the
    side of the wider temple comes closer to the eye.
    """
    right = finite(open_angles.right, "right open angle")
    turn = (right - finite(open_angles.left, "left open angle")) / 2.0
    return Yaw(turn, positive(pd, "PD") * sin(radians(turn)))


def tip_separation(open_angles: Sides, run: float, hinge_separation: float) -> float:
    """The distance between the tips of two straight temples, mm, to compare with the head."""
    right = sin(radians(finite(open_angles.right, "right open angle") - 90.0))
    left = sin(radians(finite(open_angles.left, "left open angle") - 90.0))
    return positive(hinge_separation, "hinge separation") + positive(run, "run") * (
        right + left
    )
