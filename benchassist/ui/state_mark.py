"""A small widget that shows the mark of a state, with its word for a screen reader."""

from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QWidget
from typing_extensions import override

from benchassist.ui.drawings.marks import paint_state_mark
from benchassist.ui.theme import Theme
from benchassist.verdicts.finding import State

_SIZE = 20


class StateMark(QWidget):
    """The mark of one state."""

    def __init__(self, theme: Theme, state: State, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
        self._state = state
        self.setFixedSize(_SIZE, _SIZE)
        self.setAccessibleName(state.word)
        theme.changed.connect(self.update)

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        paint_state_mark(painter, QRectF(0, 0, _SIZE, _SIZE), self._state, self._theme.colours)
