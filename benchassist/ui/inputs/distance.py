"""Centration distances, measured from the nose line or from the nasal edge of each lens."""

from decimal import Decimal

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from benchassist.job.readings import Datum
from benchassist.ui.inputs.layout import LayoutInput
from benchassist.ui.inputs.parsing import NumberSpec
from benchassist.ui.inputs.segments import Segments

_DATUMS = (
    (Datum.NOSE_LINE.value, "From the nose line"),
    (Datum.LENS_EDGE.value, "From the lens edge"),
)


class DistanceInput(LayoutInput):
    """A centration distance of each lens; kept from the nose line however it is measured.

    Signals:
        datum_chosen: the Datum from which the person measures.
    """

    datum_chosen = Signal(object)

    def __init__(self, spec: NumberSpec, parent: QWidget | None = None) -> None:
        super().__init__(spec, parent)
        self._datums = Segments(_DATUMS, self)
        self._datums.chosen.connect(lambda key: self.datum_chosen.emit(Datum(key)))
        column = self.layout()
        assert isinstance(column, QVBoxLayout)  # noqa: S101  (made by LayoutInput)
        column.insertWidget(0, self._datums)

    def set_datum(self, datum: Datum, dbl: Decimal | None) -> None:
        """Shows from where is measured; the lens edge needs the distance between the lenses."""
        self._datums.set_value(datum)
        self._datums.setEnabled(dbl is not None)
        is_edge = datum is Datum.LENS_EDGE and dbl is not None
        self.set_offset(dbl / 2 if is_edge and dbl is not None else Decimal(0))
