"""How well each bench formula is known: the rule of `measured`, formula by formula.

Every function takes what its formula takes, and the standard uncertainties of the readings.
"""

from dataclasses import dataclass

from benchassist.geometry.alignment import (
    AlongFront,
    Fold,
    LeanGaps,
    fold,
    form_from_depth,
    four_point,
    lens_turn,
    open_angle,
    pantoscopic_angle,
    skew,
    x_ing,
)
from benchassist.geometry.measured import Measured, Reading, measured
from benchassist.geometry.possible import refuse_climb, refuse_lift, refuse_turn
from benchassist.geometry.touch import (
    Gaps,
    TwoWayTouch,
    inverted_angle,
    two_way_touch,
    upright_angle,
)
from benchassist.optics.eye import Eye


@dataclass(frozen=True, slots=True)
class Tools:
    """The standard uncertainty of one reading with what lies on the bench.

    Attributes:
        gap: of a gap, a height or an offset, mm.
        length: of a length over which gaps are compared, mm; 0 takes it as exact.
    """

    gap: float
    length: float = 0.0

    def of_gap(self, value: float) -> Reading:
        """A gap, a height or an offset in mm as read with these tools."""
        return Reading(value, self.gap)

    def of_length(self, value: float) -> Reading:
        """A length in mm as read with these tools."""
        return Reading(value, self.length)


def measured_skew(
    heights: AlongFront, width: float, nasal_half_span: float, tools: Tools
) -> Measured:
    """The step of `alignment.skew`, mm, positive with the left half higher."""

    def step(width: float, span: float, **ends: float) -> float:
        return skew(AlongFront(**ends), width, span).step

    return measured(step, **_front(heights, width, nasal_half_span, tools))


@dataclass(frozen=True, slots=True)
class MeasuredFront:
    """Total face form in degrees and plane step in mm, signs as in `FourPoint`."""

    total: Measured
    step: Measured


def measured_four_point(
    gaps: AlongFront, width: float, nasal_half_span: float, tools: Tools
) -> MeasuredFront:
    """The two facts of `alignment.four_point`."""

    def total(width: float, span: float, **ends: float) -> float:
        return four_point(AlongFront(**ends), width, span).total

    def step(width: float, span: float, **ends: float) -> float:
        return four_point(AlongFront(**ends), width, span).step

    readings = _front(gaps, width, nasal_half_span, tools)
    return MeasuredFront(measured(total, **readings), measured(step, **readings))


def _front(front: AlongFront, width: float, span: float, tools: Tools) -> dict[str, Reading]:
    names = ("right_temporal", "right_nasal", "left_nasal", "left_temporal")
    ends = dict(zip(names, map(tools.of_gap, front.readings), strict=True))
    return {"width": tools.of_length(width), "span": tools.of_length(span), **ends}


def measured_form_from_depth(depth: float, front_width: float, tools: Tools) -> Measured:
    """The form of each side by `alignment.form_from_depth`, degrees."""
    return measured(
        form_from_depth, depth=tools.of_gap(depth), front_width=tools.of_length(front_width)
    )


def measured_total_from_depth(depth: float, front_width: float, tools: Tools) -> Measured:
    """The form of both sides together by `alignment.form_from_depth`, degrees."""

    def total(depth: float, front_width: float) -> float:
        return 2.0 * form_from_depth(depth, front_width)

    return measured(total, depth=tools.of_gap(depth), front_width=tools.of_length(front_width))


def measured_x_ing(right: LeanGaps, left: LeanGaps, apart: float, tools: Tools) -> Measured:
    """The twist of `alignment.x_ing`, degrees, positive with the left lens forward on top."""

    def twist(rt: float, rb: float, lt: float, lb: float, apart: float) -> float:
        return x_ing(LeanGaps(rt, rb), LeanGaps(lt, lb), apart)

    return measured(
        twist,
        rt=tools.of_gap(right.top),
        rb=tools.of_gap(right.bottom),
        lt=tools.of_gap(left.top),
        lb=tools.of_gap(left.bottom),
        apart=tools.of_length(apart),
    )


def measured_lens_turn(
    eye: Eye, temporal_mark: float, nasal_mark: float, separation: float, tools: Tools
) -> Measured:
    """The turn of `alignment.lens_turn` as an axis change, degrees.

    Args:
        eye: which lens.
        temporal_mark: height of the outer mark over the edge, mm.
        nasal_mark: height of the inner mark over the same edge, mm.
        separation: distance between the marks, mm.
        tools: how well each height and the separation are read.
    """

    def turn(temporal: float, nasal: float, separation: float) -> float:
        turned = lens_turn(eye, temporal - nasal, separation)
        refuse_turn(
            turned, f"marks {temporal - nasal:g} mm apart in height over {separation:g} mm"
        )
        return turned

    return measured(
        turn,
        temporal=tools.of_gap(temporal_mark),
        nasal=tools.of_gap(nasal_mark),
        separation=tools.of_length(separation),
    )


