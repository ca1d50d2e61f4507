"""A level frame on the bench, with some of its measurements changed."""

from typing import Any

from benchassist.job.checks import Answer
from benchassist.job.document import Job
from benchassist.verdicts.judge import judge
from tests.verdicts.jobs import ISO, job_of, plain_limits

FRAME = {"a": "52", "b": "40", "dbl": "18"}
LEVEL: dict[str, dict[str, str]] = {
    "skew": dict.fromkeys(("right_outer", "right_inner", "left_inner", "left_outer"), "10"),
    "x-ing": {
        **dict.fromkeys(("right_top", "right_bottom", "left_top", "left_bottom"), "0"),
        "apart": "36",
    },
    "pantoscopic": {"right_offset": "5.6", "left_offset": "5.6"},
    "table-inverted": {"right_gap": "0", "left_gap": "0", "run": "100"},
}


def job(**changed: dict[str, str]) -> Job:
    """A level frame with some measurements changed."""
    answers: dict[str, Any] = {}
    for name, values in LEVEL.items():
        answers[name] = {"measured": {**values, **changed.get(name.replace("-", "_"), {})}}
    return job_of({"frame": FRAME}, {"bench": {"answers": answers}})


def answered(one: Job, **changed: Answer | None) -> Job:
    """The job with some answers of the bench changed, or without them."""
    bench = one.now.bench
    answers = dict(bench.answers) | {k.replace("_", "-"): v for k, v in changed.items()}
    kept = {name: answer for name, answer in answers.items() if answer is not None}
    return one.with_now(one.now.with_(bench=bench.with_(answers=kept)))


def why(one: Job, check: str) -> str:
    findings = {finding.key: finding for finding in judge(one, plain_limits(ISO))}
    told = findings[f"bench.{check}.why"]
    assert told.is_told
    return told.sentence


def upright(one: Job, right_gap: str, left_gap: str) -> Job:
    """The job with the touch upright measured."""
    read = {"right_gap": right_gap, "left_gap": left_gap, "run": "128"}
    return answered(one, table_upright=Answer(measured=read))
