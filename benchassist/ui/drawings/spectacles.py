"""The spectacles themselves, to scale, with the state of each thing to be read."""

from dataclasses import replace

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QColor,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QPixmap,
    QResizeEvent,
)
from PySide6.QtWidgets import QSizePolicy, QWidget
from typing_extensions import override

from benchassist.geometry.views import view
from benchassist.geometry.zones import LensPlace
from benchassist.optics.eye import Eye
from benchassist.ui.drawings.marks import paint_active_ring, paint_state_mark
from benchassist.ui.drawings.places import Blemishes, paint_blemishes, place_under
from benchassist.ui.drawings.placing import Placed, have_same_places, placed_marks, with_states
from benchassist.ui.drawings.scene import Mark, Scene
from benchassist.ui.drawings.sheet import Sheet, Stage
from benchassist.ui.theme import Size, Theme


class SpectaclesDrawing(QWidget):
    """The spectacles of a scene; a mark can be clicked.

    Signals:
        mark_clicked: id of the prompt whose mark was clicked.
        place_clicked: the LensPlace that was clicked, where places are taken.
    """

    mark_clicked = Signal(str)
    place_clicked = Signal(object)

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
        self._marks: tuple[Mark, ...] = ()
        self._sheet: Sheet | None = None
        self._picture: QPixmap | None = None
        self._placed: tuple[Placed, ...] = ()
        self._blemishes = Blemishes()
        theme.changed.connect(self._lay_out)
        self.setMouseTracking(True)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setAccessibleName("Drawing of the spectacles")

    def set_scene(self, scene: Scene) -> None:
        """Show a scene; the frame is drawn anew only when the frame itself changed."""
        ground, old = replace(scene, marks=()), self._sheet
        stays = have_same_places(self._marks, scene.marks)
        if old is not None and old.scene == ground and stays:
            sheet, self._placed = old, with_states(self._placed, scene.marks)
        else:
            sheet = Sheet(ground, self._stage_for(scene), self._theme)
            self._placed = placed_marks(sheet, scene.marks)
        self._sheet, self._marks = sheet, scene.marks
        self._describe()
        self.update()

    def set_blemishes(self, blemishes: Blemishes) -> None:
        """Show defects and the cursor, and take places where a click is to mark one."""
        self._blemishes = blemishes
        self._describe()
        self.update()

    def point_out(self, cursor: LensPlace | None, chosen: int) -> None:
        """Show the cursor, if the keys move it, and ring the defect of this number."""
        self._blemishes = self._blemishes.pointing(cursor, chosen)
        self.update()

    def _describe(self) -> None:
        seen = _described(self._sheet, self._marks) if self._sheet else ""
        told = (seen, self._blemishes.described)
        self.setAccessibleDescription(" ".join(text for text in told if text))

    def _stage_for(self, scene: Scene) -> Stage:
        """The present stage where the frame is the same, or a new one."""
        old = self._sheet
        if old is not None and _frame(old.scene) == _frame(scene):
            return old.stage
        self._picture = None
        figure = view(scene.plan, scene.view, scene.faults)
        return Stage(figure, QRectF(self.rect()))

    @property
    def placed(self) -> tuple[Placed, ...]:
        """The marks as they are painted, the active one first."""
        return self._placed

    def _lay_out(self) -> None:
        self._picture = None
        if self._sheet is not None:
            stage = Stage(self._sheet.stage.figure, QRectF(self.rect()))
            self._sheet = replace(self._sheet, stage=stage)
            self._placed = placed_marks(self._sheet, self._marks)
        self.update()

    @override
    def sizeHint(self) -> QSize:
        return QSize(880, 500)

    @override
    def minimumSizeHint(self) -> QSize:
        return QSize(420, 196)

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        self._lay_out()
        super().resizeEvent(event)

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        if self._sheet is None:
            return
        ratio = self.devicePixelRatioF()
        if self._picture is None or self._picture.devicePixelRatio() != ratio:
            self._picture = _painted(self._sheet, self.size(), ratio)
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.drawPixmap(0, 0, self._picture)
        self._sheet.paint(painter)
        for placed in reversed(self._placed):
            self._paint_mark(painter, placed)
        scene, stage = self._sheet.scene, self._sheet.stage
        paint_blemishes(painter, stage, scene.plan, self._blemishes, self._theme)
        painter.end()

    def _paint_mark(self, painter: QPainter, placed: Placed) -> None:
        colours, mark = self._theme.colours, placed.mark
        if placed.is_moved:
            painter.setPen(QPen(QColor(colours.outline), 1))
            painter.drawLine(placed.spot, placed.square.center())
        if mark.is_active:
            paint_active_ring(painter, placed.square, colours)
        paint_state_mark(painter, placed.square, mark.shown, colours)
        if placed.label is not None:
            self._paint_label(painter, placed, placed.label)

    def _paint_label(self, painter: QPainter, placed: Placed, label: QRectF) -> None:
        colours, is_active = self._theme.colours, placed.mark.is_active
        if placed.is_on_body:
            ground = QColor(colours.raised)
            ground.setAlpha(232)
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(ground)
            painter.drawRoundedRect(label.adjusted(-3, 0, 3, 0), 5, 5)
        painter.setFont(self._theme.font(Size.CAPTION, strong=is_active))
        painter.setPen(QColor(colours.ink if is_active else colours.ink_soft))
        painter.drawText(label, Qt.AlignmentFlag.AlignCenter, placed.mark.label)

    def _at(self, point: QPointF) -> Mark | None:
        """The mark under a point; the one asked for now lets places be taken under it."""
        hit = next((one.mark for one in self._placed if one.is_hit(point)), None)
        is_passed = hit is not None and hit.is_active and self._blemishes.takes_places
        return None if is_passed else hit

    def _place_under(self, point: QPointF) -> LensPlace | None:
        if self._sheet is None or not self._blemishes.takes_places:
            return None
        return place_under(self._sheet.stage, self._sheet.scene.plan, point)

    @override
    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        mark = self._at(event.position())
        shape = Qt.CursorShape.ArrowCursor
        if mark is not None:
            shape = Qt.CursorShape.PointingHandCursor
        elif self._place_under(event.position()) is not None:
            shape = Qt.CursorShape.CrossCursor
        self.setCursor(shape)
        self.setToolTip("" if mark is None else f"{mark.label}: {mark.word}")

    @override
    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        mark = self._at(event.position())
        if event.button() is not Qt.MouseButton.LeftButton:
            return
        if mark is not None:
            self.mark_clicked.emit(mark.prompt_id)
        elif (place := self._place_under(event.position())) is not None:
            self.place_clicked.emit(place)


def _painted(sheet: Sheet, size: QSize, ratio: float) -> QPixmap:
    picture = QPixmap(size * ratio)
    picture.setDevicePixelRatio(ratio)
    picture.fill(Qt.GlobalColor.transparent)
    painter = QPainter(picture)
    sheet.stage.paint(painter, sheet.theme)
    painter.end()
    return picture


def _frame(scene: Scene) -> tuple[object, ...]:
    """What the drawing of the frame depends on."""
    return scene.plan, scene.view, scene.faults


def _described(sheet: Sheet, marks: tuple[Mark, ...]) -> str:
    """What a screen reader says: the view, and each mark with its state."""
    active = [f"Now: {mark.label}" for mark in marks if mark.is_active][:1]
    listed = [f"{mark.label}, {_where(mark.spot)}: {mark.word}" for mark in marks]
    seen = f"{sheet.caption[:1].upper()}{sheet.caption[1:]}"
    return ". ".join((seen, *active, *listed)) + "."


def _where(spot: str) -> str:
    eye = spot.partition(".")[0]
    return eye if eye in set(Eye) else "frame"
