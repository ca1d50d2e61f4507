"""Small jobs for the tests of verdicts, written as plain values."""

from collections.abc import Mapping
from datetime import UTC, datetime
from functools import cache
from typing import Any

from benchassist.job.document import Attempt, Job
from benchassist.job.order import Order
from benchassist.limits.load import PLAIN_ACCEPTANCE, Limits, load_limits
from benchassist.verdicts.finding import Finding
from benchassist.verdicts.judge import judge

Values = Mapping[str, Any]

ISO = "iso-21987-2017"
ANSI = "ansi-z80.1-2015"


@cache
def plain_limits(rule_set: str = ISO) -> Limits:
    """Limits with which only the limit itself decides."""
    return load_limits(rule_set, PLAIN_ACCEPTANCE)


@cache
def guarded_limits(rule_set: str = ISO) -> Limits:
    """Limits with the usual guard of 1.645 standard uncertainties."""
    return load_limits(rule_set)


def power(sphere: str, cylinder: str | None = None, axis: str | None = None) -> dict[str, Any]:
    """An ordered power."""
    return {"sphere": sphere, "cylinder": cylinder, "axis": axis}


def display(sphere: str, cylinder: str = "0", axis: str | None = None) -> dict[str, Any]:
    """A reading on a digital meter."""
    return {"kind": "display", "sphere": sphere, "cylinder": cylinder, "axis": axis}


def drum(sphere_lines: str, cylinder_lines: str, axis: str | None = None) -> dict[str, Any]:
    """A reading on a manual meter."""
    return {
        "kind": "drum",
        "sphere_lines": sphere_lines,
        "cylinder_lines": cylinder_lines,
        "axis_wheel": axis,
    }


def shown_add(value: str, surface: str = "back") -> dict[str, Any]:
    """An addition as a digital meter shows it."""
    return {"kind": "display", "surface": surface, "shown": value}


def components(base_in: str = "0", base_up: str = "0") -> dict[str, Any]:
    """Prism by its components."""
    return {"form": "components", "base_in": base_in, "base_up": base_up}


def prism_read(base_in: str = "0", base_up: str = "0") -> list[dict[str, Any]]:
    """One reading of prism."""
    return [{"prism": components(base_in, base_up)}]


def job_of(order: Values, attempt: Values | None = None) -> Job:
    """A job with this order and one attempt."""
    return Job(
        number="T-1",
        created=datetime(2026, 3, 2, 9, 0, tzinfo=UTC),
        order=Order.model_validate(order),
        attempts=(Attempt.model_validate(attempt or {}),),
    )


def found_in(job: Job, limits: Limits) -> dict[str, Finding]:
    """The findings by their keys, each key once."""
    findings = judge(job, limits)
    by_key = {finding.key: finding for finding in findings}
    assert len(by_key) == len(findings)
    return by_key


def judged(
    order: Values, attempt: Values | None = None, limits: Limits | None = None
) -> dict[str, Finding]:
    """The findings on a small job, by their keys; only the limit decides unless told."""
    rule_set = order.get("rule_set", ISO)
    return found_in(job_of(order, attempt), limits or plain_limits(rule_set))


def checked(
    step: str, name: str, answer: Values, order: Values | None = None
) -> dict[str, Finding]:
    """The findings on one answered check, by their keys."""
    findings = judged(order or {}, {step: {"answers": {name: answer}}})
    return {key: finding for key, finding in findings.items() if key.startswith(f"{step}.")}
