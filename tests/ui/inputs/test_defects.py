"""Defects are marked by a click or by keys alone, described, and taken away again."""

import pytest
from PySide6.QtCore import QPointF, QSize, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QComboBox, QListWidget, QPushButton
from pytestqt.qtbot import QtBot

from benchassist.geometry.plan import Centration, FrontPlan
from benchassist.geometry.zones import LensPlace
from benchassist.job.surface import Defect, DefectKind, DefectSurface
from benchassist.optics.eye import Eye
from benchassist.records.demo import demo_files
from benchassist.store.files import load_job_file
from benchassist.ui.drawings.places import Blemish, Blemishes, place_under, px_at
from benchassist.ui.drawings.scene import Mark, Scene
from benchassist.ui.drawings.sheet import Stage
from benchassist.ui.drawings.spectacles import SpectaclesDrawing
from benchassist.ui.inputs.defects import DefectsInput
from benchassist.ui.theme import Theme
from benchassist.verdicts.finding import State
from tests.ui.hands import ENTER, SHIFT
from tests.ui.workplace import Workplace

CENTRED = Centration(distance_pd=31.5, near_pd=29.0, height=22.0)
PLAN = FrontPlan(52, 38, 18, 55, right=CENTRED, left=CENTRED)
PLACES = (
    LensPlace(Eye.RIGHT, 0.0, 0.0),
    LensPlace(Eye.RIGHT, -18.5, 9.5),
    LensPlace(Eye.LEFT, 3.0, -5.0),
    LensPlace(Eye.LEFT, 22.0, 4.5),
)


@pytest.fixture
def drawing(light: Theme, qtbot: QtBot) -> SpectaclesDrawing:
    made = SpectaclesDrawing(light)
    qtbot.addWidget(made)
    made.set_scene(Scene(PLAN))
    made.set_blemishes(Blemishes(takes_places=True))
    return made


def stage_of(drawing: SpectaclesDrawing) -> Stage:
    sheet = drawing._sheet  # noqa: SLF001  (where a place lies is what is asked)
    assert sheet is not None
    return sheet.stage


@pytest.mark.parametrize("size", [QSize(700, 420), QSize(1300, 700)])
@pytest.mark.parametrize("place", PLACES)
def test_a_click_gives_its_millimetres_and_these_its_point(
    drawing: SpectaclesDrawing, qtbot: QtBot, size: QSize, place: LensPlace
) -> None:
    drawing.resize(size)
    drawing.grab()
    stage = stage_of(drawing)
    at = px_at(stage, PLAN, place)
    with qtbot.waitSignal(drawing.place_clicked) as clicked:
        QTest.mouseClick(drawing, Qt.MouseButton.LeftButton, pos=at.toPoint())
    (found,) = clicked.args
    assert found.eye is place.eye
    a_pixel = 1 / stage.to_px.m11()
    assert found.in_lens == pytest.approx(place.in_lens, abs=a_pixel)
    back = px_at(stage, PLAN, found)
    assert (back - QPointF(at.toPoint())).manhattanLength() < 0.01


def test_only_a_lens_of_the_front_takes_a_place(
    drawing: SpectaclesDrawing, qtbot: QtBot
) -> None:
    drawing.resize(880, 500)
    at = px_at(stage_of(drawing), PLAN, PLACES[0])
    with qtbot.assertNotEmitted(drawing.place_clicked):
        QTest.mouseClick(drawing, Qt.MouseButton.LeftButton, pos=at.toPoint() * 0.02)
        QTest.mouseClick(drawing, Qt.MouseButton.RightButton, pos=at.toPoint())
        drawing.set_blemishes(Blemishes())
        QTest.mouseClick(drawing, Qt.MouseButton.LeftButton, pos=at.toPoint())
        drawing.set_blemishes(Blemishes(takes_places=True))
        drawing.set_scene(Scene(PLAN, "top"))
        QTest.mouseClick(drawing, Qt.MouseButton.LeftButton, pos=at.toPoint())
    assert place_under(stage_of(drawing), PLAN, at) is None


def test_the_mark_asked_for_gives_way_and_others_do_not(
    drawing: SpectaclesDrawing, qtbot: QtBot
) -> None:
    drawing.resize(880, 500)
    for is_active in (True, False):
        mark = Mark("surface.edge", "right.surface", "Edge", is_active=is_active)
        drawing.set_scene(Scene(PLAN, marks=(mark,)))
        at = drawing.placed[0].square.center().toPoint()
        signal = drawing.place_clicked if is_active else drawing.mark_clicked
        with qtbot.waitSignal(signal):
            QTest.mouseClick(drawing, Qt.MouseButton.LeftButton, pos=at)


def test_a_defect_is_drawn_and_told(drawing: SpectaclesDrawing) -> None:
    drawing.resize(880, 500)
    before = drawing.grab().toImage()
    shown = Blemish(PLACES[0], 1, State.OUTSIDE, "scratch in the middle")
    drawing.set_blemishes(Blemishes((shown,)))
    marked = drawing.grab().toImage()
    assert marked != before
    assert drawing.accessibleDescription().endswith("Defect 1, right: scratch in the middle")
    drawing.point_out(PLACES[2], 1)
    assert drawing.grab().toImage() != marked


