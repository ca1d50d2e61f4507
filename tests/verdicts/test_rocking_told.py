"""Why a frame rocks, in words, and what is put right first."""

from dataclasses import replace

import pytest

from benchassist.job.checks import Answer
from benchassist.job.document import Job
from benchassist.limits.table import Row, Table
from benchassist.verdicts.frame_measured import Why
from benchassist.verdicts.judge import judge
from benchassist.verdicts.rocking_told import LACKING_TOLD
from tests.verdicts.jobs import ISO, job_of, plain_limits
from tests.verdicts.rocking_jobs import FRAME, LEVEL, answered, job, upright, why


def test_it_is_told_why_a_frame_rocks_and_what_comes_first() -> None:
    twisted = job(x_ing={"left_top": "1.4"}, table_inverted={"right_gap": "3.9"})
    assert why(twisted, "table-inverted") == (
        "Of 2.2° between the temples, 2.2° by X-ing. Put right first: X-ing."
    )
    both = job(
        x_ing={"left_top": "0.7"},
        pantoscopic={"right_offset": "6.5"},
        table_inverted={"right_gap": "4.1"},
    )
    told = why(both, "table-inverted")
    assert "by unequal pantoscopic angles and" in told
    assert told.endswith("Put right first: X-ing.")


@pytest.mark.parametrize(("side", "other"), [("right", "left"), ("left", "right")])
def test_either_side_is_told_alike(side: str, other: str) -> None:
    """The same frame in the mirror: the causes and what comes first do not change."""
    both = job(
        x_ing={f"{other}_top": "0.7"},
        pantoscopic={f"{side}_offset": "6.5"},
        table_inverted={f"{side}_gap": "4.1"},
    )
    assert why(both, "table-inverted") == (
        "Of 2.3° between the temples, 1.2° by unequal pantoscopic angles and 1.1° by X-ing. "
        "Put right first: X-ing."
    )


def test_what_a_feeler_does_not_tell_is_no_cause() -> None:
    """0.6 mm over 100 mm are 0.34 degrees: X-ing takes 0.17 of it, the skew step 0.02."""
    assert why(job(table_inverted={"right_gap": "0.6"}), "table-inverted") == (
        "Of 0.3° between the temples, 0.2° by X-ing. Put right first: X-ing."
    )


def test_what_is_not_measured_is_asked_for() -> None:
    answers = {"table-inverted": {"measured": {**LEVEL["table-inverted"], "left_gap": "3"}}}
    alone = job_of({"frame": FRAME}, {"bench": {"answers": answers}})
    assert why(alone, "table-inverted") == (
        "To say why it rocks, measure also: skew step, X-ing and pantoscopic angles."
    )


TOUCH = {"table_inverted": {"right_gap": "0.9"}}


@pytest.mark.parametrize(
    ("one", "says"),
    [
        (
            answered(
                job(**TOUCH),
                x_ing=Answer(measured=LEVEL["x-ing"], again_because=("bench.skew",)),
            ),
            "To say why it rocks, measure again after the correction: X-ing.",
        ),
        (
            job_of({}, {"bench": job(**TOUCH).now.bench.model_dump(mode="json")}),
            "To say why it rocks, enter in the order the frame's A, DBL and B.",
        ),
        (
            job(**TOUCH, x_ing={"left_top": "40"}),
            "To say why it rocks, measure again, because no frame shows what was read: X-ing.",
        ),
        (
            job(table_inverted={"right_gap": "9"}),
            LACKING_TOLD[Why.CONTRADICTORY],
        ),
    ],
    ids=lambda value: "" if isinstance(value, Job) else value[-20:],
)
def test_why_nothing_can_be_said_is_a_whole_sentence(one: Job, says: str) -> None:
    assert why(one, "table-inverted") == says


def test_every_reason_has_its_sentence() -> None:
    assert set(LACKING_TOLD) == set(Why)


def test_many_small_causes_are_told_all_the_same() -> None:
    """0.3 degrees on the table are shared out until no cause makes 0.15 of them."""
    small = job(table_inverted={"right_gap": "0.6"}, skew={"right_inner": "10.1"})
    told = why(small, "table-inverted")
    assert told.startswith("Of 0.3° between the temples, 0.1° by X-ing")
    assert told.endswith("Put right first: X-ing.")


@pytest.mark.parametrize("gaps", [("0", "3.0"), ("2.0", "0")])
def test_upright_the_tips_are_told_from_the_temples(gaps: tuple[str, str]) -> None:
    told = why(upright(job(), *gaps), "table-upright")
    assert "the temple angles open 0.0 mm" in told
    assert told.endswith("Put right first: the bends of the tips.")


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
