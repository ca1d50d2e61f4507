"""The checks that make up the table touch, brought to agree."""

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchassist.geometry.frame_state import FrameState, frame_points
from benchassist.geometry.resting import inverted
from benchassist.geometry.touch import Gaps, inverted_angle
from benchassist.job.checks import Answer, Seen
from benchassist.job.document import Job
from benchassist.limits.table import Row, Table
from benchassist.optics.eye import Eye
from benchassist.verdicts.frame_measured import Why
from benchassist.verdicts.judge import judge
from benchassist.verdicts.rocking import (
    PANTOSCOPIC,
    SKEW,
    TIPS,
    X_ING,
    Lacking,
    Rocking,
    rocking,
    tips_of,
)
from tests.verdicts.jobs import ISO, plain_limits
from tests.verdicts.rocking_cases import LEVEL, answered, job, upright, why


def found(one: Job) -> Rocking:
    rocked = rocking(one)
    assert isinstance(rocked, Rocking)
    return rocked


def test_a_level_frame_has_no_share() -> None:
    rocked = found(job())
    assert {share.name for share in rocked.shares} == {SKEW, X_ING, PANTOSCOPIC}
    assert all(share.value == share.angle == 0 for share in rocked.shares)


def test_what_the_table_shows_goes_to_the_part_that_is_known_worst() -> None:
    """One degree on the table; skew is known best, X-ing and temples about alike."""
    rocked = found(job(table_inverted={"right_gap": "1.0"}))
    shares = {share.name: share.angle for share in rocked.shares}
    assert sum(shares.values()) == pytest.approx(rocked.angle, abs=Decimal("0.05"))
    assert shares[X_ING] > shares[PANTOSCOPIC] > shares[SKEW] > 0


def test_the_parts_that_are_measured_are_left_where_they_explain_it() -> None:
    """1.4 mm of X-ing gaps over 36 mm and 3.9 mm under the shaft are the same 2.2 degrees."""
    rocked = found(job(x_ing={"left_top": "1.4"}, table_inverted={"right_gap": "3.9"}))
    assert rocked.share(X_ING).value == pytest.approx(Decimal("2.23"), abs=Decimal("0.03"))
    assert abs(rocked.share(PANTOSCOPIC).value) < Decimal("0.03")


def test_two_faults_that_hide_each_other_are_both_there() -> None:
    rocked = found(job(x_ing={"left_top": "1.4"}, pantoscopic={"left_offset": "7.26"}))
    assert rocked.angle == 0
    assert rocked.share(X_ING).value > 2
    assert rocked.share(PANTOSCOPIC).value < -2


def test_what_cannot_be_true_together_is_said() -> None:
    assert rocking(job(table_inverted={"right_gap": "9"})) == Lacking(
        ("skew", "x-ing", "pantoscopic", "table-inverted"), Why.CONTRADICTORY
    )


@pytest.mark.parametrize(("gap", "agrees"), [("1.2", True), ("1.5", False)])
def test_three_standard_uncertainties_are_too_far_apart(gap: str, *, agrees: bool) -> None:
    """Own derivation: over 100 mm a gap of 1 mm is 0.57 degrees.

    All four together are known to 0.24 to 0.27 degrees, most of it X-ing: four feelers of
    0.06 mm over 36 mm are 0.19 degrees. So 1.2 mm are 2.5 to 2.9 of them, 1.5 mm 3.2 to 3.6.
    """
    for side in Eye:
        one = rocking(job(table_inverted={f"{side}_gap": gap}))
        assert isinstance(one, Rocking) is agrees


def test_the_table_gives_way_a_little_too() -> None:
    """Own derivation: its two feelers over 100 mm, 0.05 degrees, are 3 to 4 % of the whole."""
    rocked = found(job(table_inverted={"right_gap": "1.0"}))
    left = rocked.angle - sum(share.angle for share in rocked.shares)
    assert Decimal("0.015") < left < Decimal("0.027")


