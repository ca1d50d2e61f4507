"""A slip: its name, the question that settles it, and the pair it would give."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Literal

from benchassist.optics.eye import Eye
from benchassist.verdicts.diagnose.lens import Lens, Pair
from benchassist.verdicts.diagnose.sight import Sight

PAIR: Literal["pair"] = "pair"


@dataclass(frozen=True, slots=True)
class Prediction:
    """The pair that a slip would give.

    Attributes:
        pair: both lenses; what the slip leaves alone is as it should be.
        detail: which of several ways the slip was made, in words; may be empty.
    """

    pair: Pair
    detail: str = ""


@dataclass(frozen=True, slots=True)
class Slip:
    """One common slip.

    Attributes:
        id: its plain name, which never changes.
        name: what happened, in words.
        scope: 'pair' where both lenses must be looked at to see it, else 'eye'.
        question: what to ask or look at to tell it from other slips.
        predict: the pairs it would give in a job; none where it cannot have happened.
    """

    id: str
    name: str
    scope: Literal["pair", "eye"]
    question: str
    predict: Callable[[Sight], Iterable[Prediction]]


def on_each_lens(
    change: Callable[[Sight, Eye], Iterable[tuple[Lens, str]]],
) -> Callable[[Sight], Iterable[Prediction]]:
    """A slip made on one lens, right or left."""

    def predict(sight: Sight) -> Iterable[Prediction]:
        for eye in Eye:
            for lens, detail in change(sight, eye):
                yield Prediction(sight.wanted.with_eye(eye, lens), detail)

    return predict


def on_either_or_both(
    change: Callable[[Sight, Eye], Lens | None],
) -> Callable[[Sight], Iterable[Prediction]]:
    """A slip made on one lens or on both, where only the pair is judged."""

    def predict(sight: Sight) -> Iterable[Prediction]:
        right, left = (change(sight, eye) for eye in Eye)
        whole = sight.wanted
        if right and left:
            yield Prediction(Pair(right, left))
        for eye, lens in ((Eye.RIGHT, right), (Eye.LEFT, left)):
            if lens:
                yield Prediction(whole.with_eye(eye, lens))

    return predict
