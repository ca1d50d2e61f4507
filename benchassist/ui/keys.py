"""The list of keys, made from the actions."""

from PySide6.QtWidgets import QDialogButtonBox, QGridLayout, QWidget

from benchassist.ui.actions import ACTIONS, STEP_KEYS
from benchassist.ui.labels import text_label
from benchassist.ui.raised import RaisedSheet

_TYPING = (
    (STEP_KEYS, "Open one of the nine steps"),
    ("225", "in a power field means 2.25 D; 50 means 0.50 D"),
    ("2.25-  or  -2,25", "both mean −2.25 D"),
    ("1.5 in, 2 down", "a prism component with its base"),
    ("Escape", "Puts back what the field held before"),
)


class KeysSheet(RaisedSheet):
    """Every key of the window, in two columns."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__("The keys", "The keys", parent)
        self.column.setSpacing(16)
        grid = QGridLayout()
        grid.setHorizontalSpacing(32)
        grid.setVerticalSpacing(8)
        rows = [(one.keys, one.title.replace("&", "")) for one in ACTIONS] + list(_TYPING)
        half = (len(rows) + 1) // 2
        for position, (keys, words) in enumerate(rows):
            side, row = divmod(position, half)
            grid.addWidget(text_label("accent", keys, wraps=False), row, 2 * side)
            grid.addWidget(text_label("", words, wraps=False), row, 2 * side + 1)
        self.column.addLayout(grid)
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        buttons.rejected.connect(self.reject)
        self.column.addWidget(buttons)
