"""Where the marks of a scene and their labels go on the sheet."""

from dataclasses import dataclass, replace

from PySide6.QtCore import QPointF, QRectF, QSizeF
from PySide6.QtGui import QFontMetricsF

from benchassist.geometry.figure import Polyline, bounds
from benchassist.ui.drawings.labels import Room
from benchassist.ui.drawings.marks import MARK
from benchassist.ui.drawings.scene import Mark
from benchassist.ui.drawings.sheet import Sheet
from benchassist.ui.theme import Size

_AVOIDED = frozenset({"cross", "engraving", "arc", "gap", "segment-band", "level"})
_OUTWARDS = frozenset({"right.centre", "right.near-centre"})
_RIGHT_EDGE = 0.82
_THIN = 8.0
_LOW = 300.0
"""A lower sheet would be hidden by its marks, px: it bears only those with a label."""


@dataclass(frozen=True, slots=True)
class Placed:
    """A mark on the sheet, its own place, and its label where there was room for one.

    `is_on_body` says that the label lies on the frame and needs a ground of its own.
    """

    mark: Mark
    spot: QPointF
    square: QRectF
    label: QRectF | None
    is_on_body: bool

    @property
    def is_moved(self) -> bool:
        """Whether the mark had to give way so far that a line leads to its own place."""
        away = self.square.center() - self.spot
        return abs(away.x()) + abs(away.y()) > 0.6 * MARK

    def is_hit(self, point: QPointF) -> bool:
        """Whether a point lies on the mark or its label."""
        on_label = self.label is not None and self.label.contains(point)
        return on_label or self.square.adjusted(-4, -4, 4, 4).contains(point)


def placed_marks(sheet: Sheet, marks: tuple[Mark, ...]) -> tuple[Placed, ...]:
    """The marks that have a place in this view: the active one first, and on top."""
    stage = sheet.stage
    figure, to_px = stage.figure, stage.to_px
    room = Room(stage.rect.adjusted(6, 6, -6, -6), stage.body)
    room.taken = [text.rect for text in sheet.texts]
    lines = [
        (stroke.name, to_px.mapRect(_rect_of(stroke.points)).adjusted(-2, -2, 2, 2))
        for stroke in figure.strokes
    ]
    room.avoided = [rect for name, rect in lines if name in _AVOIDED or _is_level(name, rect)]
    is_low = stage.rect.height() < _LOW
    shown = [mark for mark in marks if mark.is_labelled or not is_low]
    found = [(mark, figure.spot(mark.spot)) for mark in shown]
    spots = [(mark, to_px.map(QPointF(*at))) for mark, at in found if at is not None]
    spots.sort(key=lambda one: not one[0].is_active)
    squares = [(mark, at, room.place_mark(at, MARK)) for mark, at in spots]
    return tuple(_labelled(sheet, room, *one) for one in squares)


def have_same_places(one: tuple[Mark, ...], other: tuple[Mark, ...]) -> bool:
    """Whether marks differ at most in their states, so that they stay where they are."""
    return [_place(mark) for mark in one] == [_place(mark) for mark in other]


def with_states(placed: tuple[Placed, ...], marks: tuple[Mark, ...]) -> tuple[Placed, ...]:
    """The same places with the states of these marks."""
    now = {_place(mark): mark for mark in marks}
    return tuple(replace(one, mark=now[_place(one.mark)]) for one in placed)


def _place(mark: Mark) -> tuple[str, str, str, bool, bool]:
    return mark.prompt_id, mark.spot, mark.label, mark.is_active, mark.is_labelled


def _labelled(sheet: Sheet, room: Room, mark: Mark, at: QPointF, square: QRectF) -> Placed:
    if not mark.is_labelled:
        return Placed(mark, at, square, None, is_on_body=False)
    metrics = QFontMetricsF(sheet.theme.font(Size.CAPTION, strong=mark.is_active))
    size = QSizeF(metrics.horizontalAdvance(mark.label) + 2, metrics.height())
    grown = square.adjusted(-4, -4, 4, 4) if mark.is_active else square
    is_at_edge = square.center().x() > sheet.stage.rect.width() * _RIGHT_EDGE
    prefers_left = mark.spot in _OUTWARDS or is_at_edge
    label = room.place_label(grown, size, prefers_left=prefers_left)
    return Placed(mark, at, square, label, label is not None and room.covers_body(label))


def _is_level(name: str, rect: QRectF) -> bool:
    """Whether it is a level line to a fault: one that slants is not its rectangle."""
    return name == "sight" and rect.height() < _THIN


def _rect_of(points: Polyline) -> QRectF:
    left, bottom, right, top = bounds(points)
    return QRectF(left, bottom, right - left, top - bottom)
