"""The form of one house rule: which limit, for which lenses, what instead, and why."""

from collections.abc import Mapping

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QComboBox, QLineEdit, QVBoxLayout, QWidget

from benchassist.job.base import LONGEST_LINE
from benchassist.limits.house import HouseRule
from benchassist.limits.reading import UNITS, LimitsFile
from benchassist.limits.table import Row, Span
from benchassist.limits.words import allowed_words, cell_words
from benchassist.ui.inputs import specs
from benchassist.ui.inputs.number import NumberInput
from benchassist.ui.inputs.segments import Segments
from benchassist.ui.labels import captioned, text_label
from benchassist.ui.raised import button

_FIGURE, _SHARE, _OFF = "figure", "share", "off"
_WAYS = ((_FIGURE, "A smaller limit"), (_SHARE, "A share of it"), (_OFF, "Not judged"))
_WHOLE_ROW = "All lenses"


class HouseRuleForm(QWidget):
    """One rule as somebody puts it together.

    Signals:
        typed: the HouseRule that is to be kept; whether it may is for others to say.
    """

    typed = Signal(object)

    def __init__(self, tables: Mapping[str, LimitsFile], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._tables = tables
        self._table, self._row, self._cell = (_box() for _ in range(3))
        for file in sorted(tables.values(), key=lambda file: file.title):
            self._table.addItem(file.title, file.id)
        self._way = Segments(_WAYS)
        self._way.set_value(_FIGURE)
        self._figures = {
            unit: NumberInput(specs.limit("Limit here", unit), is_reading=False)
            for unit in UNITS
        }
        self._share = NumberInput(
            specs.share("Share of what the table allows"), is_reading=False
        )
        self._reason = QLineEdit()
        self._reason.setMaxLength(LONGEST_LINE)
        self._reason.setPlaceholderText("Printed with every verdict by this rule")
        self._problem = text_label("error")
        self._lay_out()
        self._connect()
        self._show_rows()

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        for words, field in (
            ("&Rule set", self._table),
            ("&Limit", self._row),
            ("For which l&enses", self._cell),
            ("Instead", self._way),
        ):
            self._add_named(column, words, field)
        for figure in (*self._figures.values(), self._share):
            column.addWidget(figure)
        self._add_named(column, "Rea&son", self._reason)
        column.addWidget(self._problem)
        column.addSpacing(8)
        column.addWidget(button("&Keep this rule", self._keep, "primary"))

    def _add_named(self, column: QVBoxLayout, words: str, field: QWidget) -> None:
        field.setAccessibleName(words.replace("&", ""))
        column.addLayout(captioned(words, field))

    def _connect(self) -> None:
        self._table.currentIndexChanged.connect(self._show_rows)
        self._row.currentIndexChanged.connect(self._show_cells)
        self._cell.currentIndexChanged.connect(self._show_way)
        self._way.chosen.connect(self._show_way)
        self._reason.returnPressed.connect(self._keep)

    def say(self, sentence: str) -> None:
        """Says below the fields what is wrong with the rule; an empty sentence says nothing."""
        self._problem.setText(sentence)

    def clear(self) -> None:
        """Empties what was typed; the rule set and the limit stay chosen."""
        self._reason.clear()
        for field in (*self._figures.values(), self._share):
            field.set_value(None)
        self.say("")

    def _show_rows(self) -> None:
        self._row.clear()
        for row in self._tables[self._table.currentData()].rows:
            self._row.addItem(f"{row.id}  {row.bands[0].rule.title}", row.id)

    def _show_cells(self) -> None:
        """Offers the whole row, once in each of its units, and each of its cells."""
        row = self._chosen_row()
        self._cell.clear()
        if row is None:
            return
        bands = [band for band in row.bands if band.base is not None]
        units = list(dict.fromkeys(band.unit for band in bands))
        for unit in units:
            same = [band for band in bands if band.unit == unit]
            said = f": {allowed_words(same[0])}" if len(same) == 1 else f", limits in {unit}"
            self._cell.addItem(f"{_WHOLE_ROW}{said}", (unit, frozenset()))
        if len(bands) == len(units):
            return
        for band in bands:
            words = f"{cell_words(band)}: {allowed_words(band)}"
            data = (band.unit, frozenset(band.spans))
            self._cell.addItem(words[:1].upper() + words[1:], data)

    def _show_way(self) -> None:
        """Shows the field of the chosen way, in the unit of the chosen cell."""
        way, (unit, _) = self._way.value(), self._chosen_cell()
        for of, field in self._figures.items():
            field.setVisible(way == _FIGURE and of == unit)
        self._share.setVisible(way == _SHARE)
        self._cell.setEnabled(way != _OFF)
        self.say("")

    def _chosen_row(self) -> Row | None:
        return self._tables[self._table.currentData()].row(self._row.currentData())

    def _chosen_cell(self) -> tuple[str, frozenset[Span]]:
        """The unit of the chosen cell and its edges; none while the choices change."""
        found: tuple[str, frozenset[Span]] | None = self._cell.currentData()
        return found or ("", frozenset())

    def _keep(self) -> None:
        """Tells the rule, or says below the fields what it still lacks."""
        way, (unit, spans) = self._way.value(), self._chosen_cell()
        field = {_FIGURE: self._figures[unit], _SHARE: self._share}.get(way)
        if field is not None and not field.take():
            return
        if field is not None and field.value() is None:
            self._ask("Type the figure that is to hold here.", field)
            return
        reason = self._reason.text().strip()
        if not reason:
            self._ask("Say why: the reason is printed with the verdict.", self._reason)
            return
        figure = field.value() if field is not None else None
        self.typed.emit(
            HouseRule(
                rule_set=self._table.currentData(),
                row=self._row.currentData(),
                reason=reason,
                spans=frozenset() if way == _OFF else spans,
                limit=figure if way == _FIGURE else None,
                unit=unit if way == _FIGURE else "",
                percent=figure if way == _SHARE else None,
            )
        )

    def _ask(self, sentence: str, field: QWidget) -> None:
        self.say(sentence)
        field.setFocus()


def _box() -> QComboBox:
    box = QComboBox()
    box.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
    box.setMinimumContentsLength(48)
    return box
