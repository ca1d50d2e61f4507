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
from PySide6.QtWidgets import (
    QDialog,
    QHBoxLayout,
    QLabel,
    QPlainTextEdit,
    QPushButton,
    QVBoxLayout,
)

LOG = "benchassist.log"
"""The name of the log file in the data folder."""

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


class FaultSheet(QDialog):
    """Says that something went wrong in the program and that the job is safe."""

    def __init__(self, report: str) -> None:
        super().__init__()
        self.setWindowTitle("Something went wrong")
        self.resize(720, 440)
        title = QLabel("Something went wrong in Benchassist")
        title.setProperty("role", "title")
        words = QLabel(
            "Everything the screen showed as taken is on disk. You can go on; if it happens "
            "again, copy the report below for whoever looks after the program."
        )
        words.setWordWrap(True)
        text = QPlainTextEdit(report)
        text.setReadOnly(True)
        text.setAccessibleName("Report")
        copy = QPushButton("Copy the report")
        copy.clicked.connect(lambda: QGuiApplication.clipboard().setText(report))
        close = QPushButton("Go on")
        close.setProperty("role", "primary")
        close.clicked.connect(self.accept)
        column = QVBoxLayout(self)
        column.setContentsMargins(32, 24, 32, 24)
        column.setSpacing(12)
        column.addWidget(title)
        column.addWidget(words)
        column.addWidget(text, 1)
        line = QHBoxLayout()
        line.addWidget(copy)
        line.addStretch(1)
        line.addWidget(close)
        column.addLayout(line)
