"""The speed of all that needs no window, as lines of JSON for bench.py."""

import json
import sqlite3
import statistics
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import closing
from dataclasses import asdict, dataclass
from datetime import UTC, datetime
from decimal import Decimal
from functools import partial
from io import BytesIO
from itertools import count
from pathlib import Path

import numpy as np

from benchassist.assets import asset
from benchassist.guide.load import load_guide
from benchassist.job.document import Job
from benchassist.job.journal import Entry, Journal
from benchassist.job.order import Design
from benchassist.job.signoff import Person, Role, SignOff
from benchassist.job.upgrade import read
from benchassist.limits.arrays import PARTS, Whole
from benchassist.limits.load import Limits, load_limits
from benchassist.optics.arrays import columns
from benchassist.optics.eye import Eye
from benchassist.records.ink import REGULAR
from benchassist.records.making import make_record
from benchassist.records.pdf import record_pdf
from benchassist.records.record import Imprint
from benchassist.store.jobs import FILE, JobStore
from benchassist.store.settings import Workshop
from benchassist.verdicts.arrays import judge_pairs
from benchassist.verdicts.arrays_pairs import Lenses, LensPairs, Side
from benchassist.verdicts.arrays_verdict import Verdicts
from benchassist.verdicts.judge import judge

NOON = datetime(2026, 3, 2, 12, tzinfo=UTC)
OPTICIAN = Person(name="Ilse Varga", role=Role.OPTICIAN)


@dataclass(frozen=True, slots=True)
class Row:
    """What we take, and what the bare tools take for the same."""

    what: str
    ours: float
    floor: float
    unit: str
    against: str


@dataclass(frozen=True, slots=True)
class Sizes:
    """Repeats of one call, jobs that are searched, lenses in the arrays."""

    rounds: int
    jobs: int
    lenses: int


FULL = Sizes(rounds=200, jobs=200_000, lenses=1_000_000)
QUICK = Sizes(rounds=20, jobs=5_000, lenses=50_000)


def median_ms(work: Callable[[], object], rounds: int) -> float:
    """The median time of one call, ms, after one that is not counted."""
    work()
    times = []
    for _ in range(rounds):
        start = time.perf_counter()
        work()
        times.append((time.perf_counter() - start) * 1000)
    return statistics.median(times)


def demo() -> tuple[Job, Limits]:
    """The demo job with most in it, and what it is judged by."""
    file = max(asset("demo").glob("*.json"), key=lambda path: path.stat().st_size)
    job = read(file.read_bytes())
    return job, load_limits(job.order.rule_set)


def judging(sizes: Sizes) -> Iterator[Row]:
    """All verdicts on one job."""
    job, limits = demo()
    nought = Decimal(0)
    pairs = [
        (finding.found or nought, finding.ordered or nought, finding.limit or nought)
        for finding in judge(job, limits)
    ]

    def bare() -> int:
        return sum(abs(found - ordered) <= limit for found, ordered, limit in pairs)

    yield Row(
        f"judge one job, {len(pairs)} findings",
        median_ms(lambda: judge(job, limits), sizes.rounds),
        median_ms(bare, sizes.rounds),
        "ms",
        "as many bare decimal comparisons",
    )


def bare_pdf(pages: int) -> bytes:
    """So many pages of plain lines in the font of the record, by reportlab alone."""
    from reportlab.pdfgen.canvas import Canvas  # noqa: PLC0415 - only once the record is drawn

    target = BytesIO()
    canvas = Canvas(target, invariant=1, pageCompression=1, initialFontName=REGULAR)
    for _ in range(pages):
        canvas.setFont(REGULAR, 9)
        for line in range(60):
            canvas.drawString(48, 800 - 12 * line, f"{line} a line of the length of a finding")
        canvas.showPage()
    canvas.save()
    return target.getvalue()


