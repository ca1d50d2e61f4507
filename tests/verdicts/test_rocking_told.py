"""Why a frame rocks, in words."""

import pytest

from benchassist.job.checks import Answer
from benchassist.job.document import Job
from benchassist.verdicts.frame_measured import Why
from benchassist.verdicts.rocking_told import LACKING_TOLD
from tests.verdicts.jobs import job_of
from tests.verdicts.rocking_cases import FRAME, LEVEL, answered, job, why


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


def test_a_cause_that_works_against_the_others_is_told_as_that() -> None:
    """X-ing opens 2.2 degrees; a right half 0.35 mm lower closes 0.2 of them."""
    crossed = job(
        x_ing={"left_top": "1.4"},
        skew={"right_inner": "9.7"},
        table_inverted={"right_gap": "3.55"},
    )
    assert why(crossed, "table-inverted") == (
        "Of 2.0° between the temples, 2.2° by X-ing, against it 0.2° by the skew step of the "
        "bridge. Put right first: X-ing."
    )


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
    small = job(
        table_inverted={"right_gap": "0.6"},
        skew={"right_inner": "10.1"},
        pantoscopic={"right_offset": "5.65"},
    )
    told = why(small, "table-inverted")
    assert told.startswith("Of 0.3° between the temples, 0.1° by X-ing")
    assert told.endswith("Put right first: X-ing.")
