"""What the drawing shows for a prompt: where the job stands, as marks on the spectacles."""

from decimal import Decimal

from benchassist.geometry.plan import Centration
from benchassist.guide.flow import PromptStanding, Standing
from benchassist.guide.prompts import Prompt, StepId
from benchassist.job.plan import front_plan
from benchassist.job.readings import EyeLayout
from benchassist.ui.asking.faults import faults_for
from benchassist.ui.drawings.scene import Mark, Scene
from benchassist.verdicts.exact import mean
from benchassist.verdicts.finding import State, worst

_CROWDED = frozenset({StepId.SURFACE, StepId.BENCH, StepId.FIT})
"""Steps with so many marks that their labels would hide the frame."""

_LENSES = (StepId.RIGHT, StepId.LEFT)


def scene_for(standing: Standing, prompt: Prompt, *, hides_order: bool) -> Scene:
    """The spectacles seen as the prompt wants them, with the marks of its step."""
    steps: tuple[StepId, ...] = _LENSES if prompt.step in _LENSES else (prompt.step,)
    if prompt.step is StepId.HANDOVER:
        steps = ()
    shown = [one for step in steps for one in standing.step(step).prompts]
    pair = standing.job.now.pair
    faults = faults_for(standing, prompt)
    if faults.before is not None:
        shown = [one for one in shown if one.prompt.id == prompt.id]
    return Scene(
        plan=front_plan(standing.job.order),
        view=prompt.view,
        marks=tuple(mark for one in shown for mark in _marks(one, prompt)),
        found_right=_found(pair.right),
        found_left=_found(pair.left),
        hides_ordered=hides_order,
        faults=faults,
    )


def _marks(one: PromptStanding, active: Prompt) -> list[Mark]:
    """The marks of a prompt, one at each of its places."""
    return [
        Mark(
            prompt_id=one.prompt.id,
            spot=spot,
            label=one.prompt.title,
            state=_state_at(one, spot) if one.is_done else None,
            is_active=one.prompt.id == active.id,
            is_done=one.is_done,
            is_labelled=_is_labelled(one, active),
        )
        for spot in one.prompt.spots
    ]


def _state_at(one: PromptStanding, spot: str) -> State:
    """The state at one of a prompt's places: what is judged of one lens stands on that lens."""
    if one.prompt.eye is not None:
        return one.state
    here = [
        finding.state
        for finding in one.findings
        if finding.eye is None or spot.startswith(f"{finding.eye}.")
    ]
    return worst(here) if here else one.state


def _is_labelled(one: PromptStanding, active: Prompt) -> bool:
    """On the lens that is read, everything; elsewhere what is asked now and what is out."""
    if one.prompt.id == active.id or one.state in {State.OUTSIDE, State.CLOSE}:
        return True
    return active.step is one.prompt.step and active.step not in _CROWDED


def _found(layout: EyeLayout) -> Centration:
    return Centration(
        distance_pd=_mean(layout.distance_pd),
        near_pd=_mean(layout.near_pd),
        height=_mean(layout.height),
    )


def _mean(values: tuple[Decimal, ...]) -> float | None:
    """The mean of the repeats, as the verdict takes it, mm."""
    return float(mean(values)) if values else None
