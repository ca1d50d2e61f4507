"""The base of the sheets above the window, and the words on it."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLineEdit, QListWidget
from pytestqt.qtbot import QtBot

from benchassist.ui.labels import led_text, text_label
from benchassist.ui.raised import RaisedSheet, button


@pytest.fixture
def sheet(qtbot: QtBot) -> RaisedSheet:
    made = RaisedSheet("Lens meters", "Which lens meter?")
    qtbot.addWidget(made)
    return made


def test_a_sheet_is_titled_and_complains_of_nothing(sheet: RaisedSheet) -> None:
    assert sheet.windowTitle() == "Lens meters"
    assert sheet.heading.text() == "Which lens meter?"
    assert sheet.problem.isHidden()


def test_a_heading_that_is_told_later_takes_no_room(qtbot: QtBot) -> None:
    made = RaisedSheet("Symptoms", "")
    qtbot.addWidget(made)
    assert made.heading.isHidden()


def test_a_complaint_leads_to_its_field_and_goes_away(sheet: RaisedSheet, qtbot: QtBot) -> None:
    field = QLineEdit()
    for part in (QListWidget(), field, sheet.problem):
        sheet.column.addWidget(part)
    with qtbot.waitExposed(sheet):
        sheet.show()
    sheet.complain("Type a name first.", field)
    assert sheet.problem.isVisible()
    assert sheet.problem.text() == "Type a name first."
    assert sheet.focusWidget() is field
    sheet.complain("")
    assert sheet.problem.isHidden()


def test_a_button_does_what_it_is_given(sheet: RaisedSheet, qtbot: QtBot) -> None:
    keep = button("Keep", sheet.accept, "primary")
    sheet.column.addWidget(keep)
    assert keep.property("role") == "primary"
    with qtbot.waitSignal(sheet.accepted):
        keep.click()


def test_what_people_typed_is_shown_as_they_typed_it(qtbot: QtBot) -> None:
    typed = text_label("sentence", "<b>Signed</b>")
    led = led_text("Axis <R>", "4° & more")
    for label in (typed, led):
        qtbot.addWidget(label)
    assert typed.textFormat() is Qt.TextFormat.PlainText
    assert led.text() == "<b>Axis &lt;R&gt;</b>  4° &amp; more"
