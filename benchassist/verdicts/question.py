"""A question about an order, and how it is put."""

from dataclasses import dataclass

from benchassist.optics.eye import Eye


@dataclass(frozen=True, slots=True)
class Question:
    """One thing about the order to look at again.

    Attributes:
        id: its name, unique within the order.
        eye: the eye it is about; None for the pair or the frame.
        field: path of the field within the order, such as 'right.power.axis'.
        sentence: what to look at, as a question, with the values that raise it; once confirmed
            `Order.confirmed` holds it, so that other values are asked about anew.
        is_confirmed: whether a person has said that it is meant so.
    """

    id: str
    eye: Eye | None
    field: str
    sentence: str
    is_confirmed: bool = False


def about_lens(eye: Eye, name: str, field: str, sentence: str) -> Question:
    """A question about one lens; the field is that within the eye's order."""
    return Question(f"{eye}.{name}", eye, f"{eye}.{field}", f"{eye.capitalize()}: {sentence}")


def about_pair(name: str, field: str, sentence: str) -> Question:
    """A question about both lenses or the frame."""
    return Question(name, None, field, sentence)
