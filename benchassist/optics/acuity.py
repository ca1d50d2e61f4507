"""Lines of charts and cards as sizes that can be compared.

Notations: a fraction of distances ('6/9', '20/30'), a decimal ('0.8'), 'logMAR 0.1', and for
cards 'N5' in points, 'M 0.5' or '0.5 M' in M units, 'J2' and 'P2' by number. Missed or added
letters behind a line ('6/9-2', '6/6+', '0.8p') do not make it another line; 'J1+' is the line
below J1.
"""

import re
from dataclasses import dataclass
from math import log10

_LETTERS = r"\s*(?:[+\-]\s*\d{0,2}|p+)?"
_NUMBER = r"(\d+(?:[.,]\d+)?)"
_SAME = 0.01
"""Nearer than so many log units two lines are the same: 6/7.5 and 0.8. Own choice."""

_ANGLES = (-0.5, 2.5)
"""Common logarithms of the angles that charts have, from 6/2 to about 1/300. Own choice."""

_PRINTS = {"N": (2.0, 120.0), "M": (0.1, 20.0), "J": (1.0, 20.0), "P": (1.0, 20.0)}
"""The smallest and largest line that cards have, by their letter. Own choice."""

_WITHOUT_CHART = frozenset(
    {
        *("cf", "counts fingers", "hm", "hand movements", "lp", "pl", "light perception"),
        *("npl", "nlp", "no light perception"),
    }
)
"""What is written of an eye that reads no chart. Common practice, no source."""

_CARD = {"n": "N", "m": "M", "j": "J", "p": "P"}
_HALF_LINE = 0.5
"""By how much 'J1+' comes before 'J1', in numbers of the card."""

_BY_NUMBER = frozenset("JP")
"""Notations whose numbers are names and no sizes; larger ones are larger print."""


@dataclass(frozen=True, slots=True)
class LineSize:
    """How large a line is.

    Attributes:
        notation: 'chart' for every notation of an angle, else the letter of the card.
        size: common logarithm of the size, or the number of the line; larger is worse.
    """

    notation: str
    size: float


def line_size(text: str) -> LineSize | None:
    """The size of a line as written; None for what is no line.

    A fraction is the test distance over that at which the line is 5 minutes tall, so the
    angle is its inverse, and a decimal is the fraction divided out; logMAR is the logarithm
    of the angle. Source: the definitions of visual acuity notations, from memory.
    """
    written = text.strip().casefold().replace("\N{MINUS SIGN}", "-")
    if found := re.fullmatch(rf"{_NUMBER}\s*/\s*{_NUMBER}{_LETTERS}", written):
        near, far = map(_value, found.groups())
        return _on_chart(log10(far / near)) if near and far else None
    if found := re.fullmatch(rf"logmar\s*([+-]?){_NUMBER}|([+-]?){_NUMBER}\s*logmar", written):
        before, first, after, second = found.groups()
        size = _value(first or second)
        return _on_chart(-size if "-" in {before, after} else size)
    if found := re.fullmatch(rf"{_NUMBER}{_LETTERS}", written):
        decimal = _value(found.group(1))
        return _on_chart(-log10(decimal)) if decimal else None
    if found := re.fullmatch(rf"([nmjp])\.?\s*{_NUMBER}{_LETTERS}", written):
        finer = _HALF_LINE if written.endswith("+") else 0.0
        return _on_card(found.group(1), found.group(2), finer)
    found = re.fullmatch(rf"{_NUMBER}\s*(m)", written)
    return _on_card(found.group(2), found.group(1)) if found else None


def is_known(text: str) -> bool:
    """Whether it says what an eye read, or that it reads no chart: 'N5', '6/9-2', 'CF'."""
    return line_size(text) is not None or text.strip().casefold() in _WITHOUT_CHART


def lines_worse(read: str, expected: str) -> float | None:
    """By how much the line read is larger than the one expected; None if not comparable.

    Positive is worse, negative better, 0 the same line; in log units, or in numbers of the
    card where its lines are only named.
    """
    one, other = line_size(read), line_size(expected)
    if one is None or other is None or one.notation != other.notation:
        return None
    worse = one.size - other.size
    return 0.0 if abs(worse) < _SAME else worse


def _on_chart(angle: float) -> LineSize | None:
    """A line by the logarithm of its angle; None where no chart has such a line."""
    smallest, largest = _ANGLES
    return LineSize("chart", angle) if smallest <= angle <= largest else None


def _on_card(letter: str, number: str, finer: float = 0.0) -> LineSize | None:
    """A line of a card; None where no card has it. `finer` only counts for lines by number."""
    notation, size = _CARD[letter], _value(number)
    smallest, largest = _PRINTS[notation]
    if not smallest <= size <= largest:
        return None
    return LineSize(notation, size - finer if notation in _BY_NUMBER else log10(size))


def _value(number: str) -> float:
    return float(number.replace(",", "."))
