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
                at=datetime.fromisoformat(row[3]),
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
