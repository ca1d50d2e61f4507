"""The jobs on this machine: every accepted entry is on disk before the screen says so."""

import sqlite3
from collections.abc import Mapping, Sequence
from contextlib import ExitStack, closing
from dataclasses import dataclass
from datetime import datetime
from itertools import pairwise
from pathlib import Path
from types import TracebackType
from typing import Self

from benchassist.job.document import Job, JobState
from benchassist.job.journal import Entry, Journal
from benchassist.store import entries as rows
from benchassist.store import schema, tray
from benchassist.store.faults import in_words, reading
from benchassist.store.files import settle_file, settle_folder
from benchassist.store.lock import only_writer
from benchassist.store.mending import Mender
from benchassist.store.place import private_folder
from benchassist.store.tray import JobRow, Junk, Query, Tip
from benchassist.wrong import BenchError

FILE = "jobs.sqlite3"
"""The name of the database in the data folder."""

_NOT_STORED = "What was entered last is not stored; everything before it is safe."


@dataclass(frozen=True, slots=True)
class OpenedJob:
    """A job taken from the tray.

    Attributes:
        job: the job as it stands.
        journal: how it came to stand so.
        damage: a sentence when the journal does not hold together, else empty; such a job may
            be looked at and printed, and nothing may be added to it.
        mended: a sentence when the tray showed the job otherwise than its journal says and was
            put right, else empty.
    """

    job: Job
    journal: Journal
    damage: str = ""
    mended: str = ""

    @property
    def is_read_only(self) -> bool:
        """Whether nothing may be added to it."""
        return bool(self.damage)


