"""The distance power of each lens: principal meridians, cylinder and axis."""

from dataclasses import replace
from decimal import Decimal

from benchassist.job.order import Design
from benchassist.limits.rule import Limit
from benchassist.optics.eye import Eye
from benchassist.verdicts.case import BY_MAKER, Case, no_limit
from benchassist.verdicts.exact import MinusForm, axis_difference
from benchassist.verdicts.finding import Finding
from benchassist.verdicts.meters import zero_taken_off
from benchassist.verdicts.weigh import Subject, Value, compared, in_eighths, off_by
from benchassist.verdicts.words import degrees, signed_dioptres

_PARTS = (
    ("meridian-high", "Stronger meridian"),
    ("meridian-other", "Weaker meridian"),
    ("cylinder", "Cylinder"),
    ("axis", "Axis"),
)

_MAKER_UNFINISHED = (
    "The maker's verification power is not complete: finish it in the order, or clear it."
)
_IN_NEAR_PART = " at the primary reference point in the near part"
"""Where a degressive lens has the power that is ordered."""


def judge_powers(case: Case) -> tuple[Finding, ...]:
    """The findings on the distance power of both lenses."""
    return tuple(finding for eye in Eye for finding in _lens(case, eye))


def _lens(case: Case, eye: Eye) -> tuple[Finding, ...]:
    subjects = [Subject(f"{eye}.{name}", f"{eye}.distance", what, eye) for name, what in _PARTS]
    ordered, origin = case.power_to_find(eye)
    found = case.power_found(eye)
    if ordered is None:
        why = _MAKER_UNFINISHED if origin is BY_MAKER else "No distance power is ordered yet."
        return tuple(subject.missing(why) for subject in subjects)
    if case.design is None:
        return tuple(
            subject.missing("The lens design is not ordered yet, so no limit can be chosen.")
            for subject in subjects
        )
    if found is None:
        return _not_read(subjects, ordered, origin)
    return _LensPower(case, eye, ordered, found, origin).findings(subjects)


def _not_read(subjects: list[Subject], ordered: MinusForm, origin: str) -> tuple[Finding, ...]:
    high, other, cylinder, axis = subjects
    strong, weak = _by_size(ordered)
    waiting = (
        (high, strong, "D", signed_dioptres(strong)),
        (other, weak, "D", signed_dioptres(weak)),
        (cylinder, ordered.cylinder, "D", signed_dioptres(ordered.cylinder)),
    )
    findings = [
        subject.missing(f"{subject.what} not read yet, {words} {origin}.", value, unit)
        for subject, value, unit, words in waiting
    ]
    if ordered.axis is None:
        return (*findings, axis.none("No cylinder is ordered, so there is no axis."))
    sentence = f"Axis not read yet, {degrees(ordered.axis)} {origin}."
    return (*findings, axis.missing(sentence, ordered.axis, "°"))


def _by_size(power: MinusForm) -> tuple[Decimal, Decimal]:
    """The two principal powers, the one further from zero first."""
    if abs(power.across) > abs(power.along):
        return power.across, power.along
    return power.along, power.across


