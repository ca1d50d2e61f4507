"""The nine steps at the left, each with its state and count."""

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QColor,
    QFocusEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
)
from PySide6.QtWidgets import QSizePolicy, QWidget
from typing_extensions import override

from benchassist.guide.flow import Standing, StepStanding
from benchassist.guide.prompts import StepId
from benchassist.ui.drawings.marks import paint_state_mark
from benchassist.ui.theme import Size, Theme
from benchassist.verdicts.finding import State

_ROW = 58
_MARGIN = 12


class Rail(QWidget):
    """The steps of the job; a click or the arrow keys and Enter open one.

    Signals:
        chosen: the step a person wants to see.
    """

    chosen = Signal(object)

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
        self._steps: tuple[StepStanding, ...] = ()
        self._current: StepId = StepId.ORDER
        self._cursor: StepId = StepId.ORDER
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Expanding)
        self.setAccessibleName("Steps")
        theme.changed.connect(self.update)

    def show_standing(self, standing: Standing, current: StepId) -> None:
        """Shows where the job stands and which step is open."""
        self._steps = standing.steps
        self._current = current
        if not self.hasFocus():
            self._cursor = current
        self.setAccessibleDescription("; ".join(_spoken(step) for step in self._steps))
        self.update()

    @override
    def sizeHint(self) -> QSize:
        return QSize(208, _ROW * 9 + 2 * _MARGIN)

    @override
    def minimumSizeHint(self) -> QSize:
        return QSize(208, _ROW * 9 + 2 * _MARGIN)

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        for position, step in enumerate(self._steps):
            self._paint_step(painter, self._rect(position), step)

    def _rect(self, position: int) -> QRectF:
        return QRectF(_MARGIN, _MARGIN + position * _ROW, self.width() - 2 * _MARGIN, _ROW - 4)

    def _paint_step(self, painter: QPainter, rect: QRectF, step: StepStanding) -> None:
        colours = self._theme.colours
        is_current = step.step.id is self._current
        if is_current:
            painter.setPen(QPen(QColor(colours.line)))
            painter.setBrush(QColor(colours.raised))
            painter.drawRoundedRect(rect, 8, 8)
        if self.hasFocus() and step.step.id is self._cursor:
            painter.setPen(QPen(QColor(colours.accent), 2))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRoundedRect(rect.adjusted(1, 1, -1, -1), 8, 8)
        mark = QRectF(rect.left() + 12, rect.center().y() - 10, 20, 20)
        paint_state_mark(painter, mark, _mark(step), colours)
        text = rect.adjusted(44, 8, -8, -8)
        painter.setPen(QColor(colours.ink))
        painter.setFont(self._theme.font(Size.BODY, strong=True))
        painter.drawText(QPointF(text.left(), text.top() + 15), step.step.title)
        painter.setPen(QColor(colours.ink_soft))
        painter.setFont(self._theme.font(Size.CAPTION))
        painter.drawText(QPointF(text.left(), text.top() + 34), _count(step))

    @override
    def mousePressEvent(self, event: QMouseEvent) -> None:
        for position, step in enumerate(self._steps):
            if self._rect(position).contains(event.position()):
                self.chosen.emit(step.step.id)

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        ids = [step.step.id for step in self._steps]
        at = ids.index(self._cursor) if self._cursor in ids else 0
        if event.key() == Qt.Key.Key_Down:
            self._cursor = ids[min(at + 1, len(ids) - 1)]
        elif event.key() == Qt.Key.Key_Up:
            self._cursor = ids[max(at - 1, 0)]
        elif event.key() in {Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space}:
            self.chosen.emit(self._cursor)
        else:
            super().keyPressEvent(event)
        self.update()

    @override
    def focusInEvent(self, event: QFocusEvent) -> None:
        self._cursor = self._current
        super().focusInEvent(event)


def _mark(step: StepStanding) -> State:
    """The mark of a step: what is wrong comes first, then what is still open."""
    if step.state in {State.OUTSIDE, State.CLOSE}:
        return step.state
    return State.WITHIN if step.is_complete else State.MISSING


def _count(step: StepStanding) -> str:
    count = f"{step.done} of {step.total}"
    return (
        f"{count}, {step.state.word}" if step.state in {State.OUTSIDE, State.CLOSE} else count
    )


def _spoken(step: StepStanding) -> str:
    return f"{step.step.title}: {_count(step)}, {_mark(step).word}"
