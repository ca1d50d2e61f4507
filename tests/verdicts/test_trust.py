"""What an uncertainty means: guard, probability, further readings; the edges of the class."""

from datetime import UTC, datetime, timedelta
from decimal import Decimal
from math import hypot, sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchassist.job.document import Attempt
from benchassist.job.instrument import Instrument, Speech
from benchassist.verdicts.doubt import Doubt
from benchassist.verdicts.meters import Meters, MeterUsed
from benchassist.verdicts.trust import Spread, Trust, together
from tests.verdicts.jobs import guarded_limits

LIMIT = Decimal("0.12")
TRUST = Trust((0.03, 0.004), (Spread(0.05, 3),), 1.645)
MORNING = datetime(2026, 3, 2, 8, 0, tzinfo=UTC)

parts = st.floats(0, 0.3)
spreads = st.builds(Spread, parts, st.integers(1, 9))
trusts = st.builds(
    Trust,
    st.tuples(parts, parts),
    st.tuples(spreads) | st.tuples(spreads, spreads),
    st.sampled_from((0.0, 1.645, 2.0)),
)
offs = st.integers(-300, 300).map(lambda thousandths: Decimal(thousandths) / 1000)
limits = st.integers(1, 400).map(lambda thousandths: Decimal(thousandths) / 1000)


@settings(max_examples=60, deadline=None)
@given(trusts, offs, limits)
def test_the_number_of_further_readings_is_the_least_that_settles(
    trust: Trust, off: Decimal, limit: Decimal
) -> None:
    room = limit - abs(off)
    settles = [more for more in range(1, 21) if room >= trust.guard(more)]
    assert trust.more_readings(off, limit) == (min(settles) if settles else None)


@settings(max_examples=60, deadline=None)
@given(trusts, offs, limits)
def test_a_probability_is_one_and_the_same_on_both_sides(
    trust: Trust, off: Decimal, limit: Decimal
) -> None:
    likely = trust.probability(off, limit)
    assert 0 <= likely <= 1
    assert likely == trust.probability(-off, limit)
    assert likely >= trust.probability(off + (1 if off > 0 else -1), limit)
    assert likely <= trust.probability(off, 2 * limit)


def test_one_reading_never_disagrees_with_itself() -> None:
    fine = Decimal("0.1499999")
    assert Trust((0.03,), (Spread(0.0, 1),), 1.645).singles(fine) == (fine, fine)


@given(trusts, st.integers(0, 9))
def test_more_readings_never_widen_the_guard(trust: Trust, more: int) -> None:
    assert trust.guard(more + 1) <= trust.guard(more)


def test_the_parts_are_taken_together_as_squares() -> None:
    assert TRUST.uncertainty() == pytest.approx(hypot(0.03, 0.004, 0.05 / sqrt(3)))
    assert TRUST.uncertainty(more=1) == pytest.approx(hypot(0.03, 0.004, 0.025))
    assert TRUST.scaled(2).uncertainty() == pytest.approx(2 * TRUST.uncertainty())
    assert together([TRUST, TRUST]).uncertainty() == pytest.approx(
        sqrt(2) * TRUST.uncertainty()
    )


def test_what_is_advised() -> None:
    single = Trust((0.03,), (Spread(0.0, 1),), 1.645)
    assert TRUST.advice(1) == "read it again, 1 more reading like these would settle it"
    assert together([TRUST, TRUST]).advice(4) == (
        "read it again, 4 more readings like these of each lens would settle it"
    )
    assert TRUST.advice(None).startswith("more readings like these cannot settle it")
    assert single.advice(None) == (
        "read it again; if it shows the same, more readings cannot settle it, only a checked "
        "meter with a finer step or the supervisor"
    )


def meter(known: str | None, *, step: str = "0.01", is_checked: bool = True) -> MeterUsed:
    instrument = Instrument(
        name="bench 2",
        speech=Speech.DISPLAY,
        step=Decimal(step),
        checked=MORNING,
        known_lens_error=None if known is None else Decimal(known),
    )
    return MeterUsed("bench 2", is_drum=False, known=instrument, is_checked=is_checked)


UNNAMED = MeterUsed("", is_drum=False, known=None, is_checked=False)


def half_width(size: str, used: MeterUsed) -> float:
    """The meter's error reckoned with, D, recovered from the uncertainty of one reading."""
    doubt = Doubt(guarded_limits().meter, guarded_limits().decision)
    return doubt.power([Decimal(size)], [used]).steady[0] * sqrt(3)


@pytest.mark.parametrize(
    ("size", "by_class", "by_check"),
    [
        *(("0.00", 0.06, 0.025), ("4.99", 0.06, 0.025), ("5.00", 0.06, 0.025)),
        *(("-5.01", 0.09, 0.055), ("10.00", 0.09, 0.055), ("10.01", 0.12, 0.085)),
        *(("15.00", 0.12, 0.085), ("-15.01", 0.18, 0.145), ("20.00", 0.18, 0.145)),
        *(("20.01", 0.25, 0.215), ("25.00", 0.25, 0.215), ("25.01", 0.25, 0.215)),
    ],
)
def test_a_known_lens_takes_the_place_of_the_class(
    size: str, by_class: float, by_check: float
) -> None:
    checked = meter("-0.02")
    assert half_width(size, checked) == pytest.approx(by_check)
    for used in (UNNAMED, meter(None), meter("-0.02", is_checked=False)):
        assert half_width(size, used) == pytest.approx(by_class)


@pytest.mark.parametrize(
    ("known", "step", "expected"),
    [
        ("0", "0.01", 0.005),
        ("0.054", "0.01", 0.059),
        ("0.055", "0.01", 0.06),
        ("0.06", "0.01", 0.06),
        ("0.061", "0.01", 0.061),
        ("0.09", "0.01", 0.09),
        ("0", "0.125", 0.06),
    ],
)
def test_a_check_is_never_worse_than_the_class_unless_the_known_lens_was(
    known: str, step: str, expected: float
) -> None:
    assert half_width("-2.00", meter(known, step=step)) == pytest.approx(expected)


def test_the_least_trusted_meter_of_several_decides() -> None:
    doubt = Doubt(guarded_limits().meter, guarded_limits().decision)
    values = [Decimal(-2), Decimal(-2)]
    mixed = doubt.power(values, [meter("0"), UNNAMED])
    assert mixed == doubt.power(values, [UNNAMED, UNNAMED])


def test_a_named_meter_is_read_in_its_own_step() -> None:
    doubt = Doubt(guarded_limits().meter, guarded_limits().decision)
    drum = MeterUsed("old", is_drum=True, known=meter(None, step="0.25").known, is_checked=True)
    display = meter(None, step="0.12")
    value = [Decimal(-1)]
    assert doubt.power(value, [drum]).steady[1] == pytest.approx(0.25 / sqrt(12))
    assert doubt.power(value, [display]).steady[1] == pytest.approx(0.12 / sqrt(12))
    assert doubt.power_difference(value, [drum]).steady[0] == pytest.approx(0.25 / sqrt(6))
    assert doubt.power(value, [UNNAMED]).steady[1] == pytest.approx(0.01 / sqrt(12))


@pytest.mark.parametrize("late", [0, 1])
def test_a_check_counts_for_a_day(late: int) -> None:
    known = meter(None).known
    assert known is not None
    began = MORNING + timedelta(hours=24, seconds=late)
    found = Meters(Attempt(instruments={"bench 2": known}), began)
    assert found.used("bench 2", is_drum=False).is_checked is (late == 0)
    assert found.used("bench 3", is_drum=False).known is None
    assert found.used("", is_drum=False).known is None
