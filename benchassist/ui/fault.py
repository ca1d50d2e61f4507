"""The last resort: an unexpected error is shown, logged and offered for copying."""

import logging
import platform
import sys
import traceback
from collections.abc import Callable
from pathlib import Path
from types import TracebackType

from PySide6.QtCore import QObject, Signal, qVersion
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QHBoxLayout, QPlainTextEdit

from benchassist.ui.labels import text_label
from benchassist.ui.raised import RaisedSheet, button

LOG = "benchassist.log"
"""The name of the log file in the data folder."""

_SAFE = (
    "Everything the screen showed as taken is on disk. You can go on; if it happens again, "
    "copy the report below for whoever looks after the program."
)
_log = logging.getLogger(__name__)


class FaultHook(QObject):
    """Catches what no slot caught.

    PySide6 prints an exception of a slot and goes on, so nobody at the bench would notice it.

    Signals:
        caught: the report of an unexpected error, ready to be copied.
    """

    caught = Signal(str)

    def install(self) -> None:
        """Takes the place of the interpreter's hook."""
        sys.excepthook = self.on_exception

    def on_exception(
        self,
        kind: type[BaseException],
        error: BaseException,
        trace: TracebackType | None,
    ) -> None:
        """Logs an exception and says so."""
        if issubclass(kind, KeyboardInterrupt):
            sys.__excepthook__(kind, error, trace)
            return
        report = report_of(error)
        _log.error(report)
        self.caught.emit(report)


def report_of(error: BaseException) -> str:
    """What a developer needs: versions, system and the whole traceback."""
    told = "".join(traceback.format_exception(error))
    return (
        f"Benchassist on {platform.platform()}, Python {platform.python_version()}, "
        f"Qt {qVersion()}\n\n{told}"
    )


def log_to(folder: Path) -> Callable[[], None]:
    """Writes warnings and errors to a file in the data folder; gives what ends it."""
    handler = logging.FileHandler(folder / LOG, encoding="utf-8", delay=True)
    handler.setLevel(logging.WARNING)
    handler.setFormatter(logging.Formatter("%(asctime)s %(levelname)s %(message)s"))
    root = logging.getLogger("benchassist")
    root.addHandler(handler)

    def end() -> None:
        root.removeHandler(handler)
        handler.close()

    return end


class FaultSheet(RaisedSheet):
    """Says that something went wrong in the program and that the job is safe."""

    def __init__(self, report: str) -> None:
        super().__init__("Something went wrong", "Something went wrong in Benchassist")
        self.resize(720, 440)
        text = QPlainTextEdit(report)
        text.setReadOnly(True)
        text.setAccessibleName("Report")
        self.column.addWidget(text_label("", _SAFE))
        self.column.addWidget(text, 1)
        line = QHBoxLayout()
        line.addWidget(
            button("Copy the report", lambda: QGuiApplication.clipboard().setText(report))
        )
        line.addStretch(1)
        line.addWidget(button("Go on", self.accept, "primary"))
        self.column.addLayout(line)
