"""The journal of a job: what changed, who did it and when, each entry sealing the last."""

import hashlib
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import UTC, datetime
from itertools import groupby, pairwise

from benchassist.job.changes import (
    Change,
    Json,
    applied,
    canonical,
    diff,
    document_of,
    inverse,
    split,
)
from benchassist.job.document import Job
from benchassist.job.signoff import Person
from benchassist.job.upgrade import job_of
from benchassist.wrong import BenchError

_FIXED = ("number", "created")
"""Fields of a job that never change once it is begun."""

_SIGNATURES = ("prepared", "dispensed", "countersigned", "sent_back")
"""Fields of a sign-off that hold a person's name."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry(Change):
    """One change, written once and never altered.

    Attributes:
        job: number of the job.
        sequence: 1 for the first entry of the job, then without a gap.
        edit: number of the edit; the entries of one key press share it.
        at: when, in UTC.
        person: who.
        undoes: number of the edit that this entry helps to take back.
        previous: digest of the entry before; empty for the first.
    """

    job: str
    sequence: int
    edit: int
    at: datetime
    person: Person
    undoes: int | None
    previous: str

    @property
    def digest(self) -> str:
        """SHA-256 over the canonical JSON of all that the entry says, in hexadecimal."""
        said: dict[str, Json] = {
            "job": self.job,
            "sequence": self.sequence,
            "edit": self.edit,
            "at": moment(self.at),
            "person": self.person.name,
            "role": self.person.role.value,
            "path": self.path,
            "old": self.old,
            "new": self.new,
            "undoes": self.undoes,
            "previous": self.previous,
        }
        return hashlib.sha256(canonical(said).encode()).hexdigest()


@dataclass(frozen=True, slots=True)
class Edit:
    """What one key press did, for the audit page.

    Attributes:
        number: its number in the job; 1 is the start of the job.
        at: when, in UTC.
        person: who.
        entries: what changed.
        undoes: the edit that it takes back, if it does.
        undone_by: the edit that took this one back, if one did.
    """

    number: int
    at: datetime
    person: Person
    entries: tuple[Entry, ...]
    undoes: int | None
    undone_by: int | None

    @property
    def is_signed(self) -> bool:
        """Whether it put a name to the job or began an attempt, and so can only be answered."""
        return any(_signs(entry) for entry in self.entries)


@dataclass(frozen=True, slots=True)
class Break:
    """Where a journal does not hold together: the first entry that is wrong, and a sentence."""

    sequence: int
    sentence: str


@dataclass(frozen=True, slots=True)
class Journal:
    """All entries of one job, oldest first; the job is their fold."""

    entries: tuple[Entry, ...]

    @classmethod
    def start(cls, job: Job, person: Person, at: datetime) -> "Journal":
        """The journal of a new job: one entry that holds it whole."""
        whole = Change(path="", old=None, new=canonical(document_of(job)))
        return cls(_chained((whole,), (), _Hand(job.number, person, at)))

    @property
    def number(self) -> str:
        """The job's number."""
        return self.entries[0].job

    @property
    def last(self) -> Entry:
        """The last entry."""
        return self.entries[-1]

    @property
    def digest(self) -> str:
        """The digest of the last entry, which seals all entries before it."""
        return self.last.digest

    def extended(self, entries: Iterable[Entry]) -> "Journal":
        """The journal with these entries after its own."""
        return Journal((*self.entries, *entries))

    def record(
        self, before: Job, after: Job, person: Person, at: datetime
    ) -> tuple[Entry, ...]:
        """The entries of one edit, to be stored and then added; none where nothing changed.

        Raises:
            ValueError: `before` is not where the journal stands, or the edit changes what may
                not change: number, time of creation, an earlier or a signed attempt.
        """
        document = _document(self.entries)
        if job_of(document) != before:
            raise ValueError("The edit starts from another job than the journal.")
        changes = diff(document, document_of(after))
        _refuse_fixed(changes, before, after)
        return _chained(changes, self.entries, _Hand(self.number, person, at))

    def undo(self, person: Person, at: datetime) -> tuple[Entry, ...]:
        """The entries that take back the last edit not yet taken back; none where none is left.

        An edit that put a name to the job or began an attempt is not taken back, and nothing
        before it is.
        """
        edit = self.undoable
        if edit is None:
            return ()
        undoing = _Hand(self.number, person, at, edit.number)
        return _chained(inverse(edit.entries), self.entries, undoing)

    @property
    def undoable(self) -> Edit | None:
        """The edit that `undo` would take back."""
        for edit in reversed(self.edits):
            if edit.is_signed or edit.number == 1:
                return None
            if edit.undoes is None and edit.undone_by is None:
                return edit
        return None

    @property
    def edits(self) -> tuple[Edit, ...]:
        """The history, oldest first."""
        undone_by = {entry.undoes: entry.edit for entry in self.entries}
        grouped = groupby(self.entries, key=lambda entry: entry.edit)
        groups = tuple((number, tuple(entries)) for number, entries in grouped)
        return tuple(
            Edit(
                number,
                entries[0].at,
                entries[0].person,
                entries,
                entries[0].undoes,
                undone_by.get(number),
            )
            for number, entries in groups
        )

    @property
    def clock_ran_back(self) -> tuple[int, ...]:
        """The numbers of the edits that bear an earlier time than the entry before them.

        The clock of the computer was set back, or two computers do not agree: the order of the
        entries is sure, and these times are not.
        """
        return tuple(
            entry.edit for before, entry in pairwise(self.entries) if entry.at < before.at
        )

    def fold(self) -> Job:
        """The job as it stands after the last entry.

        Raises:
            BenchError: the journal is damaged, or written by a newer program.
        """
        try:
            document = _document(self.entries)
        except ValueError as error:
            raise BenchError(
                f"The history of job {self.number} is damaged: {error} "
                "Open the job from the last back-up."
            ) from error
        return job_of(document)

    def verify(self, digest: str = "") -> Break | None:
        """The first place where the journal does not hold together, None when it is whole.

        Args:
            digest: the digest that the last entry should have, where it is known.
        """
        job, previous, edit = self.number, "", 0
        for sequence, entry in enumerate(self.entries, start=1):
            if entry.sequence != sequence or entry.job != job:
                return Break(sequence, f"Entry {sequence} of job {job} is missing.")
            if entry.previous != previous or entry.edit not in {edit, edit + 1}:
                return _altered(max(sequence - 1, 1), job)
            previous, edit = entry.digest, entry.edit
        if digest and digest != previous:
            return _altered(len(self.entries), job)
        return None


