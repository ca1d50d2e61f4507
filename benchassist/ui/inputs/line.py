"""A line of text whose Enter goes on to the next field instead of to the window."""

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtGui import QKeyEvent, QKeySequence
from PySide6.QtWidgets import QLineEdit
from typing_extensions import override

from benchassist.job.base import LONGEST_LINE

ENTER_KEYS = (Qt.Key.Key_Return, Qt.Key.Key_Enter)


def leaves_undo(edit: QLineEdit, event: QEvent) -> bool:
    """Whether Ctrl+Z is the window's, because nothing new stands in the field."""
    is_override = event.type() == QEvent.Type.ShortcutOverride
    if not is_override or not isinstance(event, QKeyEvent) or edit.isModified():
        return False
    return event.matches(QKeySequence.StandardKey.Undo)


class Line(QLineEdit):
    """A line of text, of at most so many characters.

    Signals:
        taken: the text was changed and the person went on; the text without outer spaces.
        finished: Enter was pressed.
        stepped_back: Shift+Enter was pressed.
    """

    taken = Signal(str)
    finished = Signal()
    stepped_back = Signal()

    def __init__(self, name: str, longest: int = LONGEST_LINE) -> None:
        super().__init__()
        self.setMaxLength(longest)
        self.setAccessibleName(name)
        self.editingFinished.connect(self.take)

    def show_text(self, text: str) -> None:
        """Shows a text without emitting; what is being typed stays."""
        if not self.isModified():
            self.setText(text)

    def take(self) -> bool:
        """Offers the text; when it was put back at once, it stays to be tried again."""
        if not self.isModified():
            return True
        text = self.text()
        self.setModified(False)
        self.taken.emit(text.strip())
        if self.text().strip() == text.strip():
            return True
        self.setText(text)
        self.setModified(True)
        return False

    @override
    def event(self, event: QEvent) -> bool:
        if leaves_undo(self, event):
            event.ignore()
            return True
        return super().event(event)

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() not in ENTER_KEYS:
            super().keyPressEvent(event)
            return
        if not self.take():
            return
        if event.modifiers() & Qt.KeyboardModifier.ShiftModifier:
            self.stepped_back.emit()
        else:
            self.finished.emit()
