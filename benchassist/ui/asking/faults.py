"""The measured faults of the bench, as the drawing of the frame takes them."""

from benchassist.geometry.fault import Faults
from benchassist.guide.flow import PromptStanding, Standing
from benchassist.guide.prompts import Prompt, StepId
from benchassist.records.frame_faults import faults_before, faults_now


def faults_for(standing: Standing, prompt: Prompt) -> Faults:
    """All that is measured on the bench and counts, with what the prompt found pointed out.

    Where the prompt was corrected and measured before and after, both are drawn.
    """
    if prompt.step is not StepId.BENCH:
        return Faults()
    asked = standing.prompt(prompt.id)
    others = [one for one in standing.step(StepId.BENCH).prompts if one is not asked]
    ordered: list[PromptStanding] = [asked, *others] if asked else others
    found = tuple(fault for one in ordered for fault in faults_now(standing.job, one))
    before = faults_before(standing.job, prompt)
    return Faults(found, prompt.name, before if asked and asked.is_done else None)
