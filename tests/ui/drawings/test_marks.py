"""Each state has its own shape, told apart without any colour."""

from itertools import combinations

import pytest
from PySide6.QtCore import QRectF
from PySide6.QtGui import QImage, QPainter

from benchassist.ui.drawings.marks import paint_active_ring, paint_state_mark
from benchassist.ui.theme import Theme
from benchassist.verdicts.finding import State

SHOWN = (*State, None)


def painted(theme: Theme, state: State | None, side: int) -> QImage:
    image = QImage(side, side, QImage.Format.Format_ARGB32_Premultiplied)
    image.fill(theme.colours.raised)
    painter = QPainter(image)
    paint_state_mark(painter, QRectF(0, 0, side, side), state, theme.colours)
    painter.end()
    return image


def inked(image: QImage, theme: Theme) -> set[tuple[int, int]]:
    """The places that differ clearly from the ground, whatever their colour."""
    ground = QImage(1, 1, image.format())
    ground.fill(theme.colours.raised)
    grey = ground.pixelColor(0, 0).lightness()
    return {
        (x, y)
        for x in range(image.width())
        for y in range(image.height())
        if abs(image.pixelColor(x, y).lightness() - grey) > 24
    }


@pytest.mark.parametrize("side", [16, 18, 40])
def test_states_differ_in_shape(theme: Theme, side: int) -> None:
    shapes = {state: inked(painted(theme, state, side), theme) for state in SHOWN}
    for one, other in combinations(SHOWN, 2):
        differs = shapes[one] ^ shapes[other]
        assert len(differs) > 0.06 * side * side, (one, other)


@pytest.mark.parametrize("state", SHOWN)
def test_a_mark_stays_in_its_square(theme: Theme, state: State | None) -> None:
    ink = inked(painted(theme, state, 32), theme)
    assert ink
    assert all(1 <= x <= 30 and 1 <= y <= 30 for x, y in ink)


def test_the_active_ring_leaves_the_middle_free(light: Theme) -> None:
    image = QImage(40, 40, QImage.Format.Format_ARGB32_Premultiplied)
    image.fill(light.colours.raised)
    painter = QPainter(image)
    paint_active_ring(painter, QRectF(11, 11, 18, 18), light.colours)
    painter.end()
    assert image.pixelColor(20, 20).name() == light.colours.raised
    assert inked(image, light)
