"""Who is at the bench: choose a name, or add one with its role."""

from pydantic import ValidationError
from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLineEdit, QListWidget, QWidget

from benchassist.job.base import LONGEST_LINE
from benchassist.job.signoff import Person, Role
from benchassist.ui.inputs.segments import Segments
from benchassist.ui.raised import RaisedSheet, button

_ROLES = tuple((role.value, role.value.capitalize()) for role in Role)


class PeopleSheet(RaisedSheet):
    """The people of the workshop.

    Signals:
        chosen: the Person who works at the bench from now on.
    """

    chosen = Signal(object)

    def __init__(self, persons: tuple[Person, ...], parent: QWidget | None = None) -> None:
        super().__init__("Who is at the bench", "Who is at the bench?", parent)
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
        self._name.returnPressed.connect(self._add)
        add = button("Add and take over", self._add)
        for part in (self._list, self._name, self._role, self.problem, add):
            self.column.addWidget(part)
        if persons:
            self._list.setCurrentRow(0)

    def _on_activated(self) -> None:
        self.chosen.emit(self._persons[self._list.currentRow()])
        self.accept()

    def _add(self) -> None:
        try:
            person = Person(name=self._name.text(), role=Role(self._role.value()))
        except ValidationError:
            self.complain("Type a name first.", self._name)
            return
        self.chosen.emit(person)
        self.accept()
