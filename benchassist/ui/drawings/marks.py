"""The marks that show a state by shape and colour: drawn, never a glyph."""

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF

from benchassist.ui.theme import Colours
from benchassist.verdicts.finding import State

MARK = 18
"""Side of a mark in px at 100 %."""


def paint_state_mark(
    painter: QPainter, rect: QRectF, state: State | None, colours: Colours
) -> None:
    """Paint the mark of a state in the largest square of `rect`.

    Within is a filled disc with a tick, read again a half-filled ring, outside a filled square
    with a cross, to do a dashed ring, not applicable a dash. None, for something noted and not
    judged, is a ring with a tick.
    """
    side = min(rect.width(), rect.height())
    box = QRectF(0, 0, side * 0.84, side * 0.84)
    box.moveCenter(rect.center())
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    colour = QColor(colours.ink_soft if state is None else colours.of_state(state))
    ground = QColor(colours.raised)
    match state:
        case State.WITHIN:
            _disc(painter, box, colour)
            _tick(painter, box, ground)
        case State.CLOSE:
            _ring(painter, box, colour, ground)
            _half(painter, box, colour)
        case State.OUTSIDE:
            _square(painter, box, colour)
            _cross(painter, box, ground)
        case State.MISSING:
            _dashed_ring(painter, box, colour, ground)
        case State.NONE:
            _dash(painter, box, colour)
        case None:
            _ring(painter, box, colour, ground)
            _tick(painter, box, colour)
    painter.restore()


def paint_active_ring(painter: QPainter, rect: QRectF, colours: Colours) -> None:
    """Paint the accent ring around the mark in `rect` that is being asked for now."""
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    grown = rect.adjusted(-4, -4, 4, 4)
    halo = QColor(colours.accent)
    halo.setAlpha(38)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(halo)
    painter.drawEllipse(grown.adjusted(-3, -3, 3, 3))
    painter.setBrush(QColor(colours.raised))
    painter.setPen(QPen(QColor(colours.accent), 2.2))
    painter.drawEllipse(grown)
    painter.restore()


def _pen(colour: QColor, box: QRectF, share: float) -> QPen:
    pen = QPen(colour, max(box.width() * share, 1.2))
    pen.setCapStyle(Qt.PenCapStyle.RoundCap)
    pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
    return pen


def _disc(painter: QPainter, box: QRectF, colour: QColor) -> None:
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(colour)
    painter.drawEllipse(box)


def _square(painter: QPainter, box: QRectF, colour: QColor) -> None:
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(colour)
    inset = box.width() * 0.03
    painter.drawRoundedRect(
        box.adjusted(inset, inset, -inset, -inset), box.width() * 0.16, box.width() * 0.16
    )


def _ring(painter: QPainter, box: QRectF, colour: QColor, ground: QColor) -> None:
    pen = _pen(colour, box, 0.12)
    inset = pen.widthF() / 2
    painter.setPen(pen)
    painter.setBrush(ground)
    painter.drawEllipse(box.adjusted(inset, inset, -inset, -inset))


def _half(painter: QPainter, box: QRectF, colour: QColor) -> None:
    inset = box.width() * 0.06
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(colour)
    inner = box.adjusted(inset, inset, -inset, -inset)
    painter.drawChord(inner, 180 * 16, 180 * 16)


def _dashed_ring(painter: QPainter, box: QRectF, colour: QColor, ground: QColor) -> None:
    width = max(box.width() * 0.1, 1.2)
    inset = width / 2
    inner = box.adjusted(inset, inset, -inset, -inset)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(ground)
    painter.drawEllipse(inner)
    pen = QPen(colour, width)
    pen.setCapStyle(Qt.PenCapStyle.FlatCap)
    painter.setPen(pen)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    for start in range(0, 360, 45):
        painter.drawArc(inner, (start + 8) * 16, 29 * 16)


def _dash(painter: QPainter, box: QRectF, colour: QColor) -> None:
    painter.setPen(_pen(colour, box, 0.11))
    reach = box.width() * 0.3
    centre = box.center()
    painter.drawLine(QLineF(centre.x() - reach, centre.y(), centre.x() + reach, centre.y()))


def _tick(painter: QPainter, box: QRectF, colour: QColor) -> None:
    painter.setPen(_pen(colour, box, 0.13))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    corners = ((0.27, 0.53), (0.44, 0.69), (0.73, 0.34))
    painter.drawPolyline(QPolygonF([_at(box, x, y) for x, y in corners]))


def _cross(painter: QPainter, box: QRectF, colour: QColor) -> None:
    painter.setPen(_pen(colour, box, 0.13))
    painter.drawLine(QLineF(_at(box, 0.3, 0.3), _at(box, 0.7, 0.7)))
    painter.drawLine(QLineF(_at(box, 0.7, 0.3), _at(box, 0.3, 0.7)))


def _at(box: QRectF, x: float, y: float) -> QPointF:
    return QPointF(box.left() + x * box.width(), box.top() + y * box.height())
