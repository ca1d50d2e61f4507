"""The speed of the window, measured in a fresh process, as one line of JSON for bench.py.

Say 'empty START' for a bare QMainWindow, 'door START' for what our program shows first and
'ours START FOLDER' for our window on a data folder, each with the time at which its process
was started; 'fill FOLDER' puts the demo jobs into a data folder, and 'typed READINGS FOLDER'
types so many readings into one of them.
"""

# ruff: noqa: PLC0415 - the empty window must not load what ours loads

import importlib
import json
import statistics
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QLineEdit, QMainWindow

FIRST_JOB = "FH-2611-060"
"""The demo job that has an order and no reading yet."""


def memory_mb() -> dict[str, float]:
    """The most memory this process held, MB; nothing where the system does not tell."""
    if sys.platform == "win32":
        return {}
    resource = importlib.import_module("resource")
    most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    return {"MB": most / (1024 * 1024 if sys.platform == "darwin" else 1024)}


def painted(window: QMainWindow, start: float) -> dict[str, float]:
    """From the start of the process until the window is painted, ms, and its memory."""
    window.resize(1280, 800)
    window.show()
    QApplication.processEvents()
    return {"ms": (time.time() - start) * 1000, **memory_mb()}


def empty(start: str) -> dict[str, float]:
    """A window with nothing in it."""
    app = QApplication(["bench"])
    window = QMainWindow()
    answer = painted(window, float(start))
    window.close()
    app.quit()
    return answer


def on_demo(folder: str, use: Callable[[Any], dict[str, float]]) -> dict[str, float]:
    """What is measured on our window, made on a data folder as the program makes it."""
    from benchassist.store.jobs import JobStore
    from benchassist.ui.app import make_desk
    from benchassist.ui.ask_person import AskPerson
    from benchassist.ui.demo import demo_settings
    from benchassist.ui.shell import Shell
    from benchassist.ui.theme import Scheme, Theme

    app = QApplication(["bench"])
    app.setStyle("Fusion")
    with JobStore(Path(folder)) as store:
        theme = Theme(Scheme.LIGHT)
        theme.apply(app)
        shell = Shell(make_desk(store, demo_settings()), theme, AskPerson())
        answer = use(shell)
        shell.close()
    return answer


def door(start: str) -> dict[str, float]:
    """What our program shows first."""
    from benchassist.ui.door import open_door

    app = QApplication(["bench"])
    shown = open_door(app)
    answer = {"ms": (time.time() - float(start)) * 1000}
    shown.close()
    return answer


def ours(start: str, folder: str) -> dict[str, float]:
    """Our window, with the tray of jobs, as it stands after the door."""
    return on_demo(folder, lambda shell: painted(shell, float(start)))


def typed(readings: str, folder: str) -> dict[str, float]:
    """The key that ends a reading, until it is judged, on disk and everything is painted."""
    return on_demo(folder, lambda shell: latencies(shell, int(readings)))


def fields(shell: QMainWindow) -> list[QLineEdit]:
    """The fields that take a reading now, from left to right."""
    return [
        edit
        for edit in shell.findChildren(QLineEdit)
        if edit.isVisible() and edit.property("role") == "reading"
    ]


def type_into(edit: QLineEdit, text: str) -> float:
    """Types a reading; how long the last key takes until all is painted, ms."""
    from PySide6.QtTest import QTest

    edit.setFocus()
    edit.selectAll()
    QTest.keyClicks(edit, text)
    QApplication.processEvents()
    start = time.perf_counter()
    QTest.keyClick(edit, Qt.Key.Key_Tab)
    QApplication.processEvents()
    return (time.perf_counter() - start) * 1000


def latencies(shell: Any, readings: int) -> dict[str, float]:
    """The time of a reading, ms: half take no longer than p50, 99 in 100 than p99."""
    painted(shell, 0.0)
    shell.open_job(FIRST_JOB)
    for edit, text in zip(fields(shell), ("-2.00", "-2.50", "90"), strict=True):
        type_into(edit, text)
    times = sorted(type_into(fields(shell)[0], f"-2.{one % 2}0") for one in range(readings))
    return {"p50": statistics.median(times), "p99": times[int(0.99 * (len(times) - 1))]}


def fill(folder: str) -> dict[str, float]:
    """The demo jobs in a data folder."""
    from benchassist.store.jobs import JobStore
    from benchassist.ui.demo import fill_with_demo

    with JobStore(Path(folder)) as store:
        fill_with_demo(store)
    return {}


MEASURES: dict[str, Callable[..., dict[str, float]]] = {
    "empty": empty,
    "door": door,
    "ours": ours,
    "typed": typed,
    "fill": fill,
}

if __name__ == "__main__":
    print(json.dumps(MEASURES[sys.argv[1]](*sys.argv[2:])))
