"""Typing into a number field."""

from collections.abc import Iterator
from decimal import Decimal

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot
from typing_extensions import override

from benchassist.ui.inputs import specs
from benchassist.ui.inputs.number import NumberInput
from benchassist.ui.theme import Theme


class Window(QWidget):
    """Stands for the window: keeps the keys that the field leaves to it."""

    def __init__(self, field: NumberInput) -> None:
        super().__init__()
        self.left: list[str] = []
        QVBoxLayout(self).addWidget(field)

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        self.left.append(event.text())


@pytest.fixture
def field(qtbot: QtBot, light: Theme) -> NumberInput:
    return NumberInput(specs.dioptre("Sphere"))


@pytest.fixture
def window(qtbot: QtBot, field: NumberInput) -> Iterator[Window]:
    window = Window(field)
    qtbot.addWidget(window)
    window.show()
    field.setFocus()
    yield window
    window.close()


def test_enter_takes_the_value_and_says_finished(
    qtbot: QtBot, window: Window, field: NumberInput
) -> None:
    taken: list[Decimal | None] = []
    field.value_changed.connect(taken.append)
    with qtbot.waitSignal(field.finished):
        QTest.keyClicks(field.edit(), "-225")
        QTest.keyClick(field.edit(), Qt.Key.Key_Return)
    assert field.value() == Decimal("-2.25")
    assert taken == [Decimal("-2.25")]
    assert field.edit().text() == "−2.25"


def test_shift_enter_takes_the_value_and_steps_back(
    qtbot: QtBot, window: Window, field: NumberInput
) -> None:
    with qtbot.waitSignal(field.stepped_back):
        QTest.keyClicks(field.edit(), "1")
        QTest.keyClick(field.edit(), Qt.Key.Key_Return, Qt.KeyboardModifier.ShiftModifier)
    assert field.value() == Decimal(1)


def test_what_cannot_be_read_stays_with_a_sentence_and_does_not_go_on(
    qtbot: QtBot, window: Window, field: NumberInput
) -> None:
    field.set_value(Decimal(1))
    with qtbot.assertNotEmitted(field.finished), qtbot.assertNotEmitted(field.value_changed):
        field.edit().selectAll()
        QTest.keyClicks(field.edit(), "1e9")
        QTest.keyClick(field.edit(), Qt.Key.Key_Return)
    assert field.edit().text() == "1e9"
    assert field.problem().startswith("1e9 is not a number")
    assert field.value() == Decimal(1)


def test_escape_puts_back_what_the_field_held(
    qtbot: QtBot, window: Window, field: NumberInput
) -> None:
    field.set_value(Decimal("-2.25"))
    field.edit().selectAll()
    QTest.keyClicks(field.edit(), "9x")
    QTest.keyClick(field.edit(), Qt.Key.Key_Return)
    assert field.problem()
    QTest.keyClick(field.edit(), Qt.Key.Key_Escape)
    assert field.edit().text() == "−2.25"
    assert field.problem() == ""


def test_a_repaint_does_not_wipe_what_was_refused(
    qtbot: QtBot, window: Window, field: NumberInput
) -> None:
    QTest.keyClicks(field.edit(), "-2x")
    QTest.keyClick(field.edit(), Qt.Key.Key_Return)
    field.set_value(None)
    assert field.edit().text() == "-2x"
    assert field.problem()


def test_set_value_emits_nothing(qtbot: QtBot, window: Window, field: NumberInput) -> None:
    with qtbot.assertNotEmitted(field.value_changed):
        field.set_value(Decimal("3.125"))
        field.set_value(None)
    assert field.value() is None


def test_an_untouched_value_keeps_the_third_place_that_is_not_shown(
    qtbot: QtBot, window: Window, field: NumberInput
) -> None:
    field.set_value(Decimal("-2.125"))
    with qtbot.assertNotEmitted(field.value_changed), qtbot.waitSignal(field.finished):
        QTest.keyClick(field.edit(), Qt.Key.Key_Return)
    assert field.value() == Decimal("-2.125")


def test_emptying_a_field_takes_nothing_as_its_value(
    qtbot: QtBot, window: Window, field: NumberInput
) -> None:
    field.set_value(Decimal(2))
    field.edit().selectAll()
    QTest.keyClick(field.edit(), Qt.Key.Key_Delete)
    with qtbot.waitSignal(field.value_changed):
        QTest.keyClick(field.edit(), Qt.Key.Key_Return)
    assert field.value() is None


def test_a_letter_goes_to_the_window_unless_something_is_being_typed(
    qtbot: QtBot, window: Window, field: NumberInput
) -> None:
    QTest.keyClicks(field.edit(), "r")
    assert window.left == ["r"]
    assert field.edit().text() == ""
    QTest.keyClicks(field.edit(), "2r")
    assert window.left == ["r"]
    assert field.edit().text() == "2r"


def test_a_screen_reader_is_told_name_unit_and_range(field: NumberInput) -> None:
    assert field.edit().accessibleName() == "Sphere"
    assert field.edit().accessibleDescription() == "D, from −40.00 to +40.00"
