"""What the array rules share: the pairs, the rows for their design, the trust in readings."""

from benchassist.job.order import Design
from benchassist.limits.arrays import Marks, RowLookup, Whole
from benchassist.limits.load import Limits
from benchassist.optics.eye import Eye
from benchassist.verdicts.arrays_pairs import LensPairs, Side
from benchassist.verdicts.arrays_trust import Known, Listed, SingleReadings, Trusted, summed
from benchassist.verdicts.arrays_verdict import shows_eighths, unknown
from benchassist.verdicts.meters import MeterUsed

_PRISM = ("base_in", "base_up")


class Bench:
    """The limits for one lens design, each row compiled once, and the trust in one meter."""

    def __init__(self, limits: Limits, design: Design, meter: MeterUsed) -> None:
        self.design = design
        self.singles = SingleReadings(limits, meter)
        self._rules = limits.rules
        self._rows: dict[str, RowLookup] = {}

    def row(self, quantity: str) -> RowLookup | None:
        """The row that limits a quantity of this design, ready for columns; made once."""
        row = self._rules.row(quantity, self.design)
        if row is None:
            return None
        if row.id not in self._rows:
            self._rows[row.id] = RowLookup(row)
        return self._rows[row.id]


class ArrayCase:
    """Some pairs on a bench."""

    def __init__(self, pairs: LensPairs, bench: Bench) -> None:
        self.pairs = pairs
        self.bench = bench
        self.length = len(pairs)

    @property
    def sides(self) -> tuple[Side, Side]:
        """The right lenses and the left ones."""
        return self.pairs.right, self.pairs.left

    def lens(self, eye: Eye, quantity: str) -> Trusted:
        """The trust in what was found of one quantity of one lens, as `Readings` names it."""
        side, singles = self.pairs.side(eye), self.bench.singles
        if side.readings is not None:
            return Listed(getattr(side.readings, quantity))
        if quantity == "along":
            return singles.power(side.found.sphere)
        if quantity == "across":
            return singles.power(side.found.sphere + side.found.cylinder)
        if quantity in _PRISM:
            return self._prism(eye, quantity)
        alike: Trusted = getattr(singles, quantity)
        return alike

    def _prism(self, eye: Eye, quantity: str) -> Known:
        found = self.pairs.side(eye).found
        return self.bench.singles.prism(getattr(found, quantity), unknown(found.sphere))

    def pair(self, quantity: str, *, turned: bool) -> Trusted:
        """The trust in the net of both lenses: of a component of prism, or of a length.

        Args:
            quantity: as `Readings` names it.
            turned: whether the left lens is taken off the right one.
        """
        if self.pairs.right.readings is not None:
            right, left = (self.lens(eye, quantity) for eye in Eye)
            return summed(right, left, self.length, turned=turned)
        if quantity in _PRISM:
            pair = (self._prism(eye, quantity) for eye in Eye)
            return self.bench.singles.prism_pair(*pair)
        return self.bench.singles.length_pair

    def in_eighths(self, eye: Eye, quantity: str, found: Whole) -> Marks:
        """Where every reading of a power or an addition shows eighths of a dioptre."""
        readings = self.pairs.side(eye).readings
        if readings is None:
            return shows_eighths(found)
        marks: Marks = getattr(readings, f"{quantity}_eighths")
        return marks
