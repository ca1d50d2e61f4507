import os
import sqlite3
import sys
from contextlib import closing
from pathlib import Path

import pytest

from benchassist.job.document import Job
from benchassist.job.journal import Journal
from benchassist.store.jobs import FILE, JobStore
from benchassist.store.lock import only_writer
from benchassist.wrong import BenchError
from tests.job.samples import (
    NINE,
    OPTICIAN,
    SUPERVISOR,
    bookbinders_job,
    later,
    with_reading,
    with_remark,
)
from tests.store.conftest import Bench


def connection_of(store: JobStore) -> sqlite3.Connection:
    """The store's own connection, on which a test makes the disk fail."""
    return store._connection  # noqa: SLF001 - the limits of SQLite hold for one connection


def test_what_was_stored_is_there_after_opening_again(folder: Path) -> None:
    with JobStore(folder) as store:
        bench = Bench(store)
        job = with_reading(bookbinders_job(), "-2.25")
        journal = bench.change(bench.begin(bookbinders_job()), job)
        undo = journal.undo(SUPERVISOR, later(2))
        journal = journal.extended(undo)
        store.append(undo, journal.fold())
    with JobStore(folder) as store:
        opened = store.open_job("FH-0417")
        assert opened.journal == journal
        assert opened.journal.digest == journal.digest
        assert (opened.job, opened.damage, opened.is_read_only) == (
            bookbinders_job(),
            "",
            False,
        )
        assert store.load("FH-0417") == bookbinders_job()
        assert store.exists("FH-0417")
        assert store.folder == folder


def test_a_job_that_is_not_there(bench: Bench) -> None:
    assert not bench.store.exists("FH-1")
    with pytest.raises(BenchError, match="no job FH-1 here"):
        bench.store.load("FH-1")


def test_no_entries_store_nothing(bench: Bench) -> None:
    bench.store.append((), bookbinders_job())
    assert not bench.store.exists("FH-0417")


def test_two_jobs_of_one_number_are_refused(bench: Bench) -> None:
    bench.begin(bookbinders_job())
    with pytest.raises(BenchError, match="There is a job FH-0417 already"):
        bench.begin(bookbinders_job(), 3)


def test_of_two_benches_the_later_one_is_told_and_nothing_of_it_is_stored(
    bench: Bench,
) -> None:
    start = bench.begin(bookbinders_job())
    first = bench.change(start, with_remark(bookbinders_job(), "first"))
    with pytest.raises(BenchError, match=r"changed in another place.*not stored"):
        bench.change(start, with_remark(bookbinders_job(), "second"))
    assert bench.store.journal("FH-0417") == first


def test_entries_that_are_no_chain_are_our_own_fault(bench: Bench) -> None:
    journal, job = bench.begin(bookbinders_job()), bookbinders_job()
    after = with_remark(with_reading(job, "-2.25"), "both")
    one, two = journal.record(job, after, OPTICIAN, later(1))
    with pytest.raises(ValueError, match="does not follow"):
        bench.store.append((two, one), after)
    with pytest.raises(ValueError, match="another job"):
        bench.store.append((one, two), bookbinders_job("FH-0418"))
    assert bench.store.journal("FH-0417") == journal


def test_a_second_window_is_refused_until_the_first_closes(folder: Path) -> None:
    with JobStore(folder) as first:
        with pytest.raises(BenchError, match=r"another window on .+ since \d\d:\d\d on"):
            JobStore(folder)
        (folder / "open-window.json").write_text("{")
        with pytest.raises(BenchError, match=r"open in another window\. Go on there"):
            JobStore(folder)
        first.close()
        first.close()
        with JobStore(folder) as second:
            assert not second.exists("FH-0417")


def test_a_window_that_fails_to_open_lets_go_of_the_folder(folder: Path) -> None:
    folder.mkdir()
    (folder / FILE).touch()
    for _ in range(2):
        with pytest.raises(BenchError, match="is empty"):
            JobStore(folder)


def filled(store: JobStore) -> tuple[Job, Journal]:
    """A job stored, and its journal."""
    job = bookbinders_job()
    return job, Bench(store).begin(job)


def test_a_full_disk_is_told_and_leaves_nothing_in_part(folder: Path) -> None:
    with JobStore(folder) as store:
        job, journal = filled(store)
        connection = connection_of(store)
        pages = connection.execute("PRAGMA page_count").fetchone()[0]
        connection.execute(f"PRAGMA max_page_count = {pages}")
        remarks = {f"bench.{number}": "x" * 2000 for number in range(25)}
        after = job.with_now(job.now.with_(skipped=remarks))
        entries = journal.record(job, after, OPTICIAN, later(1))
        with pytest.raises(BenchError, match=r"disk is full.*not stored"):
            store.append(entries, after)
        assert store.journal("FH-0417") == journal
        connection.execute("PRAGMA max_page_count = 1000000")
        store.append(entries, after)
        assert store.load("FH-0417") == after


def test_a_disk_that_may_not_be_written_is_told(folder: Path) -> None:
    with JobStore(folder) as store:
        job, journal = filled(store)
        connection_of(store).execute("PRAGMA query_only = ON")
        entries = journal.record(job, with_remark(job, "one"), OPTICIAN, later(1))
        with pytest.raises(BenchError, match=r"read but not written.*not stored"):
            store.append(entries, with_remark(job, "one"))
        assert store.load("FH-0417") == job


