"""The tray: the jobs that wait, a field for the scanner and the search, and a new job."""

from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from typing import Any

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QPersistentModelIndex, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QComboBox,
    QHBoxLayout,
    QHeaderView,
    QPushButton,
    QTableView,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from benchassist.job.document import JobState
from benchassist.store.tray import JobRow
from benchassist.ui.inputs.line import Line
from benchassist.ui.inputs.segments import Segments
from benchassist.ui.labels import say, text_label

Index = QModelIndex | QPersistentModelIndex

_COLUMNS: tuple[tuple[str, Callable[[JobRow], str]], ...] = (
    ("Job", lambda row: row.number),
    ("Wearer", lambda row: row.wearer),
    ("Lenses", lambda row: row.design or "not stated"),
    ("State", lambda row: row.state.value),
    ("Worst finding", lambda row: row.worst),
    ("Attempt", lambda row: str(row.attempts)),
    ("Last change", lambda row: f"{row.changed.astimezone():%d %b %Y, %H:%M}"),
)
_STATES = (("", "All"), *((state.value, state.value.capitalize()) for state in JobState))
_SPANS = (("any time", None), ("today", 1), ("last 7 days", 7), ("last 30 days", 30))


class TrayModel(QAbstractTableModel):
    """The rows found, one job a row."""

    def __init__(self) -> None:
        super().__init__()
        self._rows: tuple[JobRow, ...] = ()

    def set_rows(self, rows: tuple[JobRow, ...]) -> None:
        """Shows these rows."""
        self.beginResetModel()
        self._rows = rows
        self.endResetModel()

    def rows(self) -> tuple[JobRow, ...]:
        """The rows shown."""
        return self._rows

    def number(self, row: int) -> str:
        """The job number in a row."""
        return self._rows[row].number

    @override
    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008  (Qt's default)
        return 0 if parent.isValid() else len(self._rows)

    @override
    def columnCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008
        return 0 if parent.isValid() else len(_COLUMNS)

    @override
    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        if role in {Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.AccessibleTextRole}:
            return _COLUMNS[index.column()][1](self._rows[index.row()])
        return None

    @override
    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole
    ) -> Any:
        if orientation is Qt.Orientation.Horizontal and role == Qt.ItemDataRole.DisplayRole:
            return _COLUMNS[section][0]
        return None


class TrayPage(QWidget):
    """The jobs, found by number or wearer, state and date.

    Signals:
        opened: the number of a job to open.
        begun: the number of a new job.
        entered: what was scanned or typed, with Enter.
        searched: the search changed; call `show_rows` with what it finds.
    """

    opened = Signal(str)
    begun = Signal(str)
    entered = Signal(str)
    searched = Signal()

    def __init__(self, clock: Callable[[], datetime], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._clock = clock
        self._model = TrayModel()
        self._search = Line("Search or scan")
        self._search.setPlaceholderText("Scan or type a job number, or a wearer's name")
        self._search.textChanged.connect(self.searched)
        self._search.finished.connect(self._on_enter)
        self._new = QPushButton("New job from this number")
        self._new.setProperty("role", "primary")
        self._new.clicked.connect(lambda: self.begun.emit(self._search.text().strip()))
        self._states = Segments(_STATES)
        self._states.set_value("")
        self._states.chosen.connect(self.searched)
        self._span = QComboBox()
        self._span.setAccessibleName("Changed")
        self._span.addItems([name for name, _ in _SPANS])
        self._span.currentIndexChanged.connect(self.searched)
        self._table = self._make_table()
        none = "No job is found. Type a number and choose New job."
        self._empty = text_label("caption", none, wraps=False)
        self._problem = text_label("error")
        self._problem.hide()
        self._lay_out()

    def _make_table(self) -> QTableView:
        table = QTableView()
        table.setModel(self._model)
        table.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        table.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        table.setShowGrid(False)
        table.setAccessibleName("Jobs")
        table.verticalHeader().hide()
        table.verticalHeader().setDefaultSectionSize(40)
        table.horizontalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Stretch)
        table.horizontalHeader().setHighlightSections(False)
        table.horizontalHeader().setDefaultAlignment(
            Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
        )
        table.activated.connect(lambda index: self.opened.emit(self._model.number(index.row())))
        return table

    def _lay_out(self) -> None:
        top = QHBoxLayout()
        top.setSpacing(12)
        top.addWidget(self._search, 1)
        top.addWidget(self._new)
        filters = QHBoxLayout()
        filters.setSpacing(12)
        filters.addWidget(self._states, 1)
        filters.addWidget(text_label("caption", "Changed", wraps=False))
        filters.addWidget(self._span)
        column = QVBoxLayout(self)
        column.setContentsMargins(48, 32, 48, 32)
        column.setSpacing(12)
        column.addWidget(text_label("title", "The tray", wraps=False))
        column.addLayout(top)
        column.addWidget(self._problem)
        column.addLayout(filters)
        column.addWidget(self._table, 1)
        column.addWidget(self._empty)

    def text(self) -> str:
        """What is searched for."""
        return self._search.text().strip()

    def set_text(self, text: str) -> None:
        """Searches for a text."""
        self._search.setText(text)

    def state(self) -> JobState | None:
        """The state searched for; None for all."""
        value = self._states.value()
        return JobState(value) if value else None

    def since(self) -> datetime | None:
        """The earliest change searched for; None for any time."""
        days = _SPANS[self._span.currentIndex()][1]
        if days is None:
            return None
        today = self._clock().astimezone().replace(hour=0, minute=0, second=0, microsecond=0)
        return (today - timedelta(days=days - 1)).astimezone(UTC)

    def show_rows(self, rows: tuple[JobRow, ...]) -> None:
        """Shows what the search found."""
        self._model.set_rows(rows)
        self._empty.setVisible(not rows)
        if rows:
            self._table.selectRow(0)

    def rows(self) -> tuple[JobRow, ...]:
        """What the search found."""
        return self._model.rows()

    def choose_row(self) -> None:
        """Puts the cursor into the list, for a person to choose from."""
        self._table.setFocus()

    def show_problem(self, sentence: str) -> None:
        """Shows what is wrong with what was typed; the text stays."""
        say(self._problem, sentence)

    def take_focus(self) -> None:
        """Puts the cursor where the scanner types."""
        self._search.setFocus()
        self._search.selectAll()

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Down and self._search.hasFocus():
            self._table.setFocus()
        else:
            super().keyPressEvent(event)

    def _on_enter(self) -> None:
        if self.text():
            self.entered.emit(self.text())
        elif self._model.rowCount():
            self._table.setFocus()
