"""Finding room: marks that do not cover one another, labels that cover nothing."""

from dataclasses import dataclass, field

from PySide6.QtCore import QPointF, QRectF, QSizeF
from PySide6.QtGui import QPainterPath

_GAP = 5.0
_APART = 23.0
_PER_RANK, _ON_BODY = 60.0, 600.0
"""What a less good place costs, and one on the frame."""

_COVERED = 6.0
"""What a px² of a mark of the lens costs that is covered: most are thin lines."""

_AWAY = (
    (0, 0), (0, 1), (0, -1), (0, 2), (0, -2), (1, 0), (-1, 0), (0, 3), (0, -3), (1, 1),
    (-1, 1), (1, -1), (-1, -1), (0, 4), (0, -4), (1, 2), (-1, 2), (1, -2), (-1, -2), (0, 5),
    (0, -5), (0, 6), (0, -6), (0, 7), (0, -7),
)  # fmt: skip
"""Where a mark may go when its own place is taken, nearest first, in marks."""


@dataclass
class Room:
    """The sheet, what is taken on it, and what a label had better not cover."""

    sheet: QRectF
    body: QPainterPath
    taken: list[QRectF] = field(default_factory=list)
    avoided: list[QRectF] = field(default_factory=list)

    def place_mark(self, at: QPointF, side: float) -> QRectF:
        """The free square nearest to a place, taken from now on."""
        squares = (_square(at + QPointF(x, y) * _APART, side) for x, y in _AWAY)
        free = (
            square
            for square in squares
            if self.sheet.contains(square) and not self._meets(square.adjusted(-2, -2, 2, 2))
        )
        square = next(free, None) or _inside(self.sheet, _square(at, side))
        self.taken.append(square)
        return square

    def place_label(self, mark: QRectF, size: QSizeF, *, prefers_left: bool) -> QRectF | None:
        """The best free place for a label beside its mark, None where there is none."""
        best: QRectF | None = None
        least = float("inf")
        for rank, rect in enumerate(_beside(mark, size, prefers_left=prefers_left)):
            if rank * _PER_RANK >= least:
                break
            if not self.sheet.contains(rect) or self._meets(rect):
                continue
            covered = sum(_overlap(rect, other) for other in self.avoided)
            cost = rank * _PER_RANK + covered * _COVERED
            if cost < least and self.covers_body(rect):
                cost += _ON_BODY
            if cost < least:
                best, least = rect, cost
        if best is not None:
            self.taken.append(best)
        return best

    def covers_body(self, rect: QRectF) -> bool:
        """Whether a label there would lie on the frame and needs a ground of its own."""
        return self.body.intersects(rect)

    def _meets(self, rect: QRectF) -> bool:
        return any(rect.intersects(other) for other in self.taken)


def _square(centre: QPointF, side: float) -> QRectF:
    return QRectF(centre.x() - side / 2, centre.y() - side / 2, side, side)


def _inside(sheet: QRectF, rect: QRectF) -> QRectF:
    x = min(max(rect.left(), sheet.left()), sheet.right() - rect.width())
    y = min(max(rect.top(), sheet.top()), sheet.bottom() - rect.height())
    return QRectF(x, y, rect.width(), rect.height())


def _overlap(one: QRectF, other: QRectF) -> float:
    common = one.intersected(other)
    return max(common.width(), 0.0) * max(common.height(), 0.0)


def _beside(mark: QRectF, size: QSizeF, *, prefers_left: bool) -> list[QRectF]:
    """Places for a label around its mark, best first."""
    centre, w, h = mark.center(), size.width(), size.height()
    right, left = mark.right() + _GAP, mark.left() - _GAP - w
    level = centre.y() - h / 2
    first, second = (left, right) if prefers_left else (right, left)
    above, below = mark.top() - _GAP / 2 - h, mark.bottom() + _GAP / 2
    corners = [
        (first, level),
        (second, level),
        (centre.x() - w / 2, below),
        (centre.x() - w / 2, above),
        (first, level - 0.7 * h),
        (first, level + 0.7 * h),
        (second, level - 0.7 * h),
        (second, level + 0.7 * h),
        (centre.x() - 8, below),
        (centre.x() + 8 - w, below),
        (centre.x() - 8, above),
        (centre.x() + 8 - w, above),
    ]
    return [QRectF(x, y, w, h) for x, y in corners]
