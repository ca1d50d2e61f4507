"""The page of a bench prompt: the spectacles above, the ask strip with its gauges below."""

from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from benchassist.guide.answers import ANSWERED, answer_to, with_answer
from benchassist.guide.flow import PromptStanding, Standing
from benchassist.guide.prompts import Prompt
from benchassist.job.checks import Answer
from benchassist.job.instrument import Speech
from benchassist.job.readings import Datum
from benchassist.ui.asking.ordered import target_words
from benchassist.ui.asking.scenes import scene_for
from benchassist.ui.drawings.gauge import Gauge
from benchassist.ui.drawings.spectacles import SpectaclesDrawing
from benchassist.ui.inputs.addition import AdditionInput
from benchassist.ui.inputs.answering import AnswerInput, answer_input
from benchassist.ui.inputs.check import CheckInput
from benchassist.ui.inputs.distance import DistanceInput
from benchassist.ui.inputs.line import ENTER_KEYS
from benchassist.ui.inputs.number import NumberInput
from benchassist.ui.inputs.repeated import RepeatedInput
from benchassist.ui.pages.base import Page
from benchassist.ui.restyle import restyle
from benchassist.ui.theme import Theme
from benchassist.verdicts.finding import Finding, State, worst
from benchassist.verdicts.near import proposal

_GAUGES = 4
_NUMBER_KEYS = frozenset("0123456789+-.,")
_HIGH, _LOW = 264, 184
"""The height of the strip with readings, and with an answer by eye, px."""

_GAUGE_WIDTH = 160


