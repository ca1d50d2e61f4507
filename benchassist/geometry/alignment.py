"""Standard alignment: the frame's own angles and steps from simple measurements.

Own derivations. Facing the wearer: x to the observer's right, y up, z forwards; the right lens
lies at -x. Lengths in mm, angles in degrees.
"""

from dataclasses import dataclass
from math import cos, degrees, pi, radians, sin, sqrt

from benchassist.geometry.angles import (
    QUARTER_TURN,
    angle_of_gap,
    angle_of_rise,
    angle_uncertainty,
    finite,
    not_negative,
    positive,
)
from benchassist.optics.eye import Eye


@dataclass(frozen=True, slots=True)
class AlongFront:
    """Four readings along the front, mm, from the wearer's right end to the left.

    Heights over a level straight edge, or gaps in front of an edge laid behind the front.

    Raises:
        ValueError: a reading is not finite.
    """

    right_temporal: float
    right_nasal: float
    left_nasal: float
    left_temporal: float

    def __post_init__(self) -> None:
        finite(self.right_temporal, "right temporal")
        finite(self.right_nasal, "right nasal")
        finite(self.left_nasal, "left nasal")
        finite(self.left_temporal, "left temporal")

    def step(self, width: float, nasal_half_span: float) -> float:
        """Both lens lines carried to the midline, left minus right, mm.

        A straight edge that is not parallel to the front changes both alike: it drops out.
        """
        carried = not_negative(nasal_half_span, "nasal half span") / positive(width, "width")
        right = self.right_nasal + (self.right_nasal - self.right_temporal) * carried
        left = self.left_nasal + (self.left_nasal - self.left_temporal) * carried
        return left - right


@dataclass(frozen=True, slots=True)
class Skew:
    """The two halves seen from the front.

    Attributes:
        right_slope: degrees, positive with the temporal end of the right lens up.
        left_slope: the same for the left lens.
        step: mm by which the left half sits higher at the bridge.
    """

    right_slope: float
    left_slope: float
    step: float


def skew(heights: AlongFront, width: float, nasal_half_span: float) -> Skew:
    """Skewed bridge: lens slopes and the step at the bridge.

    Args:
        heights: heights of the four ends of the lenses over a straight edge.
        width: from the temporal to the nasal reading of one lens; A at the ends of the box.
        nasal_half_span: from the nasal reading to the midline; DBL / 2 at the ends of the box.

    The slopes hold the shape's own up-sweep, equal on both sides, and the levelling of the
    edge; the step is free of both.
    """
    right = angle_of_gap(heights.right_temporal - heights.right_nasal, width)
    left = angle_of_gap(heights.left_temporal - heights.left_nasal, width)
    return Skew(right, left, heights.step(width, nasal_half_span))


@dataclass(frozen=True, slots=True)
class FourPoint:
    """What a straight edge behind the front says.

    Attributes:
        right_form: degrees of the right lens against the edge, positive temporal side back.
        left_form: the same for the left lens.
        total: their sum, the total face form.
        step: mm by which the left half lies further forward at the bridge, the plane step.

    Only `total` and `step` are facts of the frame: turning the edge changes the two single
    forms in opposite ways.
    """

    right_form: float
    left_form: float
    total: float
    step: float


def four_point(gaps: AlongFront, width: float, nasal_half_span: float) -> FourPoint:
    """Face form and plane step from four gaps in front of a straight edge.

    Args:
        gaps: distance of the frame in front of the edge, forwards positive.
        width: from the temporal to the nasal reading of one lens.
        nasal_half_span: from the nasal reading to the midline.
    """
    right = angle_of_gap(gaps.right_nasal - gaps.right_temporal, width)
    left = angle_of_gap(gaps.left_nasal - gaps.left_temporal, width)
    return FourPoint(right, left, right + left, gaps.step(width, nasal_half_span))


def step_uncertainty(reading: float, width: float, nasal_half_span: float) -> float:
    """The standard uncertainty in mm of a skew or plane step.

    Args:
        reading: standard uncertainty of each of the four readings, mm.
        width: from the temporal to the nasal reading of one lens, mm.
        nasal_half_span: from the nasal reading to the midline, mm.
    """
    carried = not_negative(nasal_half_span, "nasal half span") / positive(width, "width")
    weight = sqrt(2.0 * ((1.0 + carried) ** 2 + carried**2))
    return weight * not_negative(reading, "reading")


