"""The base of every sheet that opens above the window."""

from collections.abc import Callable

from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QDialog, QListWidget, QPushButton, QVBoxLayout, QWidget
from typing_extensions import override

from benchassist.ui.labels import say, text_label


class RaisedSheet(QDialog):
    """A sheet above the window: a title, below it a column, and a line for what is wrong.

    Attributes:
        column: holds everything, from the title down.
        heading: the title on the sheet; hidden while it is empty.
        problem: the line for what is wrong, which a sheet puts where it belongs.
    """

    def __init__(self, title: str, heading: str, parent: QWidget | None = None) -> None:
        """Makes an empty sheet.

        Args:
            title: what the frame of the window says.
            heading: the title on the sheet; empty when it has none or tells it later.
            parent: the window below.
        """
        super().__init__(parent)
        self.setWindowTitle(title)
        self.heading = text_label("title")
        say(self.heading, heading)
        self.problem = text_label("error")
        self.problem.setParent(self)
        self.problem.hide()
        self.column = QVBoxLayout(self)
        self.column.setContentsMargins(32, 24, 32, 24)
        self.column.setSpacing(12)
        self.column.addWidget(self.heading)

    def complain(self, sentence: str, field: QWidget | None = None) -> None:
        """Says what is wrong, and leads to the field in which it is."""
        say(self.problem, sentence)
        if field is not None:
            field.setFocus()

    @override
    def showEvent(self, event: QShowEvent) -> None:
        """Lays the lists out in the type they are shown in."""
        super().showEvent(event)
        for rows in self.findChildren(QListWidget):
            rows.doItemsLayout()


def button(words: str, does: Callable[[], object], role: str = "") -> QPushButton:
    """A button in a role of the stylesheet, such as 'primary', and what it does."""
    made = QPushButton(words)
    if role:
        made.setProperty("role", role)
    made.clicked.connect(does)
    return made
