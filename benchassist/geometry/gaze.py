"""Where on a lens the wearer looks through, for an eye that turns about its own centre.

Lengths mm, angles degrees. Own derivations for a flat lens; the head is held upright.
"""

from dataclasses import dataclass
from math import cos, radians, sin

from benchassist.geometry.angles import QUARTER_TURN, finite, positive

BEHIND_CORNEA = 15.0
"""From the front of the eye to its centre of rotation, mm: the customary 27 from the lens less
the usual vertex distance of 12. Common practice, no source."""

MOST_LOWERED = 60.0
"""No eye is lowered further than so many degrees; common practice, no source."""


@dataclass(frozen=True, slots=True)
class Gaze:
    """One habit of looking.

    Attributes:
        name: what is looked at, in a word or two.
        lowered: by how many degrees the eyes are lowered from straight ahead.
        distance: from the lens to what is looked at, mm; None for far away.
    """

    name: str
    lowered: float
    distance: float | None = None


FAR = Gaze("far", 0.0)
SCREEN = Gaze("screen", 15.0, 650.0)
READING = Gaze("reading", 30.0, 400.0)
GAZES = (FAR, SCREEN, READING)
"""The three that are told. Angles and distances are usual ones: common practice, no source."""


def rotation_distance(vertex: float) -> float:
    """From the back of the lens to the eye's centre of rotation, mm, by its vertex distance."""
    if finite(vertex, "vertex distance") < 0.0:
        raise ValueError(f"vertex distance {vertex} cannot be below zero")
    return vertex + BEHIND_CORNEA


def depth_below(lowered: float, tilt: float, rotation: float) -> float:
    """How far below the point straight ahead the eye looks through the lens, mm on the lens.

    Args:
        lowered: degrees by which the eye is lowered; negative where it is raised.
        tilt: pantoscopic tilt as worn, degrees, positive with the lower rim to the cheek.
        rotation: from the lens to the centre of rotation along straight ahead, mm.

    In the plane from the centre of rotation, straight ahead and down, the lens is the line
    from (s, 0) in the direction (-sin t, cos t) and the line of sight runs along
    (cos a, sin a). They meet where s sin a = u (cos t cos a + sin t sin a), so that
    u = s sin a / cos(a - t).

    Raises:
        ValueError: the eye is turned further than it can be, or the tilt is 90 or more.
    """
    if abs(finite(lowered, "lowering of the eye")) > MOST_LOWERED:
        raise ValueError(f"no eye is lowered by {lowered} degrees")
    if abs(finite(tilt, "tilt")) >= QUARTER_TURN - MOST_LOWERED:
        raise ValueError(f"tilt {tilt} is none that a front is worn with")
    down = radians(lowered)
    return positive(rotation, "centre of rotation") * sin(down) / cos(down - radians(tilt))


def inset(distance_pd: float, distance: float | None, rotation: float) -> float:
    """How far towards the nose an eye looks through its lens, mm, for a point on the midline.

    Args:
        distance_pd: from the middle of the bridge to the pupil looking far, mm.
        distance: from the lens to what is looked at, mm; None for far away.
        rotation: from the lens to the centre of rotation, mm.

    The line from the centre of rotation to the point crosses the lens at the share
    s / (s + d) of the way, by similar triangles.
    """
    if distance is None:
        return 0.0
    reach = positive(rotation, "centre of rotation")
    return positive(distance_pd, "distance") * reach / (reach + positive(distance, "distance"))
