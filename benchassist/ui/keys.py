"""The list of keys, made from the actions."""

from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QGridLayout,
    QLabel,
    QVBoxLayout,
    QWidget,
)

from benchassist.ui.actions import ACTIONS, STEP_KEYS

_TYPING = (
    (STEP_KEYS, "Open one of the nine steps"),
    ("225", "in a power field means 2.25 D; 50 means 0.50 D"),
    ("2.25-  or  -2,25", "both mean −2.25 D"),
    ("1.5 in, 2 down", "a prism component with its base"),
    ("Escape", "Puts back what the field held before"),
)


class KeysSheet(QDialog):
    """Every key of the window, in two columns."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle("The keys")
        column = QVBoxLayout(self)
        column.setContentsMargins(32, 24, 32, 24)
        column.setSpacing(16)
        title = QLabel("The keys")
        title.setProperty("role", "title")
        column.addWidget(title)
        grid = QGridLayout()
        grid.setHorizontalSpacing(32)
        grid.setVerticalSpacing(8)
        rows = [(one.keys, one.title.replace("&", "")) for one in ACTIONS] + list(_TYPING)
        half = (len(rows) + 1) // 2
        for position, (keys, words) in enumerate(rows):
            side, row = divmod(position, half)
            key = QLabel(keys)
            key.setProperty("role", "accent")
            grid.addWidget(key, row, 2 * side)
            grid.addWidget(QLabel(words), row, 2 * side + 1)
        column.addLayout(grid)
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        buttons.rejected.connect(self.reject)
        column.addWidget(buttons)
