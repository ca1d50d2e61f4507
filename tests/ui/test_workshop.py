"""The sheet on this workshop: what is typed is what the papers say."""

from PySide6.QtWidgets import QLabel, QLineEdit, QPlainTextEdit, QPushButton
from pytestqt.qtbot import QtBot

from benchassist.job.base import LONGEST_LINE
from benchassist.records.demo import demo_workshop
from benchassist.store.settings import Workshop
from benchassist.ui.theme import Theme
from benchassist.ui.workshop import WorkshopSheet


def sheet_of(qtbot: QtBot, workshop: Workshop) -> WorkshopSheet:
    sheet = WorkshopSheet(workshop, "", None)
    qtbot.addWidget(sheet)
    return sheet


def keep(sheet: WorkshopSheet) -> None:
    next(one for one in sheet.findChildren(QPushButton) if one.text() == "Keep").click()


def field(sheet: WorkshopSheet, name: str) -> QLineEdit | QPlainTextEdit:
    fields: list[QLineEdit | QPlainTextEdit] = [
        *sheet.findChildren(QLineEdit),
        *sheet.findChildren(QPlainTextEdit),
    ]
    return next(one for one in fields if one.accessibleName() == name)


def test_what_was_kept_is_shown_and_given_back(qtbot: QtBot, light: Theme) -> None:
    sheet = sheet_of(qtbot, demo_workshop())
    with qtbot.waitSignal(sheet.changed) as caught:
        keep(sheet)
    assert caught.args == [demo_workshop(), ""]


def test_contact_and_hours_are_typed(qtbot: QtBot, light: Theme) -> None:
    sheet = sheet_of(qtbot, Workshop(name="Fernhollow"))
    for name, text in (
        ("Telephone", "01632 960 417"),
        ("E-mail", "bench@fernhollow.example"),
        ("Number for what cannot wait", "01632 960 112"),
    ):
        line = field(sheet, name)
        assert isinstance(line, QLineEdit)
        line.setText(text)
    hours = field(sheet, "Opening hours, line by line")
    assert isinstance(hours, QPlainTextEdit)
    hours.setPlainText("Monday 9 to 12\n\n Friday 14 to 18 ")
    with qtbot.waitSignal(sheet.changed) as caught:
        keep(sheet)
    assert caught.args == [
        Workshop(
            name="Fernhollow",
            phone="01632 960 417",
            email="bench@fernhollow.example",
            hours=("Monday 9 to 12", "Friday 14 to 18"),
            urgent="01632 960 112",
        ),
        "",
    ]


def test_a_line_of_the_hours_that_is_too_long_is_named(qtbot: QtBot, light: Theme) -> None:
    sheet = sheet_of(qtbot, Workshop())
    hours = field(sheet, "Opening hours, line by line")
    assert isinstance(hours, QPlainTextEdit)
    hours.setPlainText("9" * (LONGEST_LINE + 1))
    with qtbot.assertNotEmitted(sheet.changed):
        keep(sheet)
    said = [label.text() for label in sheet.findChildren(QLabel)]
    assert f"A line of the hours has at most {LONGEST_LINE} letters." in said
