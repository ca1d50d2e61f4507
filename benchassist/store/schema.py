"""The tables, and how an older database becomes the present one."""

import os
import sqlite3
from collections.abc import Callable, Iterator, Sequence
from contextlib import closing, contextmanager
from pathlib import Path
from typing import TypeAlias

from benchassist.store.faults import DAMAGED, in_words, reading
from benchassist.store.files import settle_folder
from benchassist.wrong import BenchError

Migration: TypeAlias = Callable[[sqlite3.Connection], None]
"""Takes a database from one version to the next, inside a transaction that it does not end."""


def lay_journal_and_tray(connection: sqlite3.Connection) -> None:
    """Version 1: the entries, which can only be added to, and a row a job to find it by."""
    for statement in _VERSION_1:
        connection.execute(statement)


MIGRATIONS: tuple[Migration, ...] = (lay_journal_and_tray,)
"""One function a version; a database of version n needs those after the first n."""

_VERSION_1 = (
    """
    CREATE TABLE jobs (
        id INTEGER PRIMARY KEY,
        number TEXT NOT NULL UNIQUE,
        wearer TEXT NOT NULL,
        design TEXT NOT NULL,
        state TEXT NOT NULL,
        worst TEXT NOT NULL,
        attempts INTEGER NOT NULL,
        created TEXT NOT NULL,
        changed TEXT NOT NULL,
        entries INTEGER NOT NULL,
        digest TEXT NOT NULL
    ) STRICT
    """,
    "CREATE INDEX jobs_by_number ON jobs (number COLLATE NOCASE)",
    "CREATE INDEX jobs_by_change ON jobs (changed)",
    "CREATE INDEX jobs_by_state ON jobs (state, changed)",
    """
    CREATE TABLE entries (
        job TEXT NOT NULL REFERENCES jobs (number),
        sequence INTEGER NOT NULL CHECK (sequence > 0),
        edit INTEGER NOT NULL CHECK (edit > 0),
        at TEXT NOT NULL,
        person TEXT NOT NULL,
        role TEXT NOT NULL,
        path TEXT NOT NULL,
        old TEXT,
        new TEXT,
        undoes INTEGER,
        previous TEXT NOT NULL,
        PRIMARY KEY (job, sequence)
    ) STRICT, WITHOUT ROWID
    """,
    # INSERT OR REPLACE deletes without a DELETE trigger: the first one stops it.
    """
    CREATE TRIGGER entries_are_not_replaced BEFORE INSERT ON entries
    WHEN EXISTS (SELECT 1 FROM entries WHERE job = new.job AND sequence = new.sequence)
    BEGIN SELECT RAISE(ABORT, 'an entry is never replaced'); END
    """,
    """
    CREATE TRIGGER entries_are_not_updated BEFORE UPDATE ON entries
    BEGIN SELECT RAISE(ABORT, 'an entry is never changed'); END
    """,
    """
    CREATE TRIGGER entries_are_not_deleted BEFORE DELETE ON entries
    BEGIN SELECT RAISE(ABORT, 'an entry is never deleted'); END
    """,
    """
    CREATE VIRTUAL TABLE names USING fts5 (
        number, wearer, content = 'jobs', content_rowid = 'id',
        tokenize = 'unicode61 remove_diacritics 2', prefix = '1 2 3'
    )
    """,
    """
    CREATE TRIGGER names_of_a_new_job AFTER INSERT ON jobs BEGIN
        INSERT INTO names (rowid, number, wearer) VALUES (new.id, new.number, new.wearer);
    END
    """,
    """
    CREATE TRIGGER names_of_a_changed_job AFTER UPDATE OF wearer ON jobs
    WHEN old.wearer <> new.wearer BEGIN
        INSERT INTO names (names, rowid, number, wearer)
        VALUES ('delete', old.id, old.number, old.wearer);
        INSERT INTO names (rowid, number, wearer) VALUES (new.id, new.number, new.wearer);
    END
    """,
)

_SHAPES = {
    "jobs": (
        "id, number, wearer, design, state, worst, attempts, created, changed, entries, digest"
    ),
    "entries": "job, sequence, edit, at, person, role, path, old, new, undoes, previous",
    "names": "number, wearer",
}
"""The tables of the newest version and their columns."""

