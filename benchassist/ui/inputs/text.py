"""A line of text and a choice of words, with the same three names as every input."""

from enum import StrEnum

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QComboBox, QWidget
from typing_extensions import override

from benchassist.job.base import LONGEST_LINE
from benchassist.ui.inputs.line import ENTER_KEYS, Line
from benchassist.ui.labels import captioned


class TextInput(QWidget):
    """A line of text under its label.

    Signals:
        value_changed: the text taken.
        finished: Enter was pressed.
        stepped_back: Shift+Enter was pressed.
    """

    value_changed = Signal(str)
    finished = Signal()
    stepped_back = Signal()

    def __init__(
        self, label: str, longest: int = LONGEST_LINE, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._edit = Line(label, longest)
        self._edit.setProperty("role", "form")
        self._edit.taken.connect(self.value_changed)
        self._edit.finished.connect(self.finished)
        self._edit.stepped_back.connect(self.stepped_back)
        self.setFocusProxy(self._edit)
        _under_label(self, label, self._edit)

    def value(self) -> str:
        """The text."""
        return self._edit.text().strip()

    def set_value(self, value: str) -> None:
        """Shows a text without emitting."""
        self._edit.show_text(value)


class _Box(QComboBox):
    """A list whose Enter goes on to the next field while it is closed."""

    finished = Signal()
    stepped_back = Signal()

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() not in ENTER_KEYS:
            super().keyPressEvent(event)
        elif event.modifiers() & Qt.KeyboardModifier.ShiftModifier:
            self.stepped_back.emit()
        else:
            self.finished.emit()


class ChoiceInput(QWidget):
    """One word of an enumeration, or none, under its label.

    Signals:
        value_changed: the member chosen, or None.
        finished: Enter was pressed.
        stepped_back: Shift+Enter was pressed.
    """

    value_changed = Signal(object)
    finished = Signal()
    stepped_back = Signal()

    def __init__(
        self, label: str, choices: tuple[tuple[str, str], ...], parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._keys = tuple(key for key, _ in choices)
        self._box = _Box()
        self._box.finished.connect(self.finished)
        self._box.stepped_back.connect(self.stepped_back)
        self._box.setAccessibleName(label)
        self._box.addItems([name for _, name in choices])
        self._box.activated.connect(lambda: self.value_changed.emit(self.value()))
        self.setFocusProxy(self._box)
        _under_label(self, label, self._box)

    def value(self) -> str | None:
        """The key chosen; None for the empty choice."""
        return self._keys[self._box.currentIndex()] or None

    def set_value(self, value: str | None) -> None:
        """Shows a key without emitting."""
        key = value or ""
        self._box.setCurrentIndex(self._keys.index(key) if key in self._keys else 0)


def words_of(kinds: type[StrEnum]) -> tuple[tuple[str, str], ...]:
    """The choices of an enumeration, with an empty one first."""
    return (("", "not stated"), *((kind.value, kind.value) for kind in kinds))


def _under_label(widget: QWidget, label: str, field: QWidget) -> None:
    column = captioned(label, field)
    column.setContentsMargins(0, 0, 0, 0)
    column.addStretch(1)
    widget.setLayout(column)
