"""The sheet of symptoms, and the lines of vision at their prompt."""

from decimal import Decimal

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel, QListWidget, QPushButton
from pytestqt.qtbot import QtBot

from benchassist.guide.load import load_guide
from benchassist.guide.symptoms import load_symptoms
from benchassist.job.acuity import Acuity, LineRead, Seeing
from benchassist.job.checks import Answer
from benchassist.job.order import FrameMaterial, FrameOrder, Order, Rim
from benchassist.ui.actions import Command
from benchassist.ui.inputs.acuity import AcuityInput
from benchassist.ui.inputs.line import Line
from benchassist.ui.inputs.number import NumberInput
from benchassist.ui.symptoms import SymptomsSheet
from benchassist.ui.theme import Theme
from tests.ui.workplace import Workplace

ORDER = Order(frame=FrameOrder(temple_length=Decimal(145)))


@pytest.fixture
def sheet(light: Theme, qtbot: QtBot) -> SymptomsSheet:
    made = SymptomsSheet(load_symptoms(), ORDER, "fit.level")
    qtbot.addWidget(made)
    return made


@pytest.fixture
def vision(light: Theme, qtbot: QtBot) -> AcuityInput:
    made = AcuityInput(load_guide().prompt("fit.distance-vision"))
    qtbot.addWidget(made)
    return made


def told(sheet: SymptomsSheet) -> str:
    labels = sheet.findChildren(QLabel)
    return " ".join(label.text() for label in labels if label.isVisibleTo(sheet))


def listed(sheet: SymptomsSheet) -> QListWidget:
    found = sheet.findChild(QListWidget)
    assert found is not None
    return found


def type_offset(sheet: SymptomsSheet, text: str) -> None:
    field = next(one for one in sheet.findChildren(NumberInput) if one.isVisibleTo(sheet))
    QTest.keyClicks(field.edit(), text)
    QTest.keyClick(field.edit(), Qt.Key.Key_Return)


def line(vision: AcuityInput, name: str) -> Line:
    return next(one for one in vision.findChildren(Line) if one.accessibleName() == name)


def write(vision: AcuityInput, name: str, text: str) -> None:
    field = line(vision, name)
    field.setText(text)
    field.setModified(True)
    assert field.take()


def test_the_keyboard_picks_side_and_offset_and_gets_the_amount(sheet: SymptomsSheet) -> None:
    assert "Say first on which side" in told(sheet)
    left = next(one for one in sheet.findChildren(QPushButton) if "Left" in one.text())
    QTest.keyClick(left, Qt.Key.Key_Space)
    type_offset(sheet, "4")
    assert "Say first" not in told(sheet)
    assert "Bend the left temple up at the endpiece by about 2.3°" in told(sheet)
    assert "Watch: The tilt must be equal as worn" in told(sheet)


def test_another_symptom_asks_anew(sheet: SymptomsSheet) -> None:
    type_offset(sheet, "4")
    QTest.keyClick(listed(sheet), Qt.Key.Key_Down)
    assert "Spread each pad outwards:" in told(sheet)
    assert "Measure the offset" in told(sheet)
    type_offset(sheet, "2,7")
    assert "Spread each pad outwards by about 1.0 mm" in told(sheet)


def test_enter_goes_from_the_list_to_what_is_asked(sheet: SymptomsSheet) -> None:
    sheet.show()
    listed(sheet).itemActivated.emit(listed(sheet).currentItem())
    assert isinstance(sheet.focusWidget(), QPushButton)
    listed(sheet).setCurrentRow(1)
    listed(sheet).itemActivated.emit(listed(sheet).currentItem())
    assert sheet.focusWidget() is sheet.findChildren(NumberInput)[-1].edit()


def test_every_symptom_can_be_shown(sheet: SymptomsSheet) -> None:
    for row, symptom in enumerate(load_symptoms()):
        listed(sheet).setCurrentRow(row)
        assert symptom.title in told(sheet)
        assert symptom.cause[-1].title in told(sheet)


def test_it_opens_at_the_symptom_of_the_prompt(full: Workplace) -> None:
    full.hands.type("FH-2611-041")
    full.shell.go_to("fit.vertex")
    full.shell.do(Command.SYMPTOMS)
    sheet = full.shell.findChild(SymptomsSheet)
    assert sheet is not None
    assert listed(sheet).currentItem().text() == "One lens stands closer to the eye"
    sheet.reject()


def test_what_the_frame_never_stands_is_told_whatever_is_seen(full: Workplace) -> None:
    full.hands.type("FH-2611-060")
    order = full.job.order
    carbon = order.frame.with_(material=FrameMaterial.CARBON, rim=Rim.HALF)
    assert full.desk.session.propose(full.job.with_(order=order.with_(frame=carbon)))
    full.shell.do(Command.SYMPTOMS)
    sheet = full.shell.findChild(SymptomsSheet)
    assert sheet is not None
    for words in (
        "Carbon fibre is not bent",
        "Never: use heat or force on the fibre",
        "Half rim",
    ):
        assert words in told(sheet)
    sheet.reject()


def test_it_opens_without_a_job(workplace: Workplace) -> None:
    workplace.shell.do(Command.SYMPTOMS)
    sheet = workplace.shell.findChild(SymptomsSheet)
    assert sheet is not None
    assert listed(sheet).currentRow() == 0
    sheet.reject()


def test_lines_written_make_the_choice(vision: AcuityInput) -> None:
    write(vision, "Right eye, line reads", "6/12")
    assert vision.value().choice == ""
    write(vision, "Right eye, line expected", "6/6")
    assert vision.value().choice == "worse than expected"
    write(vision, "Right eye, line reads", "6/6")
    assert vision.value().choice == "as expected"
    write(vision, "Chart or card", "letters")
    acuity = vision.value().acuity
    assert acuity is not None
    assert acuity.card == "letters"
    assert acuity.by(Seeing.RIGHT) == LineRead(read="6/6", expected="6/6")


def test_lines_taken_away_leave_no_acuity(vision: AcuityInput) -> None:
    lines = LineRead(read="0.8", expected="1.0")
    vision.set_value(Answer(choice="not tested", acuity=Acuity(left=lines)))
    assert line(vision, "Left eye, line reads").text() == "0.8"
    write(vision, "Left eye, line reads", "")
    write(vision, "Left eye, line expected", "")
    assert vision.value() == Answer(choice="not tested")


def test_the_walk_through_the_fields(vision: AcuityInput, qtbot: QtBot) -> None:
    with qtbot.waitSignal(vision.stepped_back):
        line(vision, "Chart or card").stepped_back.emit()
    with qtbot.waitSignal(vision.finished):
        line(vision, "Both, line expected").finished.emit()
