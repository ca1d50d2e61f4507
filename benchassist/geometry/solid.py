"""Places in space and rigid motions."""

from collections.abc import Callable
from math import cos, radians, sin

from benchassist.geometry.fault import Motion

Place = tuple[float, float, float]
"""x to the right facing the wearer, y up, z out of the front, mm."""

Line = tuple[Place, ...]
Move = Callable[[Place], Place]


def moved(line: Line, move: Move) -> Line:
    """A line after a motion."""
    return tuple(move(place) for place in line)


def turn(motion: Motion, angle: float, about: Place) -> Move:
    """A turn by degrees about an axis through a place, right-handed."""
    c, s = cos(radians(angle)), sin(radians(angle))

    def turned(place: Place) -> Place:
        x, y, z = (one - centre for one, centre in zip(place, about, strict=True))
        if motion is Motion.TURN_X:
            y, z = c * y - s * z, s * y + c * z
        elif motion is Motion.TURN_Y:
            z, x = c * z - s * x, s * z + c * x
        else:
            x, y = c * x - s * y, s * x + c * y
        return x + about[0], y + about[1], z + about[2]

    return turned


def shift(x: float, y: float, z: float) -> Move:
    """A shift in mm."""
    return lambda place: (place[0] + x, place[1] + y, place[2] + z)
