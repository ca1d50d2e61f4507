"""A hand that bends a simulated frame: about as far as it means to, and a little elsewhere."""

from dataclasses import dataclass

import numpy as np

from benchassist.geometry.frame_state import FrameState
from benchassist.optics.eye import Eye

ASSUMPTIONS = """\
Assumed of the hand, all of it our own:
- it bends 0.95 times what it means to, with a standard deviation of 0.12 of it;
- whatever it bends, every other number of the same place (bridge, endpiece, tip) moves by a
  share of the bend that is normal about zero with a standard deviation of 0.05, in mm or
  degrees alike."""

_REACH, _SPREAD, _CROSS_TALK = 0.95, 0.12, 0.05

_PLACES = (
    ("skew_step", "x_ing", "plane_step", "form"),
    ("open_angle", "pantoscopic"),
    ("bend_start", "drop"),
    ("lens_turn",),
)
"""The numbers that one grip reaches."""


@dataclass(frozen=True, slots=True)
class Hand:
    """A hand with its own tremor."""

    random: np.random.Generator

    def bent(
        self, state: FrameState, number: str, change: float, side: Eye | None
    ) -> FrameState:
        """The frame after it was bent.

        Args:
            state: the frame before.
            number: what is meant to change, as `FrameState` names it; 'form' is that of both
                halves together.
            change: by how much, mm or degrees.
            side: on which side; None for the bridge.
        """
        place = next(place for place in _PLACES if number in place)
        result = changed(state, number, change * self.random.normal(_REACH, _SPREAD), side)
        for other in place:
            if other != number:
                astray = change * self.random.normal(0.0, _CROSS_TALK)
                result = changed(result, other, astray, side)
        return result


def changed(state: FrameState, number: str, change: float, side: Eye | None) -> FrameState:
    """The frame with one of its numbers changed by so much."""
    if side is not None:
        return state.with_side(side, **{number: getattr(state.side(side), number) + change})
    bridge = state.bridge
    if number == "form":
        half = change / 2.0
        return state.with_bridge(
            form_right=bridge.form_right + half, form_left=bridge.form_left + half
        )
    return state.with_bridge(**{number: getattr(bridge, number) + change})
