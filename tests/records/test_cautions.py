"""The cautions say what weakens the record."""

from dataclasses import replace

from benchassist.job.document import Job
from benchassist.limits.rule import Evidence
from benchassist.records.cautions import cautions
from benchassist.verdicts.finding import Finding
from tests.records import bench


def said(job: Job, findings: tuple[Finding, ...]) -> str:
    return "\n".join(cautions(job, findings, bench.guide(), bench.RULE_SET))


def with_evidence(evidence: Evidence) -> tuple[Finding, ...]:
    rule = replace(bench.AXIS_RULE, evidence=evidence)
    return (replace(bench.findings()[0], rule=rule),)


def test_what_is_undecided_comes_first() -> None:
    first, second, *_ = cautions(bench.job(), bench.findings(), bench.guide(), bench.RULE_SET)
    assert first.startswith("1 finding lies so near the limit")
    assert second == "1 quantity asked for was not judged."


def test_the_caution_of_the_rule_set_is_told() -> None:
    assert bench.RULE_SET.caution in said(bench.job(), ())


def test_remembered_limits_are_told_and_read_ones_are_not() -> None:
    assert "Of 1 rule applied, 1 is known from memory" in said(
        bench.job(), with_evidence(Evidence.MEMORY)
    )
    assert "carried over" in said(bench.job(), with_evidence(Evidence.CARRIED))
    assert "without a published source" in said(bench.job(), with_evidence(Evidence.PROPOSED))
    assert "applied" not in said(bench.job(), with_evidence(Evidence.READ))


def test_readings_without_a_meter_are_counted() -> None:
    assert "2 readings of 3 at the lens meter name no instrument" in said(bench.job(), ())
    fresh = Job(number="FH-2", created=bench.MADE_AT)
    assert "lens meter" not in said(fresh, ())


def test_material_and_skipped_prompts_are_told() -> None:
    text = said(bench.job(), ())
    assert "Acetate: warm it before bending. Never: bend it cold." in text
    assert "1 prompt was skipped." in text


def test_local_rules_have_the_last_word() -> None:
    last = cautions(bench.job(), (), bench.guide(), bench.RULE_SET)[-1]
    assert last.startswith("Local rules")


def test_nothing_is_said_twice() -> None:
    twice = replace(bench.RULE_SET, caution="")
    texts = cautions(bench.job(), bench.findings(), bench.guide(), twice)
    assert len(set(texts)) == len(texts)
    assert "" not in texts
