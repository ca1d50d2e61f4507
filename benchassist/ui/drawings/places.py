"""Defects and the cursor on the lenses of the front view: where in px, and how painted."""

from dataclasses import dataclass, replace

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen

from benchassist.geometry.plan import FrontPlan
from benchassist.geometry.zones import LensPlace, place_at
from benchassist.ui.drawings.sheet import Stage
from benchassist.ui.theme import Size, Theme
from benchassist.verdicts.finding import State

_REACH = 6.0
"""Half the size of the mark of a defect, px at 100 %."""

_CURSOR = 9.0
"""How far the lines of the cursor reach from its middle, px."""


@dataclass(frozen=True, slots=True)
class Blemish:
    """A defect as the drawing shows it.

    Attributes:
        place: where it is.
        number: its number in the record.
        state: how it is judged.
        words: what it is and where, for the tool tip and for who cannot see the drawing.
        is_chosen: whether it is the one being described.
    """

    place: LensPlace
    number: int
    state: State
    words: str
    is_chosen: bool = False


@dataclass(frozen=True, slots=True)
class Blemishes:
    """What lies on the lenses: defects, and the cursor where places are being taken."""

    defects: tuple[Blemish, ...] = ()
    cursor: LensPlace | None = None
    takes_places: bool = False

    def pointing(self, cursor: LensPlace | None, chosen: int) -> "Blemishes":
        """The same with another cursor, and the defect of this number chosen."""
        defects = (replace(one, is_chosen=one.number == chosen) for one in self.defects)
        return Blemishes(tuple(defects), cursor, self.takes_places)

    @property
    def described(self) -> str:
        """The defects as a screen reader says them; empty where there are none."""
        told = (f"Defect {one.number}, {one.place.eye}: {one.words}" for one in self.defects)
        return ". ".join(told)


def px_at(stage: Stage, plan: FrontPlan, place: LensPlace) -> QPointF:
    """Where a place of a lens lies on the sheet, px."""
    return stage.to_px.map(QPointF(*plan.place(place.eye, place.in_lens)))


def place_under(stage: Stage, plan: FrontPlan, point: QPointF) -> LensPlace | None:
    """The place on a lens under a point of the sheet, px; None beside the lenses."""
    if stage.figure.view != "front":
        return None
    from_px, is_possible = stage.to_px.inverted()
    at = from_px.map(point)
    return place_at(plan, (at.x(), at.y())) if is_possible else None


def paint_blemishes(
    painter: QPainter, stage: Stage, plan: FrontPlan, shown: Blemishes, theme: Theme
) -> None:
    """Paint the defects and the cursor; nothing in another view than the front."""
    if stage.figure.view != "front":
        return
    for one in shown.defects:
        _paint_blemish(painter, px_at(stage, plan, one.place), one, theme)
    if shown.cursor is not None:
        _paint_cursor(painter, px_at(stage, plan, shown.cursor), theme)


def _paint_blemish(painter: QPainter, at: QPointF, one: Blemish, theme: Theme) -> None:
    """A slanting cross with its number, ringed while it is the one described."""
    colours = theme.colours
    ground = QColor(colours.raised)
    painter.setBrush(ground)
    painter.setPen(QPen(QColor(colours.accent), 2) if one.is_chosen else Qt.PenStyle.NoPen)
    painter.drawEllipse(at, _REACH + 3, _REACH + 3)
    pen = QPen(QColor(colours.of_state(one.state)), 2.4)
    pen.setCapStyle(Qt.PenCapStyle.RoundCap)
    painter.setPen(pen)
    for slant in (-1, 1):
        reach = QPointF(_REACH * 0.7, slant * _REACH * 0.7)
        painter.drawLine(QLineF(at - reach, at + reach))
    painter.setFont(theme.font(Size.CAPTION, strong=True))
    label = QRectF(at.x() + _REACH + 2, at.y() - _REACH - 16, 20, 18)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.drawRoundedRect(label, 5, 5)
    painter.setPen(QColor(colours.ink))
    painter.drawText(label, Qt.AlignmentFlag.AlignCenter, str(one.number))


def _paint_cursor(painter: QPainter, at: QPointF, theme: Theme) -> None:
    """An upright cross, open in the middle so that what lies under it is seen."""
    pen = QPen(QColor(theme.colours.accent), 2)
    pen.setCapStyle(Qt.PenCapStyle.RoundCap)
    painter.setPen(pen)
    for way in (QPointF(1, 0), QPointF(-1, 0), QPointF(0, 1), QPointF(0, -1)):
        painter.drawLine(QLineF(at + way * 3, at + way * _CURSOR))
