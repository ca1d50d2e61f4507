"""The numbers of the frame as its bench measurements give them, and how well each is known.

Each function takes the measurements of one check by their names. It raises ValueError naming
the value when the set cannot be, or what the order does not say, and KeyError for a measurement
that is not there.
"""

from benchassist.geometry.alignment import AlongFront, LeanGaps
from benchassist.geometry.bench_measured import (
    MeasuredFront,
    MeasuredTouch,
    Tools,
    measured_four_point,
    measured_inverted,
    measured_lens_turn,
    measured_open_angle,
    measured_pantoscopic,
    measured_skew,
    measured_two_way,
    measured_upright,
    measured_x_ing,
)
from benchassist.geometry.measured import Measured
from benchassist.geometry.touch import Gaps
from benchassist.job.order import FrameOrder
from benchassist.optics.eye import Eye
from benchassist.verdicts.answers import Measures

FEELER = Tools(gap=0.06, length=0.5)
"""Feelers in steps of 0.1 mm, placed within 0.05 mm; lengths with the rule. Own proposal."""

GRATICULE = Tools(gap=0.12, length=0.5)
"""A graticule in steps of 0.25 mm, placed within 0.1 mm. Own proposal."""

RULE = Tools(gap=0.25, length=0.5, angle=1.5)
"""A rule in steps of 0.5 mm, placed within 0.2 mm, and a protractor. Own proposal."""


def lens_turn_of(eye: Eye, read: Measures) -> Measured:
    """The turn of one lens in its rim, degrees, positive counter-clockwise on the front."""
    marks, separation = float(read[f"{eye}_marks"]), float(read["separation"])
    return measured_lens_turn(eye, marks, 0.0, separation, GRATICULE)


def skew_of(frame: FrameOrder, read: Measures) -> Measured:
    """The skew step, mm, positive with the left half higher."""
    return measured_skew(_along(read, "outer", "inner"), *_front(frame), FEELER)


def x_ing_of(read: Measures) -> Measured:
    """X-ing, degrees, positive with the left lens further forward at the top."""
    right, left = (
        LeanGaps(float(read[f"{eye}_top"]), float(read[f"{eye}_bottom"])) for eye in Eye
    )
    return measured_x_ing(right, left, float(read["apart"]), FEELER)


def front_of(frame: FrameOrder, read: Measures) -> MeasuredFront:
    """The plane step, mm, positive with the left lens forward, and the total form, degrees."""
    return measured_four_point(_along(read, "temporal", "nasal"), *_front(frame), FEELER)


def open_angle_of(eye: Eye, read: Measures) -> Measured:
    """The open angle of one temple, degrees."""
    return measured_open_angle(float(read[f"{eye}_out"]), float(read[f"{eye}_back"]), RULE)


def pantoscopic_of(eye: Eye, frame: FrameOrder, read: Measures) -> Measured:
    """The pantoscopic angle of one side, degrees, positive with the temple pointing down."""
    if frame.b is None:
        raise ValueError("the frame's B is needed and not ordered yet")
    return measured_pantoscopic(float(read[f"{eye}_offset"]), float(frame.b), FEELER)


def at_plate(read: Measures) -> Measured:
    """The angle between the temples upside down, degrees, right temple lower positive."""
    return measured_inverted(*_touch(read), FEELER)


def at_tips(read: Measures) -> Measured:
    """The angle between the temples upright, degrees, right temple lower positive."""
    return measured_upright(*_touch(read), FEELER)


def two_way(upright: Measures, inverted: Measures) -> MeasuredTouch:
    """The temple angle, degrees, and the tip bend, mm, told apart; right lower positive."""
    return measured_two_way(*_touch(upright), *_touch(inverted), FEELER)


def _front(frame: FrameOrder) -> tuple[float, float]:
    """A and half of DBL, mm."""
    if frame.a is None or frame.dbl is None:
        raise ValueError("the frame's A and DBL are needed and not ordered yet")
    return float(frame.a), float(frame.dbl) / 2.0


def _along(read: Measures, outer: str, inner: str) -> AlongFront:
    names = (f"right_{outer}", f"right_{inner}", f"left_{inner}", f"left_{outer}")
    return AlongFront(*(float(read[name]) for name in names))


def _touch(read: Measures) -> tuple[Gaps, float]:
    return Gaps(float(read["right_gap"]), float(read["left_gap"])), float(read["run"])
