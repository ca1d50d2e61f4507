"""The lines read on a chart or card, with the card, the distance, and how it all compares."""

from PySide6.QtWidgets import QBoxLayout, QGridLayout
from typing_extensions import override

from benchassist.job.acuity import Acuity, Seeing
from benchassist.ui.inputs.check import CheckInput
from benchassist.ui.inputs.line import Line
from benchassist.ui.inputs.number import NumberInput
from benchassist.ui.inputs.specs import centimetre
from benchassist.ui.labels import caption
from benchassist.verdicts.worn_acuity import chosen_by_lines

_HEADS = {Seeing.RIGHT: "Right eye", Seeing.LEFT: "Left eye", Seeing.BOTH: "Both"}
_FIELDS = (("read", "reads"), ("expected", "expected"))
_CARD_WIDTH = 150
_LINE_WIDTH, _LINE_HEIGHT = 76, 34
_LONGEST = 16
"""Characters of a line; '20/25 +2' and 'logMAR −0.08' fit."""


class AcuityInput(CheckInput):
    """The answer to a prompt on vision: lines in any notation, from which the choice follows.

    The choice can still be made by hand where no lines are written down, so the cursor begins
    there; Alt+C goes to the card and Enter from there through all lines.
    """

    @override
    def _lay_out(self) -> None:
        self._card = _line("Chart or card", "card used")
        self._distance = NumberInput(centimetre("Distance"), is_reading=False)
        self._lines = {
            (seeing, field): _line(f"{head}, line {words}", "")
            for field, words in _FIELDS
            for seeing, head in _HEADS.items()
        }
        super()._lay_out()
        column = self.layout()
        assert isinstance(column, QBoxLayout)  # noqa: S101  (made by the line above)
        column.insertLayout(0, self._grid())
        walk: tuple[Line | NumberInput, ...] = (
            *(self._card, self._distance),
            *self._lines.values(),
        )
        for position, field in enumerate(walk):
            field.finished.connect(lambda at=position: self._walk(walk, at + 1))
            field.stepped_back.connect(lambda at=position: self._walk(walk, at - 1))
        self._card.taken.connect(lambda text: self._change_acuity(card=text))
        self._distance.value_changed.connect(lambda cm: self._change_acuity(distance=cm))
        for (seeing, part), line in self._lines.items():
            line.taken.connect(
                lambda text, who=seeing, part=part: self._change_line(who, part, text)
            )

    def _grid(self) -> QGridLayout:
        """The card and the distance, then the lines read above those expected, eye by eye."""
        grid = QGridLayout()
        grid.setHorizontalSpacing(10)
        grid.setVerticalSpacing(4)
        grid.addWidget(caption("&Chart or card", self._card), 0, 0)
        grid.addWidget(self._card, 1, 0)
        grid.addWidget(self._distance, 0, 1, 2, 1)
        self._card.setMinimumWidth(_CARD_WIDTH)
        for row, (field, words) in enumerate(_FIELDS, start=1):
            grid.addWidget(
                caption(words.capitalize(), self._lines[Seeing.RIGHT, field]), row, 2
            )
            for column, (seeing, head) in enumerate(_HEADS.items(), start=3):
                line = self._lines[seeing, field]
                line.setMinimumSize(_LINE_WIDTH, _LINE_HEIGHT)
                line.setMaxLength(_LONGEST)
                if field == "read":
                    grid.addWidget(caption(head, line), 0, column)
                grid.addWidget(line, row, column)
        for column, stretch in enumerate((3, 1, 0, 2, 2, 2)):
            grid.setColumnStretch(column, stretch)
        self._card.setMinimumHeight(_LINE_HEIGHT)
        return grid

    @override
    def _show(self) -> None:
        super()._show()
        acuity = self.value().acuity or Acuity()
        self._card.show_text(acuity.card)
        self._distance.set_value(acuity.distance)
        for (seeing, field), line in self._lines.items():
            line.show_text(getattr(acuity.by(seeing), field))

    def _change_line(self, seeing: Seeing, field: str, text: str) -> None:
        before = (self.value().acuity or Acuity()).by(seeing)
        self._change_acuity(**{seeing.value: before.with_(**{field: text})})

    def _change_acuity(self, **change: object) -> None:
        """A part changed; with no line left the acuity is gone, and the choice follows."""
        acuity = (self.value().acuity or Acuity()).with_(**change)
        chosen = chosen_by_lines(acuity)
        kept = {} if not chosen else {"choice": chosen}
        self._change({"acuity": None if acuity == Acuity() else acuity, **kept})

    def _walk(self, fields: tuple[Line | NumberInput, ...], position: int) -> None:
        if position < 0:
            self.stepped_back.emit()
        elif position == len(fields):
            self.finished.emit()
        else:
            fields[position].setFocus()


def _line(name: str, placeholder: str) -> Line:
    line = Line(name)
    line.setProperty("role", "form")
    line.setPlaceholderText(placeholder)
    return line
