"""Rules and sources on the paper."""

from dataclasses import replace

from benchassist.records.making import make_record
from benchassist.records.pen import Pen
from benchassist.records.rulebook import letter, rule_blocks
from benchassist.verdicts.finding import State
from tests.records import bench
from tests.records.test_pdf import missing


def test_sources_are_lettered_on_and_on() -> None:
    assert [letter(number) for number in (0, 1, 25, 26, 27, 51, 52)] == [
        "a",
        "b",
        "z",
        "aa",
        "ab",
        "az",
        "ba",
    ]


def test_a_note_is_printed_where_its_rule_decides() -> None:
    outside = bench.record()
    assert missing(outside, ["Only for this test."]) == []
    within = tuple(replace(one, state=State.WITHIN) for one in bench.findings())
    calm = make_record(bench.job(), within, bench.guide(), bench.LIMITS, bench.IMPRINT)
    assert missing(calm, ["Cylinder axis: memory (a, b)."]) == []
    assert missing(calm, ["Only for this test."]) == ["Only for this test."]


def test_limits_that_are_no_standard_name_no_clause() -> None:
    record = bench.record()
    own = record.rules[0].with_(clause="not applicable")
    assert missing(record.with_(rules=(own,)), ["not applicable Cylinder"]) != []


def test_without_rules_there_is_no_such_section() -> None:
    assert rule_blocks(Pen("", "", ""), bench.record().with_(rules=())) == ()
