"""Questions about an order that looks unlikely; a person confirms, nothing is changed."""

from dataclasses import replace

from benchassist.job.order import Order
from benchassist.verdicts.doubtful_layout import LAYOUT_DOUBTS
from benchassist.verdicts.doubtful_lenses import LENS_DOUBTS
from benchassist.verdicts.question import Question

__all__ = ["Question", "questions"]


def questions(order: Order) -> tuple[Question, ...]:
    """The questions about an order, those already confirmed flagged.

    The bounds are common practice without a source: they ask, they never refuse.
    """
    doubts = (*LENS_DOUBTS, *LAYOUT_DOUBTS)
    asked = (question for doubt in doubts for question in doubt(order))
    return tuple(
        replace(question, is_confirmed=question.id in order.confirmed) for question in asked
    )
