"""What must hold for every pair, whatever was ordered and read."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchassist.job.document import Job
from benchassist.limits.load import Limits
from benchassist.verdicts.addition import OTHER_SURFACE
from benchassist.verdicts.finding import Finding, State, worst
from benchassist.verdicts.judge import RULES, judge
from benchassist.verdicts.weigh import READINGS_DISAGREE, state_of
from tests.job.strategies import jobs
from tests.verdicts.jobs import (
    ANSI,
    ISO,
    components,
    display,
    found_in,
    guarded_limits,
    job_of,
    judged,
    plain_limits,
    power,
)

Lens = tuple[Decimal, Decimal, Decimal]

quarters = st.integers(-60, 60).map(lambda steps: Decimal(steps) / 4)
cylinders = st.integers(-24, 24).map(lambda steps: Decimal(steps) / 4)
axes = st.integers(1, 180).map(Decimal)
lenses = st.tuples(quarters, cylinders, axes)
slips = st.tuples(
    st.integers(-40, 40).map(lambda hundredths: Decimal(hundredths) / 100),
    st.integers(-40, 40).map(lambda hundredths: Decimal(hundredths) / 100),
    st.integers(-9, 9).map(Decimal),
)
sets = st.sampled_from((ISO, ANSI))
designs = st.sampled_from(("single-vision", "bifocal", "trifocal", "progressive", "degressive"))
EYES = ("right", "left")


def transposed(lens: Lens) -> Lens:
    sphere, cylinder, axis = lens
    return sphere + cylinder, -cylinder, axis + 90 if axis <= 90 else axis - 90


def written(lens: Lens) -> dict[str, Any]:
    sphere, cylinder, axis = lens
    return power(str(sphere), str(cylinder), str(axis))


def shown(lens: Lens) -> dict[str, Any]:
    sphere, cylinder, axis = lens
    return display(str(sphere), str(cylinder), str(axis))


def slipped(lens: Lens, slip: Lens) -> Lens:
    return lens[0] + slip[0], lens[1] + slip[1], (lens[2] + slip[2] + 179) % 180 + 1


@settings(max_examples=60, deadline=None)
@given(sets, designs, lenses, slips)
def test_the_cylinder_form_never_changes_a_verdict(
    rule_set: str, design: str, lens: Lens, slip: Lens
) -> None:
    read = slipped(lens, slip)
    forms = [
        judged(
            {"design": design, "rule_set": rule_set, "right": {"power": written(ordered)}},
            {"right": {"distance": [shown(found)]}},
        )
        for ordered in (lens, transposed(lens))
        for found in (read, transposed(read))
    ]
    assert all(form == forms[0] for form in forms[1:])


def mirrored(lens: Lens) -> Lens:
    """The lens of the other eye in mirror image."""
    return lens[0], lens[1], Decimal(180) if lens[2] == 180 else 180 - lens[2]


@settings(max_examples=60, deadline=None)
@given(sets, lenses, lenses, st.tuples(quarters, quarters), st.tuples(quarters, quarters))
def test_a_pair_in_mirror_image_has_the_same_verdicts(
    rule_set: str,
    first: Lens,
    second: Lens,
    prism: tuple[Decimal, Decimal],
    found: tuple[Decimal, Decimal],
) -> None:
    def pair(right: Lens, left: Lens, sides: Sequence[int]) -> dict[str, Finding]:
        lenses_of = dict(zip(EYES, (right, left), strict=True))
        ordered = dict(zip(EYES, (prism, found)[:: sides[0]], strict=True))
        read = dict(zip(EYES, (found, prism)[:: sides[0]], strict=True))
        order = {
            eye: {
                "power": written(lenses_of[eye]),
                "prism": components(*map(str, ordered[eye])),
                "distance_pd": "31",
            }
            for eye in EYES
        }
        attempt: dict[str, Any] = {
            eye: {"prism": [{"prism": components(*map(str, read[eye]))}]} for eye in EYES
        }
        wide = dict(zip(EYES, ("32", "33")[:: sides[0]], strict=True))
        attempt["pair"] = {eye: {"distance_pd": [wide[eye]]} for eye in EYES}
        return judged({"design": "single-vision", "rule_set": rule_set, **order}, attempt)

    as_is = pair(first, second, [1])
    mirror = pair(mirrored(second), mirrored(first), [-1])
    for key in ("pair.prism-horizontal", "pair.prism-vertical", "pair.centration-horizontal"):
        assert as_is[key].state is mirror[key].state
        assert as_is[key].limit == mirror[key].limit


@settings(max_examples=40, deadline=None)
@given(st.permutations(["-2.00", "-2.12", "-2.25", "-1.87"]))
def test_the_order_of_readings_does_not_matter(spheres: list[str]) -> None:
    order = {"design": "single-vision", "right": {"power": power("-2.00")}}
    attempt = {"right": {"distance": [display(sphere) for sphere in spheres]}}
    found = judged(order, attempt, guarded_limits(ISO))["right.meridian-high"]
    assert found.found == Decimal("-2.06")
    assert found.guard == pytest.approx(Decimal("0.12"), abs=Decimal("0.06"))


@settings(max_examples=25, deadline=None)
@given(jobs, sets, st.sampled_from((plain_limits, guarded_limits)))
def test_any_job_can_be_judged(
    job: Job, rule_set: str, limits_of: Callable[[str], Limits]
) -> None:
    limits = limits_of(rule_set)
    findings = judge(job, limits)
    assert findings == judge(job, limits)
    for finding in findings:
        assert finding.sentence.endswith(".")
        assert finding.prompt
        assert finding.probability is None or 0 <= finding.probability <= 1
        assert finding.more_readings is None or finding.state is State.CLOSE
        if finding.state in {State.OUTSIDE, State.CLOSE} and finding.limit is not None:
            assert finding.rule is not None
            assert finding.difference is not None
            assert finding.guard >= 0
            assert (
                (abs(finding.difference) > finding.limit) is (finding.state is State.OUTSIDE)
                or finding.key.startswith(("bench.", "fit."))
                or (
                    any(why in finding.sentence for why in (READINGS_DISAGREE, OTHER_SURFACE))
                    and finding.state is State.CLOSE
                )
            )


@given(
    st.decimals(-2, 2, places=3),
    st.decimals(0, 1, places=3),
    st.decimals(0, 1, places=3),
)
def test_a_state_follows_the_size_alone(
    difference: Decimal, limit: Decimal, guard: Decimal
) -> None:
    state = state_of(difference, limit, guard)
    assert state is state_of(-difference, limit, guard)
    assert (state is State.OUTSIDE) is (abs(difference) > limit)
    assert state_of(difference, limit, Decimal(0)) is not State.CLOSE


def test_the_rules_are_a_tuple_of_functions() -> None:
    assert isinstance(RULES, tuple)
    assert len(set(RULES)) == len(RULES)


def test_an_empty_job_waits_for_its_order() -> None:
    findings = found_in(job_of({}), guarded_limits(ISO))
    assert worst([finding.state for finding in findings.values()]) is State.MISSING


def test_a_larger_guard_factor_never_lets_more_pass() -> None:
    strict = replace(
        guarded_limits(ISO),
        decision=replace(guarded_limits(ISO).decision, guard_factor=Decimal(3)),
    )
    order = {"design": "single-vision", "right": {"power": power("-2.00")}}
    attempt = {"right": {"distance": [display("-2.05")]}}
    states = [
        judged(order, attempt, limits)["right.meridian-high"].state
        for limits in (plain_limits(ISO), guarded_limits(ISO), strict)
    ]
    assert states == [State.WITHIN, State.WITHIN, State.CLOSE]
