"""A gauge: one finding on a scale from limit to limit."""

from dataclasses import replace
from decimal import Decimal

from PySide6.QtCore import QLineF, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget
from typing_extensions import override

from benchassist.ui.drawings.marks import paint_state_mark
from benchassist.ui.theme import Size, Theme
from benchassist.verdicts import words
from benchassist.verdicts.finding import Finding, State

_SPREAD = 1.36
"""How far beyond the limit the scale goes, in limits."""

_HEIGHT, _LOW = 96, 58
"""With the line that says how likely it is within, and without, px."""

_LIKELY = 76
"""Where the line begins that says how likely it is within, px."""

_CERTAIN = 100
_UNREAD = "not read yet"
_LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
_RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter


class Gauge(QWidget):
    """Shows what was found, how far from the order, and whether the limit holds."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
        self._finding: Finding | None = None
        self._hides_ordered = False
        self._is_low = False
        theme.changed.connect(self.update)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName("Gauge")
        self.set_finding(None)

    def set_finding(self, finding: Finding | None, *, hide_ordered: bool = False) -> None:
        """Show a finding, None for nothing.

        With `hide_ordered` nothing is told of the order: the scale waits for a reading.
        """
        self._finding = finding
        self._hides_ordered = hide_ordered
        self.setAccessibleName(finding.what if finding else "Gauge")
        self.setAccessibleDescription(self._described())
        self.setToolTip(_likely_explained(finding) if finding else "")
        self.update()

    def set_low(self, *, is_low: bool) -> None:
        """Take no room for how likely it is: of what no meter read, that is not reckoned."""
        self._is_low = is_low
        self.updateGeometry()

    def _described(self) -> str:
        finding = self._finding
        if finding is None:
            return "Not read yet."
        parts = [f"{_full_title(finding)}: {finding.state.word}."]
        if found := _value(finding):
            parts.append(f"Found {found}.")
        if finding.ordered is not None and not self._hides_ordered:
            ordered = replace(finding, found=finding.ordered)
            parts.append(f"Ordered {_value(ordered)}.")
        if limit := _limit(finding):
            parts.append(f"Limit plus or minus {limit}.")
        parts.append(_likely_explained(finding))
        return " ".join(part for part in parts if part)

    @override
    def sizeHint(self) -> QSize:
        return QSize(264, self._tall())

    @override
    def minimumSizeHint(self) -> QSize:
        return QSize(200, self._tall())

    def _top(self) -> int:
        return 0 if self._is_low else 4

    def _tall(self) -> int:
        return _LOW if self._is_low else _HEIGHT

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        finding = self._finding
        if finding is None:
            self._paint_words(painter, "", _UNREAD, "")
            self._paint_groove(painter, self._groove())
        else:
            self._paint_finding(painter, finding)
        painter.end()

    def _paint_finding(self, painter: QPainter, finding: Finding) -> None:
        limit = _limit(finding)
        foot = f"limit ±{limit}" if limit else ""
        blank = "" if finding.state is State.NONE else _UNREAD
        self._paint_words(painter, _title(finding), _value(finding) or blank, foot)
        if finding.limit:
            self._paint_scale(painter, finding, finding.limit)
        self._paint_state(painter, finding.state)
        painter.setFont(self._theme.font(Size.SMALL))
        painter.setPen(QColor(self._theme.colours.ink_soft))
        painter.drawText(QRectF(0, _LIKELY, self.width(), 18), _RIGHT, _likely(finding))

    def _paint_words(self, painter: QPainter, title: str, value: str, limit: str) -> None:
        colours = self._theme.colours
        top, foot = QRectF(0, self._top(), self.width(), 24), self._foot()
        is_read = value != _UNREAD
        font = self._theme.font(Size.LEAD if is_read else Size.CAPTION)
        painter.setFont(font)
        painter.setPen(QColor(colours.ink if is_read else colours.ink_soft))
        painter.drawText(top, _RIGHT, value)
        room = self.width() - painter.fontMetrics().horizontalAdvance(value) - 12
        self._paint_title(painter, title, room)
        painter.setFont(self._theme.font(Size.CAPTION))
        painter.setPen(QColor(colours.ink_soft))
        painter.drawText(foot, _LEFT, limit)

    def _paint_title(self, painter: QPainter, title: str, room: int) -> None:
        """The title in the largest type that fits its room, at last in two lines."""
        painter.setPen(QColor(self._theme.colours.ink))
        for size in (Size.BODY, Size.CAPTION):
            painter.setFont(self._theme.font(size, strong=True))
            if painter.fontMetrics().horizontalAdvance(title) <= room:
                painter.drawText(QRectF(0, self._top(), room, 24), _LEFT, title)
                return
        painter.setFont(self._theme.font(Size.SMALL, strong=True))
        two_lines = QRectF(0, self._top() - 3, room, 32)
        painter.drawText(two_lines, _LEFT | Qt.TextFlag.TextWordWrap, title)

    def _paint_state(self, painter: QPainter, state: State) -> None:
        foot = self._foot()
        painter.setFont(self._theme.font(Size.CAPTION, strong=True))
        painter.setPen(self._theme.state_colour(state))
        painter.drawText(foot, _RIGHT, state.word)
        wide = painter.fontMetrics().horizontalAdvance(state.word)
        mark = QRectF(foot.right() - wide - 24, foot.top() + 2, 18, 18)
        paint_state_mark(painter, mark, state, self._theme.colours)

    def _groove(self) -> QRectF:
        return QRectF(0, 26 if self._is_low else 40, self.width(), 8)

    def _foot(self) -> QRectF:
        """The line of the limit and the state."""
        return QRectF(0, 36 if self._is_low else 55, self.width(), 22)

    def _paint_groove(self, painter: QPainter, groove: QRectF) -> None:
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(self._theme.colours.line))
        painter.drawRoundedRect(groove, 4, 4)

    def _paint_scale(self, painter: QPainter, finding: Finding, limit: Decimal) -> None:
        groove = self._groove()
        self._paint_groove(painter, groove)
        if self._hides_ordered and finding.difference is None:
            return
        middle, reach = groove.center().x(), groove.width() / 2 / _SPREAD
        guard = min(float(finding.guard / limit), 1.0)
        self._paint_zones(painter, groove, reach, guard)
        colours = self._theme.colours
        painter.setPen(QPen(QColor(colours.ink), 1.6))
        for x in (middle - reach, middle + reach):
            painter.drawLine(QLineF(x, groove.top() - 5, x, groove.bottom() + 5))
        painter.setPen(QPen(QColor(colours.outline), 1.2))
        painter.drawLine(QLineF(middle, groove.top() - 3, middle, groove.bottom() + 3))
        if finding.difference is not None:
            share = float(finding.difference / limit)
            self._paint_bead(painter, groove, share, finding.state)

    def _paint_zones(
        self, painter: QPainter, groove: QRectF, reach: float, guard: float
    ) -> None:
        middle = groove.center().x()
        inner = reach * (1 - guard)
        sure, unsure = QColor(self._theme.colours.within), QColor(self._theme.colours.close)
        sure.setAlpha(70)
        unsure.setAlpha(125)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(sure)
        painter.drawRect(QRectF(middle - inner, groove.top(), 2 * inner, groove.height()))
        painter.setBrush(unsure)
        for left in (middle - reach, middle + inner):
            painter.drawRect(QRectF(left, groove.top(), reach - inner, groove.height()))

    def _paint_bead(
        self, painter: QPainter, groove: QRectF, share: float, state: State
    ) -> None:
        colours = self._theme.colours
        reach = groove.width() / 2 / _SPREAD
        most = (groove.width() / 2 - 8) / reach
        clamped = min(max(share, -most), most)
        at = QPointF(groove.center().x() + clamped * reach, groove.center().y())
        painter.setBrush(self._theme.state_colour(state))
        painter.setPen(QPen(QColor(colours.raised), 2))
        if clamped == share:
            painter.drawEllipse(at, 8, 8)
        else:
            way = 1 if share > 0 else -1
            tip = at + QPointF(8 * way, 0)
            tail = -9 * way
            painter.drawPolygon(
                QPolygonF([tip, tip + QPointF(1.6 * tail, -9), tip + QPointF(1.6 * tail, 9)])
            )


def _title(finding: Finding) -> str:
    """The quantity, with its eye where the prompt is about both."""
    is_of_lens = finding.eye is not None and finding.prompt.startswith(f"{finding.eye}.")
    return finding.what if is_of_lens else _full_title(finding)


def _full_title(finding: Finding) -> str:
    """The quantity with its eye."""
    if finding.eye is None:
        return finding.what
    return f"{finding.eye.capitalize()} {finding.what[:1].lower()}{finding.what[1:]}"


def _value(finding: Finding) -> str:
    """What was found, or the difference where only that is known; empty when not read."""
    value = finding.found if finding.found is not None else finding.difference
    if value is None:
        return ""
    if finding.unit == "D":
        return words.signed_dioptres(value)
    sign = words.MINUS if value < 0 else ""
    return f"{sign}{words.size(value, finding.unit)}"


def _limit(finding: Finding) -> str:
    """The limit with its unit, empty where there is none."""
    return "" if finding.limit is None else words.limit_size(finding.limit, finding.unit)


def _likely(finding: Finding) -> str:
    """How likely the lens is within, such as '96 % likely within'; empty where not reckoned."""
    if finding.probability is None:
        return ""
    return f"{_percent(finding.probability)} likely within"


def _likely_explained(finding: Finding) -> str:
    """The same as a sentence, and why a likely one is read again all the same."""
    if finding.probability is None:
        return ""
    share = _percent(finding.probability)
    again = " Not sure enough to be called within." if finding.state is State.CLOSE else ""
    return f"By the reading and its uncertainty, {share} likely within the limit.{again}"


def _percent(share: Decimal) -> str:
    """A share in whole per cent that never reads as certain."""
    whole = int((share * 100).to_integral_value())
    if whole >= _CERTAIN:
        return f"over {_CERTAIN - 1} %"
    return f"{whole} %" if whole else "under 1 %"
