"""The composition root: everything the window needs is made here and handed on."""

import argparse
import os
import sys
import tempfile
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from datetime import UTC, datetime
from pathlib import Path

from PySide6.QtWidgets import QApplication, QMainWindow, QMessageBox, QStyleFactory

from benchassist.guide.load import load_guide
from benchassist.job.signoff import Person, Role
from benchassist.store.jobs import JobStore
from benchassist.store.place import data_folder
from benchassist.store.settings import Settings, load_settings
from benchassist.ui.ask_person import AskPerson
from benchassist.ui.demo import demo_settings, fill_with_demo
from benchassist.ui.desk import Desk, Furniture
from benchassist.ui.draw import draw_window
from benchassist.ui.extent import SMALLEST
from benchassist.ui.fault import FaultHook, FaultSheet, log_to
from benchassist.ui.shell import Shell
from benchassist.ui.theme import Scheme, Theme
from benchassist.wrong import BenchError

UNUSABLE = 2
"""The exit code when the world is in the way, as for the shell."""

NOBODY = Person(name="Nobody in particular", role=Role.TRAINEE)
"""Who is at the bench until somebody says who: with the least rights."""


def utc_now() -> datetime:
    """The time of this machine, in UTC."""
    return datetime.now(UTC)


def run(app: QApplication, arguments: list[str], door: QMainWindow | None) -> int:
    """Puts the window in the place of the door, and gives the exit code.

    Faults of the world become a sentence.
    """
    chosen = _parser().parse_args(arguments)
    app.setStyle(QStyleFactory.create("Fusion"))
    try:
        with _data(chosen) as folder:
            return _open(app, folder, chosen, door)
    except BenchError as error:
        if door is not None:
            QMessageBox.warning(door, "Benchassist", error.sentence)
            door.close()
        sys.stderr.write(f"{error.sentence}\n")
        return UNUSABLE


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(prog="benchassist", allow_abbrev=False)
    parser.add_argument(
        "--data", type=Path, help="folder of the jobs, instead of the usual one"
    )
    parser.add_argument("--demo", action="store_true", help="work on a copy of the demo jobs")
    parser.add_argument("--draw", type=Path, help="draw the window into PNG files and end")
    return parser


@contextmanager
def _data(chosen: argparse.Namespace) -> Iterator[Path]:
    """The data folder; that of the demo is thrown away at the end."""
    if not chosen.demo:
        yield data_folder(chosen.data, os.environ)
        return
    with tempfile.TemporaryDirectory(prefix="benchassist-demo-") as scratch:
        yield Path(scratch) / "data"


def _open(
    app: QApplication, folder: Path, chosen: argparse.Namespace, door: QMainWindow | None
) -> int:
    with ExitStack() as closing:
        store = closing.enter_context(JobStore(folder))
        closing.callback(log_to(folder))
        settings, note = load_settings(folder)
        if chosen.demo:
            settings = demo_settings()
            fill_with_demo(store)
        theme = Theme(Scheme(settings.scheme))
        theme.changed.connect(lambda: theme.apply(app))
        theme.apply(app)
        shell = Shell(make_desk(store, settings), theme, AskPerson())
        hook = FaultHook()
        hook.caught.connect(lambda report: FaultSheet(report).exec())
        hook.install()
        closing.callback(_restore_hook)
        told = " ".join(one for one in (note, *store.notes) if one)
        if told:
            shell.tell(told)
        if chosen.draw is not None:
            return draw_window(shell, theme, chosen.draw)
        shell.resize(SMALLEST)
        shell.show()
        if door is not None:
            door.close()
        return app.exec()


def _restore_hook() -> None:
    sys.excepthook = sys.__excepthook__


def make_desk(store: JobStore, settings: Settings) -> Desk:
    """What stands behind a window on a store."""
    furniture = Furniture(store, load_guide(), settings, utc_now)
    return Desk(furniture, settings.at_bench or NOBODY)
