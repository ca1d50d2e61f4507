"""What lies under the marks: figure, dimension lines, words and a note on the scale."""

from dataclasses import dataclass
from functools import cached_property

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPainterPath, QPen, QTransform

from benchassist.geometry.dimensions import Dimension, dimensions
from benchassist.geometry.fault import caption
from benchassist.geometry.figure import Figure, Stroke, bounds
from benchassist.ui.drawings.scene import Scene
from benchassist.ui.drawings.strokes import body_of, paint_figure
from benchassist.ui.theme import Size, Theme

_SIDE = 28.0
_LARGEST = 9.0
"""The largest scale, px a mm at 100 %."""

_MARGINS = {
    "front": (52.0, 44.0),
    "top": (24.0, 84.0),
    "side": (32.0, 56.0),
    "behind": (32.0, 56.0),
    "table": (24.0, 56.0),
}
"""Room above and below the figure, px."""

_ROOM_BELOW = 20.0
"""Room kept under the lenses for the dimension lines, mm."""

_FOOT_SIDE = 24.0
"""From the sides of the sheet to what stands at its foot, px."""

_BARS, _LONGEST_BAR = (50, 20, 10, 5), 130.0
"""Lengths of a scale bar, mm, and how long one may be, px."""

_EYE_AT = {"front": "box", "top": "front-line", "behind": "lens", "table": "lens"}
"""The stroke of a lens by which the words right and left stand."""

_SEEN = {
    "front": "facing the wearer",
    "top": "from above, the temples cut short",
    "side": "from the wearer's right, the left side paler",
    "behind": "from behind, the temples folded",
    "table": "on the flat table",
}


@dataclass(frozen=True, slots=True)
class Text:
    """A word on the sheet and the room that it takes, on its own ground where it has one."""

    words: str
    rect: QRectF
    font: QFont
    colour: QColor
    ground: QColor | None = None


@dataclass(frozen=True)
class Stage:
    """A figure fitted into a widget; what is worked out once is kept."""

    figure: Figure
    rect: QRectF

    @cached_property
    def to_px(self) -> QTransform:
        """From mm to px, so that the figure fits."""
        left, bottom, right, top = self.figure.bounds
        above, below = _MARGINS[self.figure.view]
        if self.figure.panels:
            above, below = above + 16, max(below, 64.0)
        elif self.figure.view == "front":
            bottom -= _ROOM_BELOW
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
        if self.figure.view == "front" and not self.figure.panels:
            _paint_centre_line(painter, self.figure, self.to_px, theme)
        paint_figure(painter, self.figure, self.to_px, theme.colours, self.body)


@dataclass(frozen=True)
class Sheet:
    """Dimension lines and words around a figure."""

    scene: Scene
    stage: Stage
    theme: Theme

    @property
    def captions(self) -> list[str]:
        """How the drawing is to be read: from where, and what is not true to size in it."""
        scene, figure = self.scene, self.stage.figure
        parts = [_SEEN[figure.view]]
        told = caption(scene.faults, figure.view)
        if told:
            parts.append(told)
        unknown = [size.upper() for size in scene.plan.assumed if size != "ed"]
        if unknown:
            parts.append(f"{', '.join(unknown)} not ordered, drawn at a usual size")
        return parts

    @property
    def caption(self) -> str:
        """All of `captions` in one."""
        return "; ".join(self.captions)

    @cached_property
    def texts(self) -> tuple[Text, ...]:
        """All words of the sheet with their places."""
        words = _eye_words(self.stage.figure, self.stage.to_px, self.theme)
        words += [*_panel_words(self.stage, self.theme), *_notes(self.stage, self.theme)]
        words += self._foot_words()
        words += [_dimension_words(line, self) for line in self._dimensions()]
        return tuple(words)

    def _foot_words(self) -> list[Text]:
        """The caption and the length of the scale bar, neither on the other."""
        rect, font = self.stage.rect, self.theme.font(Size.SMALL)
        metrics, colour = QFontMetricsF(font), QColor(self.theme.colours.ink_soft)
        bar = scale_bar(self.stage)
        start, words = _FOOT_SIDE, []
        if bar is not None:
            told = f"{bar.length} mm"
            wide = metrics.horizontalAdvance(told) + 2
            place = QRectF(bar.line.x2() + 8, rect.height() - 28, wide, 18)
            words.append(Text(told, place, font, colour))
            start = place.right() + 16
        room = rect.width() - _FOOT_SIDE - start
        fits = metrics.horizontalAdvance(self.caption) < room
        for number, line in enumerate([self.caption] if fits else reversed(self.captions)):
            told = metrics.elidedText(line, Qt.TextElideMode.ElideRight, room)
            wide = metrics.horizontalAdvance(told) + 2
            left = min((rect.width() - wide) / 2, rect.width() - _FOOT_SIDE - wide)
            place = QRectF(max(left, start), rect.height() - 28 - 18 * number, wide, 18)
            words.append(Text(told, place, font, colour))
        return words

    def _dimensions(self) -> tuple[Dimension, ...]:
        """None beside a fault that is pointed out: it is not drawn in its true size."""
        scene, figure = self.scene, self.stage.figure
        if figure.view != "front" or figure.panels or figure.notes:
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
        bar = scale_bar(self.stage)
        if bar is not None:
            _paint_bar(painter, bar, self.theme)
        for text in self.texts:
            if text.ground is not None:
                painter.setPen(Qt.PenStyle.NoPen)
                painter.setBrush(text.ground)
                painter.drawRoundedRect(text.rect.adjusted(-3, 0, 3, 0), 5, 5)
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
        for at in _eye_word_places(figure, name, to_px):
            wide = metrics.horizontalAdvance(word)
            rect = QRectF(at.x() - wide / 2 + 2, at.y() - 10, wide + 2, 20)
            words.append(Text(word, rect, font, QColor(theme.colours.ink_soft)))
    return words


