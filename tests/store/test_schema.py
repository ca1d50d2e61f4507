import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from benchassist.store import schema
from benchassist.store.jobs import FILE, JobStore
from benchassist.store.schema import MIGRATIONS, connect, migrate
from benchassist.wrong import BenchError
from tests.job.samples import bookbinders_job, with_reading, with_remark
from tests.store.conftest import Bench


def add_notes(connection: sqlite3.Connection) -> None:
    connection.execute("CREATE TABLE notes (text TEXT)")
    connection.execute("INSERT INTO notes VALUES ('first')")


def double_notes(connection: sqlite3.Connection) -> None:
    connection.execute("INSERT INTO notes SELECT text || ' again' FROM notes")


def fail_half_way(connection: sqlite3.Connection) -> None:
    connection.execute("INSERT INTO notes VALUES ('half')")
    connection.execute("INSERT INTO nowhere VALUES (1)")


CHAIN = (*MIGRATIONS, add_notes, double_notes)


def at_version(version: int) -> sqlite3.Connection:
    connection = sqlite3.connect(":memory:", isolation_level=None)
    migrate(connection, CHAIN[:version])
    return connection


def shape(connection: sqlite3.Connection) -> list[tuple[str, ...]]:
    return connection.execute("SELECT type, name, sql FROM sqlite_schema").fetchall()


def version_of(connection: sqlite3.Connection) -> int:
    version: int = connection.execute("PRAGMA user_version").fetchone()[0]
    return version


@pytest.mark.parametrize("version", range(len(CHAIN) + 1))
def test_a_database_of_any_version_becomes_the_newest(version: int) -> None:
    with closing(at_version(version)) as old, closing(at_version(len(CHAIN))) as newest:
        assert version_of(old) == version
        migrate(old, CHAIN)
        assert version_of(old) == len(CHAIN)
        assert shape(old) == shape(newest)
        notes = old.execute("SELECT text FROM notes").fetchall()
        assert notes == [("first",), ("first again",)]


def test_a_migration_that_fails_leaves_the_version_before_it_whole() -> None:
    with closing(at_version(1)) as connection:
        with pytest.raises(sqlite3.OperationalError, match="nowhere"):
            migrate(connection, (*MIGRATIONS, add_notes, fail_half_way))
        assert version_of(connection) == 2
        assert connection.execute("SELECT text FROM notes").fetchall() == [("first",)]
        migrate(connection, CHAIN)
        assert version_of(connection) == 3


def test_a_newer_database_is_refused_and_left_alone(folder: Path) -> None:
    with JobStore(folder):
        pass
    with closing(sqlite3.connect(folder / FILE)) as connection:
        connection.execute(f"PRAGMA user_version = {len(MIGRATIONS) + 1}")
    content = (folder / FILE).read_bytes()
    with pytest.raises(BenchError, match=r"newer Benchassist \(data version 2.*up to 1\)"):
        JobStore(folder)
    assert (folder / FILE).read_bytes() == content


@pytest.mark.parametrize("share", [0.0, 0.001, 0.05, 0.5, 0.99])
def test_a_cut_database_is_told_and_left_alone(folder: Path, share: float) -> None:
    with JobStore(folder) as store:
        Bench(store).begin(bookbinders_job())
    file = folder / FILE
    content = file.read_bytes()[: int(file.stat().st_size * share)]
    file.write_bytes(content)
    with pytest.raises(BenchError, match="last back-up in its place"):
        JobStore(folder)
    assert file.read_bytes() == content


def test_a_file_that_is_no_database_is_told(folder: Path) -> None:
    folder.mkdir()
    (folder / FILE).write_text("Marit Oduya, bookbinder\n" * 100)
    with pytest.raises(BenchError, match=r"damaged.*jobs\.sqlite3"):
        JobStore(folder)


def make_foreign(file: Path, *statements: str) -> None:
    with closing(sqlite3.connect(file, isolation_level=None)) as connection:
        for statement in statements:
            connection.execute(statement)


