"""Every hint picture can be drawn, in both schemes, and says in words what it shows."""

from typing import ClassVar

import pytest
from PySide6.QtGui import QImage, QPainter
from pytestqt.qtbot import QtBot
from typing_extensions import override

from benchassist.geometry.figure import Point
from benchassist.ui.drawings.canvas import Canvas
from benchassist.ui.drawings.hint import PICTURES, HintPicture, Picture
from benchassist.ui.drawings.hint_meter import Shown
from benchassist.ui.theme import Scheme, Theme


@pytest.fixture
def hint(theme: Theme, qtbot: QtBot) -> HintPicture:
    made = HintPicture(theme)
    qtbot.addWidget(made)
    made.resize(256, 164)
    return made


def drawn(hint: HintPicture) -> QImage:
    image = QImage(hint.size(), QImage.Format.Format_ARGB32_Premultiplied)
    image.fill(0)
    hint.render(image)
    return image


@pytest.mark.parametrize("name", [picture.name for picture in PICTURES])
def test_each_picture_is_drawn_and_described(hint: HintPicture, name: str) -> None:
    hint.set_picture(name)
    assert not hint.isHidden()
    assert hint.accessibleDescription().endswith(".")
    image = drawn(hint)
    colours = {image.pixel(x, y) for x in range(8, 248, 2) for y in range(8, 156, 2)}
    assert len(colours) > 12
    hint.hide()


def test_the_names_are_unique() -> None:
    names = [picture.name for picture in PICTURES]
    assert len(names) == len(set(names))


@pytest.mark.parametrize("name", ["", "no-such-picture"])
def test_an_unknown_name_hides_the_picture(hint: HintPicture, name: str) -> None:
    hint.set_picture("skew")
    hint.set_picture(name)
    assert hint.isHidden()
    assert hint.accessibleDescription() == ""
    blank = drawn(hint)
    assert blank.pixel(128, 80) == blank.pixel(4, 80)


def test_the_reticle_follows_the_axis_and_the_prism(hint: HintPicture) -> None:
    hint.set_picture("reticle-power", axis=20.0)
    one = drawn(hint)
    hint.set_picture("reticle-power", axis=110.0)
    assert drawn(hint) != one
    hint.set_picture("reticle-prism", amount=0.0)
    centred = drawn(hint)
    hint.set_picture("reticle-prism", amount=3.0, base=180.0)
    assert drawn(hint) != centred
    hint.hide()


def test_the_other_scheme_is_drawn_anew(hint: HintPicture, theme: Theme) -> None:
    hint.set_picture("edge")
    before = drawn(hint)
    other = Scheme.DARK if theme.scheme is Scheme.LIGHT else Scheme.LIGHT
    theme.set_scheme(other)
    assert drawn(hint) != before
    hint.hide()


class _Told(Canvas):
    """A canvas that also keeps what is written on it."""

    written: ClassVar[list[str]] = []

    @override
    def words(
        self, at: Point, text: str, name: str = "ink_soft", *, strong: bool = False
    ) -> None:
        _Told.written.append(text)
        super().words(at, text, name, strong=strong)


BENCH = [one for one in PICTURES if one.draw.__module__.endswith("hint_bench")]


@pytest.mark.parametrize("picture", BENCH, ids=lambda picture: picture.name)
def test_each_picture_of_the_bench_states_how_much_larger_it_is(
    theme: Theme, picture: Picture
) -> None:
    image = QImage(256, 164, QImage.Format.Format_ARGB32_Premultiplied)
    painter = QPainter(image)
    _Told.written.clear()
    picture.draw(_Told(painter, theme), Shown())
    painter.end()
    words = ("times larger", "greatly enlarged", "true to size")
    assert any(part in text for text in _Told.written for part in words)
