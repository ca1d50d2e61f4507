"""Usual sizes of frames and heads, for what nobody ordered or measured.

Lengths mm, angles degrees. Whatever is reckoned with one of them says so. Common practice, no
source, where none is named.
"""

from math import cos, radians
from typing import SupportsFloat

A, B, DBL = 52.0, 38.0, 18.0
"""Boxed width and height of a lens, and the distance between the lenses."""

TEMPLE = 145.0
"""From the hinge to the tip, along the temple."""

END = 45.0
"""Of that, what lies behind the bend."""

DROP = 45.0
"""By which the end is bent down on the bench. Source: a fitting text of 1999."""

OPEN_ANGLE = 94.0
"""Between a temple and the line of the hinges. Source: the 94 to 95 of Brooks and Borish,
System for Ophthalmic Dispensing, from memory; another text says about 90."""

TILT = 9.0
"""Pantoscopic angle and tilt: the middle of the 8 to 10 of a teaching article; sources do not
agree on any figure."""

PD = 64.0
"""Between the centres of both eyes."""

VERTEX = 12.0
"""From the back of the lens to the eye: the average of fitting texts."""

HINGE_TO_EAR = 95.0
"""From the hinge to the top of the ear. Own choice of a usual head."""

ENDPIECE_OUT = 5.0
"""From the temporal end of the lens outwards to the hinge. Own choice."""

FACE_FORM = 4.0
"""Of each half of a front. Own choice, near the average of 5 that a trade page quotes."""

INWARD = 6.0
"""By which the end of a temple is bent towards the head. Own choice."""


def joint_to_ear(temple_length: SupportsFloat | None) -> float:
    """From the joint to the top of the ear: the temple less its end, else a usual head's."""
    reach = 0.0 if temple_length is None else float(temple_length) - END
    return reach if reach > 0.0 else HINGE_TO_EAR


def run(temple_length: SupportsFloat | None) -> float:
    """From the joint to the tip in a straight line, with the end bent down as usual."""
    length = TEMPLE if temple_length is None else max(float(temple_length), END)
    return length - END + END * cos(radians(DROP))


def between_ends(a: SupportsFloat | None, dbl: SupportsFloat | None) -> float:
    """Between the temporal ends of the two lenses: 2 A + DBL."""
    return 2.0 * float(a or A) + float(dbl or DBL)


def between_hinges(a: SupportsFloat | None, dbl: SupportsFloat | None) -> float:
    """Between the hinges."""
    return between_ends(a, dbl) + 2.0 * ENDPIECE_OUT
