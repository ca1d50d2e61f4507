"""Defects between the job, the input that takes them and the drawing that shows them."""

from collections.abc import Callable

from benchassist.geometry.zones import LensPlace
from benchassist.guide.flow import Standing
from benchassist.guide.prompts import Prompt, StepId
from benchassist.job.plan import front_plan
from benchassist.job.surface import Defect
from benchassist.ui.drawings.places import Blemish, Blemishes
from benchassist.ui.drawings.spectacles import SpectaclesDrawing
from benchassist.ui.inputs.defects import DefectsInput
from benchassist.verdicts.finding import State
from benchassist.verdicts.surface import defect_words, list_words


def show_defects(
    asked: object, drawing: SpectaclesDrawing, standing: Standing, prompt: Prompt
) -> None:
    """Shows the defects on the drawing, and in the input where the prompt takes places.

    Args:
        asked: the input of the prompt.
        drawing: the spectacles.
        standing: where the job stands.
        prompt: what is asked; outside the step of the surfaces no defect is shown.
    """
    order, defects = standing.job.order, standing.job.now.surface.defects
    words = tuple(defect_words(order, defect) for defect in defects)
    if isinstance(asked, DefectsInput):
        listed = tuple(list_words(order, defect) for defect in defects)
        asked.show_places(front_plan(order), defects, listed)
    states = _states(standing)
    found = tuple(
        Blemish(_place(defect), number, states.get(number, State.NONE), words[number - 1])
        for number, defect in enumerate(defects, start=1)
    )
    drawing.set_blemishes(
        Blemishes(
            defects=found if prompt.step is StepId.SURFACE else (),
            takes_places=prompt.has_places,
        )
    )
    if isinstance(asked, DefectsInput):
        _point_out(asked, drawing)


def join(
    asked: DefectsInput, drawing: SpectaclesDrawing, take: Callable[[tuple[Defect, ...]], None]
) -> None:
    """Lets clicks on the drawing mark defects in an input, and tells `take` all defects."""
    asked.defects_changed.connect(take)
    asked.cursor_moved.connect(lambda: _point_out(asked, drawing))
    drawing.place_clicked.connect(asked.take_place)


def _point_out(asked: DefectsInput, drawing: SpectaclesDrawing) -> None:
    """Shows on the drawing where the keys are and which defect is described."""
    if not asked.isHidden():
        drawing.point_out(asked.pointer, asked.chosen)


def _states(standing: Standing) -> dict[int, State]:
    """How each defect is judged, by its number, the last part of the finding's key."""
    ends = ((one.key.rpartition("."), one.state) for one in standing.findings)
    return {
        int(name): state
        for (step, _, name), state in ends
        if step.startswith(f"{StepId.SURFACE}.") and name.isdecimal()
    }


def _place(defect: Defect) -> LensPlace:
    return LensPlace(defect.eye, float(defect.across), float(defect.up))
