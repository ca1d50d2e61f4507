"""Number fields side by side: Enter walks through them, then says that all are done."""

from collections.abc import Callable
from decimal import Decimal

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QWidget

from benchassist.ui.inputs.number import NumberInput
from benchassist.ui.inputs.parsing import NumberSpec

_WIDEST = 168
"""Beyond this a field no longer looks as if it held one number, px."""

_BASE_WORD = 40
"""More room for the word of a prism's base, px."""

Values = tuple[Decimal | None, ...]
"""One value a field, None where it is empty."""


class NumberRow(QWidget):
    """Several numbers that belong together.

    Signals:
        values_changed: a value was taken; a tuple with one Decimal or None a field.
        finished: Enter was pressed in the last field.
        stepped_back: Shift+Enter was pressed in the first field.
    """

    values_changed = Signal(tuple)
    finished = Signal()
    stepped_back = Signal()

    def __init__(
        self,
        specs: tuple[NumberSpec, ...],
        parent: QWidget | None = None,
        needed: Callable[[Values], int] | None = None,
    ) -> None:
        """Makes one field a spec.

        Args:
            specs: the fields from left to right.
            parent: the widget that holds them.
            needed: how many fields, from the left, the values so far call for; all when None.
        """
        super().__init__(parent)
        self._needed = needed or len
        self._fields = tuple(NumberInput(spec, self) for spec in specs)
        line = QHBoxLayout(self)
        line.setContentsMargins(0, 0, 0, 0)
        line.setSpacing(12)
        for position, (field, spec) in enumerate(zip(self._fields, specs, strict=True)):
            field.setMaximumWidth(_WIDEST + (_BASE_WORD if spec.bases else 0))
            line.addWidget(field, 1)
            field.value_changed.connect(self._on_value_changed)
            field.finished.connect(lambda at=position: self._go_to(at + 1))
            field.stepped_back.connect(lambda at=position: self._go_to(at - 1))
        line.addStretch(0)
        self.setFocusProxy(self._fields[0])

    def values(self) -> Values:
        """The values taken, one a field."""
        return tuple(field.value() for field in self._fields)

    def set_values(self, values: Values) -> None:
        """Shows these values without emitting."""
        for field, value in zip(self._fields, values, strict=True):
            field.set_value(value)

    def fields(self) -> tuple[NumberInput, ...]:
        """The fields from left to right."""
        return self._fields

    def _on_value_changed(self) -> None:
        self.values_changed.emit(self.values())

    def _go_to(self, position: int) -> None:
        if position < 0:
            self.stepped_back.emit()
        elif position >= self._needed(self.values()):
            self.finished.emit()
        else:
            self._fields[position].setFocus()
