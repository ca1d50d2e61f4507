"""A check of the surfaces by eye: what is found is marked at its place on the lens."""

from decimal import Decimal

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QComboBox,
    QHBoxLayout,
    QListWidget,
    QPushButton,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from benchassist.geometry.plan import FrontPlan
from benchassist.geometry.zones import LensPlace, moved
from benchassist.guide.prompts import Prompt
from benchassist.job.surface import Defect, DefectKind, DefectSurface
from benchassist.optics.eye import Eye
from benchassist.ui.inputs import specs
from benchassist.ui.inputs.check import CheckInput
from benchassist.ui.inputs.line import ENTER_KEYS, Line
from benchassist.ui.inputs.number import NumberInput
from benchassist.ui.labels import caption, text_label
from benchassist.verdicts.surface import place_words

_STEPS = {
    Qt.Key.Key_Left: (-1.0, 0.0),
    Qt.Key.Key_Right: (1.0, 0.0),
    Qt.Key.Key_Up: (0.0, 1.0),
    Qt.Key.Key_Down: (0.0, -1.0),
}
_LARGE = 5.0
"""How many steps of 1 mm an arrow key goes with Shift."""

_FINEST = 2
"""A place is taken to half a millimetre: nobody points finer. Own."""

_USUAL = {
    "coating": (DefectKind.COATING, DefectSurface.FRONT),
    "edge": (DefectKind.CHIP, DefectSurface.EDGE),
}
"""What a defect is taken for at first, by the check at which it is marked."""

_LIST_HEIGHT = 64
_HELP = "Click on the lens, or: arrow keys (with Shift 5 mm), Enter marks, Delete removes"


class DefectsInput(CheckInput):
    """The answer to a check by eye, and the defects with their places.

    Signals:
        defects_changed: all defects of the pair, a tuple, after one was changed here.
        cursor_moved: nothing; `pointer` or the defect described is another.
    """

    defects_changed = Signal(object)
    cursor_moved = Signal()

    def __init__(self, prompt: Prompt, parent: QWidget | None = None) -> None:
        super().__init__(prompt, parent)
        self._check = prompt.name
        self._plan = FrontPlan()
        self._defects: tuple[Defect, ...] = ()
        self._numbers: tuple[int, ...] = ()
        self._place = LensPlace(Eye.RIGHT, 0.0, 0.0)
        self._marker = QPushButton()
        self._marker.setAutoDefault(False)
        self._marker.setAccessibleDescription(_HELP)
        self._marker.setToolTip(_HELP)
        self._marker.clicked.connect(lambda: self.take_place(self._place))
        self._marker.installEventFilter(self)
        self._list = QListWidget()
        self._list.setFixedHeight(_LIST_HEIGHT)
        self._list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._list.setAccessibleName("Defects marked")
        self._list.setToolTip("Delete removes the one chosen")
        self._list.currentRowChanged.connect(self._on_row)
        self._list.installEventFilter(self)
        self._form = _DefectForm(self)
        self._form.changed.connect(self._on_described)
        self._form.removed.connect(self._remove)
        self._add_places()
        self._show_defects()

    def _add_places(self) -> None:
        beside = QVBoxLayout()
        beside.setSpacing(4)
        beside.addWidget(self._marker)
        beside.addWidget(
            text_label("caption", "Click on the lens, or arrow keys and Enter", wraps=False)
        )
        beside.addStretch(1)
        line = QHBoxLayout()
        line.setSpacing(16)
        line.addLayout(beside)
        line.addWidget(self._list, 1)
        column = self.layout()
        assert isinstance(column, QVBoxLayout)  # noqa: S101  (made so by CheckInput)
        column.addLayout(line)
        column.addWidget(self._form)

    @property
    def pointer(self) -> LensPlace | None:
        """Where Enter would mark a defect; None while the keys are elsewhere."""
        return self._place if self._marker.hasFocus() else None

    @property
    def chosen(self) -> int:
        """The number of the defect that is described; 0 while there is none."""
        row = self._list.currentRow()
        return self._numbers[row] if 0 <= row < len(self._numbers) else 0

    def show_places(
        self, plan: FrontPlan, defects: tuple[Defect, ...], words: tuple[str, ...]
    ) -> None:
        """Shows the defects of this check without emitting.

        Args:
            plan: the spectacles on whose lenses they lie.
            defects: all defects of the pair.
            words: each of them in few words.
        """
        before = self.chosen
        self._plan, self._defects = plan, defects
        numbered = tuple(enumerate(defects, start=1))
        self._numbers = tuple(at for at, one in numbered if one.check == self._check)
        told = [f"{at}  {words[at - 1]}" for at, one in numbered if at in self._numbers]
        self._list.blockSignals(True)
        self._list.clear()
        self._list.addItems(told)
        if self._numbers:
            row = self._numbers.index(before) if before in self._numbers else len(told) - 1
            self._list.setCurrentRow(row)
        self._list.blockSignals(False)
        self._show_defects()

    def _show_defects(self) -> None:
        """Shows where the cursor is, and the defect described."""
        place = self._defect_at(self._place)
        words = f"Mark {place.eye}: {place_words(place)}"
        self._marker.setText(f"&{words}")
        self._marker.setAccessibleName(words)
        self._list.setVisible(bool(self._numbers))
        defect = self._defects[self.chosen - 1] if self.chosen else None
        self._form.setVisible(defect is not None)
        if defect is not None:
            self._form.show_defect(defect)

    def take_place(self, place: LensPlace) -> None:
        """Marks a defect at a place, to be described next."""
        if self.isHidden():
            return
        defect = self._defect_at(place)
        self._place = LensPlace(defect.eye, float(defect.across), float(defect.up))
        self._offer((*self._defects, defect), len(self._defects) + 1)

    def _defect_at(self, place: LensPlace) -> Defect:
        kind, surface = _USUAL.get(self._check, (DefectKind.SCRATCH, DefectSurface.FRONT))
        return Defect(
            check=self._check,
            eye=place.eye,
            across=_rounded(place.across),
            up=_rounded(place.up),
            kind=kind,
            surface=surface,
        )

    def _offer(self, defects: tuple[Defect, ...], chosen: int = 0) -> None:
        """Offers all defects anew; whoever refuses shows the old ones again."""
        self.defects_changed.emit(defects)
        if chosen in self._numbers:
            self._list.setCurrentRow(self._numbers.index(chosen))

    def _on_row(self) -> None:
        self._show_defects()
        self.cursor_moved.emit()

    def _on_described(self, defect: Defect) -> None:
        at = self.chosen - 1
        if at >= 0 and defect != self._defects[at]:
            self._offer((*self._defects[:at], defect, *self._defects[at + 1 :]), at + 1)

    def _remove(self) -> None:
        at = self.chosen - 1
        if at < 0:
            return
        self._marker.setFocus()
        self._offer((*self._defects[:at], *self._defects[at + 1 :]))

    @override
    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() in {QEvent.Type.FocusIn, QEvent.Type.FocusOut}:
            self.cursor_moved.emit()
        if isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress:
            return self._on_key(watched, event)
        return super().eventFilter(watched, event)

    def _on_key(self, watched: QObject, event: QKeyEvent) -> bool:
        """Whether the key is used up here."""
        if event.key() in {Qt.Key.Key_Delete, Qt.Key.Key_Backspace}:
            self._remove()
            return True
        if watched is not self._marker:
            return False
        if event.key() in ENTER_KEYS:
            if event.modifiers() & Qt.KeyboardModifier.ShiftModifier:
                self.stepped_back.emit()
            else:
                self.take_place(self._place)
            return True
        way = _STEPS.get(Qt.Key(event.key()))
        if way is None:
            return False
        is_large = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
        self._move(*way, _LARGE if is_large else 1.0)
        return True

    def _move(self, right: float, up: float, steps: float) -> None:
        self._place = moved(self._plan, self._place, right * steps, up * steps)
        self._show_defects()
        self.cursor_moved.emit()


