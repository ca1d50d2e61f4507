"""How each stroke of a figure looks on the screen."""

from dataclasses import dataclass

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import (
    QColor,
    QLinearGradient,
    QPainter,
    QPainterPath,
    QPainterPathStroker,
    QPen,
    QPolygonF,
    QTransform,
)

from benchassist.geometry.figure import Figure, Stroke
from benchassist.ui.theme import Colours


@dataclass(frozen=True, slots=True)
class _Look:
    """Colour by name in `Colours`, width in px or mm, dashes in px."""

    ink: str
    px: float = 1.0
    mm: float = 0.0
    dash: tuple[float, ...] = ()
    fill: str = ""
    alpha: int = 255
    cased: bool = False


_LOOKS = {
    "box": _Look("outline", 0.9, dash=(1.5, 4.5), alpha=150),
    "cross": _Look("ink", 1.3),
    "centre": _Look("ink", 1.2),
    "arc": _Look("lens_edge", 1.2),
    "level": _Look("lens_edge", 1.0),
    "engraving": _Look("lens_edge", 1.1),
    "near-circle": _Look("lens_edge", 1.1, dash=(3.5, 3.0)),
    "segment": _Look("lens_edge", 1.3, fill="raised", alpha=255),
    "segment-band": _Look("lens_edge", 1.2),
    "ghost": _Look("ink_soft", 1.2, dash=(4.0, 4.0)),
    "gap": _Look("outside", 1.8),
    "sight": _Look("outside", 1.2),
    "temple-line": _Look("frame", mm=2.6, cased=True),
    "front-line": _Look("frame", mm=3.6, cased=True),
    "bridge-line": _Look("frame", mm=3.0, cased=True),
    "rim-line": _Look("frame", mm=2.4, cased=True),
    "pad-line": _Look("lens_edge", mm=1.6),
    "lens-line": _Look("lens", mm=1.5),
    "far-temple-line": _Look("frame_glow", mm=2.2, alpha=150),
    "far-front-line": _Look("frame_glow", mm=3.2, alpha=150),
    "far-lens-line": _Look("lens", mm=1.2, alpha=200),
    "shadow": _Look("ink", mm=1.6, alpha=34),
    "table": _Look("line", 1.0, fill="panel"),
}
_BODY = frozenset({"rim", "bridge", "endpiece"})
_LENS = frozenset({"lens"})


def path_of(stroke: Stroke, to_px: QTransform) -> QPainterPath:
    """The stroke as a path in px."""
    path = QPainterPath()
    path.addPolygon(QPolygonF([to_px.map(QPointF(x, y)) for x, y in stroke.points]))
    if stroke.is_closed:
        path.closeSubpath()
    return path


def body_of(figure: Figure, to_px: QTransform) -> QPainterPath:
    """All that is frame: rims, bridge, endpieces and whatever is drawn as thick as they are."""
    body = QPainterPath()
    scale = abs(to_px.m11())
    for stroke in figure.strokes:
        look = _LOOKS.get(stroke.name)
        if stroke.name in _BODY:
            body = body.united(path_of(stroke, to_px))
        elif look is not None and look.cased:
            stroker = QPainterPathStroker(QPen(Qt.GlobalColor.black, look.mm * scale))
            body = body.united(stroker.createStroke(path_of(stroke, to_px)))
    for stroke in figure.named("lens"):
        if figure.view == "front":
            body = body.subtracted(path_of(stroke, to_px))
    return body


def paint_figure(
    painter: QPainter,
    figure: Figure,
    to_px: QTransform,
    colours: Colours,
    body: QPainterPath,
) -> None:
    """Paint the whole figure: first what lies behind, then the frame, lenses and marks."""
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    scale = abs(to_px.m11())
    if any(stroke.name in _BODY for stroke in figure.strokes):
        _paint_behind(painter, figure, to_px, colours)
        _paint_body(painter, body, colours, scale)
    for stroke in figure.strokes:
        if stroke.name in _LENS:
            is_front = figure.view == "front"
            _paint_lens(painter, path_of(stroke, to_px), colours, is_front=is_front)
        elif stroke.name in _LOOKS:
            _paint_line(painter, path_of(stroke, to_px), _LOOKS[stroke.name], colours, scale)
    for stroke in figure.named("gap"):
        _paint_arrows(painter, path_of(stroke, to_px), colours)


def _paint_line(
    painter: QPainter, path: QPainterPath, look: _Look, colours: Colours, scale: float
) -> None:
    colour = QColor(getattr(colours, look.ink))
    colour.setAlpha(look.alpha)
    width = look.mm * scale if look.mm else look.px
    if look.cased:
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(_round(QColor(colours.frame_edge), width + 1.6))
        painter.drawPath(path)
    pen = _round(colour, width)
    if look.dash:
        pen.setCapStyle(Qt.PenCapStyle.FlatCap)
        pen.setDashPattern([part / max(width, 0.1) for part in look.dash])
    painter.setPen(pen)
    fill = QColor(getattr(colours, look.fill)) if look.fill else None
    if fill is not None:
        fill.setAlpha(150)
        painter.setBrush(fill)
    else:
        painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawPath(path)


