"""The workshop whose name stands on the papers."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import (
    QDialog,
    QLabel,
    QLineEdit,
    QPlainTextEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from benchassist.job.base import LONGEST_LINE
from benchassist.store.settings import Workshop
from benchassist.ui.inputs.segments import Segments

_FORMS = (("", "Either"), ("minus", "Minus form"), ("plus", "Plus form"))


class WorkshopSheet(QDialog):
    """Name and address of the workshop.

    Signals:
        changed: (the Workshop as typed, how orders write cylinders: minus, plus or empty).
    """

    changed = Signal(object, str)

    def __init__(
        self, workshop: Workshop, cylinder_form: str, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle("This workshop")
        self.setMinimumWidth(480)
        self._name = QLineEdit(workshop.name)
        self._name.setMaxLength(LONGEST_LINE)
        self._name.setAccessibleName("Name of the workshop")
        self._address = QPlainTextEdit("\n".join(workshop.address))
        self._address.setAccessibleName("Address, line by line")
        self._address.setTabChangesFocus(True)
        self._address.setFixedHeight(96)
        self._form = Segments(_FORMS)
        self._form.set_value(cylinder_form)
        self._problem = QLabel()
        self._problem.setProperty("role", "error")
        keep = QPushButton("Keep")
        keep.setProperty("role", "primary")
        keep.clicked.connect(self._keep)
        self._lay_out(keep)

    def _lay_out(self, keep: QPushButton) -> None:
        title = QLabel("This workshop")
        title.setProperty("role", "title")
        column = QVBoxLayout(self)
        column.setContentsMargins(32, 24, 32, 24)
        column.setSpacing(8)
        column.addWidget(title)
        for words, field in (("Name", self._name), ("Address, line by line", self._address)):
            caption = QLabel(words)
            caption.setProperty("role", "caption")
            caption.setBuddy(field)
            column.addWidget(caption)
            column.addWidget(field)
        caption = QLabel("Cylinders in orders; the other sign is asked about")
        caption.setProperty("role", "caption")
        column.addWidget(caption)
        column.addWidget(self._form)
        column.addWidget(self._problem)
        column.addSpacing(8)
        column.addWidget(keep)

    def _keep(self) -> None:
        lines = self._address.toPlainText().splitlines()
        address = tuple(line.strip() for line in lines if line.strip())
        if any(len(line) > LONGEST_LINE for line in address):
            self._problem.setText(f"A line of the address has at most {LONGEST_LINE} letters.")
            self._address.setFocus()
            return
        workshop = Workshop(name=self._name.text(), address=address)
        self.changed.emit(workshop, self._form.value())
        self.accept()
