"""What is said of how a reading is taken, and of what it comes to."""

from benchassist.guide.answers import answer_to
from benchassist.guide.prompts import Kind, Prompt
from benchassist.job.document import Job
from benchassist.job.order import PolarPrism
from benchassist.records.words import prism_text
from benchassist.verdicts.near import Proposal


def surface_words(proposed: Proposal | None, *, hides_order: bool) -> str:
    """Which surface belongs on the stop and why; empty where none is proposed.

    The reason tells the order, so that `hides_order` leaves it out.
    """
    if proposed is None:
        return ""
    if hides_order:
        return f"Take both readings with the {proposed.surface.value} surface on the stop."
    return proposed.reason


def direction_words(job: Job, prompt: Prompt) -> str:
    """Prism read as a direction, in and out and up and down for its eye; else empty."""
    readings = answer_to(job, prompt) if prompt.kind is Kind.PRISM and prompt.eye else ()
    if not readings or prompt.eye is None or not isinstance(readings[-1].prism, PolarPrism):
        return ""
    return f"Read  {prism_text(readings[-1].prism, prompt.eye)}"
