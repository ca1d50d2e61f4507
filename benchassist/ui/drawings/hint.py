"""The picture of a hint, drawn by its name."""

from collections.abc import Callable
from dataclasses import dataclass

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPixmap, QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QWidget
from typing_extensions import override

from benchassist.ui.drawings import hint_bench, hint_lens, hint_meter, hint_wear
from benchassist.ui.drawings.canvas import TALL, WIDE, Canvas
from benchassist.ui.drawings.hint_meter import Shown
from benchassist.ui.theme import Theme


@dataclass(frozen=True, slots=True)
class Picture:
    """A hint picture: its name, how it is drawn, and whether it looks into an instrument."""

    name: str
    draw: Callable[[Canvas, Shown], None]
    is_dark: bool = False

    @property
    def description(self) -> str:
        """What it shows, in a sentence."""
        return (self.draw.__doc__ or "").strip()


PICTURES = (
    Picture("reticle-power", hint_meter.reticle_power, is_dark=True),
    Picture("reticle-prism", hint_meter.reticle_prism, is_dark=True),
    Picture("near-surface", hint_meter.near_surface),
    Picture("progressive-marks", hint_lens.progressive_marks),
    Picture("centration", hint_lens.centration),
    Picture("heights", hint_lens.heights),
    Picture("segment-tilt", hint_lens.segment_tilt),
    Picture("calliper", hint_lens.calliper),
    Picture("surface-light", hint_lens.surface_light, is_dark=True),
    Picture("edge", hint_lens.edge),
    Picture("rotation", hint_bench.rotation),
    Picture("skew", hint_bench.skew),
    Picture("x-ing", hint_bench.x_ing),
    Picture("planes", hint_bench.planes),
    Picture("face-form", hint_bench.face_form),
    Picture("four-point", hint_bench.four_point),
    Picture("pads", hint_bench.pads),
    Picture("open-angle", hint_bench.open_angle),
    Picture("pantoscopic", hint_bench.pantoscopic),
    Picture("table-inverted", hint_bench.table_inverted),
    Picture("table-upright", hint_bench.table_upright),
    Picture("shafts", hint_bench.shafts),
    Picture("temple-bend", hint_bench.temple_bend),
    Picture("fold", hint_bench.fold),
    Picture("level", hint_wear.level),
    Picture("vertex", hint_wear.vertex),
    Picture("fitting-cross", hint_wear.fitting_cross),
    Picture("zones", hint_wear.zones),
    Picture("care", hint_wear.care),
    Picture("sign", hint_wear.sign),
)
"""Every hint picture, by the name that the guide's entries use."""


class HintPicture(QWidget):
    """Shows one of the hint pictures; hidden when there is none of that name."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
        self._picture: Picture | None = None
        self._shown = Shown()
        self._drawn: QPixmap | None = None
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        theme.changed.connect(self._forget)
        self.setAccessibleName("Picture")
        self.hide()

    def set_picture(self, name: str, **parameters: float) -> None:
        """Show the picture of that name, with the values of `Shown` that are known."""
        picture = next((one for one in PICTURES if one.name == name), None)
        shown = Shown(**parameters)
        if (picture, shown) == (self._picture, self._shown):
            return
        self._picture, self._shown = picture, shown
        self.setAccessibleDescription(self._picture.description if self._picture else "")
        self.setVisible(self._picture is not None)
        self._forget()

    def _forget(self) -> None:
        self._drawn = None
        self.update()

    @override
    def sizeHint(self) -> QSize:
        return QSize(int(WIDE), int(TALL) + 4)

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        self._forget()
        super().resizeEvent(event)

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        if self._picture is None:
            return
        ratio = self.devicePixelRatioF()
        if self._drawn is None or self._drawn.devicePixelRatio() != ratio:
            self._drawn = self._draw(self._picture, ratio)
        painter = QPainter(self)
        painter.drawPixmap(0, 0, self._drawn)
        painter.end()

    def _draw(self, picture: Picture, ratio: float) -> QPixmap:
        drawn = QPixmap(self.size() * ratio)
        drawn.setDevicePixelRatio(ratio)
        drawn.fill(Qt.GlobalColor.transparent)
        painter = QPainter(drawn)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        colours = self._theme.colours
        painter.setPen(QColor(colours.instrument if picture.is_dark else colours.line))
        painter.setBrush(QColor(colours.instrument if picture.is_dark else colours.paper))
        ground = QRectF(0.5, 0.5, self.width() - 1, self.height() - 1)
        painter.drawRoundedRect(ground, 8, 8)
        scale = min(self.width() / WIDE, self.height() / TALL)
        painter.translate((self.width() - WIDE * scale) / 2, (self.height() - TALL * scale) / 2)
        painter.scale(scale, scale)
        picture.draw(Canvas(painter, self._theme), self._shown)
        painter.end()
        return drawn
