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
    combined,
    rectangular_uncertainty,
    repeats,
    resolution_uncertainty,
)
from benchassist.verdicts.exact import millionth


def spread(values: Sequence[Decimal]) -> float:
    """The standard uncertainty that repeats show, s / sqrt n; none for a single reading."""
    return repeats([float(value) for value in values]).of_mean or 0.0


@dataclass(frozen=True, slots=True)
class Doubt:
    """Standard uncertainties of readings, from the errors and steps of the tools.

    Attributes:
        meter: errors of the lens meter and reading steps.
        decision: how many standard uncertainties make the guard.
    """

    meter: Table
    decision: Decision

    def power(self, values: Sequence[Decimal], *, drum: bool) -> float:
        """Of the mean of several readings of one power, D.

        Args:
            values: the repeats.
            drum: whether it was read on a drum, not on a display.
        """
        size = max(abs(value) for value in values)
        error = self.meter.figure("error-power", power=size)
        return combined(
            rectangular_uncertainty(float(error)),
            self._power_step(drum=drum, settings=1),
            spread(values),
        )

    def power_difference(self, values: Sequence[Decimal], *, drum: bool) -> float:
        """Of the mean of several differences of two powers read on one meter, D.

        So are a cylinder and an addition; the meter's own error is common to both powers and
        left out (own reckoning: a zero offset cancels, a scale error nearly does).
        """
        return combined(self._power_step(drum=drum, settings=2), spread(values))

    def axis(self, differences: Sequence[Decimal]) -> float:
        """Of the mean of several axis readings, degrees, given as differences from one axis."""
        return combined(
            rectangular_uncertainty(float(self.meter.figure("axis-marker"))),
            self.step("step-axis"),
            spread(differences),
        )

    def prism(self, values: Sequence[Decimal], *, reticle: bool) -> float:
        """Of the mean of several readings of one prism component, prism dioptres."""
        size = max(abs(value) for value in values)
        error = self.meter.figure("error-prism", prism=size)
        step = "step-reticle" if reticle else "step-display-prism"
        return combined(rectangular_uncertainty(float(error)), self.step(step), spread(values))

    def measured(self, values: Sequence[Decimal], step: str) -> float:
        """Of the mean of several readings with a tool whose step the table names."""
        return combined(self.step(step), spread(values))

    def step(self, step: str) -> float:
        """Of reading to the nearest step of a tool."""
        return resolution_uncertainty(float(self.meter.figure(step)))

    def guard(self, uncertainty: float, limit: Decimal) -> Decimal:
        """The half-width of the zone inside a limit where the reading's uncertainty decides.

        Never wider than the limit itself.
        """
        return min(limit, millionth(float(self.decision.guard_factor) * uncertainty))

    def _power_step(self, *, drum: bool, settings: int) -> float:
        if drum:
            return sqrt(settings) * self.step("step-drum")
        return self.step("step-display")