def moment(at: datetime) -> str:
    """A time in UTC to the microsecond, always the same length, so that texts sort as times.

    Raises:
        ValueError: the time does not say its zone.
    """
    if at.tzinfo is None:
        raise ValueError("A time in the journal needs its zone.")
    return at.astimezone(UTC).isoformat(timespec="microseconds")


def _altered(sequence: int, job: str) -> Break:
    return Break(
        sequence,
        f"The history of job {job} was altered outside Benchassist, or entries are missing, "
        f"at entry {sequence}.",
    )


def _document(entries: Iterable[Entry]) -> Json:
    return applied(None, entries)


@dataclass(frozen=True, slots=True)
class _Hand:
    """Whose edit of which job it is, and when: what all its entries share."""

    job: str
    person: Person
    at: datetime
    undoes: int | None = None


def _chained(
    changes: Iterable[Change], after: tuple[Entry, ...], hand: _Hand
) -> tuple[Entry, ...]:
    """The changes as entries that follow `after`."""
    at = datetime.fromisoformat(moment(hand.at))
    number = after[-1].edit + 1 if after else 1
    previous = after[-1].digest if after else ""
    entries: list[Entry] = []
    for sequence, change in enumerate(changes, start=len(after) + 1):
        entry = Entry(
            path=change.path,
            old=change.old,
            new=change.new,
            job=hand.job,
            sequence=sequence,
            edit=number,
            at=at,
            person=hand.person,
            undoes=hand.undoes,
            previous=previous,
        )
        entries.append(entry)
        previous = entry.digest
    return tuple(entries)


def _refuse_fixed(changes: tuple[Change, ...], before: Job, after: Job) -> None:
    last = max(len(before.attempts), len(after.attempts)) - 1
    for change in changes:
        way = split(change.path)
        if way[0] in _FIXED:
            raise ValueError(f"The field '{way[0]}' of a job never changes.")
        if way[0] == "attempts" and int(way[1]) < last:
            raise ValueError("An earlier attempt never changes.")
    if before.now.signoff.dispensed is not None and changes:
        is_signing = any(_signs(change) for change in changes)
        if not (is_signing and all(_goes_with_signing(change) for change in changes)):
            raise ValueError("A signed attempt never changes: it is sent back first.")


def _signs(change: Change) -> bool:
    match split(change.path):
        case ("attempts", _):
            return True
        case ("attempts", _, "signoff", field, *_):
            return field in _SIGNATURES
        case _:
            return False


def _goes_with_signing(change: Change) -> bool:
    match split(change.path):
        case ("attempts", _) | ("attempts", _, "signoff", *_) | ("schema_version",):
            return True
        case _:
            return False
