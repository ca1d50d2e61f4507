"""How far a reading can be trusted: its standard uncertainty and the guard inside a limit.

The meter's error limit is taken as a rectangular distribution, a reading step as one too, and
the spread of repeats as the standard deviation of their mean; they are independent.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from math import sqrt

from benchassist.limits.load import Decision
from benchassist.limits.table import Table
from benchassist.optics.uncertainty import (
    rectangular_uncertainty,
    repeats,
    resolution_uncertainty,
)
from benchassist.verdicts.exact import ZERO, mean
from benchassist.verdicts.meters import MeterUsed
from benchassist.verdicts.trust import A_FINER_TOOL, Spread, Trust

_NARROWEST = ZERO
"""Where the class limits of a lens meter are narrowest, D."""


@dataclass(frozen=True, slots=True)
class Doubt:
    """Standard uncertainties of readings, from the errors and steps of the tools.

    Attributes:
        meter: errors of the lens meter and reading steps.
        decision: how many standard uncertainties make the guard.
    """

    meter: Table
    decision: Decision

    def power(self, values: Sequence[Decimal], meters: Sequence[MeterUsed]) -> Trust:
        """Of the mean of several readings of one power, D.

        Args:
            values: the repeats.
            meters: the lens meter of each; the least trusted of them decides.
        """
        size = max(abs(value) for value in values)
        error = max(self._error(size, meter) for meter in meters)
        steps = max(self._power_step(meter, settings=1) for meter in meters)
        return self._trust((rectangular_uncertainty(float(error)), steps), values)

    def power_difference(self, values: Sequence[Decimal], meters: Sequence[MeterUsed]) -> Trust:
        """Of the mean of several differences of two powers read on one meter, D.

        So are a cylinder and an addition; the meter's own error is common to both powers and
        left out (own reckoning: a zero offset cancels, a scale error nearly does).
        """
        steps = max(self._power_step(meter, settings=2) for meter in meters)
        return self._trust((steps,), values)

    def axis(self, differences: Sequence[Decimal]) -> Trust:
        """Of the mean of several axis readings, degrees, given as differences from one axis."""
        marker = rectangular_uncertainty(float(self.meter.figure("axis-marker")))
        return self._trust((marker, self.step("step-axis")), differences)

    def prism(self, values: Sequence[Decimal], *, reticle: bool) -> Trust:
        """Of the mean of several readings of one prism component, prism dioptres."""
        size = max(abs(value) for value in values)
        error = self.meter.figure("error-prism", prism=size)
        step = "step-reticle" if reticle else "step-display-prism"
        return self._trust((rectangular_uncertainty(float(error)), self.step(step)), values)

    def measured(self, values: Sequence[Decimal], step: str) -> Trust:
        """Of the mean of several readings with a tool whose step the table names."""
        return self._trust((self.step(step),), values, A_FINER_TOOL)

    def step(self, step: str) -> float:
        """Of reading to the nearest step of a tool."""
        return resolution_uncertainty(float(self.meter.figure(step)))

    def _trust(
        self, steady: tuple[float, ...], values: Sequence[Decimal], settled_by: str = ""
    ) -> Trust:
        read = repeats([float(value) for value in values])
        middle = mean(values)
        spread = Spread(
            read.deviation or 0.0, read.count, min(values) - middle, max(values) - middle
        )
        factor = float(self.decision.guard_factor)
        if settled_by:
            return Trust(steady, (spread,), factor, settled_by)
        return Trust(steady, (spread,), factor)

    def _error(self, size: Decimal, meter: MeterUsed) -> Decimal:
        """The largest error to reckon with, D: by its check if there was one, or by its class.

        A known lens that was read at the check leaves what it showed wrong and half a step,
        and above the first band of the class what the class allows beyond it there: one lens
        says nothing of the rest of the scale. Never better than that, and never worse than the
        class unless the known lens itself was. Own proposal.
        """
        by_class = self.meter.figure("error-power", power=size)
        instrument = meter.checked
        if instrument is None or instrument.known_lens_error is None:
            return by_class
        first = self.meter.figure("error-power", power=_NARROWEST)
        shown = abs(instrument.known_lens_error) + by_class - first
        return max(shown, min(by_class, shown + instrument.step / 2))

    def _power_step(self, meter: MeterUsed, *, settings: int) -> float:
        usual = "step-drum" if meter.is_drum else "step-display"
        step = float(meter.known.step if meter.known else self.meter.figure(usual))
        return resolution_uncertainty(step) * (sqrt(settings) if meter.is_drum else 1.0)