@pytest.mark.parametrize("lower", [-3.0, 3.0])
def test_so_much_of_a_temple_angle_shows_on_the_table_as_a_rigid_frame_shows(
    lower: float,
) -> None:
    """A frame at rest in space on its rims and bends, against the share that is reckoned."""
    state = FrameState.true()
    state = state.with_side(Eye.RIGHT, pantoscopic=state.right.pantoscopic + lower)
    stand = inverted(frame_points(state))
    shown = inverted_angle(Gaps(stand.behind[Eye.RIGHT], stand.behind[Eye.LEFT]), stand.run)
    share = found(
        job(pantoscopic={"right_offset": "7.0"}, table_inverted={"right_gap": "3.30"})
    ).share(PANTOSCOPIC)
    assert float(share.angle / share.value) == pytest.approx(shown / lower, rel=0.01)


@pytest.mark.parametrize("name", LEVEL)
def test_all_four_must_be_measured_and_count(name: str) -> None:
    whole, key = job(), name.replace("-", "_")
    answer = whole.now.bench.answers[name]
    again = answer.with_(again_because=("bench.skew",))
    half = Answer(measured=dict(list(answer.measured.items())[1:]))
    by_eye = Answer(seen=Seen.GOOD)
    for changed in (None, half, by_eye):
        one = answered(whole, **{key: changed})
        assert rocking(one) == Lacking((name,), Why.NOT_MEASURED)
    assert rocking(answered(whole, **{key: again})) == Lacking((name,), Why.AGAIN)


def test_what_is_not_ordered_is_named_once() -> None:
    whole = job()
    bare = whole.with_(order=whole.order.with_(frame=whole.order.frame.with_(a=None, b=None)))
    assert rocking(bare) == Lacking(("A", "B"), Why.NOT_ORDERED)


def test_a_set_that_no_frame_can_show_is_named() -> None:
    one = job(x_ing={"left_top": "40"}, pantoscopic={"left_offset": "41"})
    assert rocking(one) == Lacking(("x-ing", "pantoscopic"), Why.IMPOSSIBLE)


def test_what_is_to_be_measured_is_asked_for_before_anything_else() -> None:
    one = job(x_ing={"left_top": "40"})
    again = one.now.bench.answers["skew"].with_(again_because=("bench.x-ing",))
    one = answered(one, skew=again, pantoscopic=None)
    assert rocking(one) == Lacking(("pantoscopic",), Why.NOT_MEASURED)


gaps = st.integers(0, 40).map(lambda tenths: str(Decimal(tenths) / 10))


@settings(max_examples=60, deadline=None)
@given(gaps, gaps, gaps)
def test_the_best_values_add_up_to_the_angle(top: str, offset: str, gap: str) -> None:
    """What is left apart is what the table itself may be out by: three times 0.05 degrees."""
    rocked = rocking(
        job(
            x_ing={"left_top": top},
            pantoscopic={"right_offset": offset},
            table_inverted={"right_gap": gap},
        )
    )
    if isinstance(rocked, Rocking):
        apart = abs(rocked.angle - sum(share.angle for share in rocked.shares))
        assert apart <= Decimal("0.15")
    else:
        assert rocked.why is Why.CONTRADICTORY


@pytest.mark.parametrize("gaps", [("0", "3.0"), ("2.0", "0")])
def test_upright_the_tips_are_told_from_the_temples(gaps: tuple[str, str]) -> None:
    told = why(upright(job(), *gaps), "table-upright")
    assert "the temple angles open 0.0 mm" in told
    assert told.endswith("Put right first: the bends of the tips.")


LIMITS = {
    **dict.fromkeys(("skew", "x-ing", "pantoscopic", "table-touch"), Decimal(1)),
    "bend-start": Decimal(2),
    "bend-drop": Decimal(10),
}
"""Limits of the tests' own, by the row, mm and degrees."""


def test_the_innermost_past_its_limit_comes_first_whatever_is_larger() -> None:
    both = found(
        job(
            x_ing={"left_top": "0.8"},
            pantoscopic={"right_offset": "7.2"},
            table_inverted={"right_gap": "6.0"},
        )
    )
    assert both.largest.name == PANTOSCOPIC
    assert both.first(LIMITS, is_upright=False) == X_ING
    switched_off = {row: limit for row, limit in LIMITS.items() if row != "x-ing"}
    assert both.first(switched_off, is_upright=False) == PANTOSCOPIC


def test_what_hides_on_the_table_comes_first_although_it_lifts_the_other_way() -> None:
    hidden = found(
        upright(job(x_ing={"left_top": "-0.9"}, pantoscopic={"right_offset": "6.7"}), "0", "3")
    )
    assert hidden.angle == 0
    assert hidden.first(LIMITS, is_upright=True) == X_ING


