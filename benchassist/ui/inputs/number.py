"""A number field: label and unit above, the sentence that is wrong below."""

from dataclasses import replace
from decimal import Decimal

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent
from PySide6.QtWidgets import QLineEdit, QVBoxLayout, QWidget
from typing_extensions import override

from benchassist.ui.inputs.line import ENTER_KEYS, leaves_undo
from benchassist.ui.inputs.parsing import NumberSpec, parse, plain_text
from benchassist.ui.labels import caption, say, text_label
from benchassist.ui.restyle import restyle

_NOT_TAKEN = "This was not taken; the line at the foot says why. Enter tries again."

_READING_WIDTH = 112
"""Room for '−12.25' in the size of a reading, px."""

_READING_HEIGHT = 48
_BASE_WORD = 56
"""More room for the word of a prism's base, px."""


class NumberInput(QWidget):
    """One number, typed as the trade writes it.

    Text that cannot be read stays in the field with a sentence below it. A letter typed into a
    field that holds nothing new is left to the window, where it may be a command. Escape puts
    the value last taken back.

    Signals:
        value_changed: the value taken, a Decimal or None.
        finished: Enter was pressed and the field holds no problem.
        stepped_back: Shift+Enter was pressed.
    """

    value_changed = Signal(object)
    finished = Signal()
    stepped_back = Signal()

    def __init__(
        self, spec: NumberSpec, parent: QWidget | None = None, *, is_reading: bool = True
    ) -> None:
        """Makes an empty field.

        Args:
            spec: what it takes.
            parent: the widget that holds it.
            is_reading: whether its digits are large, to be read from the lens meter.
        """
        super().__init__(parent)
        self._spec = spec
        self._value: Decimal | None = None
        self._refusal = _NOT_TAKEN
        self._edit = QLineEdit()
        self._edit.setProperty("role", "reading" if is_reading else "form")
        if is_reading:
            wider = _BASE_WORD if spec.bases else 0
            self._edit.setMinimumSize(_READING_WIDTH + wider, _READING_HEIGHT)
        self._edit.setAccessibleName(spec.label)
        self._edit.setAccessibleDescription(spec.description or _spoken(spec))
        self._edit.installEventFilter(self)
        self._label = caption(_labelled(spec.label, spec.unit), self._edit)
        self._problem = text_label("error")
        self._problem.hide()
        self.setFocusProxy(self._edit)
        self._lay_out()

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        column.addWidget(self._label)
        column.addWidget(self._edit)
        column.addWidget(self._problem)
        column.addStretch(1)

    def value(self) -> Decimal | None:
        """The value last taken; None when empty."""
        return self._value

    def set_value(self, value: Decimal | None) -> None:
        """Shows a value without emitting; text that was refused stays while the value does."""
        if value == self._value and (self.problem() or self._edit.isModified()):
            return
        self._value = value
        self._edit.setText("" if value is None else plain_text(value, self._spec))
        self._show_problem("")

    def problem(self) -> str:
        """The sentence that says what is wrong with the text, or nothing."""
        return self._problem.text()

    def ask_for(self, sentence: str) -> None:
        """Says why the empty field cannot be left so."""
        self._show_problem(sentence)
        self.setFocus()

    def refuse(self, before: Decimal | None, sentence: str) -> None:
        """Puts back a value while a new one is offered, and says why that is not taken."""
        self._refusal = sentence
        self.set_value(before)

    def set_step(self, step: Decimal | None) -> None:
        """Reads figures as those of a display that cuts its steps short; None for others."""
        self._spec = replace(self._spec, step=step)

    def allow_long_label(self, width: int) -> None:
        """Lets the label run over two lines above a field of at least this width, px."""
        self._label.setWordWrap(True)
        self._label.setFixedHeight(2 * self._label.fontMetrics().lineSpacing() + 2)
        self._label.setAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignBottom)
        self._edit.setMinimumWidth(width)

    def edit(self) -> QLineEdit:
        """The line that takes the keys."""
        return self._edit

    def take(self) -> bool:
        """Takes the text as the value, or says what is wrong; whether there is no problem."""
        if not self._edit.isModified():
            self._show_problem("")
            return True
        parsed = parse(self._edit.text(), self._spec)
        self._show_problem(parsed.problem)
        if parsed.problem:
            return False
        if parsed.value == self._value:
            self._restore()
            return True
        return self._offer(parsed.value)

    def _offer(self, value: Decimal | None) -> bool:
        """Emits a new value; when it was put back at once, the text stays to be tried again."""
        text = self._edit.text()
        self._refusal = _NOT_TAKEN
        self._value = value
        self._restore()
        self.value_changed.emit(value)
        if self._value == value:
            return True
        self._edit.setText(text)
        self._edit.setModified(True)
        self._show_problem(self._refusal)
        return False

    def _show_problem(self, sentence: str) -> None:
        say(self._problem, sentence)
        restyle(self._edit, "state", "bad" if sentence else "")

    @override
    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if leaves_undo(self._edit, event):
            event.ignore()
            return True
        if isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress:
            return self._on_key(event)
        if isinstance(event, QFocusEvent) and event.type() == QEvent.Type.FocusIn:
            self._edit.selectAll()
        elif isinstance(event, QFocusEvent) and event.type() == QEvent.Type.FocusOut:
            self.take()
        return False

    def _on_key(self, event: QKeyEvent) -> bool:
        """Whether the key is used up here."""
        if event.key() in ENTER_KEYS:
            self._on_enter(is_back=bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier))
            return True
        if _is_command(event) and not self._edit.isModified():
            event.ignore()
            return True
        is_new = self._edit.isModified() or bool(self.problem())
        if event.key() == Qt.Key.Key_Escape and is_new:
            self._restore()
            return True
        return False

    def _restore(self) -> None:
        """Puts the value last taken back into the field."""
        self._edit.setText("" if self._value is None else plain_text(self._value, self._spec))
        self._show_problem("")

    def _on_enter(self, *, is_back: bool) -> None:
        if not self.take():
            self._edit.selectAll()
        elif is_back:
            self.stepped_back.emit()
        else:
            self.finished.emit()


def _labelled(label: str, unit: str) -> str:
    return f"{label}, {unit}" if unit else label


def _is_command(event: QKeyEvent) -> bool:
    """Whether the key is a bare letter or '?', which no number begins with."""
    text = event.text()
    held = event.modifiers() & ~Qt.KeyboardModifier.ShiftModifier
    return not held and (text.isalpha() or text == "?")


def _spoken(spec: NumberSpec) -> str:
    """What a screen reader adds: the unit and the range."""
    low, high = plain_text(spec.low, spec), plain_text(spec.high, spec)
    return f"{spec.unit}, from {low} to {high}".lstrip(", ")
