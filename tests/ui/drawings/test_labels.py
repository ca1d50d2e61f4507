"""Room on the sheet: marks give way, labels cover nothing, and a full sheet stays whole."""

from itertools import combinations

from PySide6.QtCore import QPointF, QRectF, QSizeF
from PySide6.QtGui import QPainterPath

from benchassist.ui.drawings.labels import Room

SHEET = QRectF(0, 0, 200, 200)


def test_a_mark_takes_its_own_place_and_the_next_one_gives_way() -> None:
    room = Room(SHEET, QPainterPath())
    first, second = (room.place_mark(QPointF(100, 100), 18) for _ in range(2))
    assert first.center() == QPointF(100, 100)
    assert not first.intersects(second)
    assert abs(second.center().x() - 100) < 1


def test_on_a_full_sheet_a_mark_stays_on_the_sheet() -> None:
    room = Room(SHEET, QPainterPath(), taken=[SHEET])
    square = room.place_mark(QPointF(197, -3), 18)
    assert SHEET.contains(square)


def test_a_label_finds_room_beside_its_mark_until_there_is_none() -> None:
    room = Room(SHEET, QPainterPath())
    mark = room.place_mark(QPointF(100, 100), 18)
    labels = []
    while label := room.place_label(mark, QSizeF(60, 16), prefers_left=False):
        labels.append(label)
    assert labels[0].left() > mark.right()
    assert len(labels) >= 4
    for one, other in combinations([mark, *labels], 2):
        assert not one.intersects(other)


def test_a_label_prefers_the_side_it_is_told_and_leaves_the_frame_free() -> None:
    body = QPainterPath()
    body.addRect(QRectF(112, 0, 88, 200))
    room = Room(SHEET, body)
    mark = room.place_mark(QPointF(100, 100), 18)
    right = room.place_label(mark, QSizeF(60, 16), prefers_left=False)
    assert right is not None
    assert not room.covers_body(right)
    other = Room(SHEET, QPainterPath()).place_label(mark, QSizeF(60, 16), prefers_left=True)
    assert other is not None
    assert other.right() < mark.left()
