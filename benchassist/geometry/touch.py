"""The frame on a flat table: what a lifted temple says.

Each half of the front with its temple is taken as rigid. Own derivations, compared with a
three-dimensional frame that leans on its rims: within 8 per cent, good enough for a bench. Most
of that is the joint: a twisted bridge turns temples about the front, as the formulas have it,
but a bent endpiece turns its temple about a joint some mm behind the rims, and the angle over
the whole run comes out too small by that share.
"""

from dataclasses import dataclass

from benchassist.geometry.angles import angle_of_gap, finite, not_negative, positive
from benchassist.geometry.possible import refuse_both_lifted


@dataclass(frozen=True, slots=True)
class Gaps:
    """The gaps in mm between table and temple, right and left; the touching side has none.

    Heights of the rims over a plane are given alike.

    Raises:
        Impossible: a gap is below zero.
    """

    right: float
    left: float

    def __post_init__(self) -> None:
        not_negative(self.right, "right gap")
        not_negative(self.left, "left gap")


@dataclass(frozen=True, slots=True)
class TwoWayTouch:
    """What the touch tests upside down and upright say together.

    Attributes:
        right_temple_lower: degrees by which the right temple points lower than the left.
        right_tip_lower: mm by which the right tip is bent lower than the left, beyond what the
            temples' angle explains.
    """

    right_temple_lower: float
    right_tip_lower: float


def upright_angle(gaps: Gaps, run: float) -> float:
    """Degrees by which the right temple lies lower than the left, by an upright touch.

    Upright, both lower rims rest on the table. The lower temple presses its tip down and so
    lifts the other one: angle = atan(gap / run), with a lifted left tip counted positive. The
    angle holds the temples' difference and the X-ing of the front together, and it cannot
    tell a temple angle from a bent tip: `two_way_touch` can.

    Args:
        gaps: gaps under the two tips.
        run: from the line on which the rims touch to the touching tip, mm.

    Raises:
        Impossible: the run is not above zero, or both tips are in the air.
    """
    refuse_both_lifted("tip", gaps.right, gaps.left)
    return angle_of_gap(gaps.left - gaps.right, run)


def inverted_angle(gaps: Gaps, run: float) -> float:
    """Degrees by which the right temple points lower than the left, by a touch upside down.

    Upside down, the upper rims and the shafts rest on the table, and the tips play no part. A
    temple that points lower in wear lifts its own shaft: a lifted right one is positive.

    Args:
        gaps: gaps under the two shafts where the bend begins.
        run: from the line on which the rims touch to that place, mm.

    Raises:
        Impossible: the run is not above zero, or both shafts are in the air.
    """
    refuse_both_lifted("shaft", gaps.right, gaps.left)
    return angle_of_gap(gaps.right - gaps.left, run)


def two_way_touch(
    upright: Gaps, upright_run: float, inverted: Gaps, inverted_run: float
) -> TwoWayTouch:
    """The temple angle and the tip bend, told apart by touching the table both ways.

    Args:
        upright: gaps under the tips, mm.
        upright_run: from the rims to the touching tip, mm.
        inverted: gaps under the shafts where the bend begins, mm.
        inverted_run: from the rims to that place, mm.

    The shafts give the angle. At the tip that angle opens gap x upright run / inverted run;
    what the upright gap shows beyond it is the bend of the tip. Two faults can hide each other
    upright: then only the upside-down test shows them.

    Raises:
        Impossible: a run is not above zero, or both sides are in the air.
    """
    refuse_both_lifted("tip", upright.right, upright.left)
    angle = inverted_angle(inverted, inverted_run)
    explained = (inverted.right - inverted.left) * positive(upright_run, "run") / inverted_run
    return TwoWayTouch(angle, upright.left - upright.right - explained)


def tip_gap(rims: Gaps, tips: Gaps, rim_span: float, tip_span: float) -> float:
    """The one twist number of four heights over any plane, as a lift of the right tip, mm.

    Args:
        rims: heights of the lowest points of the right and left rim over the plane.
        tips: heights of the right and left temple tip.
        rim_span: distance between the two rim points, mm.
        tip_span: distance between the two tips, mm.

    (right tip - left tip) - (right rim - left rim) x tip span / rim span: any tilt of the
    plane drops out. Negative means that the left tip lifts.
    """
    enlarged = positive(tip_span, "tip span") / positive(rim_span, "rim span")
    return (tips.right - tips.left) - (rims.right - rims.left) * enlarged


def rim_gap(tip_lift: float, rim_span: float, tip_span: float) -> float:
    """The gap in mm that shows when a rim lifts in place of a tip: the same fault, smaller."""
    shrunk = positive(rim_span, "rim span") / positive(tip_span, "tip span")
    return finite(tip_lift, "gap") * shrunk
