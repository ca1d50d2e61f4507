"""Any number of words of an enumeration, as boxes to tick."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QCheckBox, QHBoxLayout, QWidget
from typing_extensions import override

from benchassist.ui.inputs.line import ENTER_KEYS

_STEPS: dict[int, int] = {Qt.Key.Key_Right: 1, Qt.Key.Key_Left: -1}


class SeveralInput(QWidget):
    """Several words, each with its box: Space ticks it, the arrows go from one to the next.

    Signals:
        value_changed: the keys ticked, a tuple in the order offered.
        finished: Enter was pressed.
        stepped_back: Shift+Enter was pressed.
    """

    value_changed = Signal(tuple)
    finished = Signal()
    stepped_back = Signal()

    def __init__(self, keys: tuple[str, ...], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._keys = keys
        self._boxes = tuple(QCheckBox(key) for key in keys)
        line = QHBoxLayout(self)
        line.setContentsMargins(0, 0, 0, 0)
        line.setSpacing(24)
        for box in self._boxes:
            box.clicked.connect(lambda: self.value_changed.emit(self.value()))
            line.addWidget(box)
        line.addStretch(1)
        self.setFocusProxy(self._boxes[0])

    def value(self) -> tuple[str, ...]:
        """The keys ticked."""
        ticked = zip(self._keys, self._boxes, strict=True)
        return tuple(key for key, box in ticked if box.isChecked())

    def set_value(self, value: tuple[str, ...]) -> None:
        """Shows these as ticked without emitting."""
        for key, box in zip(self._keys, self._boxes, strict=True):
            box.setChecked(key in value)

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Takes what a box leaves: Enter goes on, the arrows go from box to box."""
        if event.key() in ENTER_KEYS:
            is_back = event.modifiers() & Qt.KeyboardModifier.ShiftModifier
            (self.stepped_back if is_back else self.finished).emit()
        elif event.key() in _STEPS:
            at = next(place for place, box in enumerate(self._boxes) if box.hasFocus())
            self._boxes[(at + _STEPS[event.key()]) % len(self._boxes)].setFocus()
        else:
            super().keyPressEvent(event)
