"""A small sheet of fixed units on which the hint pictures are drawn."""

from dataclasses import dataclass
from math import atan2, cos, hypot, radians, sin

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import (
    QColor,
    QFontMetricsF,
    QPainter,
    QPainterPath,
    QPen,
    QPolygonF,
    QTransform,
)

from benchassist.geometry.figure import Figure, Point
from benchassist.ui.drawings.marks import paint_state_mark
from benchassist.ui.drawings.strokes import body_of, paint_figure
from benchassist.ui.theme import Size, Theme
from benchassist.verdicts.finding import State

WIDE, TALL = 256.0, 160.0
"""The units of a hint picture, x to the right and y down."""


@dataclass(frozen=True, slots=True)
class Ink:
    """How a line is drawn: a colour of `Colours` by name, its width, dashes and strength."""

    name: str = "ink"
    width: float = 1.5
    dash: tuple[float, ...] = ()
    alpha: int = 255


@dataclass(frozen=True, slots=True)
class Canvas:
    """What the hint pictures are drawn with."""

    painter: QPainter
    theme: Theme

    def colour(self, name: str, alpha: int = 255) -> QColor:
        """A colour of the scheme in use."""
        colour = QColor(getattr(self.theme.colours, name))
        colour.setAlpha(alpha)
        return colour

    def _take(self, ink: Ink | None, fill: str = "", fill_alpha: int = 255) -> None:
        if ink is None:
            self.painter.setPen(Qt.PenStyle.NoPen)
        else:
            pen = QPen(self.colour(ink.name, ink.alpha), ink.width)
            pen.setCapStyle(Qt.PenCapStyle.FlatCap if ink.dash else Qt.PenCapStyle.RoundCap)
            pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
            if ink.dash:
                pen.setDashPattern([part / ink.width for part in ink.dash])
            self.painter.setPen(pen)
        no_fill = Qt.BrushStyle.NoBrush
        self.painter.setBrush(self.colour(fill, fill_alpha) if fill else no_fill)

    def line(self, points: tuple[Point, ...], ink: Ink) -> None:
        """An open line through points."""
        self._take(ink)
        self.painter.drawPolyline(_polygon(points))

    def shape(
        self, points: tuple[Point, ...], ink: Ink | None, fill: str, fill_alpha: int = 255
    ) -> None:
        """A closed shape."""
        self._take(ink, fill, fill_alpha)
        self.painter.drawPolygon(_polygon(points))

    def curve(self, start: Point, first: Point, second: Point, end: Point, ink: Ink) -> None:
        """A cubic curve."""
        path = QPainterPath(QPointF(*start))
        path.cubicTo(QPointF(*first), QPointF(*second), QPointF(*end))
        self._take(ink)
        self.painter.drawPath(path)

    def circle(self, at: Point, radius: float, ink: Ink | None, fill: str = "") -> None:
        """A circle."""
        self._take(ink, fill)
        self.painter.drawEllipse(QPointF(*at), radius, radius)

    def ellipse(self, at: Point, across: float, up: float, ink: Ink, fill: str = "") -> None:
        """An upright ellipse by its half axes."""
        self._take(ink, fill)
        self.painter.drawEllipse(QPointF(*at), across, up)

    def arc(self, at: Point, radius: float, start: float, end: float, ink: Ink) -> None:
        """An arc, degrees counter-clockwise from the right."""
        box = QRectF(at[0] - radius, at[1] - radius, 2 * radius, 2 * radius)
        self._take(ink)
        self.painter.drawArc(box, round(start * 16), round((end - start) * 16))

    def arrow(self, start: Point, end: Point, ink: Ink, *, is_double: bool = False) -> None:
        """A line with a head at its end, or at both."""
        length = hypot(end[0] - start[0], end[1] - start[1])
        way = ((end[0] - start[0]) / length, (end[1] - start[1]) / length)
        back = 5.0
        tail = (start[0] + way[0] * back, start[1] + way[1] * back) if is_double else start
        self.line((tail, (end[0] - way[0] * back, end[1] - way[1] * back)), ink)
        self._head(end, atan2(way[1], way[0]), ink)
        if is_double:
            self._head(start, atan2(-way[1], -way[0]), ink)

    def _head(self, tip: Point, angle: float, ink: Ink) -> None:
        barbs = tuple(
            (tip[0] + 8 * cos(angle + turn), tip[1] + 8 * sin(angle + turn))
            for turn in (radians(156), radians(-156))
        )
        self.shape((tip, *barbs), None, ink.name, ink.alpha)

    def words(
        self, at: Point, text: str, name: str = "ink_soft", *, strong: bool = False
    ) -> None:
        """Words centred on a place."""
        font = self.theme.font(Size.SMALL, strong=strong)
        metrics = QFontMetricsF(font)
        wide, tall = metrics.horizontalAdvance(text) + 4, metrics.height()
        self.painter.setFont(font)
        self.painter.setPen(self.colour(name))
        box = QRectF(at[0] - wide / 2, at[1] - tall / 2, wide, tall)
        self.painter.drawText(box, Qt.AlignmentFlag.AlignCenter, text)

    def good(self, at: Point) -> None:
        """The mark of a good state."""
        self._mark(at, State.WITHIN)

    def bad(self, at: Point) -> None:
        """The mark of a fault."""
        self._mark(at, State.OUTSIDE)

    def _mark(self, at: Point, state: State) -> None:
        box = QRectF(at[0] - 9, at[1] - 9, 18, 18)
        paint_state_mark(self.painter, box, state, self.theme.colours)

    def figure(self, figure: Figure, box: QRectF, largest: float = 3.2) -> QTransform:
        """A figure fitted into a box; gives its transform from mm."""
        left, bottom, right, top = figure.bounds
        scale = min(box.width() / (right - left), box.height() / (top - bottom), largest)
        to_px = QTransform()
        to_px.translate(box.center().x(), box.center().y())
        to_px.scale(scale, -scale)
        to_px.translate(-(left + right) / 2, -(bottom + top) / 2)
        paint_figure(self.painter, figure, to_px, self.theme.colours, body_of(figure, to_px))
        return to_px


def _polygon(points: tuple[Point, ...]) -> QPolygonF:
    return QPolygonF([QPointF(*point) for point in points])


def around(at: Point, radius: float, angle: float) -> Point:
    """The place at a distance and a direction, degrees counter-clockwise from the right."""
    return at[0] + radius * cos(radians(angle)), at[1] - radius * sin(radians(angle))
