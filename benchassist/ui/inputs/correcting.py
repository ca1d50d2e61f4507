"""Putting a fault of the frame right: the proposal, what is done by hand, and its log."""

from decimal import Decimal

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QComboBox,
    QHBoxLayout,
    QLineEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from benchassist.guide.flow import Standing
from benchassist.guide.prompts import Prompt, Remedy
from benchassist.guide.reopening import Done
from benchassist.optics.eye import Eye
from benchassist.ui.inputs.correction_words import (
    DEGREE,
    MILLIMETRE,
    Correctable,
    correctable,
    opened_again,
)
from benchassist.ui.inputs.line import ENTER_KEYS
from benchassist.ui.inputs.number import NumberInput
from benchassist.ui.inputs.parsing import NumberSpec
from benchassist.ui.inputs.text import ChoiceInput, TextInput
from benchassist.ui.labels import say, text_label
from benchassist.ui.restyle import restyle

_SIDES = (("", "Both"), (Eye.RIGHT.value, "Right"), (Eye.LEFT.value, "Left"))
_UNITS = ((MILLIMETRE, MILLIMETRE), (DEGREE, DEGREE))
_AMOUNT = NumberSpec("By about", "", low=Decimal(0), high=Decimal(200), places=1)
_MIDDLE = ("bridge-", "worn-front")
"""How the ways of bending begin that have no side."""

_ALL_THE_SAME = (
    "It was time to stop here: log one more all the same? Press Enter once more, or leave it."
)

_LETTERS = 12
"""A list of corrections may be cut down to so many letters; below it stands the whole."""


_CHOOSE = "Choose what was done"
_CHOOSE_FIRST = "Choose first what was done: each correction opens other checks again."


class Correcting(QWidget):
    """What to do about the check in view while it is outside; takes no room otherwise.

    Signals:
        carried_out: the Done that a person logs.
        check_asked: id of the prompt that comes before the one in view.
    """

    carried_out = Signal(object)
    check_asked = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._shown: Correctable | None = None
        self._hands: _Hands | None = None
        self._sentence, self._because = text_label("sentence"), text_label("caption")
        self._refusal, self._often = text_label("sentence"), text_label("caption")
        self._first = QPushButton()
        self._first.setAutoDefault(True)
        self._first.clicked.connect(self._on_first)
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(6)
        told = QHBoxLayout()
        told.setSpacing(16)
        told.addWidget(self._sentence, 1)
        told.addWidget(self._first)
        self._column.addLayout(told)
        for label in (self._because, self._refusal, self._often):
            self._column.addWidget(label)
        self.hide()

    def show_standing(self, standing: Standing, prompt: Prompt, *, keeps_quiet: bool) -> None:
        """Shows what can be done about a prompt, or what its correction opened again.

        What a person has chosen or typed stays until the proposal changes. With `keeps_quiet`
        nothing is shown: the reading is to be taken unled.
        """
        one = None if keeps_quiet else correctable(standing, prompt)
        if one != self._shown:
            self._shown = one
            self._build_hands(one)
        again = "" if keeps_quiet else opened_again(standing, prompt)
        say(self._sentence, one.sentence if one else "")
        say(self._because, one.because if one else again)
        say(self._refusal, one.refusal if one else "")
        say(self._often, one.often if one else "")
        restyle(self._sentence, "verdict", "outside" if one and one.is_stop else "")
        restyle(self._refusal, "verdict", "outside")
        first = one.first if one else None
        self._first.setVisible(first is not None)
        self._first.setText(f"First: {first.title}" if first else "")
        self.setVisible(bool(one or again))

    def take_focus(self) -> bool:
        """Puts the cursor where Enter accepts what is proposed; whether anything is."""
        if self._shown is None:
            return False
        if self._shown.first is not None:
            self._first.setFocus()
        elif self._hands is not None:
            self._hands.take_focus()
        return self._shown.first is not None or self._hands is not None

    def _build_hands(self, one: Correctable | None) -> None:
        if self._hands is not None:
            self._column.removeWidget(self._hands)
            self._hands.hide()
            self._hands.deleteLater()
            self._hands = None
        if one is None or not one.check.remedies:
            return
        self._hands = _Hands(one, self)
        self._hands.carried_out.connect(self.carried_out)
        self._column.insertWidget(self._column.indexOf(self._often), self._hands)

    def _on_first(self) -> None:
        if self._shown is not None and self._shown.first is not None:
            self.check_asked.emit(self._shown.first.id)


