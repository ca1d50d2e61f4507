"""The page of a bench prompt: the spectacles above, the ask strip with its gauges below."""

from decimal import Decimal
from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QPushButton,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from benchassist.guide.answers import ANSWERED, answer_to, may_be_together, with_answer
from benchassist.guide.flow import PromptStanding, Standing
from benchassist.guide.prompts import Prompt
from benchassist.job.checks import Answer
from benchassist.job.instrument import Speech
from benchassist.job.readings import Datum
from benchassist.ui.asking.defects import join, show_defects
from benchassist.ui.asking.gauges import Gauges
from benchassist.ui.asking.ordered import target_words
from benchassist.ui.asking.reading_notes import direction_words, surface_words
from benchassist.ui.asking.scenes import scene_for
from benchassist.ui.asking.verdict_words import Notes, VerdictWords
from benchassist.ui.drawings.spectacles import SpectaclesDrawing
from benchassist.ui.inputs.addition import AdditionInput
from benchassist.ui.inputs.answering import AnswerInput, answer_input, cut_steps
from benchassist.ui.inputs.check import CheckInput
from benchassist.ui.inputs.correcting import Correcting
from benchassist.ui.inputs.defects import DefectsInput
from benchassist.ui.inputs.distance import DistanceInput
from benchassist.ui.inputs.line import ENTER_KEYS
from benchassist.ui.inputs.number import NumberInput
from benchassist.ui.inputs.repeated import RepeatedInput
from benchassist.ui.labels import say, text_label
from benchassist.ui.pages.base import Page
from benchassist.ui.theme import Theme
from benchassist.verdicts.near import proposal

_NUMBER_KEYS = frozenset("0123456789+-.,")
_HIGH, _LOW = 344, 184
"""The height of the strip with readings, and with an answer by eye, px; with readings there is
room for a verdict, so that the drawing does not change its size with every reading."""


