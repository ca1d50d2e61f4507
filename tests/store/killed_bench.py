"""A bench that is killed: forks a process that stores edits and tells of each one on disk.

Reads '<folder> <job number>' a line, answers with the process id, waits for the end of that
process and answers 'gone'. The forked process writes '<sequence> <digest>' after each append.
"""

import os
import sys
from pathlib import Path

from benchassist.job.checks import Seen
from benchassist.job.journal import Journal
from benchassist.store.jobs import JobStore
from tests.job.samples import (
    NINE,
    TRAINEE,
    bookbinders_job,
    with_answer,
    with_reading,
    with_remark,
)


def tell(line: str) -> None:
    os.write(sys.stdout.fileno(), f"{line}\n".encode())


def work(folder: Path, number: str) -> None:
    job = bookbinders_job(number)
    journal = Journal.start(job, TRAINEE, NINE)
    entries = journal.entries
    with JobStore(folder) as store:
        for turn in range(10_000):
            store.append(entries, job)
            tell(f"{entries[-1].sequence} {entries[-1].digest}")
            after = with_reading(with_remark(job, f"turn {turn}"), "-2.25")
            after = with_answer(after, f"check-{turn}", Seen.GOOD)
            entries = journal.record(job, after, TRAINEE, NINE)
            journal, job = journal.extended(entries), after


def main() -> None:
    for line in sys.stdin:
        folder, number = line.split()
        child = os.fork()
        if child == 0:
            work(Path(folder), number)
            os._exit(0)
        tell(str(child))
        os.waitpid(child, 0)
        tell("gone")


if __name__ == "__main__":
    main()