def total_uncertainty(reading: float, base: float) -> float:
    """The standard uncertainty in degrees of two lens angles added or subtracted.

    For total face form, X-ing and the difference of two slopes: sqrt 2 times that of one lens.
    """
    return sqrt(2.0) * angle_uncertainty(reading, base)


def form_from_depth(depth: float, front_width: float) -> float:
    """Face form of each side from the depth of the bridge before the line of the outer ends.

    Never measure to a point inside a curved rim: a rim of 6.00 D alone is 3.6 mm deep.
    """
    return angle_of_gap(depth, positive(front_width, "front width") / 2.0)


@dataclass(frozen=True, slots=True)
class LeanGaps:
    """Gaps of one lens in front of a straight edge at two heights, mm, forwards positive."""

    top: float
    bottom: float

    def lean(self, apart: float) -> float:
        """Degrees by which the lens leans forward at the top."""
        return angle_of_gap(self.top - self.bottom, apart)


def x_ing(right: LeanGaps, left: LeanGaps, apart: float) -> float:
    """The twist of the left lens against the right about the horizontal, degrees.

    Args:
        right: gaps of the right lens.
        left: gaps of the left lens.
        apart: distance between the two heights, mm.

    Positive means that the left lens leans further forward at the top; its temple then points
    higher. An even gap is a plane step and no twist.
    """
    return left.lean(apart) - right.lean(apart)


def axis_change(eye: Eye, temporal_up: float) -> float:
    """The change of cylinder axis when the temporal end goes up by an angle, degrees.

    Temporal up turns a right lens clockwise, its axis falls; a left lens the other way.
    """
    return -eye.nasal_sign * finite(temporal_up, "slope")


def lens_turn(eye: Eye, temporal_above_nasal: float, separation: float) -> float:
    """The turn of a lens in its rim, from two marks that should be level, as an axis change.

    Args:
        eye: which lens.
        temporal_above_nasal: height of the temporal mark over the nasal one, mm.
        separation: distance between the marks, mm; 34 for the engravings of most
            power-variation lenses.

    Raises:
        ValueError: the height difference is larger than the separation.
    """
    return axis_change(eye, angle_of_rise(temporal_above_nasal, separation))


def open_angle(outward: float, back: float) -> float:
    """The open temple angle between front and temple, degrees.

    Args:
        outward: mm by which the temple lies outside its hinge, at the place measured.
        back: mm from the hinge to that place, square to the front.
    """
    return QUARTER_TURN + angle_of_gap(outward, back)


def pantoscopic_angle(offset: float, b: float) -> float:
    """The pantoscopic angle from the offset of the rims against a square on the temples.

    Args:
        offset: mm by which the lower rim lies further back than the upper one.
        b: vertical boxed lens size, mm.

    Raises:
        ValueError: the offset is larger than B.
    """
    return angle_of_rise(offset, b)


@dataclass(frozen=True, slots=True)
class Tip:
    """The tip of a temple against its hinge: run backwards and drop below the shaft, mm."""

    run: float
    drop: float


def tip_of(length_to_bend: float, length_of_drop: float, drop_angle: float) -> Tip:
    """Where the tip lies, from the temple's two lengths in mm and its drop in degrees."""
    down = radians(finite(drop_angle, "drop"))
    length = not_negative(length_of_drop, "length of drop")
    straight = positive(length_to_bend, "length to bend")
    return Tip(straight + length * cos(down), length * sin(down))


@dataclass(frozen=True, slots=True)
class Fold:
    """The slope of each folded temple and right minus left, degrees; equal is good."""

    right: float
    left: float
    difference: float


def fold(right_height: float, left_height: float, half_width: float) -> Fold:
    """How the temples fold, from the height of each shaft where it crosses the midline.

    Args:
        right_height: height over the right temple's own hinge, mm.
        left_height: height over the left temple's own hinge, mm.
        half_width: from a hinge to the midline, mm.
    """
    right = angle_of_gap(right_height, half_width)
    left = angle_of_gap(left_height, half_width)
    return Fold(right, left, right - left)


def oversize(barrel_gap: float) -> float:
    """The diameter in mm by which a lens is too large for a rim whose barrel stays open."""
    return not_negative(barrel_gap, "barrel gap") / pi


def form_uncertainty_from_depth(reading: float, front_width: float) -> float:
    """The standard uncertainty in degrees of `form_from_depth`, from that of the depth, mm."""
    half = positive(front_width, "front width") / 2.0
    return degrees(not_negative(reading, "reading") / half)
