"""How fast the program is, each figure beside a floor measured in the same run."""

import argparse
import json
import os
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

HERE = Path(__file__).resolve().parent
DEMO = HERE.parent / "resources" / "demo"


@dataclass(frozen=True, slots=True)
class Row:
    """One line of the table: what we take, and what the bare tools take for the same."""

    what: str
    ours: float
    floor: float
    unit: str
    against: str

    @property
    def text(self) -> str:
        """The line, with how many times the floor we take."""
        ratio = self.ours / self.floor
        return (
            f"| {self.what} | {self.ours:,.3g} {self.unit} | {self.floor:,.3g} {self.unit} "
            f"| {ratio:.{0 if ratio >= 10 else 1}f} | {self.against} |"  # noqa: PLR2004
        )


def process(*arguments: str) -> list[str]:
    """The lines that a fresh Python process prints."""
    around = {**os.environ, "QT_QPA_PLATFORM": "offscreen", "PYTHONPATH": str(HERE.parent)}
    done = subprocess.run(
        [sys.executable, *arguments], env=around, check=False, stdout=subprocess.PIPE, text=True
    )
    return done.stdout.splitlines()


def process_ms(*arguments: str, starts: int) -> float:
    """The median time of a whole fresh Python process, ms."""
    times = []
    for _ in range(starts):
        start = time.perf_counter()
        process(*arguments)
        times.append((time.perf_counter() - start) * 1000)
    return statistics.median(times)


def window(*arguments: str) -> dict[str, float]:
    """What bench_window.py measures in a fresh process."""
    lines = process(str(HERE / "bench_window.py"), *arguments)
    answer: dict[str, float] = json.loads(lines[-1])
    return answer


@contextmanager
def demo_folder() -> Iterator[str]:
    """A data folder with the demo jobs."""
    with tempfile.TemporaryDirectory() as folder:
        window("fill", folder)
        yield folder


def first_paint(*, quick: bool) -> Iterator[Row]:
    """From the start of a process to the first picture, to the tray, and its memory then."""
    starts = 3 if quick else 9

    def started(name: str, *more: str) -> list[dict[str, float]]:
        return [window(name, str(time.time()), *more) for _ in range(starts)]

    with demo_folder() as folder:
        door, tray, empty = started("door"), started("ours", folder), started("empty")
    for what, all_, unit in (
        ("until the first picture", door, "ms"),
        ("until the tray of jobs is painted", tray, "ms"),
        ("memory of the window", tray, "MB"),
    ):
        if unit in all_[0]:
            taken, floor = (
                statistics.median(one[unit] for one in each) for each in (all_, empty)
            )
            yield Row(what, taken, floor, unit, "an empty window")


def typed_reading(*, quick: bool) -> Iterator[Row]:
    """A reading typed, until it is on disk and verdict, gauges and drawing are painted."""
    with demo_folder() as folder:
        answer = window("typed", "40" if quick else "400", folder)
    for share in ("p50", "p99"):
        what = f"a reading taken, until all is painted, {share}"
        yield Row(what, answer[share], 1000 / 60, "ms", "one picture at 60 Hz")


def shell(*, quick: bool) -> Iterator[Row]:
    """Judging one file from a shell, the whole process."""
    starts = 3 if quick else 9
    job = max(DEMO.glob("*.json"), key=lambda path: path.stat().st_size)
    yield Row(
        "judge one file from a shell",
        process_ms("-m", "benchassist", "judge", str(job), starts=starts),
        process_ms("-c", "import pydantic.main", starts=starts),
        "ms",
        "Python importing pydantic",
    )


def desk(*, quick: bool) -> Iterator[Row]:
    """All that needs no window, in one fresh process."""
    for line in process(str(HERE / "bench_desk.py"), *(["--quick"] if quick else [])):
        yield Row(**json.loads(line))


BENCHES: tuple[Callable[..., Iterator[Row]], ...] = (first_paint, typed_reading, shell, desk)
"""What is measured, in the order of the table."""


def main() -> None:
    """Measure everything and print the table."""
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--quick", action="store_true", help="small sizes")
    quick = options.parse_args().quick
    print("| what | ours | floor | ratio | the floor |\n| --- | ---: | ---: | ---: | --- |")
    for bench in BENCHES:
        for row in bench(quick=quick):
            print(row.text, flush=True)


if __name__ == "__main__":
    main()
