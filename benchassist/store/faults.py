"""What the disk and the database cannot do for us, in sentences."""

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from benchassist.wrong import BenchError

DAMAGED = "This file is damaged or not of Benchassist: put the last back-up in its place."
"""What to do about a file that does not hold what Benchassist writes."""

SENTENCES = {
    sqlite3.SQLITE_FULL: "The disk is full: free some space.",
    sqlite3.SQLITE_READONLY: "This file may be read but not written.",
    sqlite3.SQLITE_IOERR: "The disk does not answer as it should.",
    sqlite3.SQLITE_CANTOPEN: "This file cannot be opened: its folder is missing or closed.",
    sqlite3.SQLITE_PERM: "This file cannot be opened: it is closed to you.",
    sqlite3.SQLITE_BUSY: "Another program is holding this file: close that program.",
    sqlite3.SQLITE_LOCKED: "Another program is holding this file: close that program.",
    sqlite3.SQLITE_CORRUPT: DAMAGED,
    sqlite3.SQLITE_NOTADB: DAMAGED,
}
"""The world's faults, by SQLite's primary result code; any other fault is our own.

Source: Result and Error Codes, https://sqlite.org/rescode.html
"""


@contextmanager
def in_words(file: Path, consequence: str = "") -> Iterator[None]:
    """Turns a fault of the disk or the file into sentences; lets our own faults rise.

    Args:
        file: the file in question, named in the sentences.
        consequence: a sentence on what the fault means for the person's work.

    Raises:
        BenchError: the sentences.
    """
    try:
        yield
    except sqlite3.Error as error:
        primary = getattr(error, "sqlite_errorcode", sqlite3.SQLITE_OK) & 0xFF
        if primary not in SENTENCES:
            raise
        raise BenchError(_told(SENTENCES[primary], consequence, file)) from error
    except OSError as error:
        fault = f"The disk refuses: {error.strerror or error}."
        raise BenchError(_told(fault, consequence, file)) from error


@contextmanager
def reading(file: Path) -> Iterator[None]:
    """As `in_words`; whatever else fails in reading the file is taken for damage of it.

    A missing table or column, and a value that Benchassist never wrote, are how a damaged or
    foreign file shows; a fault in a statement of our own is found by our tests.

    Raises:
        BenchError: the file is damaged or not of Benchassist, or the disk does not answer.
    """
    try:
        with in_words(file):
            yield
    except (sqlite3.OperationalError, ValueError, TypeError) as error:
        raise BenchError(_told(DAMAGED, "", file)) from error


def _told(fault: str, consequence: str, file: Path) -> str:
    return " ".join(filter(None, (fault, consequence, f"The file is {file}.")))
