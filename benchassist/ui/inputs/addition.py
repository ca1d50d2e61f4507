"""An addition: its readings, and which surface lay on the stop."""

from typing import Any

from PySide6.QtWidgets import QWidget
from typing_extensions import override

from benchassist.job.order import Surface
from benchassist.ui.inputs.forms import ADDITION_FORMS, kind_of
from benchassist.ui.inputs.repeated import RepeatedInput
from benchassist.ui.inputs.row import Values
from benchassist.ui.inputs.segments import Segments

_SURFACES = (
    (Surface.BACK.value, "Back on the stop"),
    (Surface.FRONT.value, "Front on the stop"),
)


class AdditionInput(RepeatedInput):
    """Readings of an addition, each with the surface that lay on the stop."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(ADDITION_FORMS, kind_of, parent)
        self._surface = Segments(_SURFACES, self)
        self._surface.set_value(Surface.BACK)
        self._surface.chosen.connect(self._on_surface_chosen)
        self._column.insertWidget(1, self._surface)

    @override
    def set_value(self, readings: tuple[Any, ...]) -> None:
        super().set_value(readings)
        if readings and not self._is_blank:
            self._surface.set_value(readings[-1].surface)

    def propose_surface(self, surface: Surface) -> None:
        """Chooses the surface of the next fresh reading."""
        if self._is_blank:
            self._surface.set_value(surface)

    @override
    def _make(self, values: Values) -> Any:
        return super()._make(values).with_(surface=Surface(self._surface.value()))

    def _on_surface_chosen(self) -> None:
        if not self._is_blank:
            self._on_values_changed(self._row.values())
        self.setFocus()
