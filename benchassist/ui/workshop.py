"""The workshop whose name stands on the papers, and how it is reached."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QPlainTextEdit, QWidget

from benchassist.job.base import LONGEST_LINE
from benchassist.store.settings import Workshop
from benchassist.ui.inputs.segments import Segments
from benchassist.ui.labels import captioned, text_label
from benchassist.ui.raised import RaisedSheet, button

_FORMS = (("", "Either"), ("minus", "Minus form"), ("plus", "Plus form"))


class WorkshopSheet(RaisedSheet):
    """Name and address of the workshop, and what the wearer's sheet says of reaching it.

    Signals:
        changed: (the Workshop as typed, how orders write cylinders: minus, plus or empty).
    """

    changed = Signal(object, str)

    def __init__(
        self, workshop: Workshop, cylinder_form: str, parent: QWidget | None = None
    ) -> None:
        super().__init__("This workshop", "This workshop", parent)
        self.setMinimumWidth(544)
        self._name = _line(workshop.name, "Name of the workshop")
        self._address = _lines(workshop.address, "Address, line by line", 64)
        self._phone = _line(workshop.phone, "Telephone")
        self._email = _line(workshop.email, "E-mail")
        self._hours = _lines(workshop.hours, "Opening hours, line by line", 64)
        self._urgent = _line(workshop.urgent, "Number for what cannot wait")
        self._urgent.setPlaceholderText("Number, and whose it is")
        self._form = Segments(_FORMS)
        self._form.set_value(cylinder_form)
        self._lay_out()

    def _lay_out(self) -> None:
        column = self.column
        column.setSpacing(8)
        column.addLayout(captioned("Name", self._name))
        column.addLayout(captioned("Address, line by line", self._address))
        reach = QHBoxLayout()
        reach.setSpacing(16)
        reach.addLayout(captioned("Telephone", self._phone))
        reach.addLayout(captioned("E-mail", self._email))
        column.addLayout(reach)
        column.addLayout(captioned("Opening hours, line by line", self._hours))
        column.addLayout(captioned("What wearers call when it cannot wait", self._urgent))
        about = "Cylinders in orders; the other sign is asked about"
        column.addWidget(text_label("caption", about, wraps=False))
        column.addWidget(self._form)
        column.addWidget(self.problem)
        column.addSpacing(8)
        column.addWidget(button("Keep", self._keep, "primary"))

    def _keep(self) -> None:
        for field, named in ((self._address, "the address"), (self._hours, "the hours")):
            if any(len(line) > LONGEST_LINE for line in _typed(field)):
                self.complain(f"A line of {named} has at most {LONGEST_LINE} letters.", field)
                return
        workshop = Workshop(
            name=self._name.text(),
            address=_typed(self._address),
            phone=self._phone.text(),
            email=self._email.text(),
            hours=_typed(self._hours),
            urgent=self._urgent.text(),
        )
        self.changed.emit(workshop, self._form.value())
        self.accept()


def _line(text: str, name: str) -> QLineEdit:
    field = QLineEdit(text)
    field.setMaxLength(LONGEST_LINE)
    field.setCursorPosition(0)
    field.setAccessibleName(name)
    return field


def _lines(lines: tuple[str, ...], name: str, height: int) -> QPlainTextEdit:
    field = QPlainTextEdit("\n".join(lines))
    field.setAccessibleName(name)
    field.setTabChangesFocus(True)
    field.setFixedHeight(height)
    return field


def _typed(field: QPlainTextEdit) -> tuple[str, ...]:
    """The lines of a field, blank ones left out."""
    lines = (line.strip() for line in field.toPlainText().splitlines())
    return tuple(line for line in lines if line)
