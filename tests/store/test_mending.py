import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from benchassist.job.document import JobState
from benchassist.store.jobs import FILE, JobStore
from benchassist.store.tray import JobRow
from benchassist.wrong import BenchError
from tests.job.samples import OPTICIAN, bookbinders_job, later, with_reading, with_remark
from tests.store.conftest import Bench


def connection_of(store: JobStore) -> sqlite3.Connection:
    """The store's own connection, on which a test makes the disk fail."""
    return store._connection  # noqa: SLF001 - the limits of SQLite hold for one connection


def altered(folder: Path, *statements: str) -> None:
    """Does what only somebody outside the program can: drops the guards and writes."""
    with closing(sqlite3.connect(folder / FILE, isolation_level=None)) as connection:
        for (trigger,) in connection.execute(
            "SELECT name FROM sqlite_schema WHERE type = 'trigger' AND tbl_name = 'entries'"
        ).fetchall():
            connection.execute(f"DROP TRIGGER {trigger}")
        for statement in statements:
            assert connection.execute(statement).rowcount > 0


def shown_as(change: str, number: str = "FH-1") -> str:
    """The statement that changes the row of a job in the tray."""
    return f"UPDATE jobs SET {change} WHERE number = '{number}'"  # noqa: S608 - the test's own words


@pytest.fixture
def rows(folder: Path) -> tuple[JobRow, ...]:
    """Two jobs stored: one with three entries and a finding, one as it was begun."""
    with JobStore(folder) as store:
        bench = Bench(store)
        bench.begin(bookbinders_job("FH-2"))
        journal = bench.begin(bookbinders_job("FH-1"))
        journal = bench.change(journal, with_remark(journal.fold(), "one"), 1)
        after = with_reading(journal.fold(), "-2.25")
        store.append(
            journal.record(journal.fold(), after, OPTICIAN, later(2)), after, "outside"
        )
        return store.search()


PROJECTIONS = {
    "wearer": ("wearer = 'Ada Lind'", "another wearer of job FH-1"),
    "design": ("design = ''", "another lens design of job FH-1"),
    "state": ("state = 'closed'", "another state of job FH-1"),
    "attempts": ("attempts = 7", "another number of attempts of job FH-1"),
    "created": (
        "created = '2020-01-01T00:00:00.000000+00:00'",
        "another time of its beginning of job FH-1",
    ),
    "changed": (
        "changed = '2020-01-01T00:00:00.000000+00:00'",
        "another time of its last change of job FH-1",
    ),
}


@pytest.mark.parametrize(("change", "sentence"), PROJECTIONS.values(), ids=PROJECTIONS.keys())
def test_a_row_that_says_otherwise_is_put_right_when_the_job_is_opened(
    folder: Path, rows: tuple[JobRow, ...], change: str, sentence: str
) -> None:
    altered(folder, shown_as(change))
    with JobStore(folder) as store:
        assert store.search() != rows
        opened = store.open_job("FH-1")
        assert (opened.damage, opened.is_read_only) == ("", False)
        assert opened.mended == (
            f"The tray showed {sentence}; it was put right from the history of the job."
        )
        assert store.search() == rows
        assert [row.number for row in store.search("marit")] == ["FH-1", "FH-2"]
        assert store.open_job("FH-1").mended == ""


@pytest.mark.parametrize("count", [2, 4, 0, -1])
def test_a_count_of_entries_that_cannot_be_is_damage(
    folder: Path, rows: tuple[JobRow, ...], count: int
) -> None:
    altered(folder, shown_as(f"entries = {count}, state = 'closed'"))
    with JobStore(folder) as store:
        opened = store.open_job("FH-1")
        assert opened.is_read_only
        assert f"counts {count} entries of job FH-1, and its history has 3." in opened.damage
        assert opened.mended == ""
    assert len(rows) == 2


JUNK = ("state = 'sold'", "design = 'varifocal'", "created = 'noon'", "changed = '2026-03-02'")


@pytest.mark.parametrize("junk", JUNK)
def test_a_junk_row_is_made_again_and_hides_no_other(
    folder: Path, rows: tuple[JobRow, ...], junk: str
) -> None:
    altered(folder, shown_as(junk))
    with JobStore(folder) as store:
        assert set(store.search()) == set(rows)
        assert store.search() == rows
        assert store.counts()[JobState.OPEN] == 2
        assert store.notes == (
            "Job FH-1 stood damaged in the tray; it was put right from the history of the job.",
        )


