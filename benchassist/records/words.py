"""Words and numbers of the paper."""

from datetime import datetime
from decimal import Decimal

from benchassist.job.order import ComponentPrism, Order, PolarPrism, WrittenPower, WrittenPrism
from benchassist.verdicts import words

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
    """An amount with its unit and a true minus sign; empty when there is none."""
    if value is None:
        return ""
    if unit == "D":
        return words.signed_dioptres(value)
    sign = words.MINUS if value < 0 else ""
    return f"{sign}{words.size(value, unit)}"


def difference(value: Decimal | None, limit: Decimal | None, unit: str) -> str:
    """A difference with its sign, never written like the limit that it passes."""
    if value is None or limit is None:
        return amount(value, unit)
    text = words.size_beside(value, limit, unit)
    if not any(digit in text for digit in "123456789"):
        return text
    return f"{words.MINUS if value < 0 else '+'}{text}"


def limit_amount(value: Decimal | None, unit: str) -> str:
    """A limit as both of its sides, such as '±0.12 D'; empty when there is none."""
    return "" if value is None else f"±{words.limit_size(value, unit)}"


def axis_text(power: WrittenPower) -> str:
    """The axis with its degree sign; empty where the power has none."""
    return "" if power.axis is None else words.degrees(power.axis)


def prism_text(prism: WrittenPrism | None) -> str:
    """Prism with its base, such as '2.00 Δ base in' or '2.06 Δ base 14°'; empty for none."""
    match prism:
        case None:
            return ""
        case PolarPrism():
            return f"{words.prism_amount(prism.amount)} base {words.degrees(prism.base)}"
        case ComponentPrism():
            return words.prism(prism.base_in, prism.base_up)