@pytest.mark.parametrize(
    "statements",
    [
        ("CREATE TABLE shelf (book TEXT)",),
        ("CREATE TABLE shelf (book TEXT)", "PRAGMA user_version = 1"),
        ("CREATE TABLE shelf (book TEXT)", "PRAGMA user_version = 9"),
        ("CREATE TABLE shelf (book TEXT)", "PRAGMA journal_mode = WAL"),
        (
            "CREATE TABLE jobs (number TEXT)",
            "CREATE TABLE entries (job TEXT)",
            "CREATE TABLE names (number TEXT)",
            "PRAGMA user_version = 1",
        ),
    ],
)
def test_a_foreign_database_is_told_and_left_alone(
    folder: Path, statements: tuple[str, ...]
) -> None:
    folder.mkdir()
    make_foreign(folder / FILE, *statements)
    content = (folder / FILE).read_bytes()
    with pytest.raises(BenchError, match=r"not of Benchassist: put the last.*jobs\.sqlite3"):
        JobStore(folder)
    assert (folder / FILE).read_bytes() == content


@pytest.mark.parametrize(
    "statement",
    [
        "PRAGMA user_version = 0",
        "PRAGMA user_version = -1",
        "DROP TABLE entries",
        "DROP TABLE jobs",
        "DROP TABLE names",
        "ALTER TABLE jobs DROP COLUMN worst",
    ],
)
def test_a_database_with_something_missing_is_told(folder: Path, statement: str) -> None:
    with JobStore(folder) as store:
        Bench(store).begin(bookbinders_job())
    make_foreign(folder / FILE, statement)
    with pytest.raises(BenchError, match=r"not of Benchassist: put the last.*jobs\.sqlite3"):
        JobStore(folder)


def test_a_program_killed_while_making_the_database_is_no_harm(folder: Path) -> None:
    folder.mkdir()
    (folder / f"{FILE}.new").write_bytes(b"half of a database")
    (folder / f"{FILE}.new-journal").write_bytes(b"half of a journal")
    with JobStore(folder) as store:
        Bench(store).begin(bookbinders_job())
        assert store.exists("FH-0417")
    assert not list(folder.glob("*.new*"))


def test_each_commit_waits_for_the_disk(folder: Path) -> None:
    folder.mkdir()
    with closing(connect(folder / FILE)) as connection:
        manners = [
            connection.execute(f"PRAGMA {name}").fetchone()[0]
            for name in ("journal_mode", "synchronous", "foreign_keys")
        ]
    extra = 3  # https://sqlite.org/pragma.html#pragma_synchronous
    assert manners == ["truncate", extra, 1]


@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE entries SET new = '\"other\"' WHERE sequence = 2",
        "UPDATE entries SET sequence = 9 WHERE sequence = 2",
        "DELETE FROM entries WHERE sequence = 2",
        "DELETE FROM entries",
        """INSERT OR REPLACE INTO entries
        SELECT job, sequence, edit, at, 'Nobody', role, path, old, new, undoes, previous
        FROM entries WHERE sequence = 2""",
        "DELETE FROM jobs",
        "UPDATE jobs SET number = 'FH-0' WHERE number = 'FH-0417'",
    ],
)
def test_entries_can_only_be_added(folder: Path, statement: str) -> None:
    with JobStore(folder) as store:
        bench, job = Bench(store), bookbinders_job()
        journal = bench.change(bench.begin(job), with_remark(with_reading(job, "-2"), "one"))
    with (
        closing(connect(folder / FILE)) as connection,
        pytest.raises(sqlite3.IntegrityError, match=r"never|FOREIGN KEY"),
    ):
        connection.execute(statement)
    with JobStore(folder) as store:
        assert store.journal("FH-0417") == journal


def test_no_line_of_the_store_alters_or_deletes_an_entry() -> None:
    lines = [
        line.upper()
        for file in Path(schema.__file__).parent.glob("*.py")
        for line in file.read_text("utf-8").splitlines()
    ]
    assert any("INSERT INTO ENTRIES" in line for line in lines)
    for forbidden in ("UPDATE ENTRIES", "DELETE FROM", "REPLACE INTO", "DROP ", "RECURSIVE_"):
        assert not [line for line in lines if forbidden in line]
