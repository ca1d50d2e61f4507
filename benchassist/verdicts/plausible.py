"""Questions about an order that looks unlikely; a person confirms, nothing is changed."""

from dataclasses import replace

from benchassist.job.order import Order
from benchassist.verdicts.doubtful_layout import LAYOUT_DOUBTS
from benchassist.verdicts.doubtful_lenses import LENS_DOUBTS, CylinderForm, written_in
from benchassist.verdicts.question import Question

__all__ = ["CylinderForm", "Question", "questions"]


def questions(order: Order, usual: CylinderForm | None = None) -> tuple[Question, ...]:
    """The questions about an order, those already confirmed flagged.

    The bounds are common practice without a source: they ask, they never refuse.

    Args:
        order: the order as far as it is written.
        usual: the cylinder form in which the workshop has its orders written; None when it
            takes both.
    """
    doubts = (*LENS_DOUBTS, *LAYOUT_DOUBTS)
    asked = [question for doubt in doubts for question in doubt(order)]
    if usual is not None:
        asked += written_in(usual, order)
    return tuple(
        replace(question, is_confirmed=question.sentence in order.confirmed)
        for question in asked
    )
