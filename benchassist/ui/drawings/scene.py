"""What the drawing of the spectacles shows."""

from dataclasses import dataclass

from benchassist.geometry.fault import Faults
from benchassist.geometry.plan import Centration, FrontPlan
from benchassist.geometry.views import NO_FAULTS
from benchassist.verdicts.finding import State


@dataclass(frozen=True, slots=True)
class Mark:
    """One thing to be read, at its place.

    Attributes:
        prompt_id: id of the prompt that asks for it, given back when it is clicked.
        spot: named place on the drawing, such as 'right.distance' or 'bridge'.
        label: a few words.
        state: how it stands; None when it is answered and nothing judges it, or not answered.
        is_active: whether it is being asked for now.
        is_done: whether it is answered.
        is_labelled: whether the label is written beside it; it is spoken all the same.
    """

    prompt_id: str
    spot: str
    label: str
    state: State | None = None
    is_active: bool = False
    is_done: bool = False
    is_labelled: bool = True

    @property
    def shown(self) -> State | None:
        """The state whose mark is painted: to do as long as it is neither done nor judged."""
        return State.MISSING if self.state is None and not self.is_done else self.state

    @property
    def word(self) -> str:
        """The state in a word."""
        return "noted" if self.shown is None else self.shown.word


@dataclass(frozen=True, slots=True)
class Scene:
    """The spectacles, seen one way, with what was read on them.

    Attributes:
        plan: the frame and lenses as ordered.
        view: 'front', 'top', 'side', 'behind' or 'table'.
        marks: the things to be read; those whose spot the view lacks are left out.
        found_right: centration measured on the right lens.
        found_left: centration measured on the left lens.
        hides_ordered: whether ordered distances and heights stay hidden until they are read.
        faults: the measured faults to draw, all enlarged by one factor.
    """

    plan: FrontPlan
    view: str = "front"
    marks: tuple[Mark, ...] = ()
    found_right: Centration | None = None
    found_left: Centration | None = None
    hides_ordered: bool = False
    faults: Faults = NO_FAULTS
