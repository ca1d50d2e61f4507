"""What is offered: one lens or pair that would fit, and all slips that give it."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from benchassist.optics.eye import Eye
from benchassist.verdicts.diagnose.lens import Quantity
from benchassist.verdicts.diagnose.slip import PAIR, Slip
from benchassist.verdicts.diagnose.stand_in import Change
from benchassist.verdicts.exact import ExactPrism, MinusForm
from benchassist.verdicts.words import (
    millimetres,
    power,
    prism,
    signed_dioptres,
)

Signature = tuple[Change, ...]
"""The values that a slip changes, by which slips that give the same lens are known."""


@dataclass(frozen=True, slots=True)
class Suspicion:
    """One way in which a slip would explain what is outside: a question, never a cause.

    Attributes:
        id: id of the simplest slip that gives this lens.
        slips: ids of all slips that give it, the simplest first.
        names: the same slips in words; nothing at the meter tells them apart.
        scope: 'pair', or the eye whose lens alone is concerned.
        question: what to ask or look at, to tell these slips from one another and from others.
        explains: keys of the findings outside that it would explain.
        reading_would_be: what would have been read, in words with units.
        rank: place of the simplest slip among all that are looked for; lower is simpler.
    """

    id: str
    slips: tuple[str, ...]
    names: tuple[str, ...]
    scope: Literal["pair"] | Eye
    question: str
    explains: tuple[str, ...]
    reading_would_be: str
    rank: int


@dataclass(frozen=True, slots=True)
class Fit:
    """One slip that fits.

    Attributes:
        slip: which.
        rank: its place among all slips.
        details: which ways it went, in words; empty where it needs none.
        signature: what it changes.
        explains: keys of the findings outside that it would explain.
    """

    slip: Slip
    rank: int
    details: tuple[str, ...]
    signature: Signature
    explains: tuple[str, ...]

    @property
    def name(self) -> str:
        """What happened, in words."""
        details = "; ".join(dict.fromkeys(filter(None, self.details)))
        return f"{self.slip.name} ({details})" if details else self.slip.name


def suspicion_of(fits: Sequence[Fit]) -> Suspicion:
    """One suspicion from all slips that give the same lens."""
    fits = sorted(fits, key=lambda fit: fit.rank)
    first = fits[0]
    return Suspicion(
        id=first.slip.id,
        slips=_once(fit.slip.id for fit in fits),
        names=_once(fit.name for fit in fits),
        scope=scope_of(first.signature),
        question=" ".join(_once(fit.slip.question for fit in fits)),
        explains=first.explains,
        reading_would_be=in_words(first.signature),
        rank=first.rank,
    )


def _once(words: Iterable[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(words))


def scope_of(signature: Signature) -> Literal["pair"] | Eye:
    """The eye whose lens alone is changed, or 'pair'."""
    eyes = {eye for eye, _, _ in signature}
    return eyes.pop() if len(eyes) == 1 else PAIR


def in_words(signature: Signature) -> str:
    """What would be read: 'right −1.50 −2.25 × 15, addition +2.00 D; left −2.00 D'."""
    lenses = []
    for eye in Eye:
        values = [_value(quantity, value) for side, quantity, value in signature if side is eye]
        if values:
            lenses.append(f"{eye} {', '.join(values)}")
    return "; ".join(lenses)


_NAMES: dict[Quantity, str] = {
    "add": "addition",
    "engraved": "engraved addition",
    "prism": "prism",
    "pd": "centration distance",
    "near_pd": "near distance",
    "height": "height",
}


def _value(quantity: Quantity, value: MinusForm | ExactPrism | Decimal) -> str:
    if isinstance(value, MinusForm):
        written = power(value.sphere, value.cylinder, value.axis)
        return written if value.cylinder else f"{written} D"
    if isinstance(value, ExactPrism):
        return f"prism {prism(value.base_in, value.base_up)}"
    if quantity == "cross_up":
        way = "high" if value > 0 else "low"
        return f"fitting cross {millimetres(abs(value))} too {way}"
    unit = signed_dioptres if quantity in {"add", "engraved"} else millimetres
    return f"{_NAMES[quantity]} {unit(value)}"
