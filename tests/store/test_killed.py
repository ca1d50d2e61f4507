import os
import random
import signal
import sqlite3
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest

from benchassist.store.jobs import FILE, JobStore
from benchassist.wrong import BenchError

ROUNDS = 60
MOST_ROUNDS = 10 * ROUNDS
"""A slow computer is killed more often, until it told as much."""

ENTRIES_AN_EDIT = 3

pytestmark = pytest.mark.skipif(os.name != "posix", reason="there is no SIGKILL to send")


@pytest.fixture
def bench() -> Iterator[subprocess.Popen[str]]:
    """A process that forks benches, for the imports of each would take longer than its life."""
    with subprocess.Popen(
        [sys.executable, "-m", "tests.store.killed_bench"],
        cwd=Path(__file__).parents[2],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    ) as process:
        yield process
        assert process.stdin
        process.stdin.close()


def killed_after(
    bench: subprocess.Popen[str], folder: Path, number: str, seconds: float
) -> list[str]:
    """What a bench told before it was killed after so many seconds."""
    assert bench.stdin
    assert bench.stdout
    bench.stdin.write(f"{folder} {number}\n")
    bench.stdin.flush()
    told: list[str] = []
    child = 0
    while not child:
        line = bench.stdout.readline().strip()
        told, child = ([*told, line], 0) if " " in line else (told, int(line))
    time.sleep(seconds)
    os.kill(child, signal.SIGKILL)
    while (line := bench.stdout.readline().strip()) != "gone":
        told.append(line)
    return told


def test_whatever_a_killed_bench_told_is_on_disk(
    bench: subprocess.Popen[str], tmp_path: Path
) -> None:
    moments = random.Random(17)  # noqa: S311 - moments to kill at, nothing secret
    heard = turn = 0
    while turn < ROUNDS or (heard <= ROUNDS and turn < MOST_ROUNDS):
        number = f"K-{turn}"
        told = killed_after(bench, tmp_path, number, moments.uniform(0, 0.05))
        heard += len(told)
        with JobStore(tmp_path) as store:
            assert_there(store, number, told)
        turn += 1
    assert heard > ROUNDS
    with closing(sqlite3.connect(tmp_path / FILE)) as connection:
        assert connection.execute("PRAGMA integrity_check").fetchall() == [("ok",)]


def assert_there(store: JobStore, number: str, told: list[str]) -> None:
    """All that was told is stored, at most one edit more, and no edit in part."""
    if not told and not store.exists(number):
        return
    opened = store.open_job(number)
    assert opened.damage == ""
    entries = opened.journal.entries
    for line in told:
        sequence, digest = line.split()
        assert entries[int(sequence) - 1].digest == digest
    last = int(told[-1].split()[0]) if told else -2
    assert len(entries) in {last, last + ENTRIES_AN_EDIT}
    assert len(opened.job.now.right.distance) == (len(entries) - 1) // ENTRIES_AN_EDIT


def test_a_window_in_another_process_is_refused(
    bench: subprocess.Popen[str], tmp_path: Path
) -> None:
    assert bench.stdin
    assert bench.stdout
    bench.stdin.write(f"{tmp_path} W-1\n")
    bench.stdin.flush()
    lines = [bench.stdout.readline().strip() for _ in range(3)]
    child = next(int(line) for line in lines if " " not in line)
    try:
        with pytest.raises(BenchError, match=r"already open in another window on .* since"):
            JobStore(tmp_path)
    finally:
        os.kill(child, signal.SIGKILL)
        while bench.stdout.readline().strip() != "gone":
            pass