class _Hands(QWidget):
    """What hands did: which correction, where, by how much, with which tool.

    Signals:
        carried_out: the Done.
    """

    carried_out = Signal(object)

    def __init__(self, one: Correctable, parent: QWidget) -> None:
        super().__init__(parent)
        self._check, self._said = one.check, one.sentence
        self._is_to_be_asked = one.is_stop
        named = [(remedy.id, remedy.does) for remedy in one.check.remedies]
        if one.remedy is None and len(named) > 1 and not one.is_stop:
            named.insert(0, ("", _CHOOSE))
        self._which = ChoiceInput("Put right", tuple(named))
        self._side = ChoiceInput("Side", _SIDES)
        self._amount = NumberInput(_AMOUNT, is_reading=False)
        self._unit = ChoiceInput("Unit", _UNITS)
        self._tool = TextInput("With")
        self._log = _Log()
        self._caution = text_label("caption")
        self._lay_out()
        self._connect()
        self._fill(one)

    def _lay_out(self) -> None:
        _may_be_cut(self._which)
        self._amount.setFixedWidth(72)
        line = QHBoxLayout()
        line.setSpacing(8)
        line.addWidget(self._which, 3)
        line.addWidget(self._side)
        line.addWidget(self._amount)
        line.addWidget(self._unit)
        line.addWidget(self._tool, 2)
        line.addWidget(self._log, 0, Qt.AlignmentFlag.AlignBottom)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(6)
        column.addLayout(line)
        column.addWidget(self._caution)

    def _connect(self) -> None:
        self._which.value_changed.connect(self._show_remedy)
        for field in (self._which, self._side, self._amount, self._unit, self._tool):
            field.finished.connect(lambda field=field: self._step(field, 1))
            field.stepped_back.connect(lambda field=field: self._step(field, -1))
        self._log.stepped_back.connect(lambda: self._step(self._log, -1))
        self._log.clicked.connect(self._on_log)

    def _step(self, field: QWidget, by: int) -> None:
        """Puts the cursor into the field before or after, passing over what is hidden."""
        order: list[QWidget] = [self._which, self._side, self._amount, self._unit]
        order += [self._tool, self._log]
        seen = [one for one in order if not one.isHidden()]
        seen[max(seen.index(field) + by, 0)].setFocus()

    def _fill(self, one: Correctable) -> None:
        self._which.set_value(one.remedy.id if one.remedy else "")
        self._side.set_value(one.side.value if one.side else "")
        self._amount.set_value(one.amount)
        self._unit.set_value(one.unit)
        self._show_remedy()

    def _remedy(self) -> Remedy | None:
        """The correction chosen; None while none is."""
        chosen = self._which.value()
        return self._check.remedy(chosen) if chosen else None

    def _show_remedy(self) -> None:
        """Says in full what the list may cut off, what to watch, and with what it is done."""
        remedy = self._remedy()
        self._tool.set_value(remedy.tool if remedy else "")
        for line in self._tool.findChildren(QLineEdit):
            line.setCursorPosition(0)
        if remedy is None:
            say(self._caution, "")
            return
        does = "" if remedy.does in self._said else remedy.does
        say(self._caution, f"{does} {remedy.caution}".strip())
        self._side.setVisible(not remedy.bend.startswith(_MIDDLE))

    def take_focus(self) -> None:
        """Puts the cursor on the button that logs."""
        self._log.setFocus()

    def _on_log(self) -> None:
        remedy = self._remedy()
        if remedy is None:
            say(self._caution, _CHOOSE_FIRST)
            self._which.setFocus()
            return
        if not self._amount.take():
            self._amount.setFocus()
            return
        if self._is_to_be_asked:
            self._is_to_be_asked = False
            self._log.setText("Log it all the same")
            say(self._caution, _ALL_THE_SAME)
            return
        amount = self._amount.value()
        side = self._side.value() if not self._side.isHidden() else None
        done = Done(
            self._check.id,
            remedy.id,
            tool=self._tool.value(),
            side=Eye(side) if side else None,
            amount=amount,
            unit=(self._unit.value() or "") if amount is not None else "",
        )
        self.carried_out.emit(done)


class _Log(QPushButton):
    """Logs by Enter; Shift+Enter goes back to the fields.

    Signals:
        stepped_back: Shift+Enter was pressed.
    """

    stepped_back = Signal()

    def __init__(self) -> None:
        super().__init__("&Carried out")
        self.setAutoDefault(True)
        self.setToolTip(
            "Logs the correction and opens again what it can disturb. C comes here, Enter logs."
        )

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        is_back = event.modifiers() & Qt.KeyboardModifier.ShiftModifier
        if event.key() in ENTER_KEYS and is_back:
            self.stepped_back.emit()
        else:
            super().keyPressEvent(event)


def _may_be_cut(choice: ChoiceInput) -> None:
    """Lets a list be narrower than its longest line."""
    for box in choice.findChildren(QComboBox):
        box.setSizeAdjustPolicy(
            QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon
        )
        box.setMinimumContentsLength(_LETTERS)
