"""Who is at the bench: choose a name, or add one with its role."""

from pydantic import ValidationError
from PySide6.QtCore import Signal
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import (
    QDialog,
    QLabel,
    QLineEdit,
    QListWidget,
    QPushButton,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from benchassist.job.base import LONGEST_LINE
from benchassist.job.signoff import Person, Role
from benchassist.ui.inputs.segments import Segments

_ROLES = tuple((role.value, role.value.capitalize()) for role in Role)


class PeopleSheet(QDialog):
    """The people of the workshop.

    Signals:
        chosen: the Person who works at the bench from now on.
    """

    chosen = Signal(object)

    def __init__(self, persons: tuple[Person, ...], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle("Who is at the bench")
        self.setMinimumWidth(560)
        self._persons = persons
        self._list = QListWidget()
        self._list.setAccessibleName("People")
        self._list.addItems([f"{one.name}, {one.role}" for one in persons])
        self._list.itemActivated.connect(self._on_activated)
        self._name = QLineEdit()
        self._name.setMaxLength(LONGEST_LINE)
        self._name.setAccessibleName("Name")
        self._name.setPlaceholderText("Name of somebody new")
        self._role = Segments(_ROLES)
        self._role.set_value(Role.TRAINEE)
        self._problem = QLabel()
        self._problem.setProperty("role", "error")
        add = QPushButton("Add and take over")
        add.clicked.connect(self._add)
        self._name.returnPressed.connect(self._add)
        self._lay_out(add)
        if persons:
            self._list.setCurrentRow(0)

    def _lay_out(self, add: QPushButton) -> None:
        title = QLabel("Who is at the bench?")
        title.setProperty("role", "title")
        column = QVBoxLayout(self)
        column.setContentsMargins(32, 24, 32, 24)
        column.setSpacing(12)
        column.addWidget(title)
        column.addWidget(self._list)
        column.addWidget(self._name)
        column.addWidget(self._role)
        column.addWidget(self._problem)
        column.addWidget(add)

    @override
    def showEvent(self, event: QShowEvent) -> None:
        """Lays the rows out in the type they are shown in."""
        super().showEvent(event)
        self._list.doItemsLayout()

    def _on_activated(self) -> None:
        self.chosen.emit(self._persons[self._list.currentRow()])
        self.accept()

    def _add(self) -> None:
        try:
            person = Person(name=self._name.text(), role=Role(self._role.value()))
        except ValidationError:
            self._problem.setText("Type a name first.")
            self._name.setFocus()
            return
        self.chosen.emit(person)
        self.accept()
