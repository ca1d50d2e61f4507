"""A check answered by eye or by measurement, with its remark."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from benchassist.guide.prompts import Kind, Measurement, Prompt
from benchassist.job.base import LONGEST_REMARK
from benchassist.job.checks import Answer, Seen
from benchassist.ui.inputs.line import Line
from benchassist.ui.inputs.number import NumberInput
from benchassist.ui.inputs.parsing import NumberSpec
from benchassist.ui.inputs.segments import Segments

_FIELD_WIDTH = 96
_BY_EYE = ((Seen.GOOD.value, "&Good"), (Seen.FAULT.value, "&Fault"))
_DONE = ((Seen.GOOD.value, "&Done"),)


class CheckInput(QWidget):
    """The answer to one check, confirmation or choice: built for its prompt.

    Signals:
        value_changed: the Answer.
        finished: Enter was pressed in the last field.
        stepped_back: Shift+Enter was pressed in the first field.
    """

    value_changed = Signal(object)
    finished = Signal()
    stepped_back = Signal()

    def __init__(self, prompt: Prompt, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._prompt = prompt
        self._answer = Answer()
        self._choices = Segments(_choices_of(prompt), self)
        self._choices.chosen.connect(self._on_chosen)
        self._fields = tuple(NumberInput(_spec(one), self) for one in prompt.inputs)
        self._remark = Line("Remark", LONGEST_REMARK)
        self._remark.setPlaceholderText("Remark, if any")
        self._remark.taken.connect(lambda text: self._change({"remark": text}))
        self._remark.finished.connect(self.finished)
        self._remark.stepped_back.connect(self.stepped_back)
        self._lay_out()
        self.setFocusProxy(self._fields[0] if self._fields else self._choices.buttons()[0])
        self._show()

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(8)
        fields = QHBoxLayout()
        fields.setSpacing(12)
        for position, field in enumerate(self._fields):
            field.allow_long_label(_FIELD_WIDTH)
            fields.addWidget(field, 1)
            field.value_changed.connect(self._on_measured)
            field.finished.connect(lambda at=position: self._go_to(at + 1))
            field.stepped_back.connect(lambda at=position: self._go_to(at - 1))
        column.addLayout(fields)
        line = QHBoxLayout()
        line.setSpacing(16)
        line.addWidget(self._choices)
        line.addWidget(self._remark, 1)
        column.addLayout(line)

    def value(self) -> Answer:
        """The answer."""
        return self._answer

    def set_value(self, answer: Answer) -> None:
        """Shows an answer without emitting; one to be repeated leaves the fields blank."""
        self._answer = Answer() if answer.again_because else answer
        self._show()

    def another(self) -> None:
        """Puts the cursor back to the first field: a check has one answer, the last."""
        self.setFocus()

    def press(self, letter: str) -> bool:
        """Chooses by the letter underlined on a button; whether there was one."""
        for button in self._choices.buttons():
            if f"&{letter}".lower() in button.text().lower():
                button.click()
                return True
        return False

    def _show(self) -> None:
        answer = self._answer
        is_choice = self._prompt.kind is Kind.CHOICE
        self._choices.set_value(answer.choice if is_choice else (answer.seen or ""))
        for field, wanted in zip(self._fields, self._prompt.inputs, strict=True):
            field.set_value(answer.measured.get(wanted.name))
        self._remark.show_text(answer.remark)

    def _on_chosen(self, key: str) -> None:
        is_choice = self._prompt.kind is Kind.CHOICE
        self._change({"choice": key} if is_choice else {"seen": Seen(key)})

    def _on_measured(self) -> None:
        values = {
            wanted.name: field.value()
            for field, wanted in zip(self._fields, self._prompt.inputs, strict=True)
        }
        measured = {name: value for name, value in values.items() if value is not None}
        self._change({"measured": measured})

    def _change(self, change: dict[str, object]) -> None:
        self._answer = self._answer.with_(**change)
        self.value_changed.emit(self._answer)

    def _go_to(self, position: int) -> None:
        if position < 0:
            self.stepped_back.emit()
        elif position == len(self._fields):
            self.finished.emit()
        else:
            self._fields[position].setFocus()


def _choices_of(prompt: Prompt) -> tuple[tuple[str, str], ...]:
    if prompt.kind is Kind.CHOICE:
        return tuple((option, option) for option in prompt.options)
    return _DONE if prompt.kind is Kind.CONFIRM else _BY_EYE


def _spec(wanted: Measurement) -> NumberSpec:
    places = 1 if wanted.unit == "°" else 2
    return NumberSpec(
        wanted.label,
        wanted.unit,
        wanted.low,
        wanted.high,
        places,
        description=_reads_in(wanted),
    )


def _reads_in(wanted: Measurement) -> str:
    return f"{wanted.unit}, read to {wanted.step}"
