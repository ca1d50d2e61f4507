"""Hands on the keyboard: key events to whatever has the focus, as a person sends them."""

from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget
from typing_extensions import override

from benchassist.ui.ask_person import AskPerson

ENTER = Qt.Key.Key_Return
CTRL = Qt.KeyboardModifier.ControlModifier
_CLICK_MS = 130
SHIFT = Qt.KeyboardModifier.ShiftModifier


class Hands:
    """Types at a window; never touches a widget but the one that has the focus."""

    def __init__(self, window: QWidget) -> None:
        self._window = window
        window.show()
        window.activateWindow()
        QTest.qWaitForWindowActive(window)

    @property
    def focus(self) -> QWidget:
        """Where the keys go."""
        widget = QApplication.focusWidget()
        assert widget is not None, "no widget has the focus"
        return widget

    def type(self, *texts: str) -> None:
        """Types each text and Enter; an empty text is Enter alone."""
        for text in texts:
            for letter in text:
                QTest.keyClicks(self.focus, letter)
            self.press(ENTER)

    def letters(self, text: str) -> None:
        """Types a text without Enter."""
        for letter in text:
            QTest.keyClicks(self.focus, letter)
            QApplication.processEvents()

    def choose(self, letter: Qt.Key) -> None:
        """Presses Alt and the letter underlined on a button, which Qt clicks a moment later."""
        self.press(letter, Qt.KeyboardModifier.AltModifier)
        QTest.qWait(_CLICK_MS)

    def press(
        self, key: Qt.Key, held: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier
    ) -> None:
        """Presses one key."""
        QTest.keyClick(self.focus, key, held)
        QApplication.processEvents()


class AtOnce(AskPerson):
    """Somebody who answers every question at once."""

    def __init__(self, target: Path | None = None, reason: str | None = None) -> None:
        self.target = target
        self.answer = reason
        self.asked: list[str] = []

    @override
    def where_to_save(self, parent: QWidget, title: str, proposed: Path) -> Path | None:
        self.asked.append(title)
        return self.target

    @override
    def reason(self, parent: QWidget, title: str, question: str) -> str | None:
        self.asked.append(question)
        return self.answer
