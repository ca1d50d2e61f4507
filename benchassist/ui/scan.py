"""A scanner on the bench: letters that come faster than a hand types are one number."""

from PySide6.QtCore import QCoreApplication, QEvent, QObject, Qt, QTimer, Signal
from PySide6.QtGui import QKeyEvent
from typing_extensions import override

BETWEEN_KEYS_MS = 50
"""Longer than a scanner takes for a character, shorter than a hand."""

_SHORTEST = 3


class ScanWatch(QObject):
    """Holds a bare letter back for a moment: what follows at once makes it part of a scan.

    Signals:
        letter: a letter that stood alone, a command of the window.
        scanned: what a scanner typed and ended with Enter.
    """

    letter = Signal(str)
    scanned = Signal(str)

    def __init__(self, patience_ms: int, parent: QObject) -> None:
        super().__init__(parent)
        self._held = ""
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(patience_ms)
        self._timer.timeout.connect(self._release)

    def begin(self, text: str) -> None:
        """Takes the first letter, pressed where no text is being typed."""
        self._release()
        self._held = text
        self._timer.start()
        _app().installEventFilter(self)

    def _release(self) -> None:
        """Ends the watch: a letter that stood alone is a command, a fragment is nothing."""
        self._timer.stop()
        held, self._held = self._held, ""
        if held:
            _app().removeEventFilter(self)
        if len(held) == 1:
            self.letter.emit(held)

    @override
    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if not self._held or not isinstance(event, QKeyEvent):
            return False
        if event.type() != QEvent.Type.KeyPress:
            return False
        if event.key() in {Qt.Key.Key_Return, Qt.Key.Key_Enter}:
            return self._on_enter()
        if not event.text().isprintable() or not event.text():
            return False
        self._held += event.text()
        self._timer.start()
        return True

    def _on_enter(self) -> bool:
        """Whether Enter ended a scan and is used up."""
        if len(self._held) < _SHORTEST:
            self._release()
            return False
        held, self._held = self._held, ""
        self._release()
        _app().removeEventFilter(self)
        self.scanned.emit(held)
        return True


def _app() -> QCoreApplication:
    app = QCoreApplication.instance()
    assert app is not None  # noqa: S101  (there are no widgets without it)
    return app
