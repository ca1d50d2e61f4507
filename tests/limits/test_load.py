import shutil
from collections.abc import Iterator
from decimal import Decimal
from itertools import pairwise
from pathlib import Path

import pytest

from benchassist.assets import asset
from benchassist.limits.load import (
    PLAIN_ACCEPTANCE,
    Decision,
    Limits,
    lens_meter,
    load_limits,
    rule_sets,
)
from benchassist.limits.rule import Evidence
from benchassist.limits.table import Band, Row, Table
from benchassist.wrong import BenchError

ALL = ("ansi-z80.1-2015", "ansi-z80.1-2020", "iso-21987-2017")


def tables(limits: Limits) -> tuple[Table, Table, Table]:
    return limits.rules, limits.bench, limits.meter


def bands_of(limits: Limits) -> Iterator[tuple[Row, Band]]:
    return ((row, band) for table in tables(limits) for row in table.rows for band in row.bands)


def test_the_order_page_offers_the_rule_sets_by_title() -> None:
    offered = rule_sets()
    assert tuple(rule_set.id for rule_set in offered) == ALL
    assert all(rule_set.caution.endswith(".") for rule_set in offered)
    assert offered[0].evidence.startswith("Rows: 13 read, 6 carried over")
    assert "from memory" in offered[2].evidence


@pytest.mark.parametrize("rule_set", ALL)
def test_every_figure_says_where_it_is_from(rule_set: str) -> None:
    limits = load_limits(rule_set)
    assert limits.rule_set.id == rule_set
    for row, band in bands_of(limits):
        rule = band.rule
        assert rule.title, row.id
        assert rule.edition, row.id
        assert rule.clause, row.id
        assert rule.sources, row.id
        assert all(source.title for source in rule.sources), row.id
        assert rule.evidence is not Evidence.READ or any(
            source.address for source in rule.sources
        )
    assert {rule.rule_set for rule in limits.rule_set.notes} == {rule_set}
    assert all(rule.note for rule in limits.rule_set.notes)


@pytest.mark.parametrize("rule_set", ALL)
def test_every_row_is_whole_and_of_one_piece(rule_set: str) -> None:
    limits = load_limits(rule_set)
    for table in tables(limits):
        ids = [row.id for row in table.rows]
        assert len(ids) == len(set(ids))
        for row in table.rows:
            looked_up = {span.of for band in row.bands for span in band.spans}
            values = {name: edges(row, name) for name in looked_up}
            for combination in combinations(values):
                holding = [band for band in row.bands if band.holds(combination)]
                wanted = len(row.bands) if not looked_up else 1
                assert len(holding) == wanted, (row.id, combination)


def edges(row: Row, name: str) -> list[Decimal]:
    """Each edge, between the edges and beyond the last one."""
    found = {Decimal(0)}
    for band in row.bands:
        for span in band.spans:
            found |= {edge for edge in (span.low, span.high) if edge and span.of == name}
    sharp = sorted(found)
    between = [(low + high) / 2 for low, high in pairwise(sharp)]
    return [*sharp, *between, sharp[-1] + 1]


def combinations(values: dict[str, list[Decimal]]) -> list[dict[str, Decimal]]:
    made: list[dict[str, Decimal]] = [{}]
    for name, choices in values.items():
        made = [{**part, name: value} for part in made for value in choices]
    return made


def test_the_2020_set_carries_the_figures_of_2015_and_says_so() -> None:
    old, new = load_limits("ansi-z80.1-2015"), load_limits("ansi-z80.1-2020")
    assert "not read" in new.rule_set.caution
    assert [row.id for row in new.rules.rows] == [row.id for row in old.rules.rows]
    for before, after in zip(old.rules.rows, new.rules.rows, strict=True):
        for was, now in zip(before.bands, after.bands, strict=True):
            assert (was.spans, was.base, was.per, was.unit) == (
                now.spans,
                now.base,
                now.per,
                now.unit,
            )
            assert now.rule.evidence is Evidence.CARRIED
            assert now.rule.edition == "ANSI Z80.1-2020 (figures of 2015)"
            assert now.rule.note.startswith("Carried over from the 2015 edition")
            assert now.rule.rule_set == "ansi-z80.1-2020"


def test_the_decision_is_guarded_unless_told() -> None:
    assert load_limits("iso-21987-2017").decision == Decision(Decimal("1.645"))
    assert load_limits("iso-21987-2017", PLAIN_ACCEPTANCE).decision.guard_factor == 0


def test_an_unknown_rule_set_is_refused_with_those_that_are_there() -> None:
    with pytest.raises(BenchError, match=r"'iso-1'.*Installed are: ansi-z80\.1-2015"):
        load_limits("iso-1")


@pytest.mark.parametrize("kind", ["bench", "lens-meter"])
def test_other_files_of_limits_are_no_rule_sets(kind: str) -> None:
    with pytest.raises(BenchError, match="not installed"):
        load_limits(kind)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A copy of the installed files of limits."""
    return Path(shutil.copytree(asset("limits"), tmp_path / "limits"))


def test_a_house_rule_set_tightens_single_rows(folder: Path) -> None:
    (folder / "house.toml").write_text(
        """
id = "house"
kind = "finished spectacles"
title = "Fernhollow limits"
edition = "Fernhollow limits, after ISO 21987:2017"
clause = "workshop book"
caution = "Tighter than the standard."
[sources]
OWN = { title = "Workshop book" }
[inherits]
from = "iso-21987-2017"
[[row]]
id = "I8"
quantities = ["tilt"]
title = "Tilt"
unit = "°"
evidence = "proposed"
sources = ["OWN"]
bands = [{ limit = "1" }]
""",
        encoding="utf-8",
    )
    limits = load_limits("house", folder=folder)
    tilt, thickness = limits.rules.row("tilt", "bifocal"), limits.rules.row("thickness")
    assert tilt is not None
    assert tilt.bands[0].base == 1
    assert thickness is not None
    assert thickness.bands[0].rule.evidence is Evidence.CARRIED
    assert thickness.bands[0].rule.note.startswith("Read for ISO 8980-1:2004")
    assert "house" in [rule_set.id for rule_set in rule_sets(folder)]


@pytest.mark.parametrize("parent", ["ansi-z80.1-2020", "nowhere"])
def test_only_a_complete_set_can_be_taken_over(folder: Path, parent: str) -> None:
    path = folder / "ansi-z80.1-2020.toml"
    text = path.read_text(encoding="utf-8").replace(
        'from = "ansi-z80.1-2015"', f'from = "{parent}"'
    )
    path.write_text(text, encoding="utf-8")
    with pytest.raises(BenchError, match=f"takes over '{parent}', which is no complete"):
        load_limits("ansi-z80.1-2020", folder=folder)


@pytest.mark.parametrize("name", ["bench", "lens-meter"])
def test_a_missing_file_is_said(folder: Path, name: str) -> None:
    (folder / f"{name}.toml").unlink()
    with pytest.raises(BenchError, match=rf"{name}\.toml is missing"):
        load_limits("iso-21987-2017", folder=folder)


def test_the_limits_of_lens_meters_are_read_by_themselves(tmp_path: Path) -> None:
    assert Table(lens_meter().rows) == load_limits(ALL[0]).meter
    with pytest.raises(BenchError, match=r"lens-meter\.toml cannot be read"):
        lens_meter(tmp_path)
