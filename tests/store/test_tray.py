import sqlite3
from contextlib import closing
from datetime import datetime
from pathlib import Path

import pytest

from benchassist.job.document import Job, JobState
from benchassist.job.journal import moment
from benchassist.job.order import Design
from benchassist.job.signing import countersign, dispense
from benchassist.job.signoff import Outcome
from benchassist.store.jobs import FILE, JobStore
from benchassist.store.tray import JobRow
from tests.job.samples import NINE, OPTICIAN, SUPERVISOR, bookbinders_job, later
from tests.store.conftest import Bench


def named(number: str, wearer: str) -> Job:
    job = bookbinders_job(number)
    return job.with_(order=job.order.with_(wearer=wearer))


@pytest.fixture
def tray(bench: Bench) -> Bench:
    """Four jobs, begun a minute apart; the second one was released and countersigned."""
    wearers = ("Marit Oduya", "Zoë Ångström", "Iosif d'Aragón", "Марія Oduya-Lind")
    for minute, wearer in enumerate(wearers):
        bench.begin(named(f"FH-{minute}", wearer), minute)
    journal = bench.store.journal("FH-1")
    signed = dispense(journal.fold(), OPTICIAN, later(10), Outcome.RELEASE)
    journal = bench.change(journal, signed, 10)
    bench.change(journal, countersign(signed, SUPERVISOR, later(11)), 11)
    return bench


def found(bench: Bench, text: str) -> list[str]:
    return [row.number for row in bench.store.search(text)]


@pytest.mark.parametrize(
    ("text", "numbers"),
    [
        ("", ["FH-1", "FH-3", "FH-2", "FH-0"]),
        ("   ", ["FH-1", "FH-3", "FH-2", "FH-0"]),
        ("oduya", ["FH-3", "FH-0"]),
        ("odu mar", ["FH-0"]),
        ("ODUYA-L", ["FH-3"]),
        ("zoe", ["FH-1"]),
        ("angstro", ["FH-1"]),
        ("Ångström", ["FH-1"]),
        ("арія", []),
        ("марі", ["FH-3"]),
        ("d'a", ["FH-2"]),
        ("fh-2", ["FH-2"]),
        ("FH 2", ["FH-2"]),
        ("fh oduya 3", ["FH-3"]),
        ("duya", []),
        ('"', []),
        ("-", []),
        ("* OR NOT (", []),
        ("wearer:marit", []),
        ("o\0duya", []),
    ],
)
def test_a_job_is_found_by_beginnings_of_words(
    tray: Bench, text: str, numbers: list[str]
) -> None:
    assert found(tray, text) == numbers


def test_a_row_tells_what_the_tray_shows(tray: Bench) -> None:
    assert tray.store.search("zoe") == (
        JobRow(
            number="FH-1",
            wearer="Zoë Ångström",
            design=Design.PROGRESSIVE,
            state=JobState.CLOSED,
            worst="",
            attempts=1,
            created=NINE,
            changed=later(11),
        ),
    )


def test_a_job_without_a_design_and_with_a_worst_finding(bench: Bench) -> None:
    journal = bench.begin(Job(number="7", created=NINE))
    job = journal.fold()
    after = job.with_(order=job.order.with_(wearer="Ada Lind"))
    bench.store.append(journal.record(job, after, OPTICIAN, later(1)), after, "outside")
    (row,) = bench.store.search("lind")
    assert (row.design, row.worst) == (None, "outside")


def test_a_renamed_wearer_is_found_by_the_new_name_only(tray: Bench) -> None:
    journal = tray.store.journal("FH-0")
    job = journal.fold()
    tray.change(journal, job.with_(order=job.order.with_(wearer="Marta Lind")), 20)
    assert found(tray, "marit") == []
    assert found(tray, "marta") == ["FH-0"]
    assert found(tray, "lind") == ["FH-0", "FH-3"]


@pytest.mark.parametrize(
    ("since", "until", "numbers"),
    [
        (later(2), None, ["FH-1", "FH-3", "FH-2"]),
        (None, later(2), ["FH-0"]),
        (later(2), later(3), ["FH-2"]),
        (later(12), None, []),
    ],
)
def test_jobs_are_found_by_the_time_of_their_last_change(
    tray: Bench, since: datetime | None, until: datetime | None, numbers: list[str]
) -> None:
    rows = tray.store.search(since=since, until=until)
    assert [row.number for row in rows] == numbers


def test_a_word_that_most_jobs_share_finds_the_newest_of_them(folder: Path) -> None:
    with JobStore(folder):
        pass
    rows = [
        (f"FH-{number}", "Oduya" if number % 50 else "Lind", moment(later(number * 7 % 3001)))
        for number in range(3000)
    ]
    with closing(sqlite3.connect(folder / FILE)) as connection, connection:
        connection.executemany(
            "INSERT INTO jobs (number, wearer, design, state, worst, attempts, created, "
            "changed, entries, digest) VALUES (?1, ?2, '', 'open', '', 1, ?3, ?3, 1, '')",
            rows,
        )
    newest = sorted(rows, key=lambda row: row[2], reverse=True)
    with JobStore(folder) as store:
        for text in ("oduya", "lind"):
            expected = [row[0] for row in newest if row[1] == text.title()]
            assert [row.number for row in store.search(text)] == expected[:200]
            in_state = store.search(text, JobState.OPEN, until=later(2900), limit=9000)
            assert [row.number for row in in_state] == [
                row[0]
                for row in newest
                if row[1] == text.title() and row[2] < moment(later(2900))
            ]
            assert store.search(text, JobState.HELD) == ()


def test_jobs_are_found_by_state_and_counted(tray: Bench) -> None:
    closed = tray.store.search(state=JobState.CLOSED)
    assert [row.number for row in closed] == ["FH-1"]
    assert tray.store.search("oduya", JobState.CLOSED) == ()
    assert [row.number for row in tray.store.search("oduya", limit=1)] == ["FH-3"]
    assert tray.store.counts() == {
        JobState.OPEN: 3,
        JobState.HELD: 0,
        JobState.TO_COUNTERSIGN: 0,
        JobState.AT_LAB: 0,
        JobState.CLOSED: 1,
    }
