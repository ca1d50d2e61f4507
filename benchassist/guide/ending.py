"""Whether a job is ready for the outcome that somebody chose."""

from benchassist.guide.flow import Standing
from benchassist.guide.prompts import Kind
from benchassist.job.signoff import Outcome


def not_ready(standing: Standing) -> str | None:
    """None when the chosen outcome can be signed, else the sentence that says what is missing.

    A release needs every prompt before the record answered or skipped, and a plain release
    nothing outside; every other outcome needs a reason.
    """
    signoff = standing.job.now.signoff
    if signoff.outcome is None:
        return "Choose first what becomes of the pair."
    if signoff.outcome is not Outcome.RELEASE and not signoff.reason:
        return f"Say why: '{signoff.outcome}' needs a reason."
    if signoff.outcome in {Outcome.RETURN, Outcome.HOLD}:
        return None
    if not _is_known(standing):
        return "A pair is released only with its order entered and both powers read."
    if standing.todo:
        still = "prompt is" if standing.todo == 1 else "prompts are"
        it = "it" if standing.todo == 1 else "each"
        return (
            f"{standing.todo} {still} still to do. Answer {it}, or mark {it} not applicable, "
            "with a reason."
        )
    if standing.outside and signoff.outcome is Outcome.RELEASE:
        return (
            f"{len(standing.outside)} outside the limit. Accept the deviation with a reason, "
            "or return the pair to the lab."
        )
    return None


def _is_known(standing: Standing) -> bool:
    """Whether what was ordered and the distance powers are there, and not merely skipped."""
    needed = {Kind.FORM, Kind.POWER}
    asked = [item for item in standing.prompts if item.prompt.kind in needed]
    return all(item.is_done and not item.is_skipped for item in asked)
