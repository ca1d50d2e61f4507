"""The faults that a view draws, as numbers of the frame in space."""

from collections.abc import Callable

from benchassist.geometry import usual
from benchassist.geometry.fault import Drawn, Part
from benchassist.geometry.frame_state import FrameState, Made
from benchassist.geometry.plan import FrontPlan
from benchassist.optics.eye import Eye

BACK_OF_BEND = 1.0 - usual.END / usual.TEMPLE
"""The share of a temple that lies before its bend."""

_LEAST = 1.0
"""No side of a lens is taken for shorter, mm: an order half typed is drawn too."""

_LONGEST, _SHORTEST = 200.0, 60.0
"""Between these a temple is drawn, mm."""

_STEEPEST = 30.0
"""Up to this a tilt or a face form is drawn, degrees."""

_SIDE_NUMBERS = {
    "rotation": "lens_turn",
    "pads": "pad_up",
    "pad-stand": "pad_back",
    "open-angle": "open_angle",
    "pantoscopic": "pantoscopic",
    "bend-start": "bend_start",
    "bend-drop": "drop",
    "fold": "fold",
}
"""The number of `SideState` that each kind of fault is."""

_BRIDGE_NUMBERS = {"skew": "skew_step", "x-ing": "x_ing", "plane-step": "plane_step"}
"""The number of `Bridge` that each kind of fault is."""


def made_as(plan: FrontPlan) -> Made:
    """The true frame of a plan, with usual angles and lengths where none are ordered."""
    neutral = Made()
    length = _between(_SHORTEST, plan.temple_length or neutral.temple_length, _LONGEST)
    tilt = neutral.pantoscopic if plan.tilt is None else plan.tilt
    form = neutral.face_form if plan.face_form is None else plan.face_form
    return Made(
        a=max(plan.width, _LEAST),
        b=max(plan.height, _LEAST),
        dbl=max(plan.gap, _LEAST),
        temple_length=length,
        face_form=_between(-_STEEPEST, form, _STEEPEST),
        pantoscopic=_between(-_STEEPEST, tilt, _STEEPEST),
        bend_start=length * BACK_OF_BEND,
    )


def bent(made: Made, faults: Drawn) -> FrameState:
    """The frame with every fault as large as it is drawn, but for the gaps on the table.

    What is left minus right is shared between the sides, unless a fault names its own.
    """
    state = FrameState.true(made)
    for part in faults.parts:
        state = _with_part(state, part)
    return state


def without(faults: Drawn) -> Drawn:
    """The same faults but for those that are pointed out."""
    parts = tuple(part for part in faults.parts if not part.is_pointed_out)
    return Drawn(parts, faults.factor, faults.is_inverted)


def _with_part(state: FrameState, part: Part) -> FrameState:
    name, value, bridge = part.kind.name, part.value, state.bridge
    if name in _BRIDGE_NUMBERS:
        return state.with_bridge(**{_BRIDGE_NUMBERS[name]: value})
    if name == "face-form":
        return state.with_bridge(
            form_right=bridge.form_right + value / 2, form_left=bridge.form_left + value / 2
        )
    if name not in _SIDE_NUMBERS:
        return state
    return shared(state, _SIDE_NUMBERS[name], value, part.fault.eye)


def shared(state: FrameState, number: str, value: float, eye: Eye | None) -> FrameState:
    """A number of the sides changed by left minus right, or of one side whole."""
    changes = {eye: value} if eye else {Eye.RIGHT: -value / 2, Eye.LEFT: value / 2}
    for side, change in changes.items():
        at = float(getattr(state.side(side), number))
        state = state.with_side(side, **{number: at + change})
    return state


def solved(
    gap: Callable[[FrameState], float], state: FrameState, number: str, wanted: float
) -> FrameState:
    """The frame with a number of the sides changed until it leaves the gap that is wanted.

    Args:
        gap: what a frame leaves on the table, mm; about linear in the number.
        state: the frame without the change.
        number: a number of `SideState`, changed by left minus right.
        wanted: the gap, mm.
    """
    low, at_low = 0.0, gap(state)
    high = 1.0
    for _ in range(_TRIES):
        tried = shared(state, number, high, None)
        at_high = gap(tried)
        if abs(at_high - wanted) < _CLOSE or at_high == at_low:
            return tried
        step = (wanted - at_high) * (high - low) / (at_high - at_low)
        low, at_low = high, at_high
        high += _between(-_LARGEST_STEP, step, _LARGEST_STEP)
    return shared(state, number, low, None)


_TRIES, _CLOSE, _LARGEST_STEP = 12, 1e-4, 20.0
"""A gap is sought in so many steps, mm, of at most so many degrees."""


def _between(low: float, value: float, high: float) -> float:
    return min(max(value, low), high)
