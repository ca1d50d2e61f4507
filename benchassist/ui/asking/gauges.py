"""The gauges beside an input: one for each finding that has a limit."""

from PySide6.QtWidgets import QGridLayout

from benchassist.ui.drawings.gauge import Gauge
from benchassist.ui.theme import Theme
from benchassist.verdicts.finding import Finding

MOST = 4
"""How many gauges there is room for."""

_WIDTH = 160


class Gauges(QGridLayout):
    """The gauges in one column or two; those without a finding take no room."""

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self.setHorizontalSpacing(16)
        self._gauges = tuple(Gauge(theme) for _ in range(MOST))
        for gauge in self._gauges:
            gauge.setMinimumWidth(_WIDTH)
            gauge.setMaximumWidth(2 * _WIDTH)
        self.place(is_beside_fields=False)

    def place(self, *, is_beside_fields: bool) -> None:
        """Puts the gauges in two columns, or low ones in one beside a row of fields."""
        columns = 1 if is_beside_fields else 2
        self.setVerticalSpacing(2 if is_beside_fields else 8)
        for position, gauge in enumerate(self._gauges):
            gauge.set_low(is_low=is_beside_fields)
            self.addWidget(gauge, position // columns, position % columns)

    def show_findings(self, measured: tuple[Finding, ...], *, hides_order: bool) -> None:
        """Shows the first findings; with `hides_order` nothing is told of the order."""
        for position, gauge in enumerate(self._gauges):
            finding = measured[position] if position < len(measured) else None
            gauge.setVisible(finding is not None)
            gauge.set_finding(finding, hide_ordered=hides_order)
