"""A line of text whose Enter goes on to the next field instead of to the window."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QLineEdit
from typing_extensions import override

ENTER_KEYS = (Qt.Key.Key_Return, Qt.Key.Key_Enter)


class Line(QLineEdit):
    """A line of text.

    Signals:
        taken: the text was changed and the person went on; the text without outer spaces.
        finished: Enter was pressed.
        stepped_back: Shift+Enter was pressed.
    """

    taken = Signal(str)
    finished = Signal()
    stepped_back = Signal()

    def __init__(self, name: str) -> None:
        super().__init__()
        self.setAccessibleName(name)
        self.editingFinished.connect(self._take)

    def show_text(self, text: str) -> None:
        """Shows a text without emitting; what is being typed stays."""
        if not self.isModified():
            self.setText(text)

    def _take(self) -> None:
        if self.isModified():
            self.setModified(False)
            self.taken.emit(self.text().strip())

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() not in ENTER_KEYS:
            super().keyPressEvent(event)
            return
        self._take()
        if event.modifiers() & Qt.KeyboardModifier.ShiftModifier:
            self.stepped_back.emit()
        else:
            self.finished.emit()
