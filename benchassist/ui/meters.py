"""The lens meters of the workshop: which one is used, and a new one with its steps."""

from decimal import Decimal

from PySide6.QtCore import Signal
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLineEdit,
    QListWidget,
    QStackedWidget,
    QWidget,
)

from benchassist.job.instrument import LONGEST_NAME, Instrument, Speech, as_shown
from benchassist.ui.inputs.segments import Segments
from benchassist.ui.labels import text_label
from benchassist.ui.raised import RaisedSheet, button

_SPEECHES = ((Speech.DRUM.value, "Manual, drum"), (Speech.DISPLAY.value, "Digital, display"))
_STEPS = {
    Speech.DRUM: (("0.125", "0.12 D (1/8)"), ("0.25", "0.25 D")),
    Speech.DISPLAY: (
        ("0.01", "0.01 D"),
        ("0.0625", "0.06 D (1/16)"),
        ("0.125", "0.12 D (1/8)"),
        ("0.25", "0.25 D"),
    ),
}
"""By how a meter gives a power, the steps on offer in D and in words, the usual one first."""

_WIDTH = 680
"""Room for every step side by side, px."""


class MetersSheet(RaisedSheet):
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
        super().__init__("Lens meters", "Lens meters", parent)
        self.setMinimumWidth(_WIDTH)
        self._known = known
        self._list = QListWidget()
        self._list.setAccessibleName("Lens meters")
        self._list.addItems([_line(one, used) for one in known])
        self._list.itemActivated.connect(self._choose)
        if known:
            self._list.setCurrentRow(0)
        self._name = QLineEdit()
        self._name.setMaxLength(LONGEST_NAME)
        self._name.setAccessibleName("Name of a new lens meter")
        self._name.setPlaceholderText("Name of a new lens meter")
        self._speech = Segments(_SPEECHES)
        self._speech.chosen.connect(self._show_steps)
        self._steps = {speech: Segments(steps) for speech, steps in _STEPS.items()}
        self._stack = QStackedWidget()
        for speech, steps in self._steps.items():
            steps.set_value(_STEPS[speech][0][0])
            self._stack.addWidget(steps)
        self._speech.set_value(Speech.DISPLAY)
        self._show_steps(Speech.DISPLAY)
        self._lay_out()

    def _lay_out(self) -> None:
        column = self.column
        column.addWidget(self._list)
        self._list.setVisible(bool(self._known))
        none_yet = text_label("caption", "None is named yet. Name one here, then check it.")
        none_yet.setVisible(not self._known)
        column.addWidget(none_yet)
        buttons = QHBoxLayout()
        for words, does in (("&Use this one", self._choose), ("&Check it now", self._check)):
            made = button(words, does)
            made.setEnabled(bool(self._known))
            buttons.addWidget(made)
        buttons.addStretch(1)
        column.addLayout(buttons)
        line = QHBoxLayout()
        line.addWidget(self._name, 1)
        line.addWidget(self._speech)
        column.addLayout(line)
        column.addLayout(self._line_of_steps())
        column.addWidget(self.problem)
        column.addWidget(button("&New: check it now", self._begin_new))

    def _line_of_steps(self) -> QHBoxLayout:
        line = QHBoxLayout()
        line.addWidget(text_label("caption", "Read in steps of", wraps=False))
        line.addWidget(self._stack, 1)
        return line

    def _show_steps(self, speech: str) -> None:
        self._stack.setCurrentWidget(self._steps[Speech(speech)])

    def _choose(self) -> None:
        self.chosen.emit(self._known[self._list.currentRow()].name)
        self.accept()

    def _check(self) -> None:
        self.check_asked.emit(self._known[self._list.currentRow()])
        self.accept()

    def _begin_new(self) -> None:
        speech = Speech(self._speech.value())
        step = Decimal(self._steps[speech].value())
        new = Instrument(name=self._name.text(), speech=speech, step=step)
        if not new.name or any(one.name == new.name for one in self._known):
            self.complain("Give the new meter a name of its own.", self._name)
            return
        self.check_asked.emit(new)
        self.accept()


def _line(meter: Instrument, used: str) -> str:
    state = "not checked today"
    if meter.checked is not None:
        zero = f", zero {as_shown(meter.zero):+.2f} D taken off" if meter.zero else ""
        state = f"checked {meter.checked.astimezone():%H:%M}{zero}"
    mark = "in use, " if meter.name == used else ""
    return f"{meter.name}: {mark}{state}, steps of {as_shown(meter.step):.2f} D"
