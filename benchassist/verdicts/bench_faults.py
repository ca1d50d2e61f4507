"""What the bench measured, as the drawing of the frame takes it."""

from collections.abc import Callable, Mapping

from benchassist.geometry.alignment import fold
from benchassist.geometry.bench_measured import measured_form_from_depth
from benchassist.geometry.fault import Fault
from benchassist.geometry.possible import Impossible
from benchassist.job.order import FrameOrder
from benchassist.optics.eye import Eye
from benchassist.verdicts import frame_measured as found
from benchassist.verdicts.answers import Measures
from benchassist.verdicts.frame_measured import RULE

_LENS_BY_LENS = "rotation"
"""The check whose measurements of one lens are whole without those of the other."""


def faults_of(frame: FrameOrder, check: str, read: Measures) -> tuple[Fault, ...]:
    """The faults in the measurements of one bench check, signed as `Fault` has them.

    Args:
        frame: the frame as ordered.
        check: name of the check, such as 'skew'.
        read: its measurements by name.

    There are none where the set is not complete or cannot be.
    """
    rule = _RULES.get(check)
    if rule is None or not (check == _LENS_BY_LENS or found.is_whole(check, frame, read)):
        return ()
    try:
        return rule(frame, read)
    except Impossible:
        return ()


def _rotation(_: FrameOrder, read: Measures) -> tuple[Fault, ...]:
    """The turn of each lens whose marks were read: the other one may have none."""
    return tuple(
        Fault("rotation", found.lens_turn_of(eye, read).value, eye)
        for eye in Eye
        if {f"{eye}_marks", "separation"} <= read.keys()
    )


def _skew(frame: FrameOrder, read: Measures) -> tuple[Fault, ...]:
    return (Fault("skew", found.skew_of(frame, read).value),)


def _x_ing(_: FrameOrder, read: Measures) -> tuple[Fault, ...]:
    return (Fault("x-ing", found.x_ing_of(read).value),)


def _four_point(frame: FrameOrder, read: Measures) -> tuple[Fault, ...]:
    front = found.front_of(frame, read)
    return (Fault("plane-step", front.step.value), *_form(frame, front.total.value))


def _face_form(frame: FrameOrder, read: Measures) -> tuple[Fault, ...]:
    depth, width = float(read["depth"]), float(read["width"])
    return _form(frame, 2 * measured_form_from_depth(depth, width, RULE).value)


def _form(frame: FrameOrder, total: float) -> tuple[Fault, ...]:
    """How much too much; nothing where no form is ordered to compare it with."""
    if frame.face_form is None:
        return ()
    return (Fault("face-form", total - 2 * float(frame.face_form)),)


def _pads(_: FrameOrder, read: Measures) -> tuple[Fault, ...]:
    return (
        Fault("pads", _left_minus_right(read, "height")),
        Fault("pad-stand", _left_minus_right(read, "stand")),
    )


def _open_angle(_: FrameOrder, read: Measures) -> tuple[Fault, ...]:
    right, left = (found.open_angle_of(eye, read).value for eye in Eye)
    return (Fault("open-angle", left - right),)


def _pantoscopic(frame: FrameOrder, read: Measures) -> tuple[Fault, ...]:
    right, left = (found.pantoscopic_of(eye, frame, read).value for eye in Eye)
    return (Fault("pantoscopic", left - right),)


def _table_inverted(_: FrameOrder, read: Measures) -> tuple[Fault, ...]:
    return (Fault("table-inverted", -_left_minus_right(read, "gap")),)


def _table_upright(_: FrameOrder, read: Measures) -> tuple[Fault, ...]:
    return (Fault("table-upright", _left_minus_right(read, "gap")),)


def _temple_bend(_: FrameOrder, read: Measures) -> tuple[Fault, ...]:
    return (
        Fault("bend-start", _left_minus_right(read, "start")),
        Fault("bend-drop", _left_minus_right(read, "drop")),
    )


def _fold(_: FrameOrder, read: Measures) -> tuple[Fault, ...]:
    right, left, half = (
        float(read[name]) for name in ("right_height", "left_height", "half_width")
    )
    slopes = fold(right, left, half)
    return (Fault("fold", slopes.right, Eye.RIGHT), Fault("fold", slopes.left, Eye.LEFT))


def _left_minus_right(read: Measures, name: str) -> float:
    return float(read[f"left_{name}"] - read[f"right_{name}"])


_RULES: Mapping[str, Callable[[FrameOrder, Measures], tuple[Fault, ...]]] = {
    "rotation": _rotation,
    "skew": _skew,
    "x-ing": _x_ing,
    "face-form": _face_form,
    "four-point": _four_point,
    "pads": _pads,
    "open-angle": _open_angle,
    "pantoscopic": _pantoscopic,
    "table-inverted": _table_inverted,
    "table-upright": _table_upright,
    "temple-bend": _temple_bend,
    "fold": _fold,
}
"""The rule of each check that is measured, in the order of the bench."""
