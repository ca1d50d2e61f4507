"""Where a record comes from: a journal, or a bare job file."""

import hashlib
from collections.abc import Iterable
from datetime import datetime

from benchassist.job.document import Job
from benchassist.job.journal import Edit, Journal
from benchassist.job.parts import part_words
from benchassist.job.upgrade import write
from benchassist.records.record import Deed, Imprint
from benchassist.store.settings import Workshop


def imprint_of_file(job: Job, workshop: Workshop, made_at: datetime) -> Imprint:
    """The imprint of a bare job file: its digest is that of the text `upgrade.write` gives."""
    digest = hashlib.sha256(write(job).encode()).hexdigest()
    return Imprint(workshop=workshop, made_at=made_at, digest=digest, digest_of="job file")


def imprint_of_journal(
    journal: Journal, workshop: Workshop, made_at: datetime, damage: str = ""
) -> Imprint:
    """The imprint of a journal: its last digest, who did what on which day, and its damage.

    Args:
        journal: the history of the job.
        workshop: the place that makes the record.
        made_at: when it is made.
        damage: a sentence when the stored history no longer fits together; empty when it does.
    """
    return Imprint(
        workshop=workshop,
        made_at=made_at,
        digest=journal.digest,
        digest_of="journal",
        deeds=deeds(journal.edits),
        clock_ran_back=bool(journal.clock_ran_back),
        damage=damage,
    )


def deeds(edits: Iterable[Edit]) -> tuple[Deed, ...]:
    """What each person did on each day (of UTC), in the order in which they began."""
    ordered = tuple(edits)
    days = dict.fromkeys((edit.person, edit.at.date()) for edit in ordered)
    groups = (
        [edit for edit in ordered if (edit.person, edit.at.date()) == each] for each in days
    )
    return tuple(
        Deed(
            person=done[0].person,
            first=done[0].at,
            last=done[-1].at,
            edits=len(done),
            parts=_parts(done),
        )
        for done in groups
    )


def _parts(edits: Iterable[Edit]) -> tuple[str, ...]:
    paths = [entry.path for edit in edits for entry in edit.entries]
    return tuple(dict.fromkeys(part_words(path) for path in paths))