def test_a_row_put_right_does_not_make_a_cut_journal_whole(
    folder: Path, rows: tuple[JobRow, ...]
) -> None:
    altered(
        folder,
        shown_as("state = 'sold'"),
        "DELETE FROM entries WHERE job = 'FH-1' AND sequence = 3",
    )
    with JobStore(folder) as store:
        assert len(store.search()) == len(rows)
        assert "altered outside Benchassist" in store.open_job("FH-1").damage


def test_a_junk_row_without_a_history_is_left_out_with_a_note(
    folder: Path, rows: tuple[JobRow, ...]
) -> None:
    altered(
        folder,
        shown_as("state = 'sold'"),
        "UPDATE entries SET new = '{' WHERE job = 'FH-1' AND sequence = 2",
        "UPDATE jobs SET state = 'sold', number = 'FH-9' WHERE number = 'FH-2'",
    )
    with JobStore(folder) as store:
        assert [row.number for row in store.search()] == ["FH-2"]
        left_out = sorted(note for note in store.notes if "is left out of the tray." in note)
        assert left_out[0].startswith("Job FH-1 is left out of the tray. The history of job")
        assert left_out[1:] == ["Job FH-9 is left out of the tray. No history belongs to it."]
    assert len(rows) == 2


def test_a_job_that_is_missing_from_the_tray_is_restored_at_the_start(
    folder: Path, rows: tuple[JobRow, ...]
) -> None:
    altered(folder, "DELETE FROM jobs WHERE number = 'FH-1'")
    with JobStore(folder) as store:
        assert store.notes == (
            "Job FH-1 was missing from the tray; it was put right from the history of the job.",
        )
        found = store.search()
        assert [row.number for row in found] == ["FH-1", "FH-2"]
        assert found[0].changed == rows[0].changed
        opened = store.open_job("FH-1")
        assert (opened.damage, opened.mended) == ("", "")
        Bench(store).change(opened.journal, with_remark(opened.job, "two"), 3)
    with JobStore(folder) as store:
        assert store.notes == ()


def test_a_broken_letter_hides_no_job(folder: Path, rows: tuple[JobRow, ...]) -> None:
    altered(folder, shown_as("wearer = CAST(x'ff' AS TEXT)"))
    with JobStore(folder) as store:
        assert store.search()[0].wearer == "\ufffd"
        assert "another wearer" in store.open_job("FH-1").mended
        assert store.search() == rows


def test_a_broken_letter_in_an_entry_is_damage(folder: Path, rows: tuple[JobRow, ...]) -> None:
    altered(
        folder,
        "UPDATE entries SET person = CAST(x'ff' AS TEXT) WHERE job = 'FH-1' AND sequence = 2",
    )
    with JobStore(folder) as store:
        assert store.open_job("FH-1").is_read_only
    assert len(rows) == 2


def test_a_row_that_cannot_be_put_right_leaves_the_job_open_to_read(
    folder: Path, rows: tuple[JobRow, ...]
) -> None:
    altered(folder, shown_as("wearer = 'Ada Lind'"))
    with JobStore(folder) as store:
        connection_of(store).execute("PRAGMA query_only = ON")
        opened = store.open_job("FH-1")
        assert opened.job.order.wearer == "Marit Oduya"
        assert "and could not be put right. This file may be read but not" in opened.mended
    assert len(rows) == 2


def test_a_table_that_goes_missing_at_work_is_told(bench: Bench) -> None:
    journal = bench.begin(bookbinders_job())
    connection = connection_of(bench.store)
    connection.execute("PRAGMA foreign_keys = OFF")
    connection.execute("ALTER TABLE jobs RENAME TO lost")
    for read in (
        bench.store.search,
        bench.store.counts,
        lambda: bench.store.exists(journal.number),
        lambda: bench.store.number_like(journal.number),
        lambda: bench.store.open_job(journal.number),
    ):
        with pytest.raises(BenchError, match="not of Benchassist"):
            read()