def record(sizes: Sizes) -> Iterator[Row]:
    """The record of one job as a PDF document."""
    job, limits = demo()
    guide, findings = load_guide(), judge(job, limits)
    imprint = Imprint(
        workshop=Workshop(name="Fernhollow Spectacle Workshop"),
        made_at=NOON,
        digest="0" * 64,
        digest_of="job file",
    )

    def ours() -> bytes:
        return record_pdf(make_record(job, findings, guide, limits, imprint))

    pages = ours().count(b"/Type /Page\n")
    yield Row(
        f"record of one job, {pages} pages",
        median_ms(ours, sizes.rounds // 4),
        median_ms(lambda: bare_pdf(pages), sizes.rounds // 4),
        "ms",
        "bare reportlab, as many pages of plain lines",
    )


def edits(job: Job, journal: Journal) -> Iterator[tuple[Job, tuple[Entry, ...]]]:
    """Endless edits of a job, each as the job after it and the entries it makes."""
    for number in count(1):
        after = job.with_(order=job.order.with_(remark=f"edit {number}"))
        entries = journal.record(job, after, OPTICIAN, NOON)
        job, journal = after, journal.extended(entries)
        yield job, entries


def edit_on_disk(sizes: Sizes) -> Iterator[Row]:
    """One edit of a job that has had 300 already, until the journal is on disk."""
    job, _ = demo()
    job = job.with_now(job.now.with_(signoff=SignOff()))
    start = Journal.start(job, OPTICIAN, NOON)
    later = edits(job, start)
    with tempfile.TemporaryDirectory() as folder:
        with JobStore(Path(folder)) as store:
            store.append(start.entries, job)

            def ours() -> None:
                after, entries = next(later)
                store.append(entries, after)

            for _ in range(300):
                ours()
            taken = median_ms(ours, sizes.rounds)
        floor = bare_insert_ms(Path(folder), sizes.rounds)
    yield Row(
        "an edit until it is on disk", taken, floor, "ms", "one bare SQLite insert, synced"
    )


def bare_insert_ms(folder: Path, rounds: int) -> float:
    """The median time of one insert that waits for the disk as the journal does, ms."""
    with closing(sqlite3.connect(folder / "bare.sqlite3", isolation_level=None)) as bare:
        bare.execute("PRAGMA journal_mode = TRUNCATE")
        bare.execute("PRAGMA synchronous = EXTRA")
        bare.execute("CREATE TABLE entries (at TEXT, new TEXT)")
        add = "INSERT INTO entries VALUES ('2026-03-02', 'edit')"
        return median_ms(lambda: bare.execute(add), rounds)


def put_many_jobs(file: Path, jobs: int) -> None:
    """So many jobs, with names made from three lists, put straight into the database."""
    first = ("Marit", "Tomas", "Ilse", "Priya", "Anouk", "Bram", "Celia", "Dario", "Edda")
    last = ("Oduya", "Aldana", "Varga", "Nandakumar", "Lindqvist", "Okafor", "Petrov", "Quist")
    rows = (
        (
            f"J{number:06}",
            f"{first[number % 9]} {last[number % 8]}-{number % 97}",
            f"2026-01-{number % 28 + 1:02}T00:00:{number % 60:02}.000000+00:00",
        )
        for number in range(jobs)
    )
    with closing(sqlite3.connect(file)) as connection, connection:
        connection.executemany(
            "INSERT INTO jobs (number, wearer, changed, created, design, state, worst,"
            " attempts, entries, digest)"
            " VALUES (?1, ?2, ?3, ?3, 'progressive', 'open', '', 1, 1, '')",
            rows,
        )


def found_bare(connection: sqlite3.Connection, typed: str) -> list[tuple[int]]:
    """The rows whose words begin as typed, by SQLite's full-text search alone."""
    words = " ".join(f'"{word}"*' for word in typed.split())
    statement = "SELECT rowid FROM names WHERE names MATCH ?"
    return connection.execute(statement, (words,)).fetchall()


def search(sizes: Sizes) -> Iterator[Row]:
    """Finding jobs by what a person types: a number, a name, two letters that fit many."""
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / FILE
        JobStore(Path(folder)).close()
        put_many_jobs(file, sizes.jobs)
        with JobStore(Path(folder)) as store, closing(sqlite3.connect(file)) as bare:
            for typed in ("J004321", "ilse varga-42", "ma"):
                yield Row(
                    f"search {sizes.jobs:,} jobs for '{typed}'",
                    median_ms(partial(store.search, typed), 20),
                    median_ms(partial(found_bare, bare, typed), 20),
                    "ms",
                    "bare SQLite full-text search",
                )


def many_lenses(sizes: Sizes) -> Iterator[Row]:
    """How far many lenses lie from what was ordered, as powers."""
    draw, size = np.random.default_rng(7).uniform, sizes.lenses
    read, ordered = (
        columns(draw(-8, 8, size), draw(-4, 0, size), draw(1, 180, size)) for _ in range(2)
    )

    def ours() -> object:
        return (read.vectors() - ordered.vectors()).powers()

    def bare() -> object:
        return [np.cos(axis) + np.sin(axis) for axis in (read.axis, ordered.axis)]

    yield Row(
        f"differences of {sizes.lenses:,} lenses",
        median_ms(ours, 5),
        median_ms(bare, 5),
        "ms",
        "numpy's sines and cosines of the same axes",
    )


Columns = dict[str, Whole]


def random_lenses(random: np.random.Generator, size: int) -> tuple[Columns, Columns]:
    """So many lenses, ordered in quarters of a dioptre and found in hundredths close by."""

    def whole(low: int, high: int, step: int) -> Whole:
        return random.integers(low, high, size, endpoint=True) * step

    quarter, hundredth, level = PARTS // 4, PARTS // 100, np.zeros(size, np.int64)
    ordered = {"sphere": whole(-24, 16, quarter), "cylinder": whole(-8, 0, quarter)}
    ordered["axis"] = np.where(ordered["cylinder"] == 0, 0, whole(1, 180, PARTS))
    ordered |= {"add": whole(3, 12, quarter), "base_in": level, "base_up": level}
    found = {name: ordered[name] + whole(-15, 15, hundredth) for name in ("sphere", "add")}
    found["cylinder"] = np.minimum(ordered["cylinder"] + whole(-12, 12, hundredth), 0)
    turned = (ordered["axis"] + whole(-4, 4, PARTS) - 1) % (180 * PARTS) + 1
    found["axis"] = np.where(found["cylinder"] == 0, 0, turned)
    found |= {"base_in": whole(-40, 40, hundredth), "base_up": whole(-30, 30, hundredth)}
    return ordered, found


def bare_differences(ordered: Columns, found: Columns) -> tuple[Columns, Columns]:
    """What a lens is off, quantity by quantity, and the readings of powers, by bare numpy."""
    off = {name: found[name] - ordered[name] for name in ordered}
    along, turned = off.pop("sphere"), off["axis"]
    across, read_across = along + off["cylinder"], found["sphere"] + found["cylinder"]
    size, other = np.abs(ordered["sphere"]), np.abs(ordered["sphere"] + ordered["cylinder"])
    is_missed = (other == size) & (np.abs(across) > np.abs(along))
    is_first = (other > size) | is_missed
    off["meridian-high"] = np.where(is_first, across, along)
    off["meridian-other"] = along + across - off["meridian-high"]
    turned += (turned <= -90 * PARTS) * np.int64(180 * PARTS)
    turned -= (turned > 90 * PARTS) * np.int64(180 * PARTS)
    high = np.where(is_first, read_across, found["sphere"])
    read = {"meridian-high": high, "meridian-other": found["sphere"] + read_across - high}
    return off, read | {"cylinder": found["cylinder"], "add": found["add"]}


def bare_states(
    difference: Whole, limit: Whole, guard: Whole, read: Whole | None = None
) -> object:
    """Outside, too near the limit or within; odd eighths read as such are cut before."""
    size = np.abs(difference)
    if read is not None:
        eighth = PARTS // 8
        places = np.flatnonzero(read // eighth * eighth == read)
        places = places[size[places] % (2 * eighth) == eighth]
        size[places] -= PARTS // 200
    return (size > limit).view(np.int8) + (size > limit - guard).view(np.int8)


def many_pairs(sizes: Sizes) -> Iterator[Row]:
    """Powers, axes, additions and prism of many pairs beside their limits."""
    random, limits = np.random.default_rng(7), load_limits("iso-21987-2017")
    lenses = {str(eye): random_lenses(random, sizes.lenses) for eye in Eye}
    right, left = (
        Side(Lenses(**ordered), Lenses(**found)) for ordered, found in lenses.values()
    )
    pairs = LensPairs(right, left)

    def ours() -> Verdicts:
        return judge_pairs(pairs, limits, Design.PROGRESSIVE)

    known = {key: (one.limit, one.guard) for key, one in ours().by_key.items()}

    def bare() -> object:
        states, nets = [], []
        for eye, lens in lenses.items():
            off, read = bare_differences(*lens)
            nets.append(off)
            states += [
                bare_states(off[name], *known[f"{eye}.{name}"], read.get(name))
                for name in ("meridian-high", "meridian-other", "cylinder", "axis", "add")
            ]
        net = {
            "horizontal": nets[0]["base_in"] + nets[1]["base_in"],
            "vertical": nets[0]["base_up"] - nets[1]["base_up"],
        }
        states += [
            bare_states(difference, *known[f"pair.prism-{direction}"])
            for direction, difference in net.items()
        ]
        return nets, net, states

    yield Row(
        f"judge {sizes.lenses:,} lens pairs: powers, axes, additions, prism",
        median_ms(ours, 5),
        median_ms(bare, 5),
        "ms",
        "the same comparisons in bare numpy, limits looked up before",
    )


BENCHES: tuple[Callable[[Sizes], Iterator[Row]], ...] = (
    judging,
    record,
    edit_on_disk,
    search,
    many_lenses,
    many_pairs,
)
"""What is measured, in the order of the table."""


def main() -> None:
    """Measure everything and print it."""
    sizes = QUICK if "--quick" in sys.argv else FULL
    for bench in BENCHES:
        for row in bench(sizes):
            print(json.dumps(asdict(row)), flush=True)


if __name__ == "__main__":
    main()
