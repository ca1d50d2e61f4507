"""Words and numbers of the paper."""

from datetime import datetime
from decimal import Decimal

from benchassist.job.order import ComponentPrism, Order, PolarPrism, WrittenPower, WrittenPrism
from benchassist.optics.eye import Eye
from benchassist.verdicts import words
from benchassist.verdicts.exact import ExactPrism, written_prism

_MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)

_WIDEST = 999
"""The largest share in per cent that fits its column."""


def moment(at: datetime) -> str:
    """A day and a time of day with its offset, alike in every locale."""
    return f"{day(at)}, {clock(at)}"


def day(at: datetime) -> str:
    """A day, such as '3 November 2026'."""
    return f"{at.day} {_MONTHS[at.month - 1]} {at.year}"


def clock(at: datetime) -> str:
    """A time of day with its offset, such as '14:05 UTC' or '14:05 UTC+01:00'."""
    offset = at.strftime("%z")
    zone = f"UTC{offset[:3]}:{offset[3:5]}" if int(offset or 0) else "UTC"
    return f"{at:%H:%M} {zone}"


def plural(number: int, noun: str) -> str:
    """A number and its noun, such as '1 reading' or '3 entries'."""
    many = f"{noun[:-1]}ies" if noun.endswith("y") else f"{noun}s"
    return f"{number} {noun if number == 1 else many}"


def percent(share: Decimal | None) -> str:
    """The share of a limit used, rounded up so that what is outside never reads as 100 %."""
    if share is None:
        return ""
    whole = int((share * 100).to_integral_value(rounding="ROUND_CEILING"))
    return f"{whole} %" if whole <= _WIDEST else f"> {_WIDEST} %"


def lens_words(order: Order) -> str:
    """The lenses in one line: design, material, index, treatments, tint."""
    index = f"n {_at_least_two_places(order.index)}" if order.index else ""
    parts = [
        order.design.value.replace("-", " ") if order.design else "",
        " ".join(text for text in (order.material or "", index) if text),
        *(treatment.value for treatment in order.treatments),
        order.tint,
    ]
    return ", ".join(part for part in parts if part)


def _at_least_two_places(value: Decimal) -> str:
    rounded = value.quantize(Decimal("0.01"))
    return str(rounded) if rounded == value else f"{value.normalize():f}"


def frame_words(order: Order) -> str:
    """The frame in one line: name, material, rim, boxed size."""
    frame = order.frame
    sizes = [words.trimmed(value) for value in (frame.a, frame.dbl) if value]
    size = " □ ".join(sizes) if frame.a and frame.dbl else ""
    parts = (frame.name, frame.material, frame.rim, size)
    return ", ".join(part for part in parts if part)


def amount(value: Decimal | None, unit: str) -> str:
    """An amount with its unit: a power with its sign, anything else with a minus alone."""
    if value is None:
        return ""
    return _with_sign(value, words.size(value, unit), "+" if unit == "D" else "")


def difference(value: Decimal | None, limit: Decimal | None, unit: str) -> str:
    """A difference with its sign, never written like the limit that it passes."""
    if value is None or limit is None:
        return amount(value, unit)
    return _with_sign(value, words.size_beside(value, limit, unit), "+")


def based(value: Decimal | None, bases: tuple[str, str], limit: Decimal | None = None) -> str:
    """Prism of the pair with its base, such as '0.07 Δ in'; 'none' for zero.

    Args:
        value: prism dioptres; empty for none.
        bases: what it is called above zero and below.
        limit: what a difference must not be written like when it passes it.
    """
    if value is None:
        return ""
    size = words.prism_amount(value)
    if limit is not None:
        size = words.size_beside(value, limit, words.PRISM)
    return f"{size} {bases[value < 0]}".rstrip() if _is_more_than_zero(size) else "none"


def _with_sign(value: Decimal, size: str, plus: str) -> str:
    """A size with the sign of its value; none before what is written as zero."""
    if not _is_more_than_zero(size):
        return size
    return f"{words.MINUS if value < 0 else plus}{size}"


def _is_more_than_zero(size: str) -> bool:
    return any(digit in size for digit in "123456789")


def limit_amount(value: Decimal | None, unit: str, sentence: str) -> str:
    """A limit as the sentence beside it has it: '±0.12 D', but '0.67 Δ' where it is a size."""
    if value is None:
        return ""
    bound = words.limit_size(value, unit)
    both_sides = f"±{bound}"
    return both_sides if both_sides in sentence else bound


def axis_text(power: WrittenPower) -> str:
    """The axis with its degree sign; empty where the power has none."""
    return "" if power.axis is None else words.degrees(power.axis)


def prism_text(prism: WrittenPrism | None, eye: Eye) -> str:
    """Prism with its base; empty for none.

    '2.00 Δ base in' as components, '2.06 Δ base 194° (= 2.00 in, 0.50 down)' as a direction.
    """
    match prism:
        case None:
            return ""
        case PolarPrism():
            written = f"{words.prism_amount(prism.amount)} base {words.degrees(prism.base)}"
            parts = ", ".join(prism_parts(written_prism(prism, eye)))
            return f"{written} (= {parts})" if parts else written
        case ComponentPrism():
            return words.prism(prism.base_in, prism.base_up)


def prism_parts(prism: ExactPrism) -> tuple[str, ...]:
    """The components of a prism in few words, such as '2.00 in' and '0.50 down'."""
    parts = (
        (words.plain(prism.base_in), "in" if prism.base_in > 0 else "out"),
        (words.plain(prism.base_up), "up" if prism.base_up > 0 else "down"),
    )
    return tuple(f"{size} {base}" for size, base in parts if Decimal(size))


def ended(text: str) -> str:
    """A text as a sentence: with a full stop, unless a mark ends it already."""
    text = text.rstrip()
    return text if not text or text.endswith((".", "!", "?", "…")) else f"{text}."