class AskPage(Page):
    """One prompt at a time, for every step between the order and the record.

    Signals:
        corrected: (id of the check, id of the remedy) that was carried out.
        form_chosen: (kind of prompt, key of the instrument's form) for the next readings.
    """

    corrected = Signal(str, str)
    form_chosen = Signal(str, str)

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._standing: Standing | None = None
        self._prompt: Prompt | None = None
        self._input: AnswerInput | None = None
        self._reads_first = False
        self._forms: dict[str, str] = {}
        self._meter, self._speech = "", Speech.DISPLAY
        self._drawing = SpectaclesDrawing(theme)
        self._drawing.mark_clicked.connect(self.prompt_asked)
        self._title = _label("title")
        self._ask = _label("sentence")
        self._again = _label("error")
        self._better_after = _label("caption")
        self._ordered = _label("caption")
        self._meter_used = _label("caption")
        self._sentence = _label("sentence")
        self._holder = QVBoxLayout()
        self._next = _NextButton()
        self._next.clicked.connect(self.next_asked)
        self._next.corrected.connect(self._on_corrected)
        self._was_changed = False
        self._gauges = tuple(Gauge(theme) for _ in range(_GAUGES))
        self._lay_out()

    def _lay_out(self) -> None:
        answering = QWidget()
        left = QVBoxLayout(answering)
        left.setContentsMargins(0, 0, 0, 0)
        left.setSpacing(8)
        for widget in (self._title, self._ask, self._again, self._better_after):
            left.addWidget(widget)
        left.addSpacing(4)
        left.addLayout(self._holder)
        for widget in (self._ordered, self._sentence, self._meter_used):
            left.addWidget(widget)
        left.addStretch(1)
        self._grid = QGridLayout()
        self._grid.setHorizontalSpacing(16)
        self._grid.setVerticalSpacing(8)
        self._grid.setRowStretch(_GAUGES, 1)
        for gauge in self._gauges:
            gauge.setMinimumWidth(_GAUGE_WIDTH)
            gauge.setMaximumWidth(2 * _GAUGE_WIDTH)
        self._place_gauges(columns=2)
        last = QHBoxLayout()
        last.addStretch(1)
        last.addWidget(self._next)
        right = QVBoxLayout()
        right.addLayout(self._grid, 1)
        right.addLayout(last)
        self._strip = strip = QFrame()
        strip.setProperty("role", "ask")
        self._halves = QHBoxLayout(strip)
        self._halves.setContentsMargins(24, 20, 20, 16)
        self._halves.setSpacing(24)
        self._halves.addWidget(answering, 1)
        self._halves.addLayout(right, 1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self._drawing, 1)
        column.addWidget(strip)

    def set_forms(self, forms: dict[str, str]) -> None:
        """Which instrument form each kind of reading starts in."""
        self._forms = forms

    def set_meter(self, key: str, speech: Speech) -> None:
        """Which lens meter readings name, and how it gives a power."""
        self._meter, self._speech = key, speech
        if isinstance(self._input, RepeatedInput):
            self._input.set_meter(key)

    def set_reads_first(self, *, reads_first: bool) -> None:
        """Hides the order until the reading is in, so that the eye is not led."""
        self._reads_first = reads_first
        if self._standing and self._prompt:
            self.show_standing(self._standing, self._prompt)

    @override
    def show_standing(self, standing: Standing, prompt: Prompt) -> None:
        is_other_job = self._standing and self._standing.job.number != standing.job.number
        self._standing = standing
        if self._prompt != prompt or is_other_job:
            self._prompt = prompt
            self._was_changed = False
            self._build_input(prompt)
        lens = f"{prompt.eye.capitalize()} lens: " if prompt.eye else ""
        self._title.setText(f"{lens}{prompt.title if not lens else prompt.title.lower()}")
        self._ask.setText(prompt.ask)
        if self._input is not None:
            self._input.set_value(_shown_answer(standing, prompt))
        if isinstance(self._input, DistanceInput):
            job = standing.job
            self._input.set_datum(job.now.pair.datum, job.order.frame.dbl)
        now = standing.prompt(prompt.id)
        if now is None:
            return
        _say(self._again, now.again_because)
        _say(self._better_after, _better_after(now))
        _say(self._meter_used, _meter_words(now))
        self._show_verdict(now)
        hides = self._reads_first and not now.is_done
        self._show_order(prompt, hides=hides)
        self._drawing.set_scene(scene_for(standing, prompt, hides_order=hides))

    def _build_input(self, prompt: Prompt) -> None:
        if self._input is not None:
            self._holder.removeWidget(self._input)
            self._input.hide()
            self._input.deleteLater()
        self._input = made = answer_input(prompt, self)
        if made is None:
            return
        made.value_changed.connect(lambda answer: self._on_value_changed(prompt, answer))
        made.finished.connect(self._on_finished)
        made.stepped_back.connect(self.back_asked)
        if isinstance(made, CheckInput):
            made.corrected.connect(lambda remedy: self.corrected.emit(prompt.id, remedy))
        if isinstance(made, DistanceInput):
            made.datum_chosen.connect(self._on_datum)
        if isinstance(made, RepeatedInput):
            made.set_meter(self._meter)
            if prompt.kind.value in self._forms:
                made.set_form(self._forms[prompt.kind.value])
            made.form_chosen.connect(lambda key: self.form_chosen.emit(prompt.kind.value, key))
        self._holder.addWidget(made)
        self.setTabOrder(made, self._next)
        is_wide = len(prompt.inputs) > 0 and len(prompt.inputs) != _GAUGES
        self._place_gauges(columns=1 if is_wide else 2)
        self._strip.setMinimumHeight(_LOW if prompt.kind in ANSWERED else _HIGH)

    def _place_gauges(self, *, columns: int) -> None:
        """Puts the gauges in so many columns: one, where the fields need the width."""
        for position, gauge in enumerate(self._gauges):
            self._grid.addWidget(gauge, position // columns, position % columns)

    def _show_order(self, prompt: Prompt, *, hides: bool) -> None:
        assert self._standing is not None  # noqa: S101  (shown before)
        order = self._standing.job.order
        now = self._standing.prompt(prompt.id)
        is_read = now is not None and now.is_done
        words = "" if hides else target_words(order, prompt, self._speech, is_read=is_read)
        _say(self._ordered, words)
        if isinstance(self._input, AdditionInput) and prompt.eye is not None:
            self._input.propose_surface(proposal(order, prompt.eye).surface)

    def _show_verdict(self, now: PromptStanding) -> None:
        measured = tuple(one for one in now.findings if one.limit is not None)
        for position, gauge in enumerate(self._gauges):
            finding = measured[position] if position < len(measured) else None
            gauge.setVisible(finding is not None)
            gauge.set_finding(finding, hide_ordered=self._reads_first and not now.is_done)
        self._halves.setStretch(1, 1 if measured else 0)
        state = worst([one.state for one in now.findings])
        told = [_told(one, now.prompt) for one in now.findings if one.state is state]
        speaks = now.is_done and state in {State.OUTSIDE, State.CLOSE}
        more = f" And {len(told) - 1} more." if len(told) > 1 else ""
        self._sentence.setText(f"{told[0]}{more}" if speaks else "")
        self._sentence.setToolTip("\n".join(told) if speaks else "")
        self._sentence.setVisible(speaks)
        restyle(self._sentence, "verdict", state.value)
        if isinstance(self._input, CheckInput):
            self._input.show_remedies(is_needed=state is State.OUTSIDE)

    def _on_finished(self) -> None:
        """Lets a new answer be seen before going on; an old one is passed at once."""
        if self._was_changed:
            self._next.setFocus()
        else:
            self.next_asked.emit()

    def _on_corrected(self, text: str) -> None:
        """Goes back to the last field, and types there what was typed on the button."""
        fields = [one for one in self._fields() if one.value() is not None] or self._fields()
        if not fields:
            self.back_asked.emit()
            return
        fields[-1].setFocus()
        if text:
            fields[-1].edit().insert(text)
            fields[-1].edit().setModified(True)

    def _fields(self) -> list[NumberInput]:
        fields = self._input.findChildren(NumberInput) if self._input is not None else []
        return [field for field in fields if field.isVisible()]

    def _on_value_changed(self, prompt: Prompt, answer: Any) -> None:
        self._was_changed = True
        assert self._standing is not None  # noqa: S101  (an input exists only once shown)
        self.proposed.emit(with_answer(self._standing.job, prompt, answer))

    def _on_datum(self, datum: Datum) -> None:
        assert self._standing is not None  # noqa: S101
        job = self._standing.job
        pair = job.now.pair.with_(datum=datum)
        self.proposed.emit(job.with_now(job.now.with_(pair=pair)))
        self.take_focus()

    @override
    def take_focus(self) -> None:
        if self._input is not None:
            self._input.setFocus()

    @override
    def another(self) -> None:
        if self._input is not None:
            self._input.another()

    @override
    def press(self, letter: str) -> bool:
        if not isinstance(self._input, CheckInput) or not self._input.press(letter):
            return False
        self._next.setFocus()
        return True

    @override
    def settle(self) -> bool:
        is_taken = super().settle()
        is_half = isinstance(self._input, RepeatedInput) and self._input.is_half_done()
        return is_taken and not is_half


class _NextButton(QPushButton):
    """Goes on by Enter.

    Signals:
        corrected: a key that goes back to the last field: Shift+Enter, or one of a number,
            whose text is given.
    """

    corrected = Signal(str)

    def __init__(self) -> None:
        super().__init__("Next")
        self.setProperty("role", "primary")
        self.setAutoDefault(True)

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        is_back = event.key() in ENTER_KEYS and bool(
            event.modifiers() & Qt.KeyboardModifier.ShiftModifier
        )
        is_number = bool(event.text()) and event.text() in _NUMBER_KEYS
        if is_back or event.key() == Qt.Key.Key_Backspace:
            self.corrected.emit("")
        elif is_number:
            self.corrected.emit(event.text())
        else:
            super().keyPressEvent(event)


def _told(finding: Finding, prompt: Prompt) -> str:
    """The sentence of a finding, with its eye where the prompt is about both."""
    eye = "" if finding.eye is None or prompt.eye else f"{finding.eye.capitalize()} lens: "
    return f"{eye}{finding.sentence}"


def _shown_answer(standing: Standing, prompt: Prompt) -> Any:
    answer = answer_to(standing.job, prompt)
    return Answer() if answer is None and prompt.kind in ANSWERED else answer


def _better_after(now: PromptStanding) -> str:
    """What should stand before a prompt is done; nothing once it is."""
    waits = now.waits_for if not now.is_done else ()
    return f"Better after: {', '.join(waits)}." if waits else ""


def _meter_words(now: PromptStanding) -> str:
    """Which lens meter was read, whether it was checked, and what was taken off."""
    traces = (one.sentence for one in now.findings if one.key.endswith(".meter"))
    return next(traces, "")


def _say(label: QLabel, text: str) -> None:
    """Shows a text; an empty one takes no room."""
    label.setText(text)
    label.setVisible(bool(text))


def _label(role: str) -> QLabel:
    label = QLabel()
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setProperty("role", role)
    label.setWordWrap(True)
    return label
