"""What lies under the marks: figure, dimension lines, words and a note on the scale."""

from dataclasses import dataclass
from functools import cached_property

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPainterPath, QPen, QTransform

from benchassist.geometry.dimensions import Dimension, dimensions
from benchassist.geometry.fault import enlarged
from benchassist.geometry.figure import Figure, Stroke, bounds
from benchassist.ui.drawings.scene import Scene
from benchassist.ui.drawings.strokes import body_of, paint_figure
from benchassist.ui.theme import Size, Theme

_SIDE = 28.0
_LARGEST = 9.0
"""The largest scale, px a mm at 100 %."""

_MARGINS = {
    "front": (52.0, 36.0),
    "top": (24.0, 80.0),
    "side": (32.0, 44.0),
    "table": (24.0, 40.0),
}
"""Room above and below the figure, px."""

_ROOM_BELOW = 20.0
"""Room kept under the lenses for the dimension lines, mm."""

_SEEN = {
    "front": "facing the wearer",
    "top": "from above, the temples cut short",
    "side": "from the wearer's right, the left side paler",
    "table": "on the flat table",
}


@dataclass(frozen=True, slots=True)
class Text:
    """A word on the sheet and the room that it takes."""

    words: str
    rect: QRectF
    font: QFont
    colour: QColor


@dataclass(frozen=True)
class Stage:
    """A figure fitted into a widget; what is worked out once is kept."""

    figure: Figure
    rect: QRectF

    @cached_property
    def to_px(self) -> QTransform:
        """From mm to px, so that the figure fits."""
        left, bottom, right, top = self.figure.bounds
        if self.figure.view == "front":
            bottom -= _ROOM_BELOW
        above, below = _MARGINS[self.figure.view]
        room = self.rect.adjusted(_SIDE, above, -_SIDE, -below)
        scale = min(room.width() / (right - left), room.height() / (top - bottom))
        scale = max(min(scale, _LARGEST), 0.5)
        to_px = QTransform()
        to_px.translate(room.center().x(), room.center().y())
        to_px.scale(scale, -scale)
        to_px.translate(-(left + right) / 2, -(bottom + top) / 2)
        return to_px

    @cached_property
    def body(self) -> QPainterPath:
        """All that is frame, in px."""
        return body_of(self.figure, self.to_px)

    def paint(self, painter: QPainter, theme: Theme) -> None:
        """Paint the figure: slow enough to be worth keeping as a picture."""
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if self.figure.view == "front":
            _paint_centre_line(painter, self.figure, self.to_px, theme)
        paint_figure(painter, self.figure, self.to_px, theme.colours, self.body)


@dataclass(frozen=True)
class Sheet:
    """Dimension lines and words around a figure."""

    scene: Scene
    stage: Stage
    theme: Theme

    @property
    def caption(self) -> str:
        """How the drawing is to be read: from where, and what is not true to size in it."""
        scene, figure = self.scene, self.stage.figure
        parts = [_SEEN[figure.view]]
        drawn = enlarged(scene.fault, figure.view)
        if drawn is not None:
            unit = drawn.kind.unit
            size = f"{abs(drawn.fault.value):.1f}{'' if unit == '°' else ' '}{unit}"
            larger = f"drawn {drawn.factor} times larger"
            parts.append(f"fault of {size} {larger if drawn.factor > 1 else 'true to size'}")
        unknown = [size.upper() for size in scene.plan.assumed if size != "ed"]
        if unknown:
            parts.append(f"{', '.join(unknown)} not ordered, drawn at a usual size")
        return "; ".join(parts)

    @cached_property
    def texts(self) -> tuple[Text, ...]:
        """All words of the sheet with their places."""
        theme, rect = self.theme, self.stage.rect
        words = _eye_words(self.stage.figure, self.stage.to_px, theme)
        font = theme.font(Size.SMALL)
        wide = QFontMetricsF(font).horizontalAdvance(self.caption) + 2
        place = QRectF((rect.width() - wide) / 2, rect.height() - 28, wide, 18)
        words.append(Text(self.caption, place, font, QColor(theme.colours.ink_soft)))
        for line in self._dimensions():
            words.append(_dimension_words(line, self))
        return tuple(words)

    def _dimensions(self) -> tuple[Dimension, ...]:
        scene = self.scene
        if self.stage.figure.view != "front":
            return ()
        lines = dimensions(scene.plan, scene.found_right, scene.found_left)
        return tuple(
            line for line in lines if line.found is not None or not scene.hides_ordered
        )

    def paint(self, painter: QPainter) -> None:
        """Paint dimension lines and words."""
        for line in self._dimensions():
            hides = self.scene.hides_ordered
            _paint_dimension(painter, line, self.stage.to_px, self.theme, hides=hides)
        for text in self.texts:
            painter.setFont(text.font)
            painter.setPen(text.colour)
            painter.drawText(text.rect, Qt.AlignmentFlag.AlignCenter, text.words)


