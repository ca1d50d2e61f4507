"""Journal entries as rows: added and read, never altered."""

import sqlite3
from collections.abc import Iterable
from datetime import datetime
from functools import lru_cache

from benchassist.job.journal import Entry, Journal, moment
from benchassist.job.signoff import Person, Role

_COLUMNS = "job, sequence, edit, at, person, role, path, old, new, undoes, previous"
_ADD = f"INSERT INTO entries ({_COLUMNS}) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)"  # noqa: S608 - our own column names
_READ = f"SELECT {_COLUMNS} FROM entries WHERE job = ? ORDER BY sequence"  # noqa: S608 - our own column names

# Steps from one number to the next by the key, so that no other entry is read.
_ORPHANS = """
    WITH RECURSIVE each_job (number) AS (
        SELECT min(job) FROM entries
        UNION ALL
        SELECT (SELECT min(job) FROM entries WHERE job > number) FROM each_job
        WHERE number IS NOT NULL
    )
    SELECT number FROM each_job
    WHERE number IS NOT NULL AND number NOT IN (SELECT number FROM jobs)
"""


def add(connection: sqlite3.Connection, entries: Iterable[Entry]) -> None:
    """Adds the entries, inside the transaction that is open."""
    connection.executemany(_ADD, (_row(entry) for entry in entries))


def journal_of(connection: sqlite3.Connection, number: str) -> Journal:
    """The journal of a job; empty when there are no entries.

    Raises:
        ValueError: a row does not hold an entry.
    """
    persons = lru_cache(maxsize=64)(_person)
    rows = connection.execute(_READ, (number,))
    return Journal(
        tuple(
            Entry(
                job=row[0],
                sequence=row[1],
                edit=row[2],
                at=zoned(row[3]),
                person=persons(row[4], row[5]),
                path=row[6],
                old=row[7],
                new=row[8],
                undoes=row[9],
                previous=row[10],
            )
            for row in rows
        )
    )


def zoned(text: str) -> datetime:
    """The time that stands in a row.

    Raises:
        ValueError: it is none, or does not say its zone.
    """
    at = datetime.fromisoformat(text)
    if at.tzinfo is None:
        raise ValueError(f"The time {text} does not say its zone.")
    return at


def orphans(connection: sqlite3.Connection) -> tuple[str, ...]:
    """The jobs that have entries and no row in the tray, in order of their numbers."""
    return tuple(number for (number,) in connection.execute(_ORPHANS))


def _person(name: str, role: str) -> Person:
    return Person(name=name, role=Role(role))


def _row(entry: Entry) -> tuple[str | int | None, ...]:
    return (
        entry.job,
        entry.sequence,
        entry.edit,
        moment(entry.at),
        entry.person.name,
        entry.person.role.value,
        entry.path,
        entry.old,
        entry.new,
        entry.undoes,
        entry.previous,
    )
