"""Standard alignment: the frame's own angles and steps from simple measurements.

Own derivations. Facing the wearer: x to the observer's right, y up, z forwards; the right lens
lies at -x. Lengths in mm, angles in degrees.
"""

from dataclasses import dataclass
from math import cos, pi, radians, sin

from benchassist.geometry.angles import (
    QUARTER_TURN,
    angle_of_gap,
    angle_of_rise,
    finite,
    not_negative,
    positive,
)
from benchassist.geometry.possible import (
    refuse_edge_in_the_air,
    refuse_form,
    refuse_lean,
    refuse_open_angle,
    refuse_steeper_than_wide,
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

    @property
    def readings(self) -> tuple[float, float, float, float]:
        """All four, from the wearer's right end to the left."""
        return self.right_temporal, self.right_nasal, self.left_nasal, self.left_temporal

    def step(self, width: float, nasal_half_span: float) -> float:
        """Both lens lines carried to the midline, left minus right, mm.

        Args:
            width: from the temporal to the nasal reading of one lens, mm.
            nasal_half_span: from the nasal reading to the midline, mm.

        Over `width` a lens line rises by nasal - temporal, so over the `nasal_half_span` from
        its nasal end to the midline it rises by (nasal - temporal) x span / width more. A
        straight edge tilted against the front adds to each reading its place across the front
        times the slope, and nothing at the midline: it drops out.

        Raises:
            Impossible: the width is not above zero, or the two readings of one lens differ by
                more than it.
        """
        refuse_steeper_than_wide("right lens", self.right_temporal, self.right_nasal, width)
        refuse_steeper_than_wide("left lens", self.left_temporal, self.left_nasal, width)
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
        heights: heights of the four ends of the lenses over a straight edge, mm.
        width: from the temporal to the nasal reading of one lens, mm; A at the ends of the box.
        nasal_half_span: from the nasal reading to the midline, mm; DBL / 2 at the ends of the
            box.

    Seen from the front each lens is a rigid line of the given width that rises from its nasal
    to its temporal end, so tan(slope) = (temporal - nasal) / width. The step is where the two
    lines, carried inwards, miss each other at the midline, see `AlongFront.step`. The slopes
    hold the shape's own up-sweep, equal on both sides, and the levelling of the edge; the step
    is free of both.

    Raises:
        Impossible: a length is not above zero, or the ends of a lens are further apart in
            height than it is wide.
    """
    step = heights.step(width, nasal_half_span)
    right = angle_of_gap(heights.right_temporal - heights.right_nasal, width)
    left = angle_of_gap(heights.left_temporal - heights.left_nasal, width)
    return Skew(right, left, step)


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
        gaps: distance of the frame in front of the edge, mm, forwards positive.
        width: from the temporal to the nasal reading of one lens, mm.
        nasal_half_span: from the nasal reading to the midline, mm.

    Seen from above each lens is a line, its chord from temporal to nasal end. Swung back by a
    form w it comes forward towards the nose by width x tan w, so tan w = (nasal - temporal) /
    width. An edge turned by e makes one lens w + e and the other w - e: their sum is free of
    it. Both chords carried to the midline (`AlongFront.step`) miss each other by the plane
    step, and a turned edge passes both by the same distance there: the step is free of it too.
    The width is taken along the edge; a lens measured along itself reads 0.02 degrees too
    little at a form of 5 degrees and 0.4 at 14.

    Raises:
        Impossible: a length is not above zero, the edge touches nowhere or cuts into the front,
            the gaps of a lens differ by more than it is wide, or half of the total is no form
            that a front can have.
    """
    refuse_edge_in_the_air(gaps.readings)
    step = gaps.step(width, nasal_half_span)
    right = angle_of_gap(gaps.right_nasal - gaps.right_temporal, width)
    left = angle_of_gap(gaps.left_nasal - gaps.left_temporal, width)
    said = ", ".join(f"{gap:g}" for gap in gaps.readings)
    refuse_form((right + left) / 2.0, f"gaps of {said} mm from the right end to the left")
    return FourPoint(right, left, right + left, step)


def form_from_depth(depth: float, front_width: float) -> float:
    """Face form of each side from the depth of the bridge before the line of the outer ends.

    Args:
        depth: mm, positive with the bridge in front of that line.
        front_width: from outer end to outer end, mm.

    Each half runs from the bridge over half of the width outwards and falls back by the depth:
    tan(form) = 2 depth / width. Never measure to a point inside a curved rim: a rim of 6.00 D
    alone is 3.6 mm deep.

    Raises:
        Impossible: the width is not above zero, or the form is none that a front can have.
    """
    form = angle_of_gap(depth, positive(front_width, "front width") / 2.0)
    refuse_form(form, f"a depth of {depth:g} mm over {front_width:g} mm")
    return form


@dataclass(frozen=True, slots=True)
class LeanGaps:
    """Gaps of one lens in front of a straight edge at two heights, mm, forwards positive."""

    top: float
    bottom: float

    def lean(self, apart: float, which: str = "lens") -> float:
        """Degrees by which the lens leans forward at the top.

        Args:
            apart: distance between the two heights, mm.
            which: what to call the lens where its gaps are refused.

        Seen from the side the lens is a line that comes forward by top - bottom over the
        height between the readings: tan(lean) = (top - bottom) / apart.

        Raises:
            Impossible: the distance is not above zero, or the lean is more than 30 degrees.
        """
        lean = angle_of_gap(self.top - self.bottom, apart)
        said = f"gaps of {self.top:g} mm at the top and {self.bottom:g} mm at the bottom"
        refuse_lean(which, lean, said)
        return lean


def x_ing(right: LeanGaps, left: LeanGaps, apart: float) -> float:
    """The twist of the left lens against the right about the horizontal, degrees.

    Args:
        right: gaps of the right lens.
        left: gaps of the left lens.
        apart: distance between the two heights, mm.

    Positive means that the left lens leans further forward at the top; its temple then points
    higher. Each lens leans by atan((top - bottom) / apart) against whatever lies behind the
    front. That has a lean of its own, the same for both lenses, so it drops out of left minus
    right; so does an even gap, which is a plane step and no twist.

    Both heights must be taken from one flat plate, or from an edge that is kept parallel to
    itself: an edge that is laid anew at each height follows the twist and shows nothing of it.

    Raises:
        Impossible: the distance is not above zero, or a lens leans by more than 30 degrees.
    """
    return left.lean(apart, "left lens") - right.lean(apart, "right lens")


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

    The line from mark to mark is as long as the marks are apart, whatever its slope, and its
    outer end rises by the height difference: sin(turn) = height difference / separation.

    Raises:
        Impossible: the height difference is larger than the separation.
    """
    return axis_change(eye, angle_of_rise(temporal_above_nasal, separation))


def open_angle(outward: float, back: float) -> float:
    """The open temple angle between front and temple, degrees.

    Args:
        outward: mm by which the temple lies outside its hinge, at the place measured.
        back: mm from the hinge to that place, square to the front.

    A line from the hinge square to the front, 90 degrees from it, goes `back`; the temple has
    left it by `outward` there: angle = 90 + atan(outward / back). Seen from above, so a temple
    that points down changes nothing.

    Raises:
        Impossible: the distance back is not above zero, or the angle is none that an open
            temple can have.
    """
    angle = QUARTER_TURN + angle_of_gap(outward, back)
    refuse_open_angle(angle, f"{outward:g} mm outwards at {back:g} mm behind the joint")
    return angle


def pantoscopic_angle(offset: float, b: float) -> float:
    """The pantoscopic angle from the offset of the rims against a square on the temples.

    Args:
        offset: mm by which the lower rim lies further back than the upper one.
        b: vertical boxed lens size, mm.

    Seen from the side the lens is a line of length B from lower to upper rim. Turned from the
    square's upright by the angle, its upper end stands B x sin(angle) further forward than its
    lower end: angle = asin(offset / B).

    Raises:
        Impossible: the offset is larger than B, or the angle is more than 30 degrees.
    """
    angle = angle_of_rise(offset, b)
    refuse_lean("temple", angle, f"an offset of {offset:g} mm over {b:g} mm")
    return angle


@dataclass(frozen=True, slots=True)
class Tip:
    """The tip of a temple against its hinge: run backwards and drop below the shaft, mm."""

    run: float
    drop: float


def tip_of(length_to_bend: float, length_of_drop: float, drop_angle: float) -> Tip:
    """Where the tip lies, along and below the straight shaft.

    Args:
        length_to_bend: from hinge to bend, mm.
        length_of_drop: from bend to tip, mm.
        drop_angle: degrees by which the end is bent down from the shaft.

    Two straight pieces seen from the side: the shaft runs its whole length back, and the end,
    bent down by the angle, adds length x cos(drop) to the run and falls by length x sin(drop).

    Raises:
        Impossible: the length to the bend is not above zero, or that of the drop below it.
    """
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
        right_height: height over the right temple's own hinge, mm, up positive.
        left_height: height over the left temple's own hinge, mm, up positive.
        half_width: from a hinge to the midline, mm.

    Seen from behind, a folded shaft is a line from its hinge to beyond the midline. It climbs
    by the height over half of the width: tan(slope) = height / half width.

    Raises:
        Impossible: the half width is not above zero.
    """
    right = angle_of_gap(right_height, half_width)
    left = angle_of_gap(left_height, half_width)
    return Fold(right, left, right - left)


def oversize(barrel_gap: float) -> float:
    """The diameter in mm by which a lens is too large for a rim whose barrel stays open."""
    return not_negative(barrel_gap, "barrel gap") / pi
