"""One direction of prism imbalance beside its limits, in prism or in millimetres."""

from dataclasses import dataclass, replace
from decimal import Decimal

from benchassist.limits.rule import Limit
from benchassist.limits.table import Band, Row
from benchassist.verdicts.exact import ZERO
from benchassist.verdicts.finding import WORST_FIRST, Finding
from benchassist.verdicts.trust import Trust
from benchassist.verdicts.weigh import Subject, Value
from benchassist.verdicts.words import limit_size, size_beside


@dataclass(frozen=True, slots=True)
class Sides:
    """A quantity of the right and of the left lens."""

    right: Decimal
    left: Decimal

    @property
    def largest(self) -> Decimal:
        """The larger of the two sizes."""
        return max(abs(self.right), abs(self.left))


@dataclass(frozen=True, slots=True)
class Imbalance:
    """One direction of the pair's imbalance, ordered prism removed.

    Attributes:
        ordered: net prism ordered, prism dioptres.
        found: net prism found.
        per_lens: what is left of each lens after its ordered prism, prism dioptres; vertically
            without what thins both lenses alike.
        powers: each lens's power in that meridian, D.
        prism_ordered: the larger ordered component of the two lenses.
        total_mm: displacement behind it for the pair, mm; None where it cannot be told.
        each_mm: the larger displacement of the two lenses; None where it cannot be told.
        in_prism: how far the net prism can be trusted.
        in_mm: how far the displacement can be trusted.
        opening: the sentence up to what was found and ordered.
        excess: the difference in words, such as '0.80 Δ base in too much'.
        is_told: whether the opening holds an explanation to be shown even where all is within.
    """

    ordered: Decimal
    found: Decimal
    per_lens: Sides
    powers: Sides
    prism_ordered: Decimal
    total_mm: Decimal | None
    each_mm: Decimal | None
    in_prism: Trust
    in_mm: Trust
    opening: str
    excess: str
    is_told: bool = False


def displacement(prism: Decimal, power: Decimal) -> Decimal | None:
    """The decentration in mm that causes a prism by Prentice's rule; None without power."""
    if not prism:
        return ZERO
    if not power:
        return None
    return abs((10 * prism / power).quantize(Decimal("0.000001")))


def judge_imbalance(subject: Subject, row: Row, imbalance: Imbalance) -> Finding:
    """The finding of one direction.

    A row with `either` passes when the prism is within its limit or the displacement within
    its own: the cell that the power chooses speaks first, another one only when it is kinder.
    """
    looked_up = {"power": imbalance.powers.largest, "prism": imbalance.prism_ordered}
    chosen = row.band(looked_up)
    bands = (chosen, *(band for band in row.bands if row.either and band is not chosen))
    verdicts = []
    for band in bands:
        limit, size = band.limit(looked_up), _size(band, imbalance)
        if limit is not None and size is not None:
            value, trust, said = _told(imbalance, limit, size)
            caution = _caution(row, imbalance, limit) if abs(size) <= limit.value else ""
            told = replace(
                value,
                remark=_or_else(row, limit) + caution,
                is_told=bool(caution) or imbalance.is_told,
            )
            verdicts.append(subject.weighed(told, limit, trust, f"{imbalance.opening}: {said}"))
    if not verdicts:
        return subject.none(f"{imbalance.opening}; lenses without power have no displacement.")
    return max(verdicts, key=lambda finding: WORST_FIRST.index(finding.state))


def _size(band: Band, imbalance: Imbalance) -> Decimal | None:
    """The size that a cell bounds: prism, or the displacement of the pair or of each lens."""
    if band.unit != "mm":
        return imbalance.found - imbalance.ordered
    return imbalance.each_mm if band.each else imbalance.total_mm


def _told(imbalance: Imbalance, limit: Limit, size: Decimal) -> tuple[Value, Trust, str]:
    """The numbers in the limit's unit, how far to trust them, and the difference said."""
    if limit.unit == "mm":
        moved = f"{imbalance.excess}, {size_beside(size, limit.value, 'mm')} of displacement"
        return Value(found=size, difference=size, unit="mm", sign=""), imbalance.in_mm, moved
    value = Value(imbalance.ordered, imbalance.found, size, limit.unit, sign="")
    return value, imbalance.in_prism, imbalance.excess


def _or_else(row: Row, limit: Limit) -> str:
    """The other limits of a row of which one is enough."""
    if not row.either:
        return ""
    others = [
        f"{limit_size(band.base, band.unit)}{' each lens' if band.each else ''}"
        for band in row.bands
        if band.base is not None and band.unit != limit.unit
    ]
    return f" (or {' or '.join(others)})" if others else ""


def _caution(row: Row, imbalance: Imbalance, limit: Limit) -> str:
    """The caution for a pair whose imbalance lies in one lens, or cancels between the two.

    One lens is compared with the figure of the row, and where that has none with the limit of
    the pair (own proposal): errors that cancel leave the pair within and both lenses wrong.
    """
    most, unit = row.one_lens or limit.value, "Δ" if row.one_lens else limit.unit
    alone = imbalance.each_mm if unit == "mm" else imbalance.per_lens.largest
    if alone is None or alone <= most:
        return ""
    verb = "is off by" if unit == "mm" else "carries"
    carried = size_beside(alone, most, unit)
    return f"; caution, one lens alone {verb} {carried}, more than {limit_size(most, unit)}"


def mm_per_prism(power: Decimal) -> float:
    """The displacement that one prism dioptre amounts to, mm; none without power."""
    return 10.0 / float(power) if power else 0.0