def _round(colour: QColor, width: float) -> QPen:
    pen = QPen(colour, width)
    pen.setCapStyle(Qt.PenCapStyle.RoundCap)
    pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
    return pen


def _paint_behind(
    painter: QPainter, figure: Figure, to_px: QTransform, colours: Colours
) -> None:
    """Temple stubs that fade outwards, and the pads."""
    for stroke in figure.named("temple"):
        path = path_of(stroke, to_px)
        box = path.boundingRect()
        is_left_side = box.center().x() < to_px.map(QPointF(0, 0)).x()
        fade = QLinearGradient(
            box.topRight() if is_left_side else box.topLeft(),
            box.topLeft() if is_left_side else box.topRight(),
        )
        solid, clear = QColor(colours.frame), QColor(colours.frame)
        clear.setAlpha(0)
        fade.setColorAt(0.0, solid)
        fade.setColorAt(0.35, solid)
        fade.setColorAt(1.0, clear)
        painter.fillPath(path, fade)
    for stroke in figure.named("pad"):
        soft = QColor(colours.lens_edge)
        soft.setAlpha(46)
        painter.setBrush(soft)
        painter.setPen(QPen(QColor(colours.lens_edge), 1.1))
        painter.drawPath(path_of(stroke, to_px))


def _paint_body(painter: QPainter, body: QPainterPath, colours: Colours, scale: float) -> None:
    """Rims, bridge and endpieces as one body lit from above."""
    box = body.boundingRect()
    light = QLinearGradient(box.topLeft(), box.bottomLeft())
    light.setColorAt(0.0, QColor(colours.frame_glow))
    light.setColorAt(0.3, QColor(colours.frame))
    light.setColorAt(1.0, QColor(colours.frame))
    painter.setPen(QPen(QColor(colours.frame_edge), 1.3))
    painter.setBrush(light)
    painter.drawPath(body)
    painter.save()
    painter.setClipPath(body, Qt.ClipOperation.IntersectClip)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    step = max(0.28 * scale, 1.0)
    for lift, name, alpha in ((step, "raised", 70), (-step, "frame_edge", 80)):
        tone = QColor(getattr(colours, name))
        tone.setAlpha(alpha)
        painter.setPen(QPen(tone, step))
        painter.drawPath(body.translated(0, lift))
    painter.restore()


def _paint_lens(
    painter: QPainter, path: QPainterPath, colours: Colours, *, is_front: bool
) -> None:
    """The lens: nearly clear, with one calm reflection."""
    box = path.boundingRect()
    if is_front:
        painter.fillPath(path, QColor(colours.paper))
    tint = QLinearGradient(box.topLeft(), box.bottomLeft())
    top, low = QColor(colours.lens), QColor(colours.lens)
    top.setAlpha(255 if is_front else 150)
    low.setAlpha(190 if is_front else 110)
    tint.setColorAt(0.0, top)
    tint.setColorAt(1.0, low)
    painter.fillPath(path, tint)
    painter.save()
    painter.setClipPath(path, Qt.ClipOperation.IntersectClip)
    _paint_reflection(painter, box, colours)
    painter.restore()
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(QPen(QColor(colours.lens_edge), 1.5))
    painter.drawPath(path)


def _paint_reflection(painter: QPainter, box: QRectF, colours: Colours) -> None:
    shine = QColor(colours.raised)
    shine.setAlpha(120)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(shine)
    for left, wide in ((0.60, 0.10), (0.735, 0.035)):
        x, w, slant = box.left() + left * box.width(), wide * box.width(), 0.34 * box.width()
        painter.drawPolygon(
            QPolygonF(
                [
                    QPointF(x + slant / 2, box.top()),
                    QPointF(x + w + slant / 2, box.top()),
                    QPointF(x + w - slant / 2, box.bottom()),
                    QPointF(x - slant / 2, box.bottom()),
                ]
            )
        )


def _paint_arrows(painter: QPainter, path: QPainterPath, colours: Colours) -> None:
    """Arrow heads at both ends of a gap, smaller where it is short."""
    start, end = path.pointAtPercent(0.0), path.pointAtPercent(1.0)
    length = QLineF(start, end).length()
    if not length:
        return
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor(colours.outside))
    tall = min(8.0, length * 0.4)
    along = (end - start) / length * tall
    across = QPointF(-along.y(), along.x()) / 2
    for tip, way in ((start, along), (end, -along)):
        painter.drawPolygon(QPolygonF([tip, tip + way + across, tip + way - across]))
