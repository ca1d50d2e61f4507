"""Lines of charts and cards as sizes that can be compared.

Notations: a fraction of distances ('6/9', '20/30'), a decimal ('0.8'), 'logMAR 0.1', and for
cards 'N5' in points, 'M 0.5' or '0.5 M' in M units, 'J2' and 'P2' by number. Missed or added
letters behind a line ('6/9-2', '0.8p') do not make it another line.
"""

import re
from dataclasses import dataclass
from math import log10

_LETTERS = r"\s*(?:[+\-\N{MINUS SIGN}]\s*\d{1,2}|p+)?"
_NUMBER = r"(\d+(?:[.,]\d+)?)"
_SAME = 0.01
"""Nearer than so many log units two lines are the same: 6/7.5 and 0.8. Own choice."""

_CARD = {"n": "N", "m": "M", "j": "J", "p": "P"}
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
        return LineSize("chart", log10(far / near)) if near and far else None
    if found := re.fullmatch(rf"logmar\s*(-?){_NUMBER}", written):
        sign, size = found.groups()
        return LineSize("chart", -_value(size) if sign else _value(size))
    if found := re.fullmatch(rf"{_NUMBER}{_LETTERS}", written):
        decimal = _value(found.group(1))
        return LineSize("chart", -log10(decimal)) if decimal else None
    found = re.fullmatch(rf"([nmjp])\.?\s*{_NUMBER}", written)
    if found:
        return _on_card(*found.groups())
    found = re.fullmatch(rf"{_NUMBER}\s*(m)", written)
    return _on_card(found.group(2), found.group(1)) if found else None


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


def _on_card(letter: str, number: str) -> LineSize | None:
    notation, size = _CARD[letter], _value(number)
    if notation in _BY_NUMBER:
        return LineSize(notation, size)
    return LineSize(notation, log10(size)) if size else None


def _value(number: str) -> float:
    return float(number.replace(",", "."))
