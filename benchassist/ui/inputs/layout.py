"""A measured length or angle of each lens of the pair, repeats kept."""

from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from benchassist.ui.inputs.parsing import NumberSpec, plain_text
from benchassist.ui.inputs.row import NumberRow, Values
from benchassist.ui.labels import say, text_label

Repeats = tuple[Decimal, ...]

_LENSES = ("Right lens", "Left lens")


class LayoutInput(QWidget):
    """One quantity of the right and the left lens; the last measurement is in the fields.

    Signals:
        value_changed: (right repeats, left repeats), oldest first; more where there are more
            fields.
        finished: Enter was pressed in the last field that is needed.
        stepped_back: Shift+Enter was pressed in the right lens's field.
    """

    value_changed = Signal(tuple)
    finished = Signal()
    stepped_back = Signal()

    def __init__(
        self,
        spec: NumberSpec,
        parent: QWidget | None = None,
        more: tuple[NumberSpec, ...] = (),
        needed: Callable[[Values], int] | None = None,
    ) -> None:
        """Makes a field for each lens.

        Args:
            spec: what each lens's field takes.
            parent: the widget that holds them.
            more: further fields of the pair after those of the lenses.
            needed: how many fields, from the left, the values so far call for; all when None.
        """
        super().__init__(parent)
        lenses = tuple(replace(spec, label=label) for label in _LENSES)
        self._specs = (*lenses, *more)
        self._offset = Decimal(0)
        self._repeats: tuple[Repeats, ...] = self._padded(())
        self._before: tuple[Repeats, ...] = self._repeats
        self._row = NumberRow(self._specs, self, needed)
        self._row.values_changed.connect(self._on_values_changed)
        self._row.finished.connect(self.finished)
        self._row.stepped_back.connect(self.stepped_back)
        self._earlier = text_label("caption", wraps=False)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(8)
        column.addWidget(self._row)
        column.addWidget(self._earlier)
        self.setFocusProxy(self._row)

    def value(self) -> tuple[Repeats, ...]:
        """The measurements of the right and of the left lens, oldest first, then any more."""
        return self._repeats

    def set_value(self, repeats: tuple[Repeats, ...]) -> None:
        """Shows these without emitting; a fresh blank measurement stays blank."""
        repeats = self._padded(repeats)
        if repeats != self._repeats:
            self._repeats = repeats
            self._before = tuple(one[:-1] for one in repeats)
        self._row.set_values(
            tuple(
                one[-1] - offset if len(one) > len(old) else None
                for one, old, offset in zip(
                    self._repeats, self._before, self._offsets(), strict=True
                )
            )
        )
        self._say_earlier()

    def set_offset(self, offset: Decimal) -> None:
        """Shows and takes each lens's value less this much; the values stay as they are."""
        if offset != self._offset:
            self._offset = offset
            self.set_value(self._repeats)

    def another(self) -> None:
        """Begins a further measurement of both lenses."""
        self._before = self._repeats
        self._row.set_values((None,) * len(self._specs))
        self._say_earlier()
        self.setFocus()

    def _padded(self, repeats: tuple[Repeats, ...]) -> tuple[Repeats, ...]:
        """One tuple a field, empty where none was handed in."""
        return (*repeats, *((),) * (len(self._specs) - len(repeats)))

    def _offsets(self) -> tuple[Decimal, ...]:
        """What each field shows less, mm: only distances of one lens are from an edge."""
        more = len(self._specs) - len(_LENSES)
        return (*(self._offset for _ in _LENSES), *(Decimal(0),) * more)

    def _on_values_changed(self, values: Values) -> None:
        self._repeats = tuple(
            old if value is None else (*old, value + offset)
            for old, value, offset in zip(self._before, values, self._offsets(), strict=True)
        )
        self.value_changed.emit(self._repeats)

    def _say_earlier(self) -> None:
        parts = [
            f"{spec.label.removesuffix(' lens').lower()} {plain_text(value - offset, spec)}"
            for spec, old, offset in zip(
                self._specs, self._before, self._offsets(), strict=True
            )
            for value in old
        ]
        unit = self._specs[0].unit
        say(self._earlier, f"Earlier: {', '.join(parts)} {unit}" if parts else "")
