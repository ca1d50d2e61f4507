"""The drawing shows the marks of a scene, keeps labels apart and says it all in words."""

from dataclasses import replace
from itertools import combinations
from time import perf_counter

import pytest
from PySide6.QtCore import QEvent, QPoint, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QImage, QMouseEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from benchassist.geometry.fault import Fault, Faults
from benchassist.geometry.plan import Centration, FrontPlan, Layout
from benchassist.optics.eye import Eye
from benchassist.ui.drawings.scene import Mark, Scene
from benchassist.ui.drawings.spectacles import SpectaclesDrawing
from benchassist.ui.theme import Scheme, Theme
from benchassist.verdicts.finding import State

CENTRED = Centration(distance_pd=31.5, near_pd=29.0, height=22.0)
PLAN = FrontPlan(52, 38, 18, 55, layout=Layout.CORRIDOR, right=CENTRED, left=CENTRED)
LENS = tuple(
    Mark(f"{eye}.{name}", f"{eye}.{name}", label, state, name == "prism", state is not None)
    for eye in Eye
    for name, label, state in (
        ("distance", "Distance power", State.WITHIN),
        ("near", "Near addition", State.CLOSE),
        ("prism", "Prism", None),
        ("engraving", "Engraved addition", State.OUTSIDE),
        ("tilt", "Horizontal reference", State.NONE),
    )
)
BENCH = tuple(
    Mark(f"bench.{number}", spot, f"Check number {number}")
    for number, spot in enumerate(
        ("front", "bridge", "bridge", "bridge", "bridge", "pads", "right.endpiece",
         "left.endpiece", "right.temple", "left.temple", "right.tip", "left.tip", "right.rim",
         "right.temple", "left.rim")
    )
)  # fmt: skip
SCENES = (
    Scene(PLAN, "front", LENS, found_right=CENTRED),
    Scene(PLAN, "front", BENCH, faults=Faults((Fault("skew", 1.5),), "skew")),
    Scene(PLAN, "top", BENCH, faults=Faults((Fault("plane-step", 1.5),), "planes")),
    Scene(PLAN, "side", BENCH),
    Scene(PLAN, "table", BENCH, faults=Faults((Fault("table-upright", 1.2),), "table-upright")),
    Scene(FrontPlan(), "front", LENS[:3]),
)
SIZES = (QSize(700, 420), QSize(1300, 700))


@pytest.fixture
def drawing(light: Theme, qtbot: QtBot) -> SpectaclesDrawing:
    made = SpectaclesDrawing(light)
    qtbot.addWidget(made)
    made.resize(880, 500)
    return made


def point_at(drawing: SpectaclesDrawing, place: QPoint) -> None:
    move = QMouseEvent(
        QEvent.Type.MouseMove,
        QPointF(place),
        drawing.mapToGlobal(QPointF(place)),
        Qt.MouseButton.NoButton,
        Qt.MouseButton.NoButton,
        Qt.KeyboardModifier.NoModifier,
    )
    QApplication.sendEvent(drawing, move)


def picture(drawing: SpectaclesDrawing) -> QImage:
    return drawing.grab().toImage()


@pytest.mark.parametrize("scene", SCENES, ids=lambda scene: f"{scene.view}-{len(scene.marks)}")
@pytest.mark.parametrize("size", SIZES, ids=lambda size: str(size.width()))
def test_nothing_overlaps_and_nothing_leaves_the_sheet(
    drawing: SpectaclesDrawing, scene: Scene, size: QSize
) -> None:
    drawing.resize(size)
    drawing.set_scene(scene)
    picture(drawing)
    squares = [placed.square for placed in drawing.placed]
    labels = [placed.label for placed in drawing.placed if placed.label is not None]
    assert len(squares) == len(scene.marks)
    assert len(labels) >= 0.6 * len(squares)
    for one, other in combinations([*squares, *labels], 2):
        assert not one.intersects(other)
    for rect in (*squares, *labels):
        assert QRectF(drawing.rect()).contains(rect)


def test_the_active_mark_has_its_own_place_and_its_label(drawing: SpectaclesDrawing) -> None:
    drawing.set_scene(SCENES[0])
    active = drawing.placed[0]
    assert active.mark.is_active
    assert not active.is_moved
    assert active.label is not None


def test_a_mark_that_gave_way_is_led_back(drawing: SpectaclesDrawing) -> None:
    drawing.set_scene(Scene(PLAN, "front", BENCH[1:5]))
    assert sum(placed.is_moved for placed in drawing.placed) == 3


def test_a_mark_without_a_place_in_the_view_is_left_out(drawing: SpectaclesDrawing) -> None:
    drawing.set_scene(Scene(PLAN, "side", (Mark("right.near", "right.near", "Near"),)))
    assert drawing.placed == ()
    assert "Near, right: to do" in drawing.accessibleDescription()


