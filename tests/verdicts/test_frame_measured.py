"""What the checks of the bench need, and which of their measurements count."""

from decimal import Decimal

import pytest

from benchassist.geometry.possible import Impossible
from benchassist.guide.load import load_guide
from benchassist.job.order import FrameOrder
from benchassist.optics.eye import Eye
from benchassist.verdicts.answers import judge_answer
from benchassist.verdicts.bench import BENCH_CHECKS
from benchassist.verdicts.case import Case
from benchassist.verdicts.fit import CROSS
from benchassist.verdicts.frame_measured import NEEDS, counted, pantoscopic_of, why_not
from tests.verdicts.jobs import ISO, job_of, plain_limits


def test_the_needs_of_the_bench_are_the_fields_of_its_prompts() -> None:
    asked = {
        prompt.name: {one.name for one in prompt.inputs}
        for prompt in load_guide().prompts
        if prompt.inputs and prompt.step == "bench"
    }
    assert {name: set(needs.read) for name, needs in NEEDS.items()} == asked
    assert [check.id for check in BENCH_CHECKS if check.id[6:] not in NEEDS] == []


def test_a_size_that_is_not_ordered_is_our_fault_to_ask_for() -> None:
    read = dict.fromkeys(NEEDS["pantoscopic"].read, Decimal(1))
    with pytest.raises(ValueError, match="states no B") as refused:
        pantoscopic_of(Eye.RIGHT, FrameOrder(), read)
    assert not isinstance(refused.value, Impossible)


def test_what_counts_has_no_reason_not_to() -> None:
    read = dict.fromkeys(NEEDS["x-ing"].read, "0") | {"apart": "36"}
    job = job_of({}, {"bench": {"answers": {"x-ing": {"measured": read}}}})
    assert counted(job, "x-ing") == {name: Decimal(value) for name, value in read.items()}
    assert why_not(job, "x-ing") is None
    assert counted(job, "a check of tomorrow") is None


def test_one_check_is_judged_alone() -> None:
    read = dict.fromkeys(CROSS.needs, "0.5")
    answers = {"cross": {"measured": read}, "level": {"seen": "fault"}}
    case = Case(job_of({}, {"fit": {"answers": answers}}), plain_limits(ISO))
    assert {finding.prompt for finding in judge_answer(case, CROSS)} == {CROSS.id}
    assert judge_answer(Case(job_of({}), plain_limits(ISO)), CROSS) == ()
