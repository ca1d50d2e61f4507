"""The bench: the rail, the page of the present prompt and the hint, kept in step."""

from dataclasses import replace

from PySide6.QtCore import QTimer, Signal
from PySide6.QtWidgets import QHBoxLayout, QStackedWidget, QVBoxLayout, QWidget

from benchassist.guide.flow import Standing
from benchassist.guide.prompts import Kind, Prompt, StepId
from benchassist.guide.reopening import Done
from benchassist.job.instrument import Speech
from benchassist.job.order import Order
from benchassist.people.roles import Act
from benchassist.records.advice import load_teaching
from benchassist.store.settings import Settings
from benchassist.ui.actions import Command
from benchassist.ui.desk import Desk
from benchassist.ui.hint import HintPanel
from benchassist.ui.pages.ask import AskPage
from benchassist.ui.pages.base import Page
from benchassist.ui.pages.order import OrderPage
from benchassist.ui.pages.record import RecordPage
from benchassist.ui.rail import Rail
from benchassist.ui.strip import TopStrip
from benchassist.ui.theme import Theme
from benchassist.verdicts.diagnose.telling import SlipQuestion, about_any
from benchassist.verdicts.finding import State

_ABOUT_MATERIALS = frozenset({"bench.identify"})
"""Prompts without a correction where the hint also says what the materials bear."""

_CARE_OF_MATERIALS = "handover.care-material"

_UNREAD = "A field cannot be taken. Correct it, or press Escape to put back what it held."

_SLIPS_AFTER_MS = 40
"""Looking for slips takes longer than a picture may; the verdict is painted first."""


