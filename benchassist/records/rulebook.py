"""The rules applied, by number, and the sources they refer to, by letter."""

from collections.abc import Iterable
from dataclasses import replace

from benchassist.records.cells import lettered_blocks, listed_blocks
from benchassist.records.ink import SMALL, SMALL_STRONG
from benchassist.records.paper import Block, gap, heading, paragraph
from benchassist.records.pen import Pen
from benchassist.records.record import Record, RuleLine, SourceLine
from benchassist.records.words import ended
from benchassist.verdicts.finding import State

_NO_CLAUSE = "not applicable"
"""The clause of limits that are not from a standard."""


def rule_blocks(pen: Pen, record: Record) -> tuple[Block, ...]:
    """The rule set, each rule with how it is known, and the sources.

    A rule's note is printed where a finding of it is outside or to be read again.
    """
    if not record.rules:
        return ()
    sources = tuple(dict.fromkeys(source for rule in record.rules for source in rule.sources))
    asked = {
        finding.rule
        for finding in record.findings
        if finding.state in {State.OUTSIDE, State.CLOSE}
    }
    rows: list[Block] = []
    for origin in dict.fromkeys(_origin(rule) for rule in record.rules):
        rows += _titled(pen, origin)
        rules = [rule for rule in record.rules if _origin(rule) == origin]
        told = ((str(rule.number), _told(rule, sources, asked)) for rule in rules)
        rows += listed_blocks(pen, told)
    shown = record.rule_set
    text = f"Judged by {shown.title}. {shown.evidence}".rstrip(".")
    return (
        *heading("Rules applied"),
        *paragraph(pen, ended(f"{text}. Decided by {shown.acceptance}"), SMALL),
        *rows,
        *_titled(pen, "Sources"),
        *(block for item in _lettered(sources) for block in lettered_blocks(pen, *item)),
    )


def _titled(pen: Pen, title: str) -> tuple[Block, ...]:
    lines = paragraph(pen, title, SMALL_STRONG)
    return (gap(3, keeps=True), *(replace(line, keeps=True) for line in lines))


def _origin(rule: RuleLine) -> str:
    return rule.edition if rule.clause == _NO_CLAUSE else f"{rule.edition}, {rule.clause}"


def _told(rule: RuleLine, sources: tuple[SourceLine, ...], asked: Iterable[int | None]) -> str:
    letters = ", ".join(letter(sources.index(source)) for source in rule.sources)
    text = f"{rule.title}: {rule.evidence.value} ({letters})."
    return f"{text} {rule.note}".strip() if rule.number in asked else text


def _lettered(sources: tuple[SourceLine, ...]) -> Iterable[tuple[str, str]]:
    for number, source in enumerate(sources):
        text = f"{source.title}, {source.address}" if source.address else source.title
        yield letter(number), text


def letter(number: int) -> str:
    """The letters of a source, counted from 0: a, b, ... z, aa, ab, ..."""
    head, last = divmod(number, 26)
    return (letter(head - 1) if head else "") + chr(ord("a") + last)
