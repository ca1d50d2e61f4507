"""Many pairs judged at once: the same verdicts as one by one, edges included."""

import tomllib
from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchassist.assets import asset
from benchassist.job.document import Job
from benchassist.job.order import Design
from benchassist.job.upgrade import read
from benchassist.limits.arrays import ABSENT, PARTS
from benchassist.limits.load import Limits, load_limits
from benchassist.verdicts import arrays
from benchassist.verdicts.arrays import judge_pairs
from benchassist.verdicts.arrays_jobs import pairs_of
from benchassist.verdicts.arrays_pairs import Lenses, LensPairs, Side
from benchassist.verdicts.arrays_verdict import NOT_ASKED, STATES
from benchassist.verdicts.finding import worst
from tests.authorities.test_verification import FILES
from tests.job.strategies import jobs
from tests.verdicts.bench_cases import BenchCase
from tests.verdicts.compare_arrays import Draw, compare, differing, findings_of, random_side
from tests.verdicts.jobs import (
    ANSI,
    ISO,
    display,
    drum,
    guarded_limits,
    job_of,
    plain_limits,
    power,
    prism_read,
    shown_add,
)

LimitsOf = Callable[[str], Limits]
DECISIONS = (plain_limits, guarded_limits)
HOUSE = """
workshop = "Fernhollow Spectacle Workshop"

[[tighten]]
rule_set = "iso-21987-2017"
row = "I5-h"
percent = "37.5"
reason = "many wearers of strong lenses"

[[off]]
rule_set = "iso-21987-2017"
row = "I5-v"
reason = "read elsewhere"

[[off]]
rule_set = "iso-21987-2017"
row = "I4"
reason = "read elsewhere"
"""


def demo_jobs() -> list[Job]:
    return [read(path.read_bytes()) for path in sorted(asset("demo").glob("*.json"))]


def examples() -> list[Any]:
    return [
        pytest.param(example["case"], id=example["id"])
        for file in FILES
        for example in tomllib.loads(file.read_text(encoding="utf-8"))["example"]
        if "case" in example
    ]


def alike(job: Job, limits: Limits) -> None:
    """Both ways of judging say the same of one job."""
    assert job.order.design is not None
    verdicts = judge_pairs(pairs_of([job], limits), limits, job.order.design)
    findings = findings_of(job, limits, whole=True)
    assert list(differing(verdicts, 0, findings)) == []


def some_pairs(length: int, seed: int = 3) -> LensPairs:
    draw = Draw(np.random.default_rng(seed), length)
    return LensPairs(random_side(draw), random_side(draw))


@pytest.mark.parametrize("seed", range(3))
def test_random_pairs_are_judged_alike(seed: int) -> None:
    pairs, quantities = compare(300, seed, whole_every=10)
    assert pairs >= 300
    assert quantities == 20 * pairs