@pytest.mark.parametrize("blocked", ["data", "data/jobs"])
def test_a_folder_that_cannot_be_made_is_told(tmp_path: Path, blocked: str) -> None:
    (tmp_path / "data").touch()
    with pytest.raises(BenchError, match=r"data folder .* BENCHASSIST_DATA"):
        JobStore(tmp_path / blocked)


@pytest.mark.skipif(os.name != "posix", reason="permissions are the profile's on Windows")
def test_a_folder_that_others_can_read_is_closed_to_them(folder: Path) -> None:
    folder.mkdir(mode=0o755)
    with JobStore(folder):
        assert folder.stat().st_mode & 0o777 == 0o700


@pytest.mark.skipif(os.name != "posix", reason="permissions are the profile's on Windows")
def test_a_folder_that_many_share_is_left_as_it_is(folder: Path) -> None:
    folder.mkdir()
    folder.chmod(0o1755)
    with JobStore(folder):
        assert folder.stat().st_mode & 0o7777 == 0o1755


@pytest.mark.skipif(sys.platform != "linux", reason="no other system has such a folder")
def test_a_folder_in_which_nothing_can_be_made_is_told() -> None:
    with (
        pytest.raises(BenchError, match=r"/proc/self cannot be written"),
        only_writer(Path("/proc/self")),
    ):
        pass


@pytest.mark.skipif(os.name != "posix", reason="permissions are the profile's on Windows")
def test_only_the_owner_can_read(folder: Path) -> None:
    with JobStore(folder) as store:
        filled(store)
        store.backup(folder / "copy.sqlite3")
        modes = {file.name: file.stat().st_mode & 0o777 for file in folder.iterdir()}
    assert folder.stat().st_mode & 0o777 == 0o700
    assert set(modes.values()) == {0o600}
    assert {FILE, "copy.sqlite3", "benchassist.lock"} <= set(modes)


def test_a_backup_is_a_whole_store_of_its_own(folder: Path, tmp_path: Path) -> None:
    (tmp_path / "other").mkdir()
    target = tmp_path / "other" / FILE
    target.write_bytes(b"an older back-up")
    with JobStore(folder) as store:
        job, journal = filled(store)
        store.backup(target)
        Bench(store).change(journal, with_remark(job, "after the back-up"))
    assert [file.name for file in target.parent.iterdir()] == [FILE]
    with JobStore(target.parent) as copy:
        assert copy.load("FH-0417") == job
        assert copy.search("oduya")[0].number == "FH-0417"


def test_a_backup_that_cannot_be_made_is_told(bench: Bench, tmp_path: Path) -> None:
    with pytest.raises(BenchError, match="another place"):
        bench.store.backup(bench.store.folder / FILE)
    with pytest.raises(BenchError, match=r"disk refuses: .*no new back-up"):
        bench.store.backup(tmp_path / "missing" / "copy.sqlite3")


TAMPERINGS = {
    "a value": """UPDATE entries SET new = '"two"' WHERE sequence = 2""",
    "a time": "UPDATE entries SET at = '2026-03-02T09:01:00.000001+00:00' WHERE sequence = 3",
    "a person": "UPDATE entries SET person = 'Tomas Aldana' WHERE sequence = 3",
    "the last entry": "DELETE FROM entries WHERE sequence = 3",
    "the tray": "UPDATE jobs SET digest = 'x'",
}


def tampered(folder: Path, statement: str) -> None:
    """Does what only somebody outside the program can: drops the guards and writes."""
    with closing(sqlite3.connect(folder / FILE, isolation_level=None)) as connection:
        for (trigger,) in connection.execute(
            "SELECT name FROM sqlite_schema WHERE type = 'trigger' AND tbl_name = 'entries'"
        ).fetchall():
            connection.execute(f"DROP TRIGGER {trigger}")
        assert connection.execute(statement).rowcount == 1


@pytest.mark.parametrize("statement", TAMPERINGS.values(), ids=TAMPERINGS.keys())
def test_tampering_is_found_when_the_job_is_opened(folder: Path, statement: str) -> None:
    with JobStore(folder) as store:
        job, journal = filled(store)
        journal = Bench(store).change(journal, with_remark(job, "one"))
        Bench(store).change(journal, with_reading(journal.fold(), "-2.25"))
    tampered(folder, statement)
    with JobStore(folder) as store:
        opened = store.open_job("FH-0417")
        assert opened.is_read_only
        assert "altered outside Benchassist" in opened.damage
        assert opened.job.order.wearer == "Marit Oduya"


@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE entries SET role = 'owner' WHERE sequence = 1",
        "UPDATE entries SET at = 'noon' WHERE sequence = 1",
        "UPDATE entries SET at = '2026-03-02T09:00:00' WHERE sequence = 1",
        "UPDATE entries SET new = '{' WHERE sequence = 1",
    ],
    ids=["role", "time", "time without its zone", "value"],
)
def test_damage_beyond_reading_is_a_sentence(folder: Path, statement: str) -> None:
    with JobStore(folder) as store:
        filled(store)
    tampered(folder, statement)
    damaged = pytest.raises(BenchError, match="history of job FH-0417 is damaged")
    with JobStore(folder) as store, damaged as caught:
        store.open_job("FH-0417")
    assert "Expecting" not in caught.value.sentence


def test_a_job_created_in_another_zone_is_the_same_job(bench: Bench) -> None:
    job = bookbinders_job().with_(created="2026-03-02T04:00:00-05:00")
    bench.begin(job)
    assert bench.store.load("FH-0417").created == NINE
    assert bench.store.search()[0].created == NINE