def test_within_their_limits_the_largest_is_put_right_and_then_the_tips() -> None:
    """The tips are left alone until the table upside down is within its limit."""
    for gap, first in (("1.2", X_ING), ("0.8", TIPS)):
        rocked = found(upright(job(table_inverted={"right_gap": gap}), "0", "4.0"))
        assert rocked.past(LIMITS) is None
        assert rocked.first(LIMITS, is_upright=True) == first
        assert rocked.first(LIMITS, is_upright=False) == X_ING


BENT = {"right_start": "103", "left_start": "100", "right_drop": "45", "left_drop": "45"}


@pytest.mark.parametrize(
    ("bend", "first"),
    [
        (None, X_ING),
        (Answer(measured={**BENT, "right_start": "101"}), X_ING),
        (Answer(measured=BENT), TIPS),
        (Answer(measured={**BENT, "right_start": "100", "left_drop": "30"}), TIPS),
        (Answer(measured=BENT, again_because=("bench.x-ing",)), X_ING),
        (Answer(seen=Seen.FAULT), TIPS),
        (Answer(seen=Seen.FAULT, again_because=("bench.x-ing",)), X_ING),
    ],
)
def test_a_bend_past_its_limit_goes_before_what_is_within(
    bend: Answer | None, first: str
) -> None:
    """The temple angles open 1.0 of 1.3 mm, and nothing that makes them up is past a limit."""
    one = upright(job(table_inverted={"right_gap": "0.8"}), "0", "1.3")
    rocked = found(answered(one, temple_bend=bend))
    assert rocked.first(LIMITS, is_upright=True) == first


def test_tips_that_cannot_be_are_left_out() -> None:
    for gaps in (("2", "2"), ("-0.4", "3")):
        assert tips_of(upright(job(), *gaps)) is None
    assert tips_of(job()) is None


def test_a_limit_that_the_workshop_switched_off_puts_nothing_first() -> None:
    """X-ing of 1.3 degrees with 1.7 of the temples, once judged and once not."""
    one = job(
        x_ing={"left_top": "0.8"},
        pantoscopic={"right_offset": "7.2"},
        table_inverted={"right_gap": "6.0"},
    )
    assert why(one, "table-inverted").endswith("Put right first: X-ing.")
    limits = plain_limits(ISO)
    rows = tuple(_off(row) if row.id == "x-ing" else row for row in limits.bench.rows)
    findings = judge(one, replace(limits, bench=Table(rows)))
    told = next(item for item in findings if item.key == "bench.table-inverted.why")
    assert told.sentence.endswith("Put right first: unequal pantoscopic angles.")


def _off(row: Row) -> Row:
    band = row.bands[0]
    return replace(row, bands=(replace(band, rule=replace(band.rule, off="switched off")),))


@pytest.mark.parametrize(("lifted", "down"), [("right", "left"), ("left", "right")])
@pytest.mark.parametrize(
    ("top", "shaft", "tip", "told"),
    [
        (
            "1.4",
            "3.9",
            "5.5",
            "5.0 mm (2.2° by X-ing) and the bends of the tips 0.5 mm. Put right first: X-ing.",
        ),
        (
            "0",
            "0.25",
            "0.6",
            "0.3 mm and the bends of the tips 0.3 mm. Put right first: X-ing.",
        ),
    ],
)
def test_a_gap_upright_is_shared_between_temples_and_tips(  # noqa: PLR0913, PLR0917
    lifted: str, down: str, top: str, shaft: str, tip: str, told: str
) -> None:
    """Own derivation: over a run of 128 mm a gap of 3.9 mm at 100 mm opens 3.9 x 1.28 = 5.0."""
    whole = job(x_ing={f"{down}_top": top}, table_inverted={f"{lifted}_gap": shaft})
    upright = {f"{lifted}_gap": "0", f"{down}_gap": tip, "run": "128"}
    answer = whole.now.bench.answers["skew"].with_(measured=upright)
    bench = whole.now.bench.with_(answers={**whole.now.bench.answers, "table-upright": answer})
    sentence = why(whole.with_now(whole.now.with_(bench=bench)), "table-upright")
    assert sentence == f"Of {tip} mm, the temple angles open {told}"