class _DefectForm(QWidget):
    """What the chosen defect is: kind, surface, size and a remark.

    Signals:
        changed: the Defect, described anew.
        removed: it is to be taken away.
    """

    changed = Signal(object)
    removed = Signal()

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._defect: Defect | None = None
        self._kind = _choice("Kind of defect", tuple(DefectKind))
        self._surface = _choice("Surface", tuple(DefectSurface))
        self._size = NumberInput(specs.millimetre("Size", "0", "60"), is_reading=False)
        self._remark = Line("Remark on the defect")
        self._remark.setPlaceholderText("Remark, if any")
        remove = QPushButton("Remo&ve")
        remove.setAutoDefault(False)
        self._kind.activated.connect(
            lambda: self._change(kind=DefectKind(self._kind.currentData()))
        )
        self._surface.activated.connect(
            lambda: self._change(surface=DefectSurface(self._surface.currentData()))
        )
        self._size.value_changed.connect(lambda size: self._change(size=size))
        self._remark.taken.connect(lambda text: self._change(remark=text))
        self._size.finished.connect(self._remark.setFocus)
        self._remark.stepped_back.connect(self._size.setFocus)
        remove.clicked.connect(self.removed)
        self._lay_out(remove)

    def _lay_out(self, remove: QPushButton) -> None:
        line = QHBoxLayout(self)
        line.setContentsMargins(0, 0, 0, 0)
        line.setSpacing(12)
        fields: tuple[tuple[str, QWidget], ...] = (
            ("&Kind", self._kind),
            ("S&urface", self._surface),
            ("", self._size),
            ("R&emark", self._remark),
        )
        for title, field in fields:
            line.addLayout(_titled(title, field), 1 if field is self._remark else 0)
        line.addLayout(_titled(" ", remove))
        self._size.edit().setFixedWidth(72)

    def show_defect(self, defect: Defect) -> None:
        """Shows a defect without emitting."""
        self._defect = defect
        self._kind.setCurrentIndex(self._kind.findData(defect.kind.value))
        self._surface.setCurrentIndex(self._surface.findData(defect.surface.value))
        self._size.set_value(defect.size)
        self._remark.show_text(defect.remark)

    def _change(self, **changes: object) -> None:
        if self._defect is not None:
            self.changed.emit(self._defect.with_(**changes))


def _titled(title: str, field: QWidget) -> QVBoxLayout:
    """A field under its title; a number field brings its own."""
    column = QVBoxLayout()
    column.setSpacing(4)
    if title:
        column.addWidget(caption(title, field))
    column.addWidget(field)
    column.addStretch(1)
    return column


def _choice(name: str, words: tuple[str, ...]) -> QComboBox:
    box = QComboBox()
    box.setAccessibleName(name)
    for word in words:
        box.addItem(str(word), str(word))
    return box


def _rounded(value: float) -> Decimal:
    """A distance to half a millimetre."""
    return Decimal(round(value * _FINEST)) / _FINEST
