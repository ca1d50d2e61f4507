"""What somebody typed into a number field, read as the trade writes numbers."""

from dataclasses import dataclass, replace
from decimal import Decimal, InvalidOperation

from benchassist.job.instrument import as_shown, exact_of

MINUS = "−"
_EIGHTH = Decimal("0.125")
_EIGHTHS = {"12": "125", "37": "375", "62": "625", "87": "875"}
_HUNDREDTHS = 3
"""Digits from which a bare number is read in hundredths."""

_BARE_FRACTIONS = frozenset({"25", "37", "50", "62", "75", "87"})


@dataclass(frozen=True, slots=True)
class NumberSpec:
    """What a number field takes.

    Attributes:
        label: what the person sees above the field.
        unit: 'D', 'Δ', 'mm', '°' or ''.
        low: smallest value taken, in `unit`.
        high: largest value taken, in `unit`.
        places: decimal places shown and kept; further places are a problem.
        is_signed: the value may be negative, and its sign is always shown.
        is_power: digits without a separator are hundredths: 225 is 2.25, 50 is 0.50.
        in_eighths: .12 .37 .62 .87 stand for the eighths 0.125 0.375 0.625 0.875.
        step: the step, D, of a display that shows it cut to two places: in steps of 0.0625
            .06 stands for 0.0625 and .18 for 0.1875; None where figures are exact.
        is_axis: zero is refused with the sentence that the trade writes 180.
        bases: the words of a prism component's two bases, positive first; a number
            other than zero needs one of them, or its first letter: '1.5 in', '2d'.
        description: what a screen reader adds to the label.
    """

    label: str
    unit: str
    low: Decimal
    high: Decimal
    places: int = 2
    is_signed: bool = False
    is_power: bool = False
    in_eighths: bool = False
    step: Decimal | None = None
    is_axis: bool = False
    bases: tuple[str, str] | None = None
    description: str = ""


@dataclass(frozen=True, slots=True)
class Parsed:
    """A value, or the sentence that says what is wrong; both empty for no text."""

    value: Decimal | None = None
    problem: str = ""


def parse(text: str, spec: NumberSpec) -> Parsed:
    """What the text means: decimal comma or point, sign before or after, trade shorthand."""
    plain = text.strip().replace(MINUS, "-").replace("–", "-").replace(",", ".")
    plain = plain.removesuffix(spec.unit).strip() if spec.unit else plain
    if not plain:
        return Parsed()
    if spec.bases:
        return _with_base(plain, spec, spec.bases)
    return _number(plain, text, spec)


def _with_base(plain: str, spec: NumberSpec, bases: tuple[str, str]) -> Parsed:
    """A prism component: an amount and the word of its base."""
    digits = plain.rstrip("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ ")
    word = plain[len(digits) :].strip().lower()
    parsed = _number(digits, plain, replace(spec, bases=None))
    if not parsed.value:
        return parsed
    if parsed.value < 0 and word:
        amount = digits.strip("+- ")
        choice = f"{amount} {bases[0]} or {amount} {bases[1]}"
        return Parsed(problem=f"Give the amount without a sign: {choice}.")
    for base, sign in zip(bases, (1, -1), strict=True):
        if word and base.startswith(word):
            return Parsed(value=sign * parsed.value)
    return Parsed(
        problem=f"Say where the base lies: {digits} {bases[0]} or {digits} {bases[1]}."
    )


def _number(plain: str, text: str, spec: NumberSpec) -> Parsed:
    negative = plain.startswith("-") or plain.endswith("-")
    digits = plain.strip("+- ")
    if not _is_plain_number(digits) or plain.count("-") + plain.count("+") > 1:
        return Parsed(problem=f"{text.strip()} is not a number. Type it like {_example(spec)}.")
    try:
        size = Decimal(_expanded(digits, spec))
    except InvalidOperation:
        return Parsed(problem=f"{text.strip()} is not a number. Type it like {_example(spec)}.")
    if spec.step is not None:
        size = exact_of(size, spec.step)
    return _checked(-size if negative and size else size, spec)


def _is_plain_number(digits: str) -> bool:
    return digits.isascii() and digits.replace(".", "", 1).isdigit()


def _expanded(digits: str, spec: NumberSpec) -> str:
    """The digits with the trade's shorthand written out."""
    is_bare = spec.is_power and "." not in digits
    if is_bare and (len(digits) >= _HUNDREDTHS or digits in _BARE_FRACTIONS):
        digits = f"{digits[:-2] or '0'}.{digits[-2:]}"
    whole, dot, fraction = digits.partition(".")
    if spec.in_eighths and dot:
        fraction = _EIGHTHS.get(fraction, fraction)
    return f"{whole or '0'}.{fraction}" if fraction else whole or "0"


def _checked(value: Decimal, spec: NumberSpec) -> Parsed:
    if spec.is_axis and value == 0:
        return Parsed(problem="An axis of 0 is written 180.")
    if not spec.low <= value <= spec.high:
        return Parsed(problem=_range_sentence(spec))
    in_steps = spec.in_eighths and value % _EIGHTH == 0
    if spec.step is not None:
        in_steps = in_steps or value % spec.step == 0
    if not in_steps and value != value.quantize(Decimal(1).scaleb(-spec.places)):
        return Parsed(problem=f"At most {spec.places} decimal places here.")
    return Parsed(value=value)


def _range_sentence(spec: NumberSpec) -> str:
    low, high = plain_text(spec.low, spec), plain_text(spec.high, spec)
    unit = f" {spec.unit}" if spec.unit not in {"", "°"} else spec.unit
    return f"{spec.label} lies from {low} to {high}{unit}."


def _example(spec: NumberSpec) -> str:
    if spec.bases:
        return f"1.50 {spec.bases[0]}"
    if spec.is_power:
        return f"{MINUS}2.25" if spec.is_signed else "2.25"
    return "165" if spec.is_axis else "31.5"


def _two_places(size: Decimal) -> str:
    """Two places, the rest of a sixteenth cut off; a third place of others is shown."""
    digits = f"{as_shown(size):.3f}"
    return digits.removesuffix("0")


def plain_text(value: Decimal, spec: NumberSpec) -> str:
    """The value as its field shows it: powers to two places, the rest of a sixteenth cut."""
    size = abs(value)
    if spec.bases and value:
        return f"{_two_places(size)} {spec.bases[0] if value > 0 else spec.bases[1]}"
    if spec.is_power:
        sign = MINUS if value < 0 else ("+" if spec.is_signed else "")
        return f"{sign}{_two_places(size)}"
    shown = f"{size:.{spec.places}f}".rstrip("0").rstrip(".") if spec.places else f"{size:.0f}"
    return f"{MINUS if value < 0 else ''}{shown or '0'}"
