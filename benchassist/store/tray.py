"""The tray: one row a job, to find it by."""

import sqlite3
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import TypeAlias

from benchassist.job.document import Job, JobState
from benchassist.job.journal import Entry, moment
from benchassist.job.order import Design
from benchassist.store.entries import zoned


@dataclass(frozen=True, slots=True)
class JobRow:
    """What the tray shows of a job.

    Attributes:
        number: the job's number.
        wearer: the wearer's name, may be empty.
        design: the lens design, None when not yet known.
        state: where the job stands.
        worst: the word of the finding that needs a person most, as it was handed over when the
            job was last stored; may be empty.
        attempts: how many attempts there are.
        created: when the job was begun.
        changed: when its last entry was made.
    """

    number: str
    wearer: str
    design: Design | None
    state: JobState
    worst: str
    attempts: int
    created: datetime
    changed: datetime


@dataclass(frozen=True, slots=True)
class Junk:
    """The number of a job whose row does not hold what Benchassist writes."""

    number: str


@dataclass(frozen=True, slots=True)
class Tip:
    """Where the stored journal of a job ends: how many entries, and the digest of the last."""

    entries: int
    digest: str


@dataclass(frozen=True, slots=True)
class Query:
    """What to look for.

    Attributes:
        text: beginnings of words of the number or the wearer's name, in any order, accents and
            case left aside; empty for all.
        state: only jobs that stand so.
        since: only jobs changed at this time or later.
        until: only jobs changed before this time.
    """

    text: str = ""
    state: JobState | None = None
    since: datetime | None = None
    until: datetime | None = None


_COMMON = 2000
"""Matches from which a search walks the tray: measured with 200,000 jobs, 4 ms either way."""

_FETCHED = "id IN (SELECT rowid FROM names WHERE names MATCH ?)"
# A plus sign keeps SQLite from using the index of that column: so it does not fetch and sort
# all that match a common word, nor read all of one state for a rare one.
_WALKED = "+id IN (SELECT rowid FROM names WHERE names MATCH ?)"

_Raw: TypeAlias = tuple[str, str, str, str, str, int, str, str]

_COLUMNS = "number, wearer, design, state, worst, attempts, created, changed"


def tip(connection: sqlite3.Connection, number: str) -> Tip | None:
    """Where the stored journal of this job ends; None when there is no such job."""
    row = connection.execute(
        "SELECT entries, digest FROM jobs WHERE number = ?", (number,)
    ).fetchone()
    return None if row is None else Tip(*row)


def number_like(connection: sqlite3.Connection, typed: str) -> str | None:
    """The number that is written like this but for the case of its letters."""
    row = connection.execute(
        "SELECT number FROM jobs WHERE number = ? COLLATE NOCASE "
        "ORDER BY number = ? DESC LIMIT 1",
        (typed, typed),
    ).fetchone()
    return None if row is None else str(row[0])


def put(connection: sqlite3.Connection, job: Job, last: Entry, worst: str) -> None:
    """Writes the row of a job whose journal ends with this entry."""
    connection.execute(
        f"""
        INSERT INTO jobs ({_COLUMNS}, entries, digest) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)
        ON CONFLICT (number) DO UPDATE SET
            wearer = excluded.wearer, design = excluded.design, state = excluded.state,
            worst = excluded.worst, attempts = excluded.attempts, changed = excluded.changed,
            entries = excluded.entries, digest = excluded.digest
        """,  # noqa: S608 - our own column names
        (
            job.number,
            job.order.wearer,
            job.order.design or "",
            job.state,
            worst,
            len(job.attempts),
            moment(job.created),
            moment(last.at),
            last.sequence,
            last.digest,
        ),
    )


def row_of(job: Job, last: Entry, worst: str) -> JobRow:
    """What the tray should show of a job whose journal ends with this entry."""
    return JobRow(
        job.number,
        job.order.wearer,
        job.order.design,
        job.state,
        worst,
        len(job.attempts),
        job.created,
        last.at,
    )


