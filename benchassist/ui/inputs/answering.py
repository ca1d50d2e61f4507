"""Which input takes the answer to a prompt: one match over its kind."""

from decimal import Decimal
from typing import assert_never

from PySide6.QtWidgets import QWidget

from benchassist.guide.answers import ACUITY, TOGETHER
from benchassist.guide.prompts import Kind, Prompt
from benchassist.job.document import Job
from benchassist.ui.inputs import specs
from benchassist.ui.inputs.acuity import AcuityInput
from benchassist.ui.inputs.addition import AdditionInput
from benchassist.ui.inputs.check import CheckInput
from benchassist.ui.inputs.defects import DefectsInput
from benchassist.ui.inputs.distance import DistanceInput
from benchassist.ui.inputs.forms import POWER_FORMS, kind_of, prism_form_of, prism_forms
from benchassist.ui.inputs.layout import LayoutInput
from benchassist.ui.inputs.parsing import NumberSpec
from benchassist.ui.inputs.repeated import RepeatedInput
from benchassist.ui.inputs.single import SingleInput

AnswerInput = RepeatedInput | LayoutInput | SingleInput | CheckInput
"""What takes an answer: value(), set_value(), value_changed, finished, stepped_back."""

DISTANCES = frozenset({"distance_pd", "near_pd"})
"""The readings that are distances from the nose."""

_LAYOUT_SPECS = {
    "distance_pd": specs.millimetre("Distance", "1", "60"),
    "near_pd": specs.millimetre("Distance", "1", "60"),
    "height": specs.millimetre("Height", "0", "80"),
    "tilt": specs.degrees("Tilt", "-45", "45"),
    "thickness": specs.millimetre("Thickness", "0", "30"),
    "base_curve": specs.dioptre("Base curve", limit=25),
    "segment_width": specs.millimetre("Width", "0", "80"),
    "segment_depth": specs.millimetre("Depth", "0", "80"),
}


def layout_spec(prompt: Prompt) -> NumberSpec:
    """The number field of a quantity measured on both lenses."""
    return _LAYOUT_SPECS[prompt.reading]


def cut_steps(job: Job | None, meter: str, step: Decimal | None) -> dict[str, Decimal]:
    """The steps, D, of the displays that cut their figures short, by what readings name.

    Args:
        job: whose readings name meters already; None with no job open.
        meter: what readings name from now on.
        step: its step if it cuts its figures short.
    """
    known = {name: one.cut_step for name, one in job.now.instruments.items()} if job else {}
    return {name: cut for name, cut in {**known, meter: step}.items() if cut is not None}


def answer_input(prompt: Prompt, parent: QWidget | None = None) -> AnswerInput | None:
    """The input for a prompt; None for the order and the record, which are pages."""
    match prompt.kind:
        case Kind.POWER:
            return RepeatedInput(POWER_FORMS, kind_of, parent)
        case Kind.ADDITION:
            return AdditionInput(parent)
        case Kind.PRISM:
            return RepeatedInput(prism_forms(prompt.eye), prism_form_of, parent)
        case Kind.ENGRAVED:
            return SingleInput(specs.addition("Engraved addition", low=-10), parent)
        case Kind.LAYOUT if prompt.reading in DISTANCES:
            may_be_together = prompt.reading == TOGETHER
            return DistanceInput(layout_spec(prompt), parent, may_be_together=may_be_together)
        case Kind.LAYOUT:
            return LayoutInput(layout_spec(prompt), parent)
        case Kind.CHOICE if prompt.reading == ACUITY:
            return AcuityInput(prompt, parent)
        case Kind.CHECK | Kind.CONFIRM | Kind.CHOICE:
            made = DefectsInput if prompt.has_places else CheckInput
            return made(prompt, parent)
        case Kind.FORM | Kind.SIGN:
            return None
        case _:
            assert_never(prompt.kind)