@pytest.fixture
def surfaces(workplace: Workplace) -> Workplace:
    job = load_job_file(next(file for file in demo_files() if file.name.startswith("2")))
    workplace.put(job)
    workplace.shell.open_job(job.number)
    workplace.shell.go_to("surface.scratches")
    QApplication.processEvents()
    return workplace


def defects(workplace: Workplace) -> tuple[Defect, ...]:
    return workplace.job.now.surface.defects


def shown_input(workplace: Workplace) -> DefectsInput:
    inputs = workplace.shell.findChildren(DefectsInput)
    return next(one for one in inputs if one.isVisible())


def to_the_marker(workplace: Workplace) -> None:
    for _ in range(12):
        focus = workplace.hands.focus
        if isinstance(focus, QPushButton) and focus.text().startswith("&Mark"):
            return
        workplace.hands.press(Qt.Key.Key_Tab)
    raise AssertionError("the Tab key never reaches the marker")


def test_by_keys_alone(surfaces: Workplace) -> None:
    hands = surfaces.hands
    to_the_marker(surfaces)
    hands.press(Qt.Key.Key_Right)
    hands.press(Qt.Key.Key_Down, SHIFT)
    assert hands.focus.accessibleName() == "Mark right: 1 mm nasal, 5 mm below the centre"
    hands.press(ENTER)
    assert [(one.eye, str(one.across), str(one.up)) for one in defects(surfaces)] == [
        (Eye.RIGHT, "1", "-5")
    ]
    standing = surfaces.standing.prompt("surface.scratches")
    assert standing is not None
    assert standing.is_done
    assert standing.state is State.OUTSIDE
    for _ in range(8):
        hands.press(Qt.Key.Key_Right, SHIFT)
    hands.press(ENTER)
    assert defects(surfaces)[1].eye is Eye.LEFT
    listed = shown_input(surfaces).findChild(QListWidget)
    assert isinstance(listed, QListWidget)
    assert listed.count() == 2
    assert listed.item(0).text().startswith("1  right, central zone: scratch, 1 mm nasal")
    listed.setFocus()
    hands.press(Qt.Key.Key_Up)
    hands.press(Qt.Key.Key_Delete)
    assert [one.eye for one in defects(surfaces)] == [Eye.LEFT]
    hands.press(Qt.Key.Key_Delete)
    hands.press(Qt.Key.Key_Delete)
    assert defects(surfaces) == ()


def test_a_click_marks_what_the_form_then_describes(surfaces: Workplace) -> None:
    drawing = surfaces.shell.findChild(SpectaclesDrawing)
    assert isinstance(drawing, SpectaclesDrawing)
    sheet = drawing._sheet  # noqa: SLF001
    assert sheet is not None
    place = LensPlace(Eye.LEFT, -10.0, -6.0)
    at = px_at(sheet.stage, sheet.scene.plan, place)
    QTest.mouseClick(drawing, Qt.MouseButton.LeftButton, pos=at.toPoint())
    (marked,) = defects(surfaces)
    assert (marked.eye, float(marked.across), float(marked.up)) == (Eye.LEFT, -10.0, -6.0)
    shown = shown_input(surfaces)
    boxes = {box.accessibleName(): box for box in shown.findChildren(QComboBox)}
    for name, word in (("Kind of defect", "pit"), ("Surface", "back")):
        box = boxes[name]
        box.setCurrentIndex(box.findData(word))
        box.activated.emit(box.currentIndex())
    (marked,) = defects(surfaces)
    assert (marked.kind, marked.surface) == (DefectKind.PIT, DefectSurface.BACK)
    size = next(one for one in shown._form.children() if hasattr(one, "edit"))  # noqa: SLF001
    size.edit().setFocus()
    surfaces.hands.type("0.5")
    surfaces.hands.type("seen twice")
    (marked,) = defects(surfaces)
    assert (str(marked.size), marked.remark) == ("0.5", "seen twice")


def test_each_check_lists_its_own(surfaces: Workplace) -> None:
    to_the_marker(surfaces)
    surfaces.hands.press(ENTER)
    surfaces.shell.go_to("surface.edge")
    to_the_marker(surfaces)
    assert not shown_input(surfaces).chosen
    surfaces.hands.press(ENTER)
    kinds = [(one.check, one.kind, one.surface) for one in defects(surfaces)]
    assert kinds == [
        ("scratches", DefectKind.SCRATCH, DefectSurface.FRONT),
        ("edge", DefectKind.CHIP, DefectSurface.EDGE),
    ]
    assert shown_input(surfaces).chosen == 2


def test_shift_and_enter_go_back(surfaces: Workplace) -> None:
    to_the_marker(surfaces)
    surfaces.hands.press(ENTER, SHIFT)
    assert defects(surfaces) == ()
    surfaces.hands.press(Qt.Key.Key_A)


def test_a_skipped_check_is_asked_again_once_a_defect_is_marked(surfaces: Workplace) -> None:
    job = surfaces.job
    skipped = job.with_now(job.now.with_(skipped={"surface.scratches": "dark"}))
    assert surfaces.desk.session.propose(skipped)
    to_the_marker(surfaces)
    surfaces.hands.press(ENTER)
    assert "surface.scratches" not in surfaces.job.now.skipped
