"""Numbers as the trade writes them: true minus sign, two decimals, units, base words."""

from decimal import ROUND_HALF_UP, Decimal

MINUS = "\N{MINUS SIGN}"
TIMES = "\N{MULTIPLICATION SIGN}"
DEGREE = "°"
PRISM = "Δ"
PERCENT = "%"
MINUTES = "min"

_EIGHTH = Decimal("0.125")
_TENTH = Decimal("0.1")
_HUNDREDTH = Decimal("0.01")
_MILLIONTH = Decimal("0.000001")
_FINEST = 6
"""So many decimals a reckoned number has at most."""


def plain(value: Decimal, places: int = 2) -> str:
    """The size of a number with so many decimals, without a sign.

    Eighths of a dioptre are cut and not rounded, as the trade writes them: 0.125 is 0.12.
    """
    size = abs(value)
    if places == 2 and size % _EIGHTH == 0:  # noqa: PLR2004  (0.125 ends after two decimals)
        return str((size // _HUNDREDTH * _HUNDREDTH).quantize(_HUNDREDTH))
    return str(size.quantize(Decimal(1).scaleb(-places), rounding=ROUND_HALF_UP))


def signed(value: Decimal, places: int = 2) -> str:
    """A number with its sign, plus or true minus; nothing before zero."""
    digits = plain(value, places)
    if not Decimal(digits):
        return digits
    return f"{MINUS if value < 0 else '+'}{digits}"


def trimmed(value: Decimal) -> str:
    """The size of a number with as many decimals as it has, at most six, no trailing zeros."""
    return f"{abs(value).quantize(_MILLIONTH).normalize():f}"


def dioptres(value: Decimal) -> str:
    """A size in dioptres: '0.25 D'."""
    return f"{plain(value)} D"


def signed_dioptres(value: Decimal) -> str:
    """A power with its sign: '+1.25 D', a true minus for what is below zero."""
    return f"{signed(value)} D"


def tenth(value: Decimal | float) -> Decimal:
    """A reckoned length or angle, as finely as it is told: to a tenth."""
    return Decimal(value).quantize(_TENTH)


def millimetres(value: Decimal) -> str:
    """A length with one decimal, or two where it has two: '31.5 mm'."""
    places = 1 if value == value.quantize(_TENTH) else 2
    sign = MINUS if value < 0 else ""
    return f"{sign}{plain(value, places)} mm"


def degrees(value: Decimal) -> str:
    """An angle, whole where it is whole and otherwise with one decimal: '94°'."""
    places = 0 if value == value.to_integral_value() else 1
    sign = MINUS if value < 0 else ""
    return f"{sign}{plain(value, places)}{DEGREE}"


def size(value: Decimal, unit: str) -> str:
    """The size of a quantity in its unit, without a sign."""
    return _with_unit(_digits(value, unit), unit)


def size_beside(value: Decimal, limit: Decimal, unit: str) -> str:
    """The size of a difference, with more decimals where it would look like its limit.

    Only as many more as tell the two apart: 1.02223 beside 1 is 1.02, and 1.0004 is 1.0004.
    """
    digits = _digits(value, unit)
    shown = Decimal(_digits(limit, unit))
    if Decimal(digits) != shown or abs(value) == limit:
        return _with_unit(digits, unit)
    usual = len(digits.partition(".")[2])
    for places in range(usual + 1, _FINEST):
        finer = str(abs(value).quantize(Decimal(1).scaleb(-places), rounding=ROUND_HALF_UP))
        if Decimal(finer) not in {shown, limit}:
            return _with_unit(finer, unit)
    return _with_unit(trimmed(value), unit)


def limit_size(limit: Decimal, unit: str) -> str:
    """A limit with all its decimals: '0.135 D', '1.0 mm', '14°'."""
    if limit == limit.quantize(_HUNDREDTH):
        return size(limit, unit)
    return _with_unit(trimmed(limit), unit)


def shows(value: Decimal, unit: str) -> bool:
    """Whether a size is still there when it is written with its usual decimals."""
    return bool(Decimal(_digits(value, unit)))


def prism_amount(value: Decimal) -> str:
    """A size in prism dioptres: '0.50 Δ'."""
    return f"{plain(value)} {PRISM}"


def horizontal_prism(base_in: Decimal) -> str:
    """A horizontal component with its base: '0.50 Δ base out'; 'none' for zero."""
    return _based(base_in, "base in", "base out")


def vertical_prism(base_up: Decimal) -> str:
    """A vertical component of one lens with its base: '0.50 Δ base up'; 'none' for zero."""
    return _based(base_up, "base up", "base down")


def vertical_imbalance(right_up: Decimal) -> str:
    """The right lens's base up beyond the left's: '0.50 Δ base up right'; 'none' for zero."""
    return _based(right_up, "base up right", "base down right")


def prism(base_in: Decimal, base_up: Decimal) -> str:
    """Both components: '0.50 Δ base in, 0.25 Δ base up'; 'none' where both are zero."""
    parts = [
        part for part in (horizontal_prism(base_in), vertical_prism(base_up)) if part != "none"
    ]
    return ", ".join(parts) or "none"


def power(sphere: Decimal, cylinder: Decimal | None = None, axis: Decimal | None = None) -> str:
    """A power on one line: sphere, cylinder, times sign, axis; the sphere alone without one."""
    if not cylinder:
        return signed(sphere)
    direction = degrees(axis).removesuffix(DEGREE) if axis is not None else "?"
    return f"{signed(sphere)} {signed(cylinder)} {TIMES} {direction}"


def listed(names: tuple[str, ...]) -> str:
    """Names as one reads them out: 'a, b and c'."""
    if len(names) < 2:  # noqa: PLR2004  (one name needs no 'and')
        return "".join(names)
    return f"{', '.join(names[:-1])} and {names[-1]}"


def _based(value: Decimal, positive: str, negative: str) -> str:
    if not Decimal(plain(value)):
        return "none"
    return f"{prism_amount(value)} {positive if value > 0 else negative}"


def _digits(value: Decimal, unit: str) -> str:
    if unit == "mm":
        return millimetres(abs(value)).removesuffix(" mm")
    if unit == DEGREE:
        return degrees(abs(value)).removesuffix(DEGREE)
    if unit == MINUTES:
        return trimmed(value)
    return plain(value, 1) if unit == PERCENT else plain(value)


def _with_unit(digits: str, unit: str) -> str:
    return f"{digits}{unit}" if unit == DEGREE else f"{digits} {unit}".strip()
