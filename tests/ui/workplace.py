"""A window on a store of its own, with hands at its keyboard."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import shiboken6
from PySide6.QtWidgets import QLabel, QPushButton, QWidget

from benchassist.guide.flow import Standing
from benchassist.job.document import Job
from benchassist.job.journal import Journal
from benchassist.store.jobs import JobStore
from benchassist.ui.app import make_desk
from benchassist.ui.demo import OPTICIAN, demo_settings
from benchassist.ui.desk import Desk
from benchassist.ui.shell import Shell
from benchassist.ui.theme import Theme
from tests.ui.hands import AtOnce, Hands


@dataclass(frozen=True)
class Workplace:
    """A window on an empty store, and hands at its keyboard."""

    shell: Shell
    desk: Desk
    hands: Hands
    ask: AtOnce

    @property
    def standing(self) -> Standing:
        """Where the open job stands."""
        standing = self.desk.session.standing
        assert standing is not None
        return standing

    @property
    def job(self) -> Job:
        """The open job."""
        return self.standing.job

    def put(self, job: Job) -> None:
        """Puts a job into the tray."""
        self.desk.store.append(Journal.start(job, OPTICIAN, job.created).entries, job)


@contextmanager
def workplace_in(folder: Path, theme: Theme, patience_ms: int = 0) -> Iterator[Workplace]:
    """A workplace whose data and papers lie in the folder."""
    ask = AtOnce(folder / "record.pdf", "to be judged by eye only")
    with JobStore(folder / "data") as store:
        desk = make_desk(store, demo_settings())
        shell = Shell(desk, theme, ask, patience_ms=patience_ms)
        shell.resize(1280, 800)
        try:
            yield Workplace(shell, desk, Hands(shell), ask)
        finally:
            shell.close()
            shiboken6.delete(shell)


def said(workplace: Workplace) -> str:
    """Everything that the visible labels say, and the status line."""
    labels = workplace.shell.findChildren(QLabel)
    shown = [label.text() for label in labels if label.isVisible()]
    return " ".join([*shown, workplace.shell.statusBar().currentMessage()])


def press(sheet: QWidget, words: str) -> None:
    """Presses the button of a sheet that begins with these words."""
    buttons = sheet.findChildren(QPushButton)
    next(one for one in buttons if one.text().replace("&", "").startswith(words)).click()
