"""The folded frame seen from behind."""

from benchassist.geometry.bent import made_as
from benchassist.geometry.figure import Figure, Point, Stroke
from benchassist.geometry.frame_state import FrameState, frame_points
from benchassist.geometry.halves import along, halves
from benchassist.geometry.look import seen
from benchassist.geometry.plan import FrontPlan
from benchassist.geometry.solid import Place
from benchassist.optics.eye import Eye

_SHAFT = 100.0
"""How much of a folded shaft is drawn, mm."""


def folded_view(plan: FrontPlan, climb: float) -> Figure:
    """The front with both temples folded, the wearer's left at the left.

    Args:
        plan: the frame.
        climb: degrees by which the folded left temple climbs; the right one lies level.
    """
    state = FrameState.true(made_as(plan)).with_side(Eye.LEFT, fold=climb)
    points = frame_points(state)
    strokes = []
    for half in halves(plan, state):
        strokes.append(seen("lens", half.lens, _from_behind, half.eye, is_closed=True))
        strokes.append(seen("rim-line", half.rim, _from_behind, half.eye, is_closed=True))
    nasal = tuple(_from_behind(half.level[0]) for half in halves(plan, state))
    strokes.append(Stroke("bridge-line", nasal))
    for eye in Eye:
        joint = points.half(eye)
        shaft = (joint.hinge, along(joint.hinge, joint.folded, _SHAFT))
        strokes.append(seen("temple-line", shaft, _from_behind, eye))
    return Figure("behind", tuple(strokes), ())


def _from_behind(place: Place) -> Point:
    return -place[0], place[1]
