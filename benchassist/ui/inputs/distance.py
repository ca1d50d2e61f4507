"""Centration distances, from the nose line, from each lens's nasal edge, or both together."""

from decimal import Decimal

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from benchassist.job.readings import Datum
from benchassist.ui.inputs import specs
from benchassist.ui.inputs.layout import LayoutInput
from benchassist.ui.inputs.parsing import NumberSpec
from benchassist.ui.inputs.row import Values
from benchassist.ui.inputs.segments import Segments

_DATUMS = (
    (Datum.NOSE_LINE.value, "From the nose line"),
    (Datum.LENS_EDGE.value, "From the lens edge"),
)


_TOGETHER = specs.millimetre("Both together", "20", "120")


class DistanceInput(LayoutInput):
    """A centration distance of each lens; kept from the nose line however it is measured.

    Signals:
        datum_chosen: the Datum from which the person measures.
    """

    datum_chosen = Signal(object)

    def __init__(
        self, spec: NumberSpec, parent: QWidget | None = None, *, may_be_together: bool = False
    ) -> None:
        """Makes a field for each lens.

        Args:
            spec: what each lens's field takes.
            parent: the widget that holds them.
            may_be_together: whether there is a field for both lenses together.
        """
        more = (_TOGETHER,) if may_be_together else ()
        super().__init__(spec, parent, more, self._needed)
        self._is_together_shown = may_be_together
        self._datums = Segments(_DATUMS, self)
        self._datums.chosen.connect(lambda key: self.datum_chosen.emit(Datum(key)))
        column = self.layout()
        assert isinstance(column, QVBoxLayout)  # noqa: S101  (made by LayoutInput)
        column.insertWidget(0, self._datums)

    def _needed(self, values: Values) -> int:
        """Both lenses, or all fields while neither lens was measured by itself."""
        each = values[:2]
        is_each = None not in each
        return len(each) if is_each or not self._is_together_shown else len(values)

    def show_together(self, *, is_shown: bool) -> None:
        """Shows or hides the field of both together: a progressive lens needs its own."""
        if len(self._specs) > len(self._row.fields()[:2]):
            self._is_together_shown = is_shown
            self._row.fields()[-1].setVisible(is_shown)

    def set_datum(self, datum: Datum, dbl: Decimal | None) -> None:
        """Shows from where is measured; the lens edge needs the distance between the lenses."""
        self._datums.set_value(datum)
        self._datums.setEnabled(dbl is not None)
        is_edge = datum is Datum.LENS_EDGE and dbl is not None
        self.set_offset(dbl / 2 if is_edge and dbl is not None else Decimal(0))
