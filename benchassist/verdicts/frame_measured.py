"""The numbers of the frame as its bench measurements give them, and how well each is known.

Each function that gives a number takes the measurements of one check by their names, all that
`NEEDS` names, and raises `Impossible` when no frame can show them. `counted` hands out only
what is whole and still counts.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from benchassist.geometry.alignment import AlongFront, LeanGaps
from benchassist.geometry.bench_measured import (
    MeasuredFront,
    MeasuredTouch,
    Tools,
    measured_apart,
    measured_climb,
    measured_fold,
    measured_four_point,
    measured_inverted,
    measured_lens_turn,
    measured_open_angle,
    measured_pantoscopic,
    measured_pantoscopic_apart,
    measured_skew,
    measured_total_from_depth,
    measured_two_way,
    measured_upright,
    measured_x_ing,
)
from benchassist.geometry.measured import Measured
from benchassist.geometry.possible import refuse_bends_apart
from benchassist.geometry.touch import Gaps
from benchassist.job.document import Job
from benchassist.job.order import FrameOrder
from benchassist.optics.eye import Eye
from benchassist.verdicts.answers import Measures

FEELER = Tools(gap=0.06, length=0.5)
"""Feelers in steps of 0.1 mm, placed within 0.05 mm; lengths with the rule. Own proposal."""

GRATICULE = Tools(gap=0.12, length=0.5)
"""A graticule in steps of 0.25 mm, placed within 0.1 mm. Own proposal."""

RULE = Tools(gap=0.25, length=0.5)
"""A rule in steps of 0.5 mm, placed within 0.2 mm. Own proposal."""


PROTRACTOR = Tools(gap=1.5)
"""A protractor laid at a bend, degrees in place of mm. Own proposal."""


@dataclass(frozen=True, slots=True)
class Needs:
    """What the numbers of one bench check are reckoned from.

    Attributes:
        read: names of its measurements, all of which it needs.
        sizes: names of the sizes that the order must state: 'a', 'b' or 'dbl'.
    """

    read: tuple[str, ...]
    sizes: tuple[str, ...] = ()


NEEDS: Mapping[str, Needs] = {
    "rotation": Needs(("right_marks", "left_marks", "separation")),
    "skew": Needs(("right_outer", "right_inner", "left_inner", "left_outer"), ("a", "dbl")),
    "x-ing": Needs(("right_top", "right_bottom", "left_top", "left_bottom", "apart")),
    "face-form": Needs(("depth", "width")),
    "four-point": Needs(
        ("right_nasal", "right_temporal", "left_nasal", "left_temporal"), ("a", "dbl")
    ),
    "pads": Needs(("right_height", "left_height", "right_stand", "left_stand")),
    "open-angle": Needs(("right_out", "right_back", "left_out", "left_back")),
    "pantoscopic": Needs(("right_offset", "left_offset"), ("b",)),
    "table-inverted": Needs(("right_gap", "left_gap", "run")),
    "table-upright": Needs(("right_gap", "left_gap", "run")),
    "temple-bend": Needs(("right_start", "left_start", "right_drop", "left_drop")),
    "fold": Needs(("right_height", "left_height", "half_width")),
}
"""What each measured check of the bench needs, by its name, in the order of the bench."""


class Why(StrEnum):
    """Why measurements tell nothing."""

    NOT_MEASURED = "not measured, or not all of it"
    AGAIN = "to be measured again after a correction"
    NOT_ORDERED = "reckoned with a size of the frame that is not ordered"
    IMPOSSIBLE = "read as no frame can show it"
    CONTRADICTORY = "not true together"


def is_whole(name: str, frame: FrameOrder, read: Measures) -> bool:
    """Whether all is there from which a check of the bench is reckoned."""
    needs = NEEDS.get(name)
    return (
        needs is not None
        and all(one in read for one in needs.read)
        and not frame.lacking(needs.sizes)
    )


def counted(job: Job, name: str) -> Measures | None:
    """The measurements of a check of the bench that count.

    None where it is not measured, or not all of it, where it is to be done again, or where a
    size with which it is reckoned is not ordered; `why_not` says which.
    """
    answer = job.now.bench.answers.get(name)
    if answer is None or answer.again_because:
        return None
    return answer.measured if is_whole(name, job.order.frame, answer.measured) else None


def why_not(job: Job, name: str) -> Why | None:
    """Why the measurements of a check do not count; None where they do."""
    if counted(job, name) is not None:
        return None
    answer = job.now.bench.answers.get(name)
    if answer is None or any(one not in answer.measured for one in NEEDS[name].read):
        return Why.NOT_MEASURED
    return Why.AGAIN if answer.again_because else Why.NOT_ORDERED


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
    return measured_pantoscopic(float(read[f"{eye}_offset"]), _size(frame, "b"), FEELER)


def pantoscopic_apart(frame: FrameOrder, read: Measures) -> Measured:
    """The right pantoscopic angle less the left one, degrees; both go by the same B."""
    right, left = (float(read[f"{eye}_offset"]) for eye in Eye)
    return measured_pantoscopic_apart(right, left, _size(frame, "b"), FEELER)


def form_by_depth(read: Measures) -> Measured:
    """The total face form by the depth of the bridge, degrees."""
    return measured_total_from_depth(float(read["depth"]), float(read["width"]), RULE)


def fold_of(eye: Eye, read: Measures) -> Measured:
    """The climb of one folded temple, degrees, upwards positive."""
    return measured_climb(float(read[f"{eye}_height"]), float(read["half_width"]), RULE)


def fold_apart(read: Measures) -> Measured:
    """The climb of the right folded temple less that of the left one, degrees."""
    right, left = (float(read[f"{eye}_height"]) for eye in Eye)
    return measured_fold(right, left, float(read["half_width"]), RULE)


def apart(read: Measures, name: str) -> Measured:
    """What a check read on the right less what it read on the left, in its own unit.

    Lengths by the rule; the drop of a bend by the protractor.
    """
    tools = PROTRACTOR if name == "drop" else RULE
    return measured_apart(float(read[f"right_{name}"]), float(read[f"left_{name}"]), tools)


def bend_starts_apart(read: Measures) -> Measured:
    """The start of the right bend less that of the left one, mm from the joint.

    Raises:
        Impossible: they are too far apart for one pair of temples.
    """
    right, left = float(read["right_start"]), float(read["left_start"])
    refuse_bends_apart(right, left)
    return apart(read, "start")


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
    return _size(frame, "a"), _size(frame, "dbl") / 2.0


def _size(frame: FrameOrder, name: str) -> float:
    """A size of the frame, mm.

    Raises:
        ValueError: it is not ordered, for which `FrameOrder.lacking` is there to ask first.
    """
    size = {"a": frame.a, "b": frame.b, "dbl": frame.dbl}[name]
    if size is None:
        raise ValueError(f"the order states no {name.upper()}")
    return float(size)


def _along(read: Measures, outer: str, inner: str) -> AlongFront:
    names = (f"right_{outer}", f"right_{inner}", f"left_{inner}", f"left_{outer}")
    return AlongFront(*(float(read[name]) for name in names))


def _touch(read: Measures) -> tuple[Gaps, float]:
    return Gaps(float(read["right_gap"]), float(read["left_gap"])), float(read["run"])
