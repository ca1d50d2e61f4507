"""Usual sizes of frames and heads, for what nobody ordered or measured.

Lengths mm, angles degrees. Whatever is reckoned with one of them says so. Common practice, no
source, where none is named.
"""

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

FRONT = 130.0
"""Between the hinges. Own choice of a usual frame."""
