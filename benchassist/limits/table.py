"""A table of limits: which row and band holds for an ordered lens."""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal

from benchassist.limits.rule import Limit, Rule


@dataclass(frozen=True, slots=True)
class Span:
    """The values of one looked-up quantity that a band takes, with its edges.

    Attributes:
        of: the quantity looked up: 'power', 'cylinder', 'add' or 'prism'.
        low: lower edge; None when there is none.
        high: upper edge; None when there is none.
        takes_low: whether the lower edge itself belongs to the band.
        takes_high: whether the upper edge itself belongs to the band.
    """

    of: str
    low: Decimal | None = None
    high: Decimal | None = None
    takes_low: bool = False
    takes_high: bool = False

    def holds(self, value: Decimal) -> bool:
        """Whether the band takes this value."""
        if self.low is not None and (
            value < self.low or (value == self.low and not self.takes_low)
        ):
            return False
        return (
            self.high is None or value < self.high or (value == self.high and self.takes_high)
        )


@dataclass(frozen=True, slots=True)
class Band:
    """One cell of a table: for which lenses it holds, and how large the limit is.

    Attributes:
        spans: what the looked-up values must be; none for a limit that holds for all.
        unit: 'D', 'Δ', 'mm' or '°'.
        base: fixed part of the limit; None where the table judges nothing.
        per: what each unit of `of` adds to the limit; a percentage is 0.01 for each per cent.
        of: the looked-up quantity that `per` multiplies; empty for a fixed limit.
        good: what is good without question, below the limit; None where not told apart.
        each: whether a limit for the pair holds for each lens by itself.
        not_judged: why nothing is judged; empty for a band with a limit.
        rule: where the cell comes from.
    """

    spans: tuple[Span, ...]
    unit: str
    base: Decimal | None
    rule: Rule
    per: Decimal = Decimal(0)
    of: str = ""
    good: Decimal | None = None
    each: bool = False
    not_judged: str = ""

    def holds(self, looked_up: Mapping[str, Decimal]) -> bool:
        """Whether the cell is the one for these looked-up values, all positive."""
        return all(span.holds(looked_up[span.of]) for span in self.spans)

    def limit(self, looked_up: Mapping[str, Decimal]) -> Limit | None:
        """The limit for these looked-up values; None where the table judges nothing."""
        if self.base is None:
            return None
        grown = self.per * looked_up[self.of] if self.of else Decimal(0)
        return Limit(self.base + grown, self.unit, self.rule)


@dataclass(frozen=True, slots=True)
class Row:
    """A row of a rule set: what it limits, for which lens designs, in which bands.

    Attributes:
        id: its name in the rule set, such as 'A5'.
        quantities: what it limits, by the names that verdicts ask for.
        designs: lens designs it holds for; none for all.
        bands: the cells, of which exactly one holds for any looked-up values.
        either: whether being within one of the bands is enough, the one that holds or another.
        one_lens: prism of one lens above which a limit for the pair calls for a caution.
    """

    id: str
    quantities: tuple[str, ...]
    designs: tuple[str, ...]
    bands: tuple[Band, ...]
    either: bool = False
    one_lens: Decimal | None = None

    def band(self, looked_up: Mapping[str, Decimal]) -> Band:
        """The cell that holds.

        Raises:
            LookupError: the table leaves a gap there.
        """
        for band in self.bands:
            if band.holds(looked_up):
                return band
        raise LookupError(f"row {self.id} has no band for {dict(looked_up)}")


@dataclass(frozen=True, slots=True)
class Table:
    """The rows of one file of limits."""

    rows: tuple[Row, ...]

    def row(self, quantity: str, design: str | None = None) -> Row | None:
        """The row that limits a quantity for a lens design; None where there is none."""
        for row in self.rows:
            if quantity in row.quantities and (not row.designs or design in row.designs):
                return row
        return None

    def figure(self, quantity: str, **looked_up: Decimal) -> Decimal:
        """The figure of a row that holds for all designs.

        Raises:
            LookupError: the table has no such figure.
        """
        row = self.row(quantity)
        limit = row.band(looked_up).limit(looked_up) if row else None
        if limit is None:
            raise LookupError(f"no figure for {quantity}")
        return limit.value