class AskPage(Page):
    """One prompt at a time, for every step between the order and the record.

    Signals:
        corrected: the Done that was carried out.
        form_chosen: (kind of prompt, key of the instrument's form) for the next readings.
    """

    corrected = Signal(object)
    form_chosen = Signal(str, str)

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._standing: Standing | None = None
        self._prompt: Prompt | None = None
        self._input: AnswerInput | None = None
        self._reads_first = False
        self._forms: dict[str, str] = {}
        self._meter, self._speech = "", Speech.DISPLAY
        self._step: Decimal | None = None
        self._drawing = SpectaclesDrawing(theme)
        self._drawing.mark_clicked.connect(self.prompt_asked)
        self._title = text_label("title")
        self._ask = text_label("sentence")
        self._again = text_label("error")
        self._better_after = text_label("caption")
        self._ordered = text_label("caption")
        self._meter_used = text_label("caption")
        self._direction = text_label("caption")
        self._verdict, self._notes = VerdictWords(), Notes(theme)
        self._notes_below, self._notes_beside = QVBoxLayout(), QVBoxLayout()
        self._holder = QVBoxLayout()
        self._next = _NextButton()
        self._next.clicked.connect(self.next_asked)
        self._next.corrected.connect(self._on_corrected)
        self._was_changed = False
        self._gauges = Gauges(theme)
        self._correcting = Correcting()
        self._correcting.carried_out.connect(self.corrected)
        self._correcting.check_asked.connect(self.prompt_asked)
        self._lay_out()

    def _answering(self) -> QWidget:
        """The left half: what is asked, the input, and what is said of the answer."""
        answering = QWidget()
        left = QVBoxLayout(answering)
        left.setContentsMargins(0, 0, 0, 0)
        left.setSpacing(8)
        for widget in (self._title, self._ask, self._again, self._better_after):
            left.addWidget(widget)
        left.addSpacing(4)
        left.addLayout(self._holder)
        left.addWidget(self._direction)
        left.addWidget(self._ordered)
        left.addWidget(self._verdict)
        left.addLayout(self._notes_below)
        left.addWidget(self._meter_used)
        left.addStretch(1)
        return answering

    def _lay_out(self) -> None:
        right = QVBoxLayout()
        right.addLayout(self._gauges)
        right.addLayout(self._notes_beside)
        right.addStretch(1)
        right.addWidget(self._next, 0, Qt.AlignmentFlag.AlignRight)
        self._strip = strip = QFrame()
        strip.setProperty("role", "ask")
        self._halves = QHBoxLayout()
        self._halves.setSpacing(24)
        self._halves.addWidget(self._answering(), 1)
        self._halves.addLayout(right, 1)
        whole = QVBoxLayout(strip)
        whole.setContentsMargins(24, 20, 20, 16)
        whole.setSpacing(12)
        whole.addLayout(self._halves, 1)
        whole.addWidget(self._correcting)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self._drawing, 1)
        column.addWidget(strip)

    def set_forms(self, forms: dict[str, str]) -> None:
        """Which instrument form each kind of reading starts in."""
        self._forms = forms

    def set_meter(self, key: str, speech: Speech, step: Decimal | None = None) -> None:
        """Which lens meter readings name, how it gives a power, and a step it cuts short, D."""
        self._meter, self._speech, self._step = key, speech, step
        self._tell_meters()

    def _tell_meters(self) -> None:
        if isinstance(self._input, RepeatedInput):
            job = self._standing.job if self._standing else None
            self._input.set_meter(self._meter, cut_steps(job, self._meter, self._step))

    def show_asked(self, *, is_asked: bool) -> None:
        """Shows by which key one finds what may have happened."""
        self._verdict.show_asked(is_asked=is_asked)

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
            self._input.show_together(is_shown=may_be_together(job.order))
        now = standing.prompt(prompt.id)
        if now is None:
            return
        say(self._again, now.again_because)
        say(self._better_after, _better_after(now))
        say(self._meter_used, _meter_words(now))
        say(self._direction, direction_words(standing.job, prompt))
        hides = self._reads_first and not now.is_done
        self._show_verdict(now, hides=hides)
        self._show_order(now, hides=hides)
        self._drawing.set_scene(scene_for(standing, prompt, hides_order=hides))
        show_defects(self._input, self._drawing, standing, prompt)

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
        if isinstance(made, DefectsInput):
            join(made, self._drawing, lambda every: self._on_value_changed(prompt, every))
        if isinstance(made, DistanceInput):
            made.datum_chosen.connect(self._on_datum)
        if isinstance(made, RepeatedInput):
            self._tell_meters()
            if prompt.kind.value in self._forms:
                made.set_form(self._forms[prompt.kind.value])
            made.form_chosen.connect(lambda key: self.form_chosen.emit(prompt.kind.value, key))
        self._holder.addWidget(made)
        self.setTabOrder(made, self._next)
        self._gauges.place(is_beside_fields=bool(prompt.inputs))
        self._strip.setMinimumHeight(_LOW if prompt.kind in ANSWERED else _HIGH)

    def _show_order(self, now: PromptStanding, *, hides: bool) -> None:
        assert self._standing is not None  # noqa: S101  (shown before)
        order, prompt, is_read = self._standing.job.order, now.prompt, now.is_done
        words = "" if hides else target_words(order, prompt, self._speech, is_read=is_read)
        say(self._ordered, words)
        proposed = None
        if isinstance(self._input, AdditionInput) and prompt.eye is not None:
            proposed = proposal(order, prompt.eye)
            self._input.propose_surface(proposed.surface)
        surface = surface_words(proposed, hides_order=hides)
        self._notes.show_notes(now, surface, keeps_quiet=hides)

    def _show_verdict(self, now: PromptStanding, *, hides: bool) -> None:
        measured = tuple(one for one in now.findings if one.limit is not None)
        self._gauges.show_findings(measured, hides_order=hides)
        self._halves.setStretch(1, 1 if measured else 0)
        (self._notes_beside if measured else self._notes_below).addWidget(self._notes)
        self._verdict.show_findings(now, keeps_quiet=hides)
        assert self._standing is not None  # noqa: S101  (shown before)
        self._correcting.show_standing(self._standing, now.prompt, keeps_quiet=hides)

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

    def offer_next(self) -> None:
        """Puts the cursor where Enter goes on."""
        self._next.setFocus()

    def take_correction(self) -> None:
        """Puts the cursor where Enter accepts the correction proposed, where there is one."""
        self._correcting.take_focus()

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
