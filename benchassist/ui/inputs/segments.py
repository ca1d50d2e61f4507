"""A few buttons of which one is chosen."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QButtonGroup, QHBoxLayout, QPushButton, QWidget


class Segments(QWidget):
    """One of a few keys, chosen by button; the arrow keys and the mnemonics work.

    Signals:
        chosen: the key that a person chose.
    """

    chosen = Signal(str)

    def __init__(
        self, choices: tuple[tuple[str, str], ...], parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._keys = tuple(key for key, _ in choices)
        self._group = QButtonGroup(self)
        line = QHBoxLayout(self)
        line.setContentsMargins(0, 0, 0, 0)
        line.setSpacing(4)
        for position, (_, name) in enumerate(choices):
            button = QPushButton(name)
            button.setCheckable(True)
            button.setProperty("role", "choice")
            button.setAutoDefault(False)
            self._group.addButton(button, position)
            line.addWidget(button)
        line.addStretch(1)
        self._group.idClicked.connect(lambda position: self.chosen.emit(self._keys[position]))

    def value(self) -> str:
        """The key chosen; empty when none is."""
        position = self._group.checkedId()
        return "" if position < 0 else self._keys[position]

    def set_value(self, key: str) -> None:
        """Shows the key as chosen without emitting; an unknown or empty key shows none."""
        if key in self._keys:
            self._group.button(self._keys.index(key)).setChecked(True)
            return
        self._group.setExclusive(False)
        for button in self._group.buttons():
            button.setChecked(False)
        self._group.setExclusive(True)

    def focus_chosen(self) -> None:
        """Puts the cursor on the chosen button, or on the first when none is."""
        position = max(self._group.checkedId(), 0)
        self._group.button(position).setFocus()

    def buttons(self) -> tuple[QPushButton, ...]:
        """The buttons in order."""
        found = (self._group.button(position) for position in range(len(self._keys)))
        return tuple(button for button in found if isinstance(button, QPushButton))