_MANNERS = (
    "PRAGMA foreign_keys = ON",
    # Not the write-ahead log: in the SQLite of Debian 12 (3.40.1) a rare race when that log is
    # reset can lose a commit. EXTRA waits for the disk at each commit, the folder included.
    "PRAGMA journal_mode = TRUNCATE",
    "PRAGMA synchronous = EXTRA",
)


def connect(file: Path) -> sqlite3.Connection:
    """The database of this file in the present version; made when there is none.

    Raises:
        BenchError: empty, damaged, foreign, of a newer program, or the disk refuses.
    """
    with in_words(file):
        if not file.exists():
            _make(file)
        elif file.stat().st_size == 0:
            raise BenchError(f"The file {file} is empty: put the last back-up in its place.")
        connection = _at(file)
        try:
            _refuse_cut(connection, file)
            _refuse_foreign(connection, file)
            _teach(connection)
            migrate(connection)
            _refuse_misshapen(connection, file)
        except BaseException:
            connection.close()
            raise
        return connection


def migrate(
    connection: sqlite3.Connection, migrations: Sequence[Migration] = MIGRATIONS
) -> None:
    """Brings a database to the newest version, each step whole or not at all.

    Raises:
        BenchError: it was written by a newer program.
    """
    version: int = connection.execute("PRAGMA user_version").fetchone()[0]
    if version > len(migrations):
        raise BenchError(
            f"The jobs were written by a newer Benchassist (data version {version}, this one "
            f"reads up to {len(migrations)}). Install the newer Benchassist to open them."
        )
    for number, migration in enumerate(migrations[version:], start=version + 1):
        with transaction(connection):
            migration(connection)
            connection.execute(f"PRAGMA user_version = {number}")


@contextmanager
def transaction(connection: sqlite3.Connection) -> Iterator[None]:
    """All of what is done inside, or nothing."""
    connection.execute("BEGIN IMMEDIATE")
    try:
        yield
        connection.execute("COMMIT")
    except BaseException:
        # A full disk may have ended the transaction already.
        if connection.in_transaction:
            connection.execute("ROLLBACK")
        raise


def _at(file: Path) -> sqlite3.Connection:
    connection = sqlite3.connect(file, isolation_level=None)
    # A broken letter must not hide a job: it is shown as broken, and the digest tells of it.
    connection.text_factory = lambda text: str(text, "utf-8", "replace")
    return connection


def _teach(connection: sqlite3.Connection) -> None:
    for pragma in _MANNERS:
        connection.execute(pragma)


def _refuse_cut(connection: sqlite3.Connection, file: Path) -> None:
    """Refuses a file that ends within a page: SQLite would read zeros for the rest of it."""
    pages, size = (
        connection.execute(f"PRAGMA {name}").fetchone()[0]
        for name in ("page_count", "page_size")
    )
    if file.stat().st_size < pages * size:
        raise BenchError(f"The file {file} is cut short: put the last back-up in its place.")


def _refuse_foreign(connection: sqlite3.Connection, file: Path) -> None:
    """Refuses a database that is not ours before anything in it is touched."""
    version: int = connection.execute("PRAGMA user_version").fetchone()[0]
    found = {name for (name,) in connection.execute("SELECT name FROM sqlite_schema")}
    is_bare = version == 0 and not found
    is_ours = version > 0 and found >= set(_SHAPES)
    if not (is_bare or is_ours):
        raise BenchError(f"{DAMAGED} The file is {file}.")


def _refuse_misshapen(connection: sqlite3.Connection, file: Path) -> None:
    with reading(file):
        for table, columns in _SHAPES.items():
            connection.execute(f"SELECT {columns} FROM {table} LIMIT 1").fetchall()  # noqa: S608 - our own names


def _make(file: Path) -> None:
    """Makes the database under another name first, so that an empty file means damage."""
    part = file.with_name(file.name + ".new")
    private_file(part)
    with closing(_at(part)) as connection:
        _teach(connection)
        migrate(connection)
    _journal_file(part).unlink(missing_ok=True)
    part.replace(file)
    settle_folder(file.parent)


def private_file(file: Path) -> None:
    """An empty database file for its owner alone, in place of any that was there.

    Raises:
        OSError: the folder may not be written.
    """
    file.unlink(missing_ok=True)
    _journal_file(file).unlink(missing_ok=True)
    os.close(os.open(file, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600))


def _journal_file(file: Path) -> Path:
    """SQLite's own rollback journal, which it would play back into a file of the same name."""
    return file.with_name(file.name + "-journal")