def test_a_click_asks_for_the_prompt(drawing: SpectaclesDrawing, qtbot: QtBot) -> None:
    drawing.set_scene(SCENES[0])
    placed = next(one for one in drawing.placed if one.mark.prompt_id == "left.near")
    spots: list[QPoint] = [placed.square.center().toPoint()]
    if placed.label is not None:
        spots.append(placed.label.center().toPoint())
    for spot in spots:
        with qtbot.waitSignal(drawing.mark_clicked) as clicked:
            QTest.mouseClick(drawing, Qt.MouseButton.LeftButton, pos=spot)
        assert clicked.args == ["left.near"]


def test_beside_the_marks_and_with_the_other_button_nothing_is_asked(
    drawing: SpectaclesDrawing, qtbot: QtBot
) -> None:
    drawing.set_scene(SCENES[0])
    with qtbot.assertNotEmitted(drawing.mark_clicked):
        QTest.mouseClick(drawing, Qt.MouseButton.LeftButton, pos=QPoint(2, 2))
        on_mark = drawing.placed[0].square.center().toPoint()
        QTest.mouseClick(drawing, Qt.MouseButton.RightButton, pos=on_mark)


def test_the_pointer_says_what_can_be_clicked(drawing: SpectaclesDrawing) -> None:
    drawing.set_scene(SCENES[0])
    point_at(drawing, drawing.placed[0].square.center().toPoint())
    assert drawing.cursor().shape() is Qt.CursorShape.PointingHandCursor
    assert drawing.toolTip() == "Prism: to do"
    point_at(drawing, QPoint(3, 3))
    assert drawing.cursor().shape() is Qt.CursorShape.ArrowCursor
    assert drawing.toolTip() == ""


def test_the_description_lists_marks_and_states(drawing: SpectaclesDrawing) -> None:
    drawing.set_scene(SCENES[0])
    told = drawing.accessibleDescription()
    assert told.startswith("Facing the wearer. Now: Prism.")
    assert "Near addition, left: read again" in told
    assert "Engraved addition, right: outside" in told


def test_a_noted_answer_is_neither_open_nor_judged() -> None:
    assert Mark("a", "bridge", "A", None, is_done=True).word == "noted"
    assert Mark("a", "bridge", "A").word == "to do"
    assert Mark("a", "bridge", "A", State.OUTSIDE, is_done=True).word == "outside"


@pytest.mark.parametrize(
    ("scene", "words"),
    [
        (SCENES[1], "skew step 1.5 mm; drawn 5 times larger"),
        (
            Scene(PLAN, "front", faults=Faults((Fault("rotation", 12.0),), "rotation")),
            "lens turned 12.0°; true to size",
        ),
        (SCENES[5], "A, B, DBL not ordered, drawn at a usual size"),
        (SCENES[3], "From the wearer's right"),
    ],
)
def test_what_is_not_true_to_size_is_said(
    drawing: SpectaclesDrawing, scene: Scene, words: str
) -> None:
    drawing.set_scene(scene)
    assert words in drawing.accessibleDescription()


def test_a_changed_mark_and_a_changed_reading_are_drawn(drawing: SpectaclesDrawing) -> None:
    scene = SCENES[0]
    drawing.set_scene(scene)
    before = picture(drawing)
    drawing.set_scene(scene)
    assert picture(drawing) == before
    drawing.set_scene(replace(scene, marks=(replace(LENS[0], state=State.OUTSIDE), *LENS[1:])))
    marked = picture(drawing)
    assert marked != before
    drawing.set_scene(replace(scene, found_right=Centration(distance_pd=33.0)))
    assert picture(drawing) != marked


def test_read_first_hides_the_ordered_distances(drawing: SpectaclesDrawing) -> None:
    scene = Scene(PLAN, "front")
    drawing.set_scene(scene)
    shown = picture(drawing)
    drawing.set_scene(replace(scene, hides_ordered=True))
    assert picture(drawing) != shown


def test_before_a_scene_the_sheet_is_blank(drawing: SpectaclesDrawing) -> None:
    image = picture(drawing)
    assert image.pixelColor(10, 10) == image.pixelColor(440, 250)


def test_the_other_scheme_is_drawn_anew(drawing: SpectaclesDrawing, light: Theme) -> None:
    drawing.set_scene(SCENES[0])
    before = picture(drawing)
    light.set_scheme(Scheme.DARK)
    assert picture(drawing) != before


def test_a_repaint_is_quick(drawing: SpectaclesDrawing) -> None:
    """The frame is painted once and kept; only the marks are painted again."""
    drawing.set_scene(SCENES[0])
    image = QImage(880, 500, QImage.Format.Format_ARGB32_Premultiplied)
    drawing.render(image)
    times = []
    for _ in range(15):
        start = perf_counter()
        drawing.render(image)
        times.append(perf_counter() - start)
    assert min(times) < 0.006


@pytest.mark.parametrize("name", ["front", "top", "side", "behind", "table"])
def test_a_mistyped_frame_is_still_drawn(drawing: SpectaclesDrawing, name: str) -> None:
    for plan in (FrontPlan(200, 1, 200), FrontPlan(1, 200, 1), FrontPlan(52, 38, 18, 200)):
        drawing.set_scene(Scene(plan, name, LENS))
        assert not picture(drawing).isNull()
        assert len({placed.mark.spot for placed in drawing.placed}) <= len(LENS)
