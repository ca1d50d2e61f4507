"""Readings of one point: the fields of the present one, and the earlier ones in words."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QStackedWidget, QVBoxLayout, QWidget

from benchassist.ui.inputs.parsing import NumberSpec
from benchassist.ui.inputs.row import NumberRow, Values
from benchassist.ui.inputs.segments import Segments
from benchassist.ui.labels import say, text_label


@dataclass(frozen=True, slots=True)
class Form:
    """One way in which an instrument gives a reading.

    Attributes:
        key: the `kind` or `form` of the reading it makes.
        name: what the person sees on the switch.
        specs: the number fields, in the order in which they are read.
        make: the fields' values to a reading.
        values: a reading to the fields' values.
        words: a complete reading in words.
        needs_all: whether only all fields together make a reading that can be kept.
        needed: how many fields, from the left, the values so far call for; all when None.
        is_shown_in_steps: whether its powers stand on a display, which may cut its steps short.
    """

    key: str
    name: str
    specs: tuple[NumberSpec, ...]
    make: Callable[[Values], Any]
    values: Callable[[Any], Values]
    words: Callable[[Any], str]
    needs_all: bool = False
    needed: Callable[[Values], int] | None = None
    is_shown_in_steps: bool = False


class RepeatedInput(QWidget):
    """A tuple of readings of one point; the last one is in the fields.

    Signals:
        value_changed: the readings, a tuple of frozen values of the job.
        form_chosen: the key of the form that the person switched to.
        finished: Enter was pressed in the last field.
        stepped_back: Shift+Enter was pressed in the first field.
    """

    value_changed = Signal(tuple)
    form_chosen = Signal(str)
    finished = Signal()
    stepped_back = Signal()

    def __init__(
        self,
        forms: tuple[Form, ...],
        key_of: Callable[[Any], str],
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._forms = forms
        self._key_of = key_of
        self._readings: tuple[Any, ...] = ()
        self._is_blank = True
        self._meter = ""
        self._steps: Mapping[str, Decimal] = {}
        self._switch = Segments(tuple((form.key, form.name) for form in forms), self)
        self._switch.setVisible(len(forms) > 1)
        self._switch.chosen.connect(self._on_form_chosen)
        self._earlier = text_label("caption", wraps=False)
        self._rows = QStackedWidget()
        for form in forms:
            row = NumberRow(form.specs, self, form.needed)
            row.values_changed.connect(self._on_values_changed)
            row.finished.connect(self.finished)
            row.stepped_back.connect(self.stepped_back)
            self._rows.addWidget(row)
        self._lay_out()
        self._use(forms[0].key)

    def _lay_out(self) -> None:
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(8)
        self._column.addWidget(self._switch)
        self._column.addWidget(self._rows)
        self._column.addWidget(self._earlier)

    def value(self) -> tuple[Any, ...]:
        """The readings, oldest first."""
        return self._readings

    def set_value(self, readings: tuple[Any, ...]) -> None:
        """Shows these readings without emitting; a fresh blank one stays blank."""
        grew_elsewhere = readings != self._readings
        self._readings = readings
        self._is_blank = not readings or (self._is_blank and not grew_elsewhere)
        self._fit_steps()
        if not self._is_blank:
            self._use(self._key_of(readings[-1]))
            self._row.set_values(self._form.values(readings[-1]))
        else:
            self._row.set_values((None,) * len(self._form.specs))
        self._say_earlier()

    def set_form(self, key: str) -> None:
        """Chooses the form of the next fresh reading without emitting; an unknown one not."""
        if self._is_blank and any(form.key == key for form in self._forms):
            self._use(key)

    def another(self) -> None:
        """Begins a further reading of the same point, once the present one is complete."""
        if self._readings and not self._is_blank:
            self._is_blank = True
            self._fit_steps()
            self._row.set_values((None,) * len(self._form.specs))
            self._say_earlier()
        self.setFocus()

    def fields(self) -> NumberRow:
        """The fields of the present reading."""
        return self._row

    @property
    def _form(self) -> Form:
        return self._forms[self._rows.currentIndex()]

    @property
    def _row(self) -> NumberRow:
        row = self._rows.currentWidget()
        assert isinstance(row, NumberRow)  # noqa: S101  (only rows were added)
        return row

    def _use(self, key: str) -> None:
        keys = [form.key for form in self._forms]
        self._rows.setCurrentIndex(keys.index(key))
        self._switch.set_value(key)
        self.setFocusProxy(self._row)
        self._fit_steps()

    def _fit_steps(self) -> None:
        """Lets the fields of a display read the figures of the meter that is read."""
        meter = self._meter if self._is_blank else self._readings[-1].meter
        step = self._steps.get(meter) if self._form.is_shown_in_steps else None
        for field, spec in zip(self._row.fields(), self._form.specs, strict=True):
            field.set_step(step if spec.is_power else None)

    def _on_form_chosen(self, key: str) -> None:
        if not self._is_blank:
            self.another()
        self._use(key)
        self._row.set_values((None,) * len(self._form.specs))
        self.form_chosen.emit(key)
        self.setFocus()

    def _on_values_changed(self, values: Values) -> None:
        earlier = self._readings if self._is_blank else self._readings[:-1]
        is_empty = all(value is None for value in values)
        if not is_empty and not self._is_whole(values):
            return
        self._readings = earlier if is_empty else (*earlier, self._make(values))
        self._is_blank = is_empty
        self._say_earlier()
        self.value_changed.emit(self._readings)

    def _is_whole(self, values: Values) -> bool:
        known = tuple(value is not None for value in values)
        return all(known) if self._form.needs_all else any(known)

    def is_half_done(self) -> bool:
        """Whether something typed waits for another part; says so at the empty fields."""
        values = self._row.values()
        known = [value is not None for value in values]
        is_half = self._form.needs_all and any(known) and not all(known)
        for field in self._row.fields() if is_half else ():
            if field.value() is None:
                field.ask_for("This part is needed as well; 0 when there is none.")
        return is_half

    def set_meter(self, meter: str, steps: Mapping[str, Decimal] | None = None) -> None:
        """Names the lens meter of the readings to come; a reading keeps its own.

        Args:
            meter: what readings name as their meter.
            steps: the steps, D, of the displays that cut their figures short, by that name.
        """
        self._meter, self._steps = meter, steps or {}
        self._fit_steps()

    def _make(self, values: Values) -> Any:
        meter = self._meter if self._is_blank else self._readings[-1].meter
        return self._form.make(values).with_(meter=meter)

    def _say_earlier(self) -> None:
        earlier = self._readings if self._is_blank else self._readings[:-1]
        words = "   ".join(self._words(reading) for reading in earlier)
        said = f"Reading {len(earlier) + 1}, after {words}" if earlier else ""
        say(self._earlier, said)

    def _words(self, reading: Any) -> str:
        key = self._key_of(reading)
        return next(form.words(reading) for form in self._forms if form.key == key)