class JobStore:
    """The journals of all jobs in one data folder, held by one window at a time."""

    def __init__(self, folder: Path) -> None:
        """Opens the folder, and makes it when there is none.

        Raises:
            BenchError: another window has it, the disk refuses, the database is damaged or of
                a newer program.
        """
        self._file = private_folder(folder) / FILE
        with ExitStack() as opening:
            opening.enter_context(only_writer(folder))
            self._connection = opening.enter_context(closing(schema.connect(self._file)))
            self._mender = Mender(self._connection, self._file)
            self._mender.restore_rows()
            self._closing = opening.pop_all()

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self.close()

    def close(self) -> None:
        """Lets go of the folder; closing twice does no harm."""
        self._closing.close()

    @property
    def folder(self) -> Path:
        """The data folder."""
        return self._file.parent

    @property
    def notes(self) -> tuple[str, ...]:
        """What was put right in the tray, or left out of it, since the folder was opened."""
        return self._mender.notes

    def append(self, entries: Sequence[Entry], after: Job, worst: str = "") -> None:
        """Stores the entries of one edit: on disk when this returns, or nothing of them.

        Args:
            entries: as given by `Journal.record`, `Journal.undo` or `Journal.start`.
            after: the job with these entries made.
            worst: the word of the finding that needs a person most, for the tray.

        Raises:
            BenchError: the job was changed elsewhere meanwhile, or the disk refuses.
            ValueError: the entries do not follow one another or belong to another job.
        """
        if not entries:
            return
        _refuse_loose(entries, after)
        with in_words(self._file, _NOT_STORED), schema.transaction(self._connection):
            self._refuse_conflict(entries[0])
            tray.put(self._connection, after, entries[-1], worst)
            rows.add(self._connection, entries)

    def _refuse_conflict(self, first: Entry) -> None:
        stored = tray.tip(self._connection, first.job) or Tip(0, "")
        if stored == Tip(first.sequence - 1, first.previous):
            return
        if first.sequence == 1:
            raise BenchError(
                f"There is a job {first.job} already. Open it, or give this one another number."
            )
        raise BenchError(
            f"Job {first.job} was changed in another place meanwhile, so what was entered last "
            "is not stored. Open the job again to go on from what is there."
        )

    def exists(self, number: str) -> bool:
        """Whether there is a job of this number."""
        with reading(self._file):
            return tray.tip(self._connection, number) is not None

    def number_like(self, typed: str) -> str | None:
        """The number of the job that is meant, whatever the case of its letters."""
        with reading(self._file):
            return tray.number_like(self._connection, typed)

    def journal(self, number: str) -> Journal:
        """The journal of a job, as stored; `open_job` also checks it.

        Raises:
            BenchError: there is no such job, or its rows are damaged.
        """
        with reading(self._file):
            journal = self._mender.journal(number)
        if not journal.entries:
            raise BenchError(f"There is no job {number} here.")
        return journal

    def load(self, number: str) -> Job:
        """The job of this number.

        Raises:
            BenchError: there is no such job, or its history is damaged beyond folding.
        """
        return self.journal(number).fold()

    def open_job(self, number: str) -> OpenedJob:
        """The job, its journal, and whether the journal holds together.

        Raises:
            BenchError: there is no such job, or its history is damaged beyond folding.
        """
        journal = self.journal(number)
        job, damage = journal.fold(), self._damage(journal)
        mended = "" if damage else self._mender.mend(job, journal)
        return OpenedJob(job, journal, damage, mended)

    def _damage(self, journal: Journal) -> str:
        with reading(self._file):
            stored = tray.tip(self._connection, journal.number)
        found = journal.verify(stored.digest if stored else "")
        count = len(journal.entries)
        if found is not None:
            fault = found.sentence
        elif stored is not None and stored.entries != count:
            fault = (
                f"The tray counts {stored.entries} entries of job {journal.number}, and its "
                f"history has {count}."
            )
        else:
            return ""
        return (
            f"{fault} It can be read and printed, and nothing can be added to it. "
            "Compare it with the last back-up."
        )

    def search(
        self,
        text: str = "",
        state: JobState | None = None,
        since: datetime | None = None,
        until: datetime | None = None,
        limit: int = 200,
    ) -> tuple[JobRow, ...]:
        """The jobs that fit, the one changed last first; see `Query` for what fits.

        A row that cannot be read is made again from its journal, or left out with a note.
        """
        with reading(self._file):
            found = tray.search(self._connection, Query(text, state, since, until), limit)
        rows = (
            self._mender.restored(row.number) if isinstance(row, Junk) else row for row in found
        )
        return tuple(row for row in rows if row is not None)

    def counts(self) -> Mapping[JobState, int]:
        """How many jobs stand in each state."""
        with reading(self._file):
            return tray.counts(self._connection)

    def backup(self, target: Path) -> None:
        """Writes a whole copy of the database, replacing what was there only when it is whole.

        Raises:
            BenchError: the target is the database itself, or the disk refuses.
        """
        if target.absolute() == self._file.absolute():
            raise BenchError("A back-up needs another place than the jobs themselves.")
        part = target.with_name(target.name + ".part")
        with in_words(target, "There is no new back-up."), ExitStack() as tidying:
            schema.private_file(part)
            tidying.callback(part.unlink, missing_ok=True)
            with closing(sqlite3.connect(part)) as copy:
                self._connection.backup(copy)
                _refuse_unsound(copy, target)
            settle_file(part)
            part.replace(target)
            settle_folder(target.parent)


def _refuse_loose(entries: Sequence[Entry], after: Job) -> None:
    """Refuses entries that are not a piece of this job's chain: our fault, not the world's."""
    for before, entry in pairwise(entries):
        if (entry.sequence, entry.previous) != (before.sequence + 1, before.digest):
            raise ValueError(f"Entry {entry.sequence} does not follow the one before it.")
    if {entry.job for entry in entries} != {after.number}:
        raise ValueError("The entries belong to another job.")


def _refuse_unsound(copy: sqlite3.Connection, target: Path) -> None:
    if copy.execute("PRAGMA quick_check(1)").fetchone() != ("ok",):
        raise BenchError(f"The back-up {target} is not sound; the one before is still there.")
