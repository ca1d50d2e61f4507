"""The sheet of symptoms: pick what is seen, type the offset, get what to do."""

from decimal import Decimal

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QHBoxLayout,
    QListWidget,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from benchassist.guide.symptoms import LARGEST_OFFSET, Adjustment, Symptom, advise
from benchassist.job.order import Order
from benchassist.optics.eye import Eye
from benchassist.ui.inputs.number import NumberInput
from benchassist.ui.inputs.parsing import NumberSpec
from benchassist.ui.inputs.segments import Segments
from benchassist.ui.labels import say, text_label
from benchassist.ui.raised import RaisedSheet

_SIDES = ((Eye.RIGHT.value, "&Right"), (Eye.LEFT.value, "&Left"))
_WIDTH, _HEIGHT, _LIST_WIDTH, _OFFSET_WIDTH = 960, 600, 330, 340
"""Room for the list beside two causes, px."""

_NOTHING = "Nothing is changed here: what was carried out is logged at its prompt."


class SymptomsSheet(RaisedSheet):
    """What is seen on the left; what to do on the right, as soon as it can be said."""

    def __init__(
        self,
        symptoms: tuple[Symptom, ...],
        order: Order,
        prompt_id: str = "",
        cautions: tuple[str, ...] = (),
        parent: QWidget | None = None,
    ) -> None:
        """Makes the sheet.

        Args:
            symptoms: what can be picked.
            order: whose frame and PD the amounts are reckoned from.
            prompt_id: the prompt it is opened from; a symptom of that check is picked.
            cautions: what this frame and its mounting never stand, whatever is seen.
            parent: the window below.
        """
        super().__init__("Symptoms", "", parent)
        self.resize(_WIDTH, _HEIGHT)
        self._symptoms, self._order, self._cautions = symptoms, order, cautions
        self._list = QListWidget()
        self._list.setAccessibleName("What is seen or said")
        self._list.addItems([symptom.title for symptom in symptoms])
        self._list.setFixedWidth(_LIST_WIDTH)
        self._list.currentRowChanged.connect(self._on_picked)
        self._list.itemActivated.connect(self._go_on)
        self._sides = Segments(_SIDES)
        self._sides.chosen.connect(lambda _: self._show_advice())
        self._offset: NumberInput | None = None
        self._holder = QVBoxLayout()
        self._advice = QVBoxLayout()
        self._lay_out()
        self._list.setCurrentRow(self._first(prompt_id))
        self._list.setFocus()

    def _lay_out(self) -> None:
        asked = QHBoxLayout()
        asked.setSpacing(16)
        asked.addWidget(self._sides, 0, Qt.AlignmentFlag.AlignBottom)
        asked.addLayout(self._holder)
        asked.addStretch(1)
        told = QWidget()
        told.setLayout(self._advice)
        self._advice.setContentsMargins(0, 0, 8, 0)
        self._advice.setSpacing(6)
        scroll = QScrollArea()
        scroll.setWidgetResizable(True)
        scroll.setFrameShape(QScrollArea.Shape.NoFrame)
        scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        scroll.setWidget(told)
        right = QVBoxLayout()
        right.setSpacing(12)
        self.column.removeWidget(self.heading)
        right.addWidget(self.heading)
        right.addLayout(asked)
        right.addWidget(scroll, 1)
        right.addWidget(text_label("caption", _NOTHING))
        row = QHBoxLayout()
        row.setSpacing(24)
        row.addWidget(self._list)
        row.addLayout(right, 1)
        self.column.setContentsMargins(24, 24, 24, 16)
        self.column.addLayout(row, 1)

    def _first(self, prompt_id: str) -> int:
        fitting = (
            at for at, symptom in enumerate(self._symptoms) if symptom.belongs_to(prompt_id)
        )
        return next(fitting, 0)

    def _symptom(self) -> Symptom:
        return self._symptoms[self._list.currentRow()]

    def _on_picked(self) -> None:
        """Another symptom: side and offset are asked anew, for they are of the one before."""
        symptom = self._symptom()
        say(self.heading, symptom.title)
        self._sides.set_value("")
        self._sides.setVisible(symptom.asks_side)
        if self._offset is not None:
            self._holder.removeWidget(self._offset)
            self._offset.hide()
            self._offset.deleteLater()
            self._offset = None
        if symptom.label:
            self._offset = self._made_offset(symptom)
        self._show_advice()

    def _made_offset(self, symptom: Symptom) -> NumberInput:
        spec = NumberSpec(symptom.label, "mm", Decimal(0), LARGEST_OFFSET, places=1)
        field = NumberInput(spec)
        field.setMaximumWidth(_OFFSET_WIDTH)
        field.value_changed.connect(lambda _: self._show_advice())
        field.finished.connect(self._list.setFocus)
        field.stepped_back.connect(self._list.setFocus)
        self._holder.addWidget(field)
        self.setTabOrder(self._list, self._sides.buttons()[0])
        self.setTabOrder(self._sides.buttons()[-1], field)
        return field

    def _go_on(self) -> None:
        """Enter in the list goes on to what is asked next: the side, else the offset."""
        if self._symptom().asks_side and not self._sides.value():
            self._sides.focus_chosen()
        elif self._offset is not None:
            self._offset.setFocus()

    def _show_advice(self) -> None:
        while (item := self._advice.takeAt(0)) is not None:
            if (widget := item.widget()) is not None:
                widget.hide()
                widget.deleteLater()
        symptom = self._symptom()
        side = Eye(self._sides.value()) if self._sides.value() else None
        offset = self._offset.value() if self._offset is not None else None
        if symptom.asks_side and side is None:
            self._advice.addWidget(text_label("error", "Say first on which side: R or L."))
        for adjustment in advise(self._order, symptom, side, offset):
            for role, words in _told(adjustment):
                self._advice.addWidget(text_label(role, words))
            self._advice.addSpacing(14)
        for words in self._cautions:
            self._advice.addWidget(text_label("caption", words))
        self._advice.addStretch(1)


def _told(adjustment: Adjustment) -> tuple[tuple[str, str], ...]:
    """The lines of one cause, by the role of their type."""
    lines = (
        ("accent", f"{adjustment.cause}:"),
        ("sentence", adjustment.does),
        ("caption", adjustment.reckoned),
        ("caption", f"Caution: {adjustment.caution}"),
        ("caption", f"Watch: {adjustment.watch}"),
    )
    return tuple(line for line in lines if line[1])
