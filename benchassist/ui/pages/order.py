"""The order page: the whole order as one form, with its questions."""

from decimal import Decimal

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from benchassist.guide.flow import Standing
from benchassist.guide.prompts import Prompt
from benchassist.job.base import LONGEST_LINE, LONGEST_REMARK
from benchassist.job.order import Order
from benchassist.limits.load import RuleSet
from benchassist.ui.inputs.number import NumberInput
from benchassist.ui.inputs.parsing import NumberSpec
from benchassist.ui.inputs.several import SeveralInput
from benchassist.ui.inputs.text import ChoiceInput, TextInput
from benchassist.ui.labels import text_label
from benchassist.ui.ordering.fields import Choices, FormField, Section, sections
from benchassist.ui.ordering.values import (
    FieldValue,
    field_value,
    refusal,
    with_field_value,
)
from benchassist.ui.pages.base import Page
from benchassist.verdicts.plausible import Question

_COLUMNS = 5
FieldInput = NumberInput | TextInput | ChoiceInput | SeveralInput


class OrderPage(Page):
    """Everything ordered, typed from top to bottom with Enter.

    Signals:
        confirmed: the question that the person has looked at, as it was put.
    """

    confirmed = Signal(str)

    def __init__(
        self, rule_sets: Choices, languages: Choices, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._order = Order()
        self._standing: Standing | None = None
        self._prompt: Prompt | None = None
        self._sections = sections(rule_sets, languages)
        self._inputs: dict[str, FieldInput] = {}
        self._headings: dict[str, QLabel] = {}
        self._rules = text_label("caption")
        self._questions = _Questions()
        self._questions.confirmed.connect(self.confirmed)
        self._scroll = QScrollArea()
        self._lay_out()

    def _lay_out(self) -> None:
        inside = QWidget()
        column = QVBoxLayout(inside)
        column.setContentsMargins(32, 24, 32, 24)
        column.setSpacing(8)
        for section in self._sections:
            heading = text_label("title", section.title, wraps=False)
            self._headings[section.name] = heading
            column.addWidget(heading)
            column.addLayout(self._grid(section))
            column.addSpacing(16)
        column.addStretch(1)
        self._scroll.setWidgetResizable(True)
        self._scroll.setWidget(inside)
        self._scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        outside = QVBoxLayout(self)
        outside.setContentsMargins(0, 0, 0, 0)
        outside.addWidget(self._scroll, 1)
        outside.addWidget(self._questions)

    def _grid(self, section: Section) -> QGridLayout:
        grid = QGridLayout()
        grid.setHorizontalSpacing(16)
        grid.setVerticalSpacing(12)
        row = column = 0
        for field in section.fields:
            if column + field.span > _COLUMNS:
                row, column = row + 1, 0
            grid.addWidget(self._input(field), row, column, 1, field.span)
            column += field.span
            if field.path == "rule_set":
                row, column = row + 1, _COLUMNS
                grid.addWidget(self._rules, row, 0, 1, _COLUMNS)
        for each in range(_COLUMNS):
            grid.setColumnStretch(each, 1)
        return grid

    def _input(self, field: FormField) -> FieldInput:
        made = _made(field)
        made.value_changed.connect(lambda value, f=field: self._on_value_changed(f, value))
        made.finished.connect(lambda path=field.path: self._step_from(path, 1))
        made.stepped_back.connect(lambda path=field.path: self._step_from(path, -1))
        self._inputs[field.path] = made
        return made

    @override
    def show_standing(self, standing: Standing, prompt: Prompt) -> None:
        self._standing = standing
        self._prompt = prompt
        self._order = standing.job.order
        for path, made in self._inputs.items():
            _show(made, field_value(self._order, path))

    def show_rules(self, rules: RuleSet) -> None:
        """Shows how the limits of this rule set are known, and what to know of them."""
        self._rules.setText(f"{rules.evidence}. {rules.caution}".strip())

    def show_questions(self, questions: tuple[Question, ...]) -> None:
        """Shows what looks odd in the order, as questions to confirm."""
        self._questions.show_questions(questions)

    @override
    def take_focus(self) -> None:
        if self._prompt is None:
            return
        section = self._section(self._prompt.name)
        first = self._inputs[section.fields[0].path]
        self._scroll.ensureWidgetVisible(self._inputs[section.fields[-1].path], 0, 24)
        self._scroll.ensureWidgetVisible(self._headings[section.name], 0, 24)
        first.setFocus()

    def _section(self, name: str) -> Section:
        return next(one for one in self._sections if one.name == name)

    def _step_from(self, path: str, by: int) -> None:
        paths = list(self._inputs)
        position = paths.index(path) + by
        if position < 0:
            self.back_asked.emit()
        elif position == len(paths):
            self.next_asked.emit()
        else:
            following = self._inputs[paths[position]]
            following.setFocus()
            self._scroll.ensureWidgetVisible(following, 0, 48)

    def _on_value_changed(self, field: FormField, value: FieldValue) -> None:
        value = field.nothing if value is None else value
        refused = refusal(self._order, field.path, value)
        made = self._inputs[field.path]
        if refused and isinstance(made, NumberInput):
            before = field_value(self._order, field.path)
            made.refuse(before if isinstance(before, Decimal) else None, refused)
            return
        self._propose(with_field_value(self._order, field.path, value))

    def _propose(self, order: Order) -> None:
        if self._standing is not None:
            self._order = order
            self.proposed.emit(self._standing.job.with_(order=order))


def _made(field: FormField) -> FieldInput:
    if field.takes is None:
        longest = LONGEST_REMARK if field.path == "remark" else LONGEST_LINE
        return TextInput(field.label, longest)
    if isinstance(field.takes, NumberSpec):
        return NumberInput(field.takes, is_reading=False)
    if field.is_several:
        return SeveralInput(tuple(key for key, _ in field.takes if key))
    return ChoiceInput(field.label, field.takes)


def _show(made: FieldInput, value: FieldValue) -> None:
    """Shows a value in the input of its kind."""
    if isinstance(made, NumberInput):
        made.set_value(value if isinstance(value, Decimal) else None)
    elif isinstance(made, SeveralInput):
        made.set_value(value if isinstance(value, tuple) else ())
    else:
        made.set_value("" if value is None else str(value))


class _Questions(QFrame):
    """What looks odd in the order: one line a question, each with a button to confirm it."""

    confirmed = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self.setProperty("role", "caution")
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(16, 12, 16, 12)
        self._column.setSpacing(8)
        self._shown: tuple[Question, ...] | None = None
        self.hide()

    def show_questions(self, questions: tuple[Question, ...]) -> None:
        """Shows those not yet confirmed."""
        open_ones = tuple(one for one in questions if not one.is_confirmed)
        if open_ones == self._shown:
            return
        self._shown = open_ones
        while self._column.count():
            taken = self._column.takeAt(0)
            widget = taken.widget() if taken else None
            if widget is not None:
                widget.hide()
                widget.deleteLater()
        for question in open_ones:
            self._column.addWidget(self._line(question))
        self.setVisible(bool(open_ones))

    def _line(self, question: Question) -> QWidget:
        line = QWidget()
        row = QHBoxLayout(line)
        row.setContentsMargins(0, 0, 0, 0)
        label = text_label("", question.sentence)
        button = QPushButton("As ordered")
        button.setAccessibleDescription(f"Confirms: {question.sentence}")
        button.clicked.connect(lambda: self.confirmed.emit(question.sentence))
        row.addWidget(label, 1)
        row.addWidget(button)
        return line
