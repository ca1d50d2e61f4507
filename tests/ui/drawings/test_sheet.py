"""What stands around the figure: scale bar, sizes, captions, before and after."""

from itertools import combinations

import pytest
from PySide6.QtCore import QRectF, QSizeF
from PySide6.QtGui import QPainterPath

from benchassist.geometry.fault import KINDS, Fault, Faults, Kind
from benchassist.geometry.plan import FrontPlan
from benchassist.geometry.views import view
from benchassist.optics.eye import Eye
from benchassist.ui.drawings.labels import Room
from benchassist.ui.drawings.scene import Scene
from benchassist.ui.drawings.sheet import Sheet, Stage, scale_bar
from benchassist.ui.theme import Theme

PLAN = FrontPlan(52, 38, 18, 55, tilt=8, face_form=5, temple_length=145)
SIZES = ((776.0, 480.0), (1416.0, 760.0))


def sheet_of(name: str, faults: Faults, theme: Theme, size: tuple[float, float]) -> Sheet:
    figure = view(PLAN, name, faults)
    scene = Scene(PLAN, name, faults=faults)
    return Sheet(scene, Stage(figure, QRectF(0, 0, *size)), theme)


def faults_of(kind: Kind, *, is_corrected: bool) -> Faults:
    eye = Eye.LEFT if kind.name == "rotation" else None
    fault, before = (Fault(kind.name, kind.shown * share, eye) for share in (0.15, 0.3))
    return Faults((fault,), kind.checks[0], (before,) if is_corrected else None)


@pytest.mark.parametrize("size", SIZES, ids=lambda size: str(size[0]))
@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.name)
@pytest.mark.parametrize("is_corrected", [False, True])
def test_words_neither_overlap_nor_leave_the_sheet(
    light: Theme, kind: Kind, size: tuple[float, float], *, is_corrected: bool
) -> None:
    faults = faults_of(kind, is_corrected=is_corrected)
    sheet = sheet_of(kind.views[0], faults, light, size)
    for text in sheet.texts:
        assert sheet.stage.rect.contains(text.rect), text.words
    for one, other in combinations(sheet.texts, 2):
        assert not one.rect.intersects(other.rect), (one.words, other.words)


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.name)
@pytest.mark.parametrize("is_corrected", [False, True])
def test_the_factor_is_read_on_the_smallest_window(
    light: Theme, kind: Kind, *, is_corrected: bool
) -> None:
    faults = faults_of(kind, is_corrected=is_corrected)
    sheet = sheet_of(kind.views[0], faults, light, SIZES[0])
    words = [text.words for text in sheet.texts]
    assert any("times larger" in one for one in words), words
    assert kind.size(kind.shown * 0.15) in words


@pytest.mark.parametrize("name", ["front", "top", "side", "behind", "table"])
def test_a_view_to_scale_has_a_bar_of_its_scale(light: Theme, name: str) -> None:
    sheet = sheet_of(name, Faults(), light, SIZES[0])
    bar = scale_bar(sheet.stage)
    assert (bar is None) == (name == "table")
    if bar is not None:
        assert bar.line.length() == pytest.approx(bar.length * sheet.stage.to_px.m11())
        assert f"{bar.length} mm" in [text.words for text in sheet.texts]


def test_a_label_rather_goes_elsewhere_than_on_a_thin_cross() -> None:
    room = Room(QRectF(0, 0, 400, 300), QPainterPath())
    mark = QRectF(100, 100, 18, 18)
    room.avoided = [QRectF(130, 107, 30, 4)]
    label = room.place_label(mark, QSizeF(90, 16), prefers_left=False)
    assert label is not None
    assert not label.intersects(room.avoided[0])
