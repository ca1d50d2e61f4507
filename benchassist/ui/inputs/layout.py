"""A measured length or angle of each lens of the pair, repeats kept."""

from dataclasses import replace
from decimal import Decimal

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from benchassist.ui.inputs.parsing import NumberSpec, plain_text
from benchassist.ui.inputs.row import NumberRow

Repeats = tuple[Decimal, ...]


class LayoutInput(QWidget):
    """One quantity of the right and the left lens; the last measurement is in the fields.

    Signals:
        value_changed: (right repeats, left repeats), oldest first.
        finished: Enter was pressed in the left lens's field.
        stepped_back: Shift+Enter was pressed in the right lens's field.
    """

    value_changed = Signal(tuple)
    finished = Signal()
    stepped_back = Signal()

    def __init__(self, spec: NumberSpec, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._spec = spec
        self._offset = Decimal(0)
        self._repeats: tuple[Repeats, Repeats] = ((), ())
        self._before: tuple[Repeats, Repeats] = ((), ())
        self._row = NumberRow((_for("Right lens", spec), _for("Left lens", spec)), self)
        self._row.values_changed.connect(self._on_values_changed)
        self._row.finished.connect(self.finished)
        self._row.stepped_back.connect(self.stepped_back)
        self._earlier = QLabel()
        self._earlier.setProperty("role", "caption")
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(8)
        column.addWidget(self._row)
        column.addWidget(self._earlier)
        self.setFocusProxy(self._row)

    def value(self) -> tuple[Repeats, Repeats]:
        """The measurements of the right and of the left lens, oldest first."""
        return self._repeats

    def set_value(self, repeats: tuple[Repeats, Repeats]) -> None:
        """Shows these without emitting; a fresh blank measurement stays blank."""
        if repeats != self._repeats:
            self._repeats = repeats
            self._before = (repeats[0][:-1], repeats[1][:-1])
        now = zip(self._repeats, self._before, strict=True)
        self._row.set_values(
            tuple(one[-1] - self._offset if len(one) > len(old) else None for one, old in now)
        )
        self._say_earlier()

    def set_offset(self, offset: Decimal) -> None:
        """Shows and takes every value less this much; the values stay as they are."""
        if offset != self._offset:
            self._offset = offset
            self.set_value(self._repeats)

    def another(self) -> None:
        """Begins a further measurement of both lenses."""
        self._before = self._repeats
        self._row.set_values((None, None))
        self._say_earlier()
        self.setFocus()

    def _on_values_changed(self, values: tuple[Decimal | None, ...]) -> None:
        right, left = (
            old if value is None else (*old, value + self._offset)
            for old, value in zip(self._before, values, strict=True)
        )
        self._repeats = (right, left)
        self.value_changed.emit(self._repeats)

    def _say_earlier(self) -> None:
        parts = [
            f"{side} {plain_text(value - self._offset, self._spec)}"
            for side, old in zip(("right", "left"), self._before, strict=True)
            for value in old
        ]
        self._earlier.setText(f"Earlier: {', '.join(parts)} {self._spec.unit}" if parts else "")
        self._earlier.setVisible(bool(parts))


def _for(label: str, spec: NumberSpec) -> NumberSpec:
    return replace(spec, label=label)
