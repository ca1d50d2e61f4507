"""The numbers of the arrays are rounded exactly as those of the scalar judge."""

from decimal import Decimal

import numpy as np
from hypothesis import example, given
from hypothesis import strategies as st

from benchassist.limits.arrays import ABSENT, PARTS, Looked, in_parts
from benchassist.verdicts.arrays_imbalance import displacements
from benchassist.verdicts.arrays_pairs import A_DISPLAY, A_DRUM
from benchassist.verdicts.arrays_trust import (
    Alike,
    Scaled,
    SingleReadings,
    Summed,
    TrustTable,
    rounded,
)
from benchassist.verdicts.arrays_verdict import STATES, as_written, weighed
from benchassist.verdicts.doubt import Doubt
from benchassist.verdicts.exact import millionth
from benchassist.verdicts.finding import State
from benchassist.verdicts.imbalance import displacement
from benchassist.verdicts.meters import MeterUsed
from benchassist.verdicts.trust import Spread, Trust, together
from benchassist.verdicts.weigh import Value
from benchassist.verdicts.weigh import as_written as cut_alone
from tests.verdicts.jobs import guarded_limits

millionths = st.integers(-40_000_000, 40_000_000).map(
    lambda number: Decimal(number) / 1_000_000
)
TIES = [0.5e-6, 1.5e-6, 2.5e-6, 0.1234565, 8.1234575, -0.0000005, 1234.0000005, 0.0]


@given(st.floats(-2000, 2000) | st.sampled_from(TIES))
def test_a_binary_value_is_rounded_to_a_millionth(value: float) -> None:
    assert rounded(np.array([value])).tolist() == [in_parts(millionth(value))]


@given(millionths, millionths.map(abs))
@example(Decimal("0.000001"), Decimal(20))
@example(Decimal("0.000003"), Decimal(20))
@example(Decimal(0), Decimal(0))
@example(Decimal(1), Decimal(0))
@example(Decimal(40), Decimal("0.000001"))
def test_a_displacement_is_that_of_one_pair(prism: Decimal, power: Decimal) -> None:
    one = displacement(prism, power)
    columns = (np.array([in_parts(value), PARTS]) for value in (prism, power))
    first, second = displacements(*columns).tolist()
    assert first == (ABSENT if one is None else in_parts(one))
    assert second == 10 * PARTS


@given(st.sampled_from((A_DISPLAY, A_DRUM)), millionths)
def test_the_guard_of_a_single_reading_is_that_of_one_lens(
    meter: MeterUsed, found: Decimal
) -> None:
    limits = guarded_limits()
    doubt = Doubt(limits.meter, limits.decision)
    singles = SingleReadings(limits, meter)
    guards = singles.power(np.array([in_parts(found)])).guards()
    assert guards.tolist() == [in_parts(doubt.power([found], [meter]).guard())]


uncertainties = st.lists(st.floats(0, 1), min_size=1, max_size=4).map(tuple)


@given(
    first=uncertainties, second=uncertainties, scale=st.floats(0, 20), is_turned=st.booleans()
)
def test_the_guard_of_a_sum_is_that_of_scaled_readings(
    *, first: tuple[float, ...], second: tuple[float, ...], scale: float, is_turned: bool
) -> None:
    trusts = [Trust(parts, (Spread(0.1, 3),), 1.645) for parts in (first, second)]
    right, left = (
        Scaled(Alike(TrustTable([trust])), np.array([scale]), np.array([is_turned]))
        for trust in trusts
    )
    whole = together([trust.scaled(scale) for trust in trusts])
    assert Summed(right, left).guards().tolist() == [in_parts(whole.guard())]


def test_a_guard_that_lies_on_a_tie_is_rounded_as_one_alone() -> None:
    trust = Trust((0.0000005,), (), 1.0)
    nothing = Trust((0.0,), (), 1.0)
    right, left = (
        Scaled(Alike(TrustTable([one])), np.array([scale]), np.array([False]))
        for one, scale in ((trust, 3.0), (nothing, 1.0))
    )
    alone = together([trust.scaled(3.0), nothing.scaled(1.0)]).guard()
    assert Summed(right, left).guards().tolist() == [in_parts(alone)]


@given(number=st.integers(-4000, 4000), marked=st.booleans())
def test_eighths_are_cut_as_the_trade_writes_them(*, number: int, marked: bool) -> None:
    difference = Decimal(number) / 1000
    cut = as_written(np.array([in_parts(difference)]), np.array([marked]))
    assert cut.tolist() == [in_parts(cut_alone(difference) if marked else difference)]


def test_a_rounded_single_reading_speaks_against_itself_in_both_judges() -> None:
    """Just inside a limit of many decimals, within a hundred-thousandth of it."""
    limit = Decimal("1.2345674")
    inside = Decimal("1.2345670")
    looked = Looked(np.array([in_parts(limit)]), None, all_judged=True, is_coarse=False)
    trust = Trust((0.0,), (Spread(0.0, 1),), 0.0)
    trusted = Alike(TrustTable([trust]))
    verdict = weighed(np.array([in_parts(inside)]), looked, trusted)
    is_doubted = Value(difference=inside).is_contradicted(trust, limit)
    assert STATES[verdict.state[0]] is (State.CLOSE if is_doubted else State.WITHIN)