def test_the_random_pairs_lie_on_limits_and_beside_them() -> None:
    verdicts = judge_pairs(some_pairs(20_000), plain_limits(ISO), Design.PROGRESSIVE)
    for key in ("right.meridian-high", "left.cylinder", "right.axis", "left.add"):
        verdict = verdicts.by_key[key]
        judged = verdict.state <= STATES.index(worst([STATES[2]]))
        beyond = np.abs(verdict.difference)[judged] - verdict.limit[judged]
        assert {0, PARTS // 1000} <= set(np.abs(beyond).tolist()) or key.endswith("axis")
        assert (beyond == 0).sum() > 50
        assert set(verdict.state.tolist()) == {0, 2, 3} | ({4} if "axis" in key else set())


@pytest.mark.parametrize("limits_of", DECISIONS)
@pytest.mark.parametrize("rule_set", [ISO, ANSI, "ansi-z80.1-2020"])
@pytest.mark.parametrize("job", demo_jobs(), ids=lambda job: job.number)
def test_the_demo_jobs_are_judged_alike(job: Job, rule_set: str, limits_of: LimitsOf) -> None:
    alike(job, limits_of(rule_set))


@pytest.mark.parametrize("case", examples())
def test_the_published_examples_are_judged_alike(case: str) -> None:
    example = BenchCase(case)
    job = job_of(example.order, example.attempt)
    for limits_of in DECISIONS:
        alike(job, limits_of(job.order.rule_set))


@settings(max_examples=25, deadline=None)
@given(jobs, st.sampled_from(Design), st.sampled_from((ISO, ANSI)), st.sampled_from(DECISIONS))
def test_any_job_is_judged_alike(
    job: Job, design: Design, rule_set: str, limits_of: LimitsOf
) -> None:
    """Repeats, both forms, polar prism, powers of the maker; what is missing is missing."""
    each_lens = job.now.pair.with_(distance_pd=())
    asked = job.with_now(job.now.with_(skipped={}, pair=each_lens))
    alike(asked.with_(order=job.order.with_(design=design)), limits_of(rule_set))


def test_repeats_and_a_checked_meter_are_judged_alike() -> None:
    meter = {
        "name": "drum",
        "speech": "drum",
        "step": "0.125",
        "checked": "2026-03-02T08:00:00Z",
        "zero": "0.06",
        "known_lens_error": "0.03",
    }
    lens = {"power": power("-7.25", "-1.50", "20"), "add": "2.25", "height": "19"}
    order = {"design": "bifocal", "right": lens, "left": lens}
    readings = {
        "distance": [
            drum("-7.25", "-8.75", "22") | {"meter": "drum"},
            drum("-7.125", "-8.75", "19") | {"meter": "drum"},
            display("-7.31", "-1.42", "21"),
        ],
        "near": [shown_add("2.37", "front"), shown_add("2.31", "front"), shown_add("2.5")],
        "prism": [*prism_read("0.1", "0.2"), *prism_read("-0.2", "0.4")],
    }
    attempt = {"right": readings, "left": readings, "instruments": {"drum": meter}}
    attempt["pair"] = {"right": {"height": ["19", "19.5"]}, "left": {"height": ["20"]}}
    for rule_set in (ISO, ANSI):
        alike(job_of({**order, "rule_set": rule_set}, attempt), guarded_limits(rule_set))


def test_house_rules_hold_for_arrays_too(tmp_path: Path) -> None:
    path = tmp_path / "house-rules.toml"
    path.write_text(HOUSE, encoding="utf-8")
    limits = load_limits(ISO, house=path)
    lens = {"power": power("-7.001", "-1.501", "20.3"), "add": "2.25"}
    order = {"design": "progressive", "right": lens, "left": lens}
    readings = {"near": [shown_add("2.37")], "prism": prism_read("0.26", "0.2")}
    for attempt in ({}, {"right": readings, "left": readings}):
        alike(job_of(order, attempt), limits)


def test_more_pairs_than_fit_at_once_are_judged_the_same(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    pairs, limits = some_pairs(1000), guarded_limits(ANSI)
    at_once = judge_pairs(pairs, limits, Design.SINGLE_VISION).by_key
    monkeypatch.setattr(arrays, "_AT_ONCE", 7)
    in_parts = judge_pairs(pairs, limits, Design.SINGLE_VISION).by_key
    assert in_parts.keys() == at_once.keys()
    for key, verdict in at_once.items():
        columns = zip(verdict.columns(), in_parts[key].columns(), strict=True)
        assert all(np.array_equal(one, other) for one, other in columns), key


def test_what_is_absent_here_and_there_is_found_in_a_later_part(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    lens = some_pairs(30).right
    heights = np.where(np.arange(30) < 20, ABSENT, 20 * PARTS)
    found = replace(lens.found, height=heights)
    ordered = replace(lens.ordered, height=np.full(30, 19 * PARTS))
    pairs = LensPairs(Side(ordered, found), Side(ordered, found))
    monkeypatch.setattr(arrays, "_AT_ONCE", 7)
    heights_judged = judge_pairs(pairs, plain_limits(), Design.BIFOCAL).by_key["right.height"]
    assert [STATES[code] for code in heights_judged.state] == [STATES[3]] * 20 + [
        STATES[0]
    ] * 10
    assert heights_judged.difference[-1] == PARTS


def test_pairs_are_not_changed_by_judging() -> None:
    pairs, same = some_pairs(100), some_pairs(100)
    judge_pairs(pairs, guarded_limits(), Design.PROGRESSIVE)
    for lens, other in ((pairs.right, same.right), (pairs.left, same.left)):
        assert np.array_equal(lens.found.columns(), other.found.columns())
        assert np.array_equal(lens.ordered.columns(), other.ordered.columns())


@pytest.mark.parametrize("design", Design)
def test_no_pairs_have_no_verdicts(design: Design) -> None:
    verdicts = judge_pairs(some_pairs(0), guarded_limits(), design)
    assert all(len(one.state) == 0 for one in verdicts.by_key.values())
    assert len(verdicts.worst()) == 0


@pytest.mark.parametrize("design", Design)
def test_the_worst_state_is_that_of_the_findings(design: Design) -> None:
    verdicts = judge_pairs(some_pairs(300), guarded_limits(), design)
    codes = verdicts.worst()
    for row in range(300):
        asked = [int(one.state[row]) for one in verdicts.by_key.values()]
        states = [STATES[code] for code in asked if code != NOT_ASKED]
        assert STATES[codes[row]] is worst(states)


def test_an_ordered_axis_in_hundredths_is_refused() -> None:
    lens = some_pairs(1).right
    fine = Lenses(*(np.array([value * PARTS // 100]) for value in (100, -100, 1001)))
    with pytest.raises(ValueError, match="tenth of a degree"):
        judge_pairs(
            LensPairs(Side(fine, lens.found), Side(fine, lens.found)),
            plain_limits(),
            Design.SINGLE_VISION,
        )


def test_one_side_alone_cannot_tell_of_its_readings() -> None:
    pairs = pairs_of(demo_jobs(), plain_limits())
    with pytest.raises(ValueError, match="either both sides"):
        LensPairs(pairs.right, Side(pairs.left.ordered, pairs.left.found))


def test_a_column_is_told_in_whole_parts() -> None:
    job = job_of({"design": "single-vision", "right": {"power": power("-2.125")}})
    pairs = pairs_of([job], plain_limits())
    assert pairs.right.ordered.sphere.tolist() == [int(Decimal("-2.125") * PARTS)]
    assert pairs.left.ordered.sphere.tolist() == [ABSENT]
    assert pairs.right.ordered.axis.tolist() == [0]
