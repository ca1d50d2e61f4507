"""The daily check of one lens meter, step by step."""

from collections.abc import Callable
from dataclasses import replace
from datetime import datetime
from decimal import Decimal

from PySide6.QtCore import QEvent, Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget
from typing_extensions import override

from benchassist.guide.metercheck import MeterStep, Taken
from benchassist.job.instrument import Instrument, Speech
from benchassist.job.signoff import Person
from benchassist.store.instruments import MeterCheck, faults
from benchassist.ui.inputs import specs
from benchassist.ui.inputs.parsing import NumberSpec
from benchassist.ui.inputs.row import NumberRow, Values
from benchassist.ui.inputs.segments import Segments
from benchassist.ui.inputs.text import TextInput
from benchassist.ui.labels import say, text_label
from benchassist.ui.raised import RaisedSheet, button

_YES, _NO = "yes", "no"
_WIDTH, _HEIGHT = 600, 440
"""The sheet before a longer text makes it grow, px."""


class CheckSheet(RaisedSheet):
    """The daily check of one lens meter, one step at a time.

    Signals:
        checked: the MeterCheck, whether it was accepted or not.
    """

    checked = Signal(object)

    def __init__(
        self,
        meter: Instrument,
        steps: tuple[MeterStep, ...],
        who: tuple[Person, Callable[[], datetime]],
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(f"Daily check of {meter.name}", "", parent)
        self.setMinimumSize(_WIDTH, _HEIGHT)
        self.resize(_WIDTH, _HEIGHT)
        self._meter = meter
        self._person, self._clock = who
        self._steps = tuple(step for step in steps if step.is_for(meter.speech))
        self._at = 0
        self._said: dict[Taken, str] = {}
        self._read: dict[Taken, Values] = {}
        self._ask = text_label("lead")
        self._how = text_label("sentence")
        self._holder = QVBoxLayout()
        self._input: NumberRow | Segments | None = None
        self._remark = TextInput("Remark")
        self._remark.finished.connect(self._take)
        self._remark.stepped_back.connect(self._go_back)
        self._faults = text_label("error")
        self._go = button("Next", self._take, "primary")
        self._back = button("&Back", self._go_back)
        self._lay_out()
        self._show()

    def _lay_out(self) -> None:
        self._go.setDefault(True)
        self._back.setAutoDefault(False)
        column = self.column
        for label in (self._ask, self._how):
            column.addWidget(label)
        column.addLayout(self._holder)
        for widget in (self._remark, self.problem, self._faults):
            column.addWidget(widget)
        column.addStretch(1)
        buttons = QHBoxLayout()
        buttons.addWidget(self._back)
        buttons.addWidget(self._go, 1)
        column.addLayout(buttons)

    def _show(self) -> None:
        step = self._steps[self._at]
        say(self.heading, f"{self._at + 1} of {len(self._steps)}: {step.title}")
        self._ask.setText(step.ask)
        self._how.setText(f"{step.how} {step.why} {step.fault}".strip())
        self.complain("")
        self._back.setVisible(self._at > 0)
        self._remark.setVisible(step.takes is Taken.ACCEPTED)
        wrong = faults(self._so_far())
        say(self._faults, "\n".join(wrong))
        self._show_input(step, is_faulty=bool(wrong))

    @override
    def event(self, event: QEvent) -> bool:
        """Makes room for every sentence; never less again, so that nothing jumps."""
        is_laid_out_anew = event.type() == QEvent.Type.LayoutRequest
        is_handled = super().event(event)
        if is_laid_out_anew:
            self._grow()
        return is_handled

    def _grow(self) -> None:
        layout = self.layout()
        needed = layout.totalHeightForWidth(self.width()) if layout else 0
        self.resize(self.width(), max(self.height(), needed))

    def _show_input(self, step: MeterStep, *, is_faulty: bool) -> None:
        """Puts in the input of a step, with what was entered before."""
        if self._input is not None:
            self._holder.removeWidget(self._input)
            self._input.hide()
            self._input.deleteLater()
        self._input = made = _input_for(step, self._meter)
        if made is None:
            self._go.setFocus()
            return
        self._holder.addWidget(made)
        if isinstance(made, NumberRow):
            made.set_values(self._read.get(step.takes, (None,) * len(made.fields())))
            made.finished.connect(self._take)
            made.stepped_back.connect(self._go_back)
            made.setFocus()
            return
        made.set_value(self._said.get(step.takes, ""))
        if step.takes is Taken.ACCEPTED and is_faulty:
            made.buttons()[0].setEnabled(False)
            made.set_value(_NO)
        made.focus_chosen()

    def _go_back(self) -> None:
        if self._at > 0:
            self._at -= 1
            self._show()

    def _take(self) -> None:
        """Keeps what the step asks for and goes on, or says what is missing."""
        if not self._is_kept(self._steps[self._at].takes):
            return
        self._at += 1
        if self._at < len(self._steps):
            self._show()
        else:
            self.checked.emit(self._made())
            self.accept()

    def _is_kept(self, takes: Taken) -> bool:
        if isinstance(self._input, NumberRow):
            fields = self._input.fields()
            if not all([field.take() for field in fields]):  # noqa: C419  (each must be taken)
                return False
            self._read[takes] = self._input.values()
            return self._is_whole(_missing(takes, self._input.values()))
        if isinstance(self._input, Segments):
            self._said[takes] = self._input.value()
            return self._is_whole("" if self._input.value() else "Choose one of the two.")
        return True

    def _is_whole(self, problem: str) -> bool:
        """Shows what is missing; whether nothing is."""
        self.complain(problem)
        return not problem

    def _made(self) -> MeterCheck:
        """The check as it is logged; a meter with faults is not accepted."""
        is_accepted = self._said.get(Taken.ACCEPTED) == _YES
        check = self._so_far().with_(axis_line=self._said.get(Taken.AXIS_LINE) == _YES)
        return check.with_(accepted=is_accepted and not faults(check))

    def _so_far(self) -> MeterCheck:
        """What was found in the steps already done; nothing is held against the others."""
        (zero,) = self._read.get(Taken.ZERO, (None,))
        ordered, read = self._read.get(Taken.KNOWN_LENS, (None, None))
        eyepiece = self._said.get(Taken.EYEPIECE)
        return MeterCheck(
            instrument=self._meter.name,
            speech=self._meter.speech,
            step=self._meter.step,
            at=self._clock(),
            person=self._person,
            eyepiece=None if eyepiece is None else eyepiece == _YES,
            zero=zero or Decimal(0),
            axis_line=self._said.get(Taken.AXIS_LINE) != _NO,
            known_ordered=ordered,
            known_read=read,
            accepted=False,
            remark=self._remark.value(),
        )


def _missing(takes: Taken, values: Values) -> str:
    """What must still be entered, in a sentence; empty for nothing."""
    if takes is Taken.ZERO and None in values:
        return "Enter what the meter shows without a lens."
    if takes is Taken.KNOWN_LENS and None in values and values != (None, None):
        return "Enter both powers, or neither if no known lens was read."
    return ""


def _input_for(step: MeterStep, meter: Instrument) -> NumberRow | Segments | None:
    match step.takes:
        case Taken.ZERO:
            return NumberRow((_shown("Shown without a lens", meter),))
        case Taken.KNOWN_LENS:
            known = specs.dioptre("Marked on the lens")
            return NumberRow((known, _shown("Shown by the meter", meter)))
        case Taken.EYEPIECE:
            return Segments(((_YES, "Focused"), (_NO, "Not focused")))
        case Taken.AXIS_LINE:
            return Segments(((_YES, "Along the line"), (_NO, "Across it")))
        case Taken.ACCEPTED:
            return Segments(((_YES, "May be used today"), (_NO, "Not to be used")))
        case Taken.NOTHING:
            return None


def _shown(label: str, meter: Instrument) -> NumberSpec:
    """The field of what this meter shows: in eighths on a drum, in its steps on a display."""
    spec = specs.dioptre(label, in_eighths=meter.speech is Speech.DRUM)
    return replace(spec, step=meter.cut_step)