def stored(connection: sqlite3.Connection, number: str) -> JobRow | Junk | None:
    """What the tray shows of this job; None when there is no such row."""
    row = connection.execute(
        f"SELECT {_COLUMNS} FROM jobs WHERE number = ?",  # noqa: S608 - our own column names
        (number,),
    ).fetchone()
    return None if row is None else _read(row)


def show_again(connection: sqlite3.Connection, row: JobRow) -> None:
    """Writes anew what the tray shows of a job, and not where its journal ends.

    So a row put right never makes a journal look whole that was cut or altered.
    """
    connection.execute(
        "UPDATE jobs SET wearer = ?, design = ?, state = ?, attempts = ?, created = ?, "
        "changed = ? WHERE number = ?",
        (
            row.wearer,
            row.design or "",
            row.state,
            row.attempts,
            moment(row.created),
            moment(row.changed),
            row.number,
        ),
    )


def unknown(connection: sqlite3.Connection) -> tuple[str, ...]:
    """The numbers of the rows whose state is none: no search by state would find them."""
    marks = ", ".join("?" * len(JobState))
    rows = connection.execute(
        f"SELECT number FROM jobs WHERE state NOT IN ({marks})",  # noqa: S608 - marks alone
        tuple(JobState),
    )
    return tuple(number for (number,) in rows)


def search(
    connection: sqlite3.Connection, query: Query, limit: int
) -> tuple[JobRow | Junk, ...]:
    """The jobs that fit, the one changed last first."""
    conditions, values = ["1"], list[str | int]()
    words = _beginnings(query.text)
    is_rare = bool(words) and not _is_common(connection, words)
    if words:
        conditions.append(_FETCHED if is_rare else _WALKED)
        values.append(words)
    if query.state is not None:
        conditions.append("+state = ?" if is_rare else "state = ?")
        values.append(query.state)
    if query.since is not None:
        conditions.append("changed >= ?")
        values.append(moment(query.since))
    if query.until is not None:
        conditions.append("changed < ?")
        values.append(moment(query.until))
    rows = connection.execute(
        f"SELECT {_COLUMNS} FROM jobs WHERE {' AND '.join(conditions)} "  # noqa: S608 - our own words; all that people type is bound
        "ORDER BY changed DESC, id DESC LIMIT ?",
        (*values, limit),
    )
    return tuple(_read(row) for row in rows)


def counts(connection: sqlite3.Connection) -> Mapping[JobState, int]:
    """How many jobs stand in each state."""
    found = dict(connection.execute("SELECT state, count(*) FROM jobs GROUP BY state"))
    return {state: found.get(state.value, 0) for state in JobState}


def _is_common(connection: sqlite3.Connection, words: str) -> bool:
    """Whether so many jobs match that walking from the newest one on finds enough of them."""
    (matches,) = connection.execute(
        "SELECT count(*) FROM (SELECT 1 FROM names WHERE names MATCH ? LIMIT ?)",
        (words, _COMMON),
    ).fetchone()
    return bool(matches == _COMMON)


def _beginnings(text: str) -> str:
    """The words of a person as a full-text query: each one is a beginning, all must be met."""
    words = text.replace("\0", " ").replace('"', " ").split()
    nothing = '""' if text.strip() else ""
    return " AND ".join(f'"{word}"*' for word in words) or nothing


def _read(row: _Raw) -> JobRow | Junk:
    try:
        return _job_row(row)
    except (ValueError, TypeError):
        return Junk(row[0])


def _job_row(row: _Raw) -> JobRow:
    number, wearer, design, state, worst, attempts, created, changed = row
    return JobRow(
        number,
        wearer,
        Design(design) if design else None,
        JobState(state),
        worst,
        attempts,
        zoned(created),
        zoned(changed),
    )
