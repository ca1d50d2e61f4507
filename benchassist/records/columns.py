"""Columns of numbers on the papers: where they stand, and what a finding puts in them."""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Protocol

from benchassist.records.ink import RIGHT, SMALL_SOFT, Face
from benchassist.records.pen import Pen
from benchassist.records.words import amount, based, difference
from benchassist.verdicts.words import PRISM

_GAP = 8.0
"""From the end of a name to the first number, points."""


@dataclass(frozen=True, slots=True)
class Column:
    """A column of numbers: its title and its right edge, points from the left of the page."""

    title: str
    right: float


def draw_titles(pen: Pen, y: float, columns: Sequence[Column]) -> None:
    """The titles over the columns, on one line."""
    for column in columns:
        pen.text_right(column.right, y, column.title, SMALL_SOFT)


def draw_cells(
    pen: Pen, y: float, columns: Sequence[Column], cells: Sequence[str], face: Face
) -> None:
    """One text a column, on one line."""
    for column, cell in zip(columns, cells, strict=True):
        pen.text_right(column.right, y, cell, face)


def free_from(
    pen: Pen, left: float, columns: Sequence[Column], cells: Sequence[str], face: Face
) -> float:
    """Room for a name from `left` up to the first number of its row, points."""
    starts = [
        column.right - pen.width(cell, face)
        for column, cell in zip(columns, cells, strict=True)
        if cell
    ]
    return min(starts, default=RIGHT) - left - _GAP


class Compared(Protocol):
    """What has an order, a reading and how they differ."""

    @property
    def key(self) -> str:
        """The name of the quantity."""

    @property
    def unit(self) -> str:
        """The unit of all its numbers."""

    @property
    def ordered(self) -> Decimal | None:
        """As ordered."""

    @property
    def found(self) -> Decimal | None:
        """As read."""

    @property
    def difference(self) -> Decimal | None:
        """Found less ordered."""

    @property
    def limit(self) -> Decimal | None:
        """How far they may be apart."""


def compared(finding: Compared) -> tuple[str, str, str]:
    """What was ordered and found and how they differ; prism of the pair with its base."""
    unit, limit = finding.unit, finding.limit
    ordered, found, apart = finding.ordered, finding.found, finding.difference
    if not finding.key.startswith("pair.") or unit != PRISM:
        return amount(ordered, unit), amount(found, unit), difference(apart, limit, unit)
    is_along = finding.key.endswith("horizontal")
    bases = ("in", "out") if is_along else ("up right", "down right")
    # Upright, the lenses stand so far apart, whichever has the higher base; found says which.
    between = based(apart, bases if is_along else ("", ""), limit)
    return based(ordered, bases), based(found, bases), between