def _eye_words(figure: Figure, to_px: QTransform, theme: Theme) -> list[Text]:
    """RIGHT and LEFT, spaced, where the view shows both sides apart."""
    if figure.view == "side":
        return []
    font = theme.font(Size.CAPTION)
    font.setLetterSpacing(QFont.SpacingType.AbsoluteSpacing, 4.0)
    metrics = QFontMetricsF(font)
    words = []
    for name, word in (("right", "RIGHT"), ("left", "LEFT")):
        at = _eye_word_at(figure, name, to_px)
        wide = metrics.horizontalAdvance(word)
        rect = QRectF(at.x() - wide / 2 + 2, at.y() - 10, wide + 2, 20)
        words.append(Text(word, rect, font, QColor(theme.colours.ink_soft)))
    return words


def _eye_word_at(figure: Figure, name: str, to_px: QTransform) -> QPointF:
    """Above the lens seen from the front, below it in the other views."""
    box = next(
        to_px.mapRect(_rect_of(stroke))
        for stroke in figure.strokes
        if stroke.eye == name and stroke.name in {"box", "front-line", "lens"}
    )
    _, bottom, _, top = (to_px.map(QPointF(0, y)).y() for y in figure.bounds)
    if figure.view == "front":
        return QPointF(box.center().x(), top - 26)
    low = bottom if figure.view == "top" else box.bottom()
    return QPointF(box.center().x(), low + 22)


def _rect_of(stroke: Stroke) -> QRectF:
    left, bottom, right, top = bounds(stroke.points)
    return QRectF(left, bottom, right - left, top - bottom)


def _dimension_words(line: Dimension, sheet: Sheet) -> Text:
    """The length of a dimension line: what was found in ink, what was ordered softly."""
    theme, to_px = sheet.theme, sheet.stage.to_px
    ordered = None if sheet.scene.hides_ordered else line.ordered
    shown = line.found if line.found is not None else ordered
    words = "" if shown is None else f"{shown:.1f} mm"
    font = theme.font(Size.CAPTION)
    metrics = QFontMetricsF(font)
    end = line.found_end or line.ordered_end or line.start
    start_px, end_px = to_px.map(QPointF(*line.start)), to_px.map(QPointF(*end))
    if line.found is not None and ordered is not None:
        longer = f"{words}, ordered {ordered:.1f}"
        if metrics.horizontalAdvance(longer) < abs(end_px.x() - start_px.x()) - 8:
            words = longer
    wide = metrics.horizontalAdvance(words) + 2
    colour = QColor(theme.colours.ink if line.found is not None else theme.colours.ink_soft)
    if line.name == "height":
        return Text(words, _beside_height(sheet, start_px, end_px, wide), font, colour)
    x = (start_px.x() + end_px.x()) / 2
    return Text(words, QRectF(x - wide / 2, end_px.y() + 5, wide, 18), font, colour)


def _beside_height(sheet: Sheet, low: QPointF, high: QPointF, wide: float) -> QRectF:
    """Beside the height line towards the temple, as low as the rim leaves room."""
    is_right_eye = high.x() < sheet.stage.to_px.map(QPointF(0, 0)).x()
    left = high.x() - 6 - wide if is_right_eye else high.x() + 6
    rects = [
        QRectF(left, low.y() + share * (high.y() - low.y()) - 9, wide, 18)
        for share in (0.28, 0.34, 0.4, 0.62, 0.72)
    ]
    return next((rect for rect in rects if not sheet.stage.body.intersects(rect)), rects[-1])


def _paint_centre_line(
    painter: QPainter, figure: Figure, to_px: QTransform, theme: Theme
) -> None:
    """The boxed horizontal centre line."""
    left, _, right, _ = figure.bounds
    pen = QPen(QColor(theme.colours.line), 1)
    pen.setDashPattern([10, 4, 2, 4])
    painter.setPen(pen)
    painter.drawLine(to_px.map(QPointF(left, 0)), to_px.map(QPointF(right, 0)))


def _paint_dimension(
    painter: QPainter, line: Dimension, to_px: QTransform, theme: Theme, *, hides: bool
) -> None:
    colours = theme.colours
    start = to_px.map(QPointF(*line.start))
    is_upright = line.name == "height"
    tick = QPointF(5, 0) if is_upright else QPointF(0, 5)
    ends = [line.found_end, None if hides else line.ordered_end]
    reach = [to_px.map(QPointF(*end)) for end in ends if end is not None]
    far = max(reach, key=lambda one: QLineF(start, one).length())
    painter.setPen(QPen(QColor(colours.outline), 1.1))
    painter.drawLine(start, far)
    painter.drawLine(start - tick, start + tick)
    if line.ordered_end is not None and not hides:
        end = to_px.map(QPointF(*line.ordered_end))
        painter.drawLine(end - tick, end + tick)
    if line.found_end is not None:
        end = to_px.map(QPointF(*line.found_end))
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(colours.accent))
        painter.drawEllipse(end, 3.5, 3.5)
