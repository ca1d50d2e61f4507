"""The tray made again from the journals where it does not say what they say."""

import sqlite3
from dataclasses import dataclass, field
from pathlib import Path

from benchassist.job.document import Job
from benchassist.job.journal import Journal
from benchassist.store import entries as rows
from benchassist.store import schema, tray
from benchassist.store.faults import in_words, reading
from benchassist.store.tray import JobRow, Junk
from benchassist.wrong import BenchError

_WORDS = {
    "wearer": "wearer",
    "design": "lens design",
    "state": "state",
    "attempts": "number of attempts",
    "created": "time of its beginning",
    "changed": "time of its last change",
}
"""What the tray shows of a job and the journal knows, in words."""


@dataclass(slots=True)
class Mender:
    """Compares the rows of the tray with the journals and puts them right.

    Where a journal ends, as its row notes it, is never touched: it is the proof of the journal.
    """

    connection: sqlite3.Connection
    file: Path
    _notes: dict[str, str] = field(default_factory=dict)

    @property
    def notes(self) -> tuple[str, ...]:
        """The last sentence about each job that was put right or left out."""
        return tuple(self._notes.values())

    def journal(self, number: str) -> Journal:
        """The journal of a job as stored, empty when there is none.

        Raises:
            BenchError: its rows do not hold entries.
        """
        with in_words(self.file):
            try:
                return rows.journal_of(self.connection, number)
            except (ValueError, TypeError) as error:
                raise BenchError(
                    f"The history of job {number} is damaged and cannot be read. "
                    "Open the job from the last back-up."
                ) from error

    def restore_rows(self) -> None:
        """Makes the rows again that are missing from the tray or stand there in no state.

        Raises:
            BenchError: the file is damaged or not of Benchassist.
        """
        with reading(self.file):
            lost = rows.orphans(self.connection)
            unknown = tray.unknown(self.connection)
        for number in (*lost, *unknown):
            self.restored(number)

    def restored(self, number: str) -> JobRow | None:
        """The row of a job, made again from its journal; None and a note when that fails."""
        try:
            journal = self.journal(number)
            job = _folded(journal, number)
            self._notes[number] = self.mend(job, journal)
            shown = self._shown(number)
        except BenchError as error:
            self._notes[number] = f"Job {number} is left out of the tray. {error.sentence}"
            return None
        return shown if isinstance(shown, JobRow) else tray.row_of(job, journal.last, "")

    def mend(self, job: Job, journal: Journal) -> str:
        """Makes the row of a job say what its journal says; a sentence when it did not."""
        shown = self._shown(job.number)
        worst = shown.worst if isinstance(shown, JobRow) else ""
        row = tray.row_of(job, journal.last, worst)
        if shown == row:
            return ""
        fault = _fault(shown, row)
        try:
            with in_words(self.file), schema.transaction(self.connection):
                if shown is None:
                    tray.put(self.connection, job, journal.last, worst)
                else:
                    tray.show_again(self.connection, row)
        except BenchError as error:
            return f"{fault}, and could not be put right. {error.sentence}"
        return f"{fault}; it was put right from the history of the job."

    def _shown(self, number: str) -> JobRow | Junk | None:
        with reading(self.file):
            return tray.stored(self.connection, number)


def _folded(journal: Journal, number: str) -> Job:
    job = journal.fold() if journal.entries else None
    if job is None or job.number != number:
        raise BenchError("No history belongs to it.")
    return job


def _fault(shown: JobRow | Junk | None, row: JobRow) -> str:
    match shown:
        case None:
            return f"Job {row.number} was missing from the tray"
        case Junk():
            return f"Job {row.number} stood damaged in the tray"
        case JobRow():
            wrong = (
                word
                for name, word in _WORDS.items()
                if getattr(shown, name) != getattr(row, name)
            )
            return f"The tray showed another {' and '.join(wrong)} of job {row.number}"
