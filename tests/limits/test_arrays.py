"""Limits looked up in columns are those of the table, at every edge."""

from collections.abc import Iterator
from dataclasses import replace
from decimal import ROUND_FLOOR, Decimal
from itertools import product

import numpy as np
import pytest

from benchassist.job.order import Design
from benchassist.limits.arrays import ABSENT, PARTS, RowLookup, Whole, in_parts, of_parts
from benchassist.limits.load import load_limits
from benchassist.limits.table import Row

SETS = ("iso-21987-2017", "ansi-z80.1-2015")
THOUSANDTH = PARTS // 1000


def rows() -> Iterator[Row]:
    for rule_set in SETS:
        limits = load_limits(rule_set)
        yield from (*limits.rules.rows, *limits.meter.rows)


def values_beside_edges(row: Row, of: str) -> list[int]:
    """Nought, and each edge with a part and a thousandth on either side of it."""
    edges = {
        in_parts(edge)
        for band in row.bands
        for span in band.spans
        if span.of == of
        for edge in (span.low, span.high)
        if edge is not None
    }
    steps = (-THOUSANDTH, -1, 0, 1, THOUSANDTH)
    return [0, *(edge + step for edge in sorted(edges) for step in steps), 38 * PARTS]


@pytest.mark.parametrize("row", tuple(rows()), ids=lambda row: row.id)
def test_every_edge_has_its_limit(row: Row) -> None:
    named = sorted({span.of for band in row.bands for span in band.spans})
    grown = sorted({band.of for band in row.bands if band.of} - set(named))
    names = [*named, *grown]
    corners = list(product(*(values_beside_edges(row, name) for name in names)))
    columns = {
        name: np.array(column, np.int64)
        for name, column in zip(names, zip(*corners, strict=True), strict=True)
    }
    lookup = RowLookup(row)
    looked = lookup.look(columns, len(corners))
    places = lookup.places(columns, len(corners))
    for lens, corner in enumerate(corners):
        looked_up = dict(zip(names, map(of_parts, corner), strict=True))
        band = row.band(looked_up)
        limit = band.limit(looked_up)
        wanted = ABSENT
        if limit is not None:
            wanted = int((limit.value * PARTS).to_integral_value(ROUND_FLOOR))
        assert looked.limits[lens] == wanted
        grows = looked.grown is not None and bool(looked.grown[lens])
        assert grows is (limit is not None and bool(band.of))
        assert row.bands[places[lens]] is band


def test_a_row_with_many_limits_gives_each_of_them() -> None:
    row = load_limits("ansi-z80.1-2015").rules.row("prism-vertical", Design.BIFOCAL)
    assert row is not None
    power: Whole = np.array([2 * PARTS, 8 * PARTS])
    lookup = RowLookup(row)
    assert lookup.look_by(0, {"power": power}, 2).limits.tolist() == [330_000_000] * 2
    assert lookup.look_by(1, {"power": power}, 2).limits.tolist() == [PARTS] * 2


def test_a_band_that_is_off_has_no_limit() -> None:
    row = load_limits("iso-21987-2017").rules.row("axis")
    assert row is not None
    first, *others = row.bands
    off = [replace(band, rule=replace(band.rule, off="not judged here")) for band in others]
    lookup = RowLookup(replace(row, bands=(first, *off)))
    looked = lookup.look({"cylinder": np.array([PARTS, 0])}, 2)
    assert not looked.all_judged
    assert looked.limits.tolist() == [ABSENT, ABSENT]


def test_a_fine_limit_is_told_from_a_coarse_one() -> None:
    row = load_limits("iso-21987-2017").rules.row("axis")
    assert row is not None
    assert RowLookup(row).look({"cylinder": np.array([PARTS])}, 1).is_coarse
    fine = [replace(band, base=Decimal("1.234567")) for band in row.bands]
    lookup = RowLookup(replace(row, bands=tuple(fine)))
    assert not lookup.look({"cylinder": np.array([PARTS])}, 1).is_coarse


def test_parts_are_whole() -> None:
    assert in_parts(Decimal("-0.000000001")) == -1
    assert of_parts(1_500_000_000) == Decimal("1.5")
    with pytest.raises(ValueError, match="finer than a part"):
        in_parts(Decimal("0.0000000001"))


def test_a_limit_that_grows_too_finely_is_refused() -> None:
    row = load_limits("ansi-z80.1-2015").rules.row("cylinder", Design.BIFOCAL)
    assert row is not None
    fine = replace(row.bands[-1], per=Decimal("0.0000000001"))
    with pytest.raises(ValueError, match="too fine"):
        RowLookup(replace(row, bands=(*row.bands[:-1], fine)))