def _eye_word_places(figure: Figure, name: str, to_px: QTransform) -> list[QPointF]:
    """Above the lens of a single picture from the front, below it in all others."""
    boxes = [
        to_px.mapRect(_rect_of(stroke))
        for stroke in figure.strokes
        if stroke.eye == name and stroke.name == _EYE_AT[figure.view]
    ]
    _, bottom, _, top = (to_px.map(QPointF(0, y)).y() for y in figure.bounds)
    if figure.view == "front" and not figure.panels:
        return [QPointF(box.center().x(), top - 26) for box in boxes]
    is_low = figure.view in {"top", "front"}
    return [
        QPointF(box.center().x(), (bottom if is_low else box.bottom()) + 22) for box in boxes
    ]


def _panel_words(stage: Stage, theme: Theme) -> list[Text]:
    """Before and now, each over its picture."""
    font = theme.font(Size.CAPTION, strong=True)
    metrics, words = QFontMetricsF(font), []
    for panel in stage.figure.panels:
        at, wide = stage.to_px.map(QPointF(*panel.at)), metrics.horizontalAdvance(panel.words)
        rect = QRectF(at.x() - wide / 2, at.y() - 34, wide + 2, 20)
        words.append(Text(panel.words, rect, font, QColor(theme.colours.ink)))
    return words


def _notes(stage: Stage, theme: Theme) -> list[Text]:
    """The sizes of the faults pointed out, beside what shows them and on the sheet."""
    font = theme.font(Size.CAPTION, strong=True)
    metrics, words = QFontMetricsF(font), []
    for note in stage.figure.notes:
        at, wide = stage.to_px.map(QPointF(*note.at)), metrics.horizontalAdvance(note.words) + 2
        left = min(max(at.x() + 8, 6.0), stage.rect.width() - 6 - wide)
        top = min(max(at.y() - 9, 6.0), stage.rect.height() - 50)
        rect = QRectF(left, top, wide, 18)
        outside, ground = QColor(theme.colours.outside), QColor(theme.colours.raised)
        words.append(Text(note.words, rect, font, outside, ground))
    return words


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


@dataclass(frozen=True, slots=True)
class Bar:
    """A scale bar: its length in mm and where it lies, px."""

    length: int
    line: QLineF


def scale_bar(stage: Stage) -> Bar | None:
    """The bar of a view that is to scale; None on the table, which is seen aslant."""
    if stage.figure.view == "table":
        return None
    length = next((one for one in _BARS if one * stage.to_px.m11() <= _LONGEST_BAR), _BARS[-1])
    y, end = stage.rect.height() - 19.0, _FOOT_SIDE + length * stage.to_px.m11()
    return Bar(length, QLineF(_FOOT_SIDE, y, end, y))


def _paint_bar(painter: QPainter, bar: Bar, theme: Theme) -> None:
    painter.setPen(QPen(QColor(theme.colours.ink_soft), 1.4))
    painter.drawLine(bar.line)
    for end in (bar.line.p1(), bar.line.p2()):
        painter.drawLine(end - QPointF(0, 4), end + QPointF(0, 4))


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