class Bench(QWidget):
    """One job, one prompt at a time.

    Signals:
        command_asked: a Command that the window carries out.
        signed: an Act that the person wants to carry out on the record.
        told: a sentence for the status line.
        form_chosen: (kind of prompt, key of the form) in which readings are given from now on.
    """

    command_asked = Signal(object)
    signed = Signal(object)
    told = Signal(str)
    form_chosen = Signal(str, str)

    def __init__(self, theme: Theme, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self._session = desk.session
        self._current = ""
        self._strip = TopStrip()
        self._rail = Rail(theme)
        self._order = OrderPage(desk.rule_set_choices(), desk.language_choices())
        self._ask = AskPage(theme)
        self._record = RecordPage(theme)
        self._pages = QStackedWidget()
        self._hint = HintPanel(theme)
        self._slips_due = QTimer(self, singleShot=True, interval=_SLIPS_AFTER_MS)
        self._lay_out()
        self._connect()
        self._use_settings(desk.settings)

    def _lay_out(self) -> None:
        for page in (self._order, self._ask, self._record):
            self._pages.addWidget(page)
        line = QHBoxLayout()
        line.setSpacing(0)
        line.addWidget(self._rail)
        line.addWidget(self._pages, 1)
        line.addWidget(self._hint)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self._strip)
        column.addLayout(line, 1)

    def _connect(self) -> None:
        self._session.changed.connect(self._show)
        self._slips_due.timeout.connect(self._show_slips)
        self._desk.settings_changed.connect(self._use_settings)
        self._rail.chosen.connect(self.open_step)
        self._strip.tray_asked.connect(lambda: self.command_asked.emit(Command.TRAY))
        self._strip.person_asked.connect(lambda: self.command_asked.emit(Command.PERSON))
        for page in (self._order, self._ask, self._record):
            page.proposed.connect(self._session.propose)
            page.next_asked.connect(self.go_next)
            page.back_asked.connect(self.go_back)
            page.prompt_asked.connect(self.go_to)
        self._order.confirmed.connect(self._session.confirm)
        self._ask.corrected.connect(self._correct)
        self._ask.form_chosen.connect(self.form_chosen)
        self._record.signed.connect(self.signed)
        self._record.paper_asked.connect(self.command_asked)

    def open_first(self) -> None:
        """Shows the first prompt that is still open, or the record when none is."""
        standing = self._session.standing
        if standing is None:
            return
        prompt = standing.next_open(None)
        self._enter(prompt.id if prompt else standing.prompts[-1].prompt.id)

    def open_step(self, step: StepId) -> None:
        """Shows the first open prompt of a step, or its first one."""
        standing = self._session.standing
        if standing is None:
            return
        prompts = standing.step(step).prompts
        found = next((one for one in prompts if not one.is_done), prompts[0])
        self.go_to(found.prompt.id)

    def go_to(self, prompt_id: str) -> None:
        """Shows a prompt, unless a field of the present one cannot be read."""
        if self.settle():
            self._enter(prompt_id)

    def go_next(self) -> None:
        """Shows the next open prompt."""
        standing = self._session.standing
        prompt = standing.next_open(self._current) if standing else None
        if prompt is None:
            self.open_step(StepId.RECORD)
        else:
            self.go_to(prompt.id)

    def go_back(self) -> None:
        """Shows the prompt before the present one."""
        standing = self._session.standing
        prompt = standing.previous(self._current) if standing else None
        if prompt is not None:
            self.go_to(prompt.id)

    def current(self) -> Prompt | None:
        """The prompt in view."""
        standing = self._session.standing
        found = standing.prompt(self._current) if standing else None
        return found.prompt if found else None

    def another(self) -> None:
        """Begins a further reading of the present point."""
        self._page.another()

    def press(self, letter: str) -> bool:
        """Answers the present prompt by a letter; whether it takes letters."""
        return self._page.press(letter)

    def show_problem(self, sentence: str) -> None:
        """Shows on the record page why a name was not put to the job."""
        self._record.show_problem(sentence)

    def take_focus(self) -> None:
        """Puts the cursor where the person types next."""
        self._page.take_focus()

    def settle(self) -> bool:
        """Takes whatever is still being typed; says so when it must not be left."""
        if self._page.settle():
            return True
        self.told.emit(_UNREAD)
        return False

    def take_correction(self) -> None:
        """Puts the cursor on the correction proposed for what is in view."""
        if self._page is self._ask:
            self._ask.take_correction()

    def _correct(self, done: Done) -> None:
        if not self._session.correct(done) or self._session.standing is None:
            return
        step = self._session.standing.step(StepId(done.check.partition(".")[0]))
        again = [item.prompt.id for item in step.prompts if item.again_because]
        if again and again[0] != self._current:
            self._ask.offer_next()
        else:
            self._page.take_focus()

    @property
    def _page(self) -> Page:
        page = self._pages.currentWidget()
        assert isinstance(page, Page)  # noqa: S101  (only pages were added)
        return page

    def _enter(self, prompt_id: str) -> None:
        self._current = prompt_id
        if self._session.standing is not None:
            self._show(self._session.standing)
        self._page.take_focus()

    def _show(self, standing: Standing) -> None:
        prompt = self.current()
        if prompt is None:
            following = standing.next_open(None)
            prompt = following or standing.prompts[-1].prompt
            self._current = prompt.id
        meter = self._session.meter
        self._ask.set_meter(
            self._session.meter_key,
            meter.speech if meter else self._usual_speech(),
            meter.cut_step if meter else None,
        )
        self._strip.show_standing(standing)
        if self._session.limits is not None:
            self._strip.show_rules(self._session.limits)
        self._strip.show_person(self._session.person)
        self._rail.show_standing(standing, prompt.step)
        page = self._page_for(prompt)
        page.show_standing(standing, prompt)
        if page is self._order:
            self._order.show_questions(self._desk.questions())
            if self._session.limits is not None:
                self._order.show_rules(self._session.limits.rule_set)
        if page is self._record:
            self._record.show_acts({act: self._session.refusal(act) for act in Act})
        self._pages.setCurrentWidget(page)
        self._show_hint(standing, prompt)

    def _usual_speech(self) -> Speech:
        """How powers are given where no lens meter was chosen: as they were typed last."""
        form = self._desk.settings.forms.get(Kind.POWER.value, Speech.DRUM.value)
        return Speech(form) if form in tuple(Speech) else Speech.DRUM

    def _page_for(self, prompt: Prompt) -> Page:
        match prompt.kind:
            case Kind.FORM:
                return self._order
            case Kind.SIGN:
                return self._record
            case _:
                return self._ask

    def _show_hint(self, standing: Standing, prompt: Prompt) -> None:
        notes = self._desk.guide.notes_for(standing.job.order)
        about = tuple(note.words for note in notes)
        is_worked = bool(prompt.remedies) or prompt.id in _ABOUT_MATERIALS
        told = _with_care(prompt, standing.job.order, self._desk.guide.language)
        self._hint.show_prompt(told, about if is_worked else ())
        now = standing.prompt(prompt.id)
        findings = now.findings if now else ()
        self._hint.show_rules(findings)
        if self._outside():
            self._slips_due.start()
        else:
            self._slips_due.stop()
            self._tell_slips(())

    def _outside(self) -> frozenset[str]:
        """Keys of what is outside at the prompt in view; on the record page, in the job."""
        standing = self._session.standing
        if standing is None:
            return frozenset()
        if self._page is self._record:
            return frozenset(one.key for one in standing.outside)
        now = standing.prompt(self._current)
        if now is None or (self._desk.settings.read_first and not now.is_done):
            return frozenset()
        return frozenset(one.key for one in now.findings if one.state is State.OUTSIDE)

    def _show_slips(self) -> None:
        """Shows what would explain the readings in view, as questions."""
        outside = self._outside()
        asked = self._desk.slip_questions() if outside else ()
        self._tell_slips(about_any(asked, outside))

    def _tell_slips(self, asked: tuple[SlipQuestion, ...]) -> None:
        is_record = self._page is self._record
        sentences = () if is_record else tuple(one.sentence for one in asked)
        self._hint.show_slips(sentences)
        self._record.show_slips(asked if is_record else ())
        self._ask.show_asked(is_asked=bool(sentences) and not self._desk.settings.hint_open)

    def _use_settings(self, settings: Settings) -> None:
        self._hint.setVisible(settings.hint_open)
        if self._session.standing is not None:
            self._show_slips()
        self._strip.show_modes(reads_first=settings.read_first, guarded=settings.guarded)
        self._ask.set_forms(dict(settings.forms))
        self._ask.set_reads_first(reads_first=settings.read_first)


def _with_care(prompt: Prompt, order: Order, language: str) -> Prompt:
    """The prompt about care of materials with what is told of those of this pair alone."""
    if prompt.id != _CARE_OF_MATERIALS:
        return prompt
    told = load_teaching(language).of_materials(order)
    return replace(prompt, how="\n\n".join((prompt.how, *told)))