class _LensPower:
    """One lens that is ordered and read."""

    def __init__(
        self, case: Case, eye: Eye, ordered: MinusForm, found: MinusForm, origin: str
    ) -> None:
        self._case = case
        self._doubt = case.doubt
        self._ordered = ordered
        self._found = found
        self._origin = origin
        self._readings = case.power_readings(eye)
        self._meters = case.power_meters(eye)
        self._looked_up = {"power": ordered.highest, "cylinder": abs(ordered.cylinder)}
        self._where = _IN_NEAR_PART if case.design is Design.DEGRESSIVE else ""

    def findings(self, subjects: list[Subject]) -> tuple[Finding, ...]:
        """Meridians, cylinder and axis."""
        high, other, cylinder, axis = subjects
        across_first = self._across_first()
        return (
            self._meridian(high, "meridian-high", across=across_first),
            self._meridian(other, "meridian-other", across=not across_first),
            self._cylinder(cylinder),
            self._axis(axis),
        )

    def _across_first(self) -> bool:
        """Whether the meridian across the axis is the one of highest absolute power.

        Where both are ordered alike in size, the one that was missed by more is judged.
        """
        along, across = abs(self._ordered.along), abs(self._ordered.across)
        if along != across:
            return across > along
        missed_across = abs(self._found.across - self._ordered.across)
        return missed_across > abs(self._found.along - self._ordered.along)

    def _limit(self, quantity: str) -> Limit | None:
        row = self._case.row(quantity)
        return row.band(self._looked_up).limit(self._looked_up) if row else None

    def _value(
        self, quantity: str, pair: tuple[Decimal, Decimal], readings: list[Decimal]
    ) -> Value:
        """What was found and ordered, compared as the readings show it."""
        row = self._case.row(quantity)
        written = row is not None and in_eighths(readings, row.band(self._looked_up))
        return compared(*pair, "D", in_eighths=written)

    def _meridian(self, subject: Subject, quantity: str, *, across: bool) -> Finding:
        if across:
            found, ordered, direction = (
                self._found.across,
                self._ordered.across,
                self._ordered.across_axis,
            )
            values = [reading.across for reading in self._readings]
        else:
            found, ordered, direction = (
                self._found.along,
                self._ordered.along,
                self._ordered.axis,
            )
            values = [reading.along for reading in self._readings]
        value = self._value(quantity, (found, ordered), values)
        named = f"{subject.what} (along {degrees(direction)})" if direction else subject.what
        opening = self._opening(named, found, ordered)
        limit = self._limit(quantity)
        if limit is None:
            return subject.none(f"{opening}; {self._unjudged(quantity)}.", value)
        off = off_by(value.compared_with, limit, "more plus", "more minus")
        trust = self._doubt.power(values, self._meters)
        told = replace(value, remark=zero_taken_off(self._meters))
        return subject.weighed(told, limit, trust, f"{opening}: {off}")

    def _unjudged(self, quantity: str) -> str:
        if quantity == "meridian-other" and self._limit("meridian-high"):
            return "this rule set judges the stronger meridian only"
        return no_limit(self._case)

    def _cylinder(self, subject: Subject) -> Finding:
        found, ordered = self._found.cylinder, self._ordered.cylinder
        limit = self._limit("cylinder")
        values = [reading.cylinder for reading in self._readings]
        value = self._value("cylinder", (found, ordered), values)
        opening = self._opening(subject.what, found, ordered)
        if limit is None:
            return subject.none(f"{opening}; {no_limit(self._case)}.", value)
        trust = self._doubt.power_difference(values, self._meters)
        off = off_by(-value.compared_with, limit, "stronger", "weaker")
        return subject.weighed(value, limit, trust, f"{opening}: {off}")

    def _axis(self, subject: Subject) -> Finding:
        ordered, found = self._ordered.axis, self._found.axis
        if ordered is None:
            return subject.none("No cylinder is ordered, so there is no axis.")
        if found is None:
            reason = "No cylinder was found, so there is no axis to compare."
            return subject.none(reason, Value(ordered=ordered, unit="°"))
        value = Value(ordered, found, axis_difference(found, ordered), "°")
        row = self._case.row("axis")
        if row is None:
            return subject.none(f"Axis {degrees(found)} found; {no_limit(self._case)}.", value)
        band = row.band(self._looked_up)
        limit = band.limit(self._looked_up)
        if limit is None:
            reason = f"Axis {degrees(found)} found; {band.not_judged}."
            return subject.none(reason, value, band.rule)
        return self._judged_axis(subject, value, limit)

    def _judged_axis(self, subject: Subject, value: Value, limit: Limit) -> Finding:
        ordered, difference = value.ordered or Decimal(0), value.difference or Decimal(0)
        axes = [reading.axis for reading in self._readings if reading.axis is not None]
        trust = self._doubt.axis([axis_difference(axis, ordered) for axis in axes])
        off = off_by(difference, limit, "counter-clockwise", "clockwise")
        opening = (
            f"Axis {degrees(value.found or Decimal(0))} found, "
            f"{degrees(ordered)} {self._origin}: {off}"
        )
        return subject.weighed(value, limit, trust, opening)

    def _opening(self, what: str, found: Decimal, ordered: Decimal) -> str:
        read = f"{what} {signed_dioptres(found)} found{self._where}"
        return f"{read}, {signed_dioptres(ordered)} {self._origin}"
