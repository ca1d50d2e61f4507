"""Nose pads: their angles, and where the front goes when they move.

Own derivations; the movement is that of an idealised wedge of a nose, lengths mm.
"""

from dataclasses import dataclass
from math import radians, tan

from benchassist.geometry.angles import QUARTER_TURN, angle_of_gap, finite, positive


def frontal_angle(top_separation: float, bottom_separation: float, height: float) -> float:
    """The angle of each pad with the vertical, seen from the front, degrees."""
    return angle_of_gap(bottom_separation - top_separation, 2.0 * positive(height, "height"))


def splay_angle(front_separation: float, rear_separation: float, width: float) -> float:
    """The angle of each pad with straight ahead, seen from above, degrees."""
    return angle_of_gap(rear_separation - front_separation, 2.0 * positive(width, "width"))


def way_out(each_pad_in: float, angle: float) -> float:
    """How far the front moves up, by the frontal angle, or forward, by the splay, mm.

    Args:
        each_pad_in: mm by which each pad is brought nearer to the midline; negative spreads.
        angle: frontal or splay angle in degrees.

    A real nose gives a mixture of the two movements.

    Raises:
        ValueError: the angle is not between 0 and 90 degrees.
    """
    if not 0.0 < finite(angle, "angle") < QUARTER_TURN:
        raise ValueError(f"angle {angle} must lie between 0 and 90")
    return finite(each_pad_in, "movement") / tan(radians(angle))


@dataclass(frozen=True, slots=True)
class Centration:
    """The monocular centration distances of a pair, mm."""

    right: float
    left: float


def shifted(centration: Centration, pads_to_right: float) -> Centration:
    """The centration distances after both pads moved sideways against the front.

    Pads moved towards the wearer's right push the front to the left: the right distance,
    measured from the nose, becomes smaller, the left larger; their sum stays.
    """
    moved = finite(pads_to_right, "movement")
    return Centration(centration.right - moved, centration.left + moved)