def measured_open_angle(outward: float, back: float, tools: Tools) -> Measured:
    """The angle of `alignment.open_angle`, degrees; see `Measured.minus`."""
    return measured(open_angle, outward=tools.of_gap(outward), back=tools.of_length(back))


def measured_pantoscopic(offset: float, b: float, tools: Tools) -> Measured:
    """The angle of `alignment.pantoscopic_angle`, degrees; see `Measured.minus`."""
    return measured(pantoscopic_angle, offset=tools.of_gap(offset), b=tools.of_length(b))


def measured_pantoscopic_apart(right: float, left: float, b: float, tools: Tools) -> Measured:
    """Right less left of `alignment.pantoscopic_angle`, degrees, from both offsets and one B.

    B is read once and belongs to both angles: an error of it nearly drops out of their
    difference, which is why this is not `Measured.minus`.
    """

    def apart(right: float, left: float, b: float) -> float:
        return pantoscopic_angle(right, b) - pantoscopic_angle(left, b)

    return measured(
        apart, right=tools.of_gap(right), left=tools.of_gap(left), b=tools.of_length(b)
    )


def measured_apart(right: float, left: float, tools: Tools) -> Measured:
    """Right less left of two readings of the same kind, in their own unit."""

    def apart(right: float, left: float) -> float:
        return right - left

    return measured(apart, right=tools.of_gap(right), left=tools.of_gap(left))


def measured_upright(gaps: Gaps, run: float, tools: Tools) -> Measured:
    """The angle of `touch.upright_angle`, degrees, positive with the right temple lower."""

    def angle(right: float, left: float, run: float) -> float:
        found = upright_angle(Gaps(right, left), run)
        refuse_lift(found, f"gaps of {right:g} and {left:g} mm under the tips over {run:g} mm")
        return found

    return measured(angle, **_touch(gaps, run, tools))


def measured_inverted(gaps: Gaps, run: float, tools: Tools) -> Measured:
    """The angle of `touch.inverted_angle`, degrees, positive with the right temple lower."""

    def angle(right: float, left: float, run: float) -> float:
        found = inverted_angle(Gaps(right, left), run)
        refuse_lift(
            found, f"gaps of {right:g} and {left:g} mm under the shafts over {run:g} mm"
        )
        return found

    return measured(angle, **_touch(gaps, run, tools))


def _touch(gaps: Gaps, run: float, tools: Tools) -> dict[str, Reading]:
    return {
        "right": tools.of_gap(gaps.right),
        "left": tools.of_gap(gaps.left),
        "run": tools.of_length(run),
    }


@dataclass(frozen=True, slots=True)
class MeasuredTouch:
    """Temple angle in degrees and tip bend in mm, signs as in `TwoWayTouch`."""

    right_temple_lower: Measured
    right_tip_lower: Measured


def measured_two_way(
    upright: Gaps, upright_run: float, inverted: Gaps, inverted_run: float, tools: Tools
) -> MeasuredTouch:
    """Both numbers of `touch.two_way_touch`."""

    def found(read: dict[str, float]) -> TwoWayTouch:
        tips, shafts = Gaps(read["ur"], read["ul"]), Gaps(read["ir"], read["il"])
        return two_way_touch(tips, read["u"], shafts, read["i"])

    def angle(**read: float) -> float:
        return found(read).right_temple_lower

    def tip(**read: float) -> float:
        return found(read).right_tip_lower

    readings = {
        "ur": tools.of_gap(upright.right),
        "ul": tools.of_gap(upright.left),
        "u": tools.of_length(upright_run),
        "ir": tools.of_gap(inverted.right),
        "il": tools.of_gap(inverted.left),
        "i": tools.of_length(inverted_run),
    }
    return MeasuredTouch(measured(angle, **readings), measured(tip, **readings))


def measured_climb(height: float, half_width: float, tools: Tools) -> Measured:
    """The slope of one temple of `alignment.fold`, degrees, upwards positive."""

    def climb(height: float, half_width: float) -> float:
        return _fold(height, height, half_width).right

    return measured(climb, height=tools.of_gap(height), half_width=tools.of_length(half_width))


def measured_fold(
    right_height: float, left_height: float, half_width: float, tools: Tools
) -> Measured:
    """The difference of `alignment.fold`, right minus left, degrees."""

    def difference(right: float, left: float, half_width: float) -> float:
        return _fold(right, left, half_width).difference

    return measured(
        difference,
        right=tools.of_gap(right_height),
        left=tools.of_gap(left_height),
        half_width=tools.of_length(half_width),
    )


def _fold(right_height: float, left_height: float, half_width: float) -> Fold:
    """The slopes of `alignment.fold`, refused where no joint folds so."""
    slopes = fold(right_height, left_height, half_width)
    for slope, height in ((slopes.right, right_height), (slopes.left, left_height)):
        refuse_climb(slope, f"a height of {height:g} mm over {half_width:g} mm")
    return slopes
