"""One number that is read once."""

from decimal import Decimal

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from benchassist.ui.inputs.parsing import NumberSpec
from benchassist.ui.inputs.row import NumberRow


class SingleInput(NumberRow):
    """A single number as an answer.

    Signals:
        value_changed: the number, a Decimal or None.
    """

    value_changed = Signal(object)

    def __init__(self, spec: NumberSpec, parent: QWidget | None = None) -> None:
        super().__init__((spec,), parent)
        self.values_changed.connect(lambda values: self.value_changed.emit(values[0]))

    def value(self) -> Decimal | None:
        """The number; None when empty."""
        return self.values()[0]

    def set_value(self, value: Decimal | None) -> None:
        """Shows a number without emitting."""
        self.set_values((value,))

    def another(self) -> None:
        """Puts the cursor back: one number is kept, the last."""
        self.setFocus()
