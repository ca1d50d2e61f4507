from collections.abc import Iterator
from pathlib import Path

import pytest

from benchassist.job.document import Job
from benchassist.job.journal import Journal
from benchassist.store.jobs import JobStore
from tests.job.samples import OPTICIAN, later


class Bench:
    """A store with the verbs of a window: begin a job, change it."""

    def __init__(self, store: JobStore) -> None:
        self.store = store

    def begin(self, job: Job, minute: int = 0) -> Journal:
        """Stores a new job."""
        journal = Journal.start(job, OPTICIAN, later(minute))
        self.store.append(journal.entries, job)
        return journal

    def change(self, journal: Journal, after: Job, minute: int = 1) -> Journal:
        """Stores an edit of a job."""
        entries = journal.record(journal.fold(), after, OPTICIAN, later(minute))
        self.store.append(entries, after)
        return journal.extended(entries)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return tmp_path / "data"


@pytest.fixture
def bench(folder: Path) -> Iterator[Bench]:
    with JobStore(folder) as store:
        yield Bench(store)
