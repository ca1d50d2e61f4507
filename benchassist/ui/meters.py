"""The lens meters of the workshop: which one is used, and its daily check step by step."""

from collections.abc import Callable
from datetime import datetime
from decimal import Decimal

from PySide6.QtCore import Signal
from PySide6.QtWidgets import (
    QDialog,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QListWidget,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from benchassist.guide.metercheck import MeterStep, Taken
from benchassist.job.instrument import Instrument, Speech
from benchassist.job.signoff import Person
from benchassist.store.instruments import MeterCheck
from benchassist.ui.inputs import specs
from benchassist.ui.inputs.row import NumberRow
from benchassist.ui.inputs.segments import Segments

_LONGEST_NAME = 60
"""Each reading names its meter together with when it was checked, on one line."""

_SPEECHES = ((Speech.DRUM.value, "Manual, drum"), (Speech.DISPLAY.value, "Digital, display"))
_STEPS = {Speech.DRUM: Decimal("0.125"), Speech.DISPLAY: Decimal("0.01")}
_YES, _NO = "yes", "no"


class MetersSheet(QDialog):
    """The lens meters known here; one is chosen, a new one is named, each can be checked.

    Signals:
        chosen: the name of the meter that is read from now on.
        check_asked: the Instrument whose daily check is to begin.
    """

    chosen = Signal(str)
    check_asked = Signal(object)

    def __init__(
        self, known: tuple[Instrument, ...], used: str, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle("Lens meters")
        self.setMinimumWidth(560)
        self._known = known
        self._list = QListWidget()
        self._list.setAccessibleName("Lens meters")
        self._list.addItems([_line(one, used) for one in known])
        self._list.itemActivated.connect(self._choose)
        if known:
            self._list.setCurrentRow(0)
        self._name = QLineEdit()
        self._name.setMaxLength(_LONGEST_NAME)
        self._name.setAccessibleName("Name of a new lens meter")
        self._name.setPlaceholderText("Name of a new lens meter")
        self._speech = Segments(_SPEECHES)
        self._speech.set_value(Speech.DISPLAY)
        self._problem = QLabel()
        self._problem.setProperty("role", "error")
        self._lay_out()

    def _lay_out(self) -> None:
        title = QLabel("Lens meters")
        title.setProperty("role", "title")
        column = QVBoxLayout(self)
        column.setContentsMargins(32, 24, 32, 24)
        column.setSpacing(12)
        column.addWidget(title)
        column.addWidget(self._list)
        self._list.setVisible(bool(self._known))
        none_yet = QLabel("None is named yet. Name one here, then check it.")
        none_yet.setProperty("role", "caption")
        none_yet.setVisible(not self._known)
        column.addWidget(none_yet)
        buttons = QHBoxLayout()
        for words, does in (("&Use this one", self._choose), ("&Check it now", self._check)):
            button = QPushButton(words)
            button.clicked.connect(does)
            button.setEnabled(bool(self._known))
            buttons.addWidget(button)
        buttons.addStretch(1)
        column.addLayout(buttons)
        line = QHBoxLayout()
        line.addWidget(self._name, 1)
        line.addWidget(self._speech)
        column.addLayout(line)
        column.addWidget(self._problem)
        new = QPushButton("&New: check it now")
        new.clicked.connect(self._begin_new)
        column.addWidget(new)

    def _choose(self) -> None:
        self.chosen.emit(self._known[self._list.currentRow()].name)
        self.accept()

    def _check(self) -> None:
        self.check_asked.emit(self._known[self._list.currentRow()])
        self.accept()

    def _begin_new(self) -> None:
        speech = Speech(self._speech.value())
        new = Instrument(name=self._name.text(), speech=speech, step=_STEPS[speech])
        if not new.name or any(one.name == new.name for one in self._known):
            self._problem.setText("Give the new meter a name of its own.")
            self._name.setFocus()
            return
        self.check_asked.emit(new)
        self.accept()


def _line(meter: Instrument, used: str) -> str:
    state = "not checked today"
    if meter.checked is not None:
        zero = f", zero {meter.zero:+.2f} D taken off" if meter.zero else ""
        state = f"checked {meter.checked.astimezone():%H:%M}{zero}"
    mark = "in use, " if meter.name == used else ""
    return f"{meter.name}: {mark}{state}"


class CheckSheet(QDialog):
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
        super().__init__(parent)
        self.setWindowTitle(f"Daily check of {meter.name}")
        self.setMinimumSize(560, 420)
        self._meter = meter
        self._person, self._clock = who
        self._steps = tuple(step for step in steps if step.is_for(meter.speech))
        self._at = 0
        self._said: dict[Taken, str] = {}
        self._read: dict[Taken, tuple[Decimal | None, ...]] = {}
        self._title = _label("title")
        self._ask = _label("lead")
        self._how = _label("sentence")
        self._holder = QVBoxLayout()
        self._input: NumberRow | Segments | None = None
        self._problem = _label("error")
        self._go = QPushButton("Next")
        self._go.setProperty("role", "primary")
        self._go.setDefault(True)
        self._go.clicked.connect(self._take)
        self._lay_out()
        self._show()

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(32, 24, 32, 24)
        column.setSpacing(12)
        for label in (self._title, self._ask, self._how):
            column.addWidget(label)
        column.addLayout(self._holder)
        column.addWidget(self._problem)
        column.addStretch(1)
        column.addWidget(self._go)

    def _show(self) -> None:
        step = self._steps[self._at]
        self._title.setText(f"{self._at + 1} of {len(self._steps)}: {step.title}")
        self._ask.setText(step.ask)
        self._how.setText(f"{step.how} {step.why} {step.fault}".strip())
        self._problem.setText("")
        if self._input is not None:
            self._holder.removeWidget(self._input)
            self._input.deleteLater()
        self._input = _input_for(step)
        if self._input is None:
            self._go.setFocus()
            return
        self._holder.addWidget(self._input)
        if isinstance(self._input, NumberRow):
            self._input.finished.connect(self._take)
            self._input.setFocus()
        else:
            self._input.focus_chosen()

    def _take(self) -> None:
        """Keeps what the step asks for and goes on, or says what is missing."""
        step = self._steps[self._at]
        if isinstance(self._input, NumberRow):
            fields = self._input.fields()
            if not all([field.take() for field in fields]):  # noqa: C419  (each must be taken)
                return
            self._read[step.takes] = self._input.values()
            is_known = all(value is not None for value in self._input.values())
            if not is_known and step.takes is Taken.ZERO:
                self._problem.setText("Enter what the meter shows without a lens.")
                return
        elif isinstance(self._input, Segments):
            if not self._input.value():
                self._problem.setText("Choose one of the two.")
                return
            self._said[step.takes] = self._input.value()
        self._at += 1
        if self._at < len(self._steps):
            self._show()
        else:
            self.checked.emit(self._made())
            self.accept()

    def _made(self) -> MeterCheck:
        zero = self._read.get(Taken.ZERO, (Decimal(0),))[0] or Decimal(0)
        ordered, read = self._read.get(Taken.KNOWN_LENS, (None, None))
        eyepiece = self._said.get(Taken.EYEPIECE)
        return MeterCheck(
            instrument=self._meter.name,
            speech=self._meter.speech,
            step=self._meter.step,
            at=self._clock(),
            person=self._person,
            eyepiece=None if eyepiece is None else eyepiece == _YES,
            zero=zero,
            axis_line=self._said.get(Taken.AXIS_LINE) == _YES,
            known_ordered=ordered,
            known_read=read,
            accepted=self._said.get(Taken.ACCEPTED) == _YES,
        )


def _input_for(step: MeterStep) -> NumberRow | Segments | None:
    match step.takes:
        case Taken.ZERO:
            return NumberRow((specs.dioptre("Shown without a lens", in_eighths=True),))
        case Taken.KNOWN_LENS:
            known = specs.dioptre("Marked on the lens")
            return NumberRow((known, specs.dioptre("Shown by the meter", in_eighths=True)))
        case Taken.EYEPIECE:
            return Segments(((_YES, "Focused"), (_NO, "Not focused")))
        case Taken.AXIS_LINE:
            return Segments(((_YES, "Along the line"), (_NO, "Across it")))
        case Taken.ACCEPTED:
            return Segments(((_YES, "May be used today"), (_NO, "Not to be used")))
        case Taken.NOTHING:
            return None


def _label(role: str) -> QLabel:
    label = QLabel()
    label.setProperty("role", role)
    label.setWordWrap(True)
    return label
