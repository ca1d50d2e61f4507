"""One step on the paper: what was read, found, answered, corrected, skipped and is open."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from benchassist.guide.prompts import StepId
from benchassist.records.cells import Cell, cell_blocks, draw_state, told_block
from benchassist.records.columns import (
    Column,
    compared,
    draw_cells,
    draw_titles,
    free_from,
)
from benchassist.records.ink import (
    BODY,
    BODY_STRONG,
    FAINT,
    LEFT,
    RIGHT,
    SMALL,
    SMALL_SOFT,
    SMALL_STRONG,
    WIDTH,
)
from benchassist.records.paper import Block, gap, heading, paragraph
from benchassist.records.pen import Pen
from benchassist.records.record import AnswerLine, FindingLine, Part, ReadingLine, SlipLine
from benchassist.records.words import ended, limit_amount, percent, plural
from benchassist.verdicts import words
from benchassist.verdicts.finding import WORST_FIRST, State

_NOTED = "noted"
_SLIPS_TITLE = "What may have happened (questions, not causes)"

_WORD = LEFT + 14
_WHAT = LEFT + 80


_COLUMNS = (
    Column("Ordered", LEFT + 252),
    Column("Found", LEFT + 328),
    Column("Difference", LEFT + 388),
    Column("Limit", LEFT + 436),
    Column("Used", LEFT + 472),
    Column("Rule", RIGHT),
)


def part_blocks(pen: Pen, part: Part) -> tuple[Block, ...]:
    """One step under its heading; nothing where there is nothing to tell."""
    rows = (
        *_read(pen, part.readings),
        *_table(pen, part),
        *_asked(pen, part.slips),
        *_simply_good(pen, part),
        *cell_blocks(pen, _cells(part)),
        *_done(pen, part),
    )
    return (*heading(part.title, _counts(part.findings)), *rows) if rows else ()


def _counts(findings: Sequence[FindingLine]) -> str:
    states = [finding.state for finding in findings]
    present = (state for state in WORST_FIRST if state in states)
    return " · ".join(f"{states.count(state)} {state.word}" for state in present)


def _read(pen: Pen, readings: Sequence[ReadingLine]) -> tuple[Block, ...]:
    """All readings of the step in one text, the meter told once where it is the same."""
    meters = {reading.meters for reading in readings}
    is_one = len(meters) == 1
    told = " · ".join(
        f"{reading.title}: {reading_text(reading, with_meters=not is_one)}"
        for reading in readings
    )
    names = ", ".join(meters.pop()) if is_one else ""
    text = f"{told} ({names})" if names else told
    return told_block(pen, "as read", text) if text else ()


def reading_text(reading: ReadingLine, *, with_meters: bool = True) -> str:
    """The repeats as they were typed, and the meters used."""
    meters = f" ({', '.join(reading.meters)})" if reading.meters and with_meters else ""
    return "; ".join(reading.values) + meters


def _has_numbers(finding: FindingLine) -> bool:
    values = (finding.ordered, finding.found, finding.difference)
    is_number = any(value is not None for value in values) or finding.limit is not None
    return is_number and finding.state is not State.NONE


def _table(pen: Pen, part: Part) -> tuple[Block, ...]:
    head = _table_head()
    rows = tuple(
        block
        for finding in part.findings
        if _has_numbers(finding)
        for block in _measured(pen, part, finding, head)
    )
    return (gap(2, keeps=True), head, *rows, gap(3)) if rows else ()


def _table_head() -> Block:
    def draw(pen: Pen, top: float) -> None:
        pen.text(_WORD, top + 9, "State", SMALL_SOFT)
        pen.text(_WHAT, top + 9, "Quantity", SMALL_SOFT)
        draw_titles(pen, top + 9, _COLUMNS)
        pen.rule(LEFT, top + 14, WIDTH)

    return Block(16, draw, keeps=True)


def named(step: StepId, finding: FindingLine) -> str:
    """The quantity in words, with the eye where the step does not say it."""
    if finding.eye is None or step in {StepId.RIGHT, StepId.LEFT}:
        return finding.what
    return f"{finding.what}, {finding.eye.value}"


def _measured(pen: Pen, part: Part, finding: FindingLine, head: Block) -> tuple[Block, ...]:
    cells = (
        *compared(finding),
        limit_amount(finding.limit, finding.unit, finding.sentence),
        percent(finding.share),
        str(finding.rule or ""),
    )
    room = free_from(pen, _WHAT, _COLUMNS, cells, BODY)
    names = pen.wrap(named(part.step, finding), BODY_STRONG, room)

    def draw(pen: Pen, top: float) -> None:
        draw_state(pen, LEFT, top, finding.state, finding.state.word)
        for number, name in enumerate(names):
            pen.text(_WHAT, top + 10 + number * BODY.leading, name, BODY_STRONG)
        draw_cells(pen, top + 10, _COLUMNS, cells, BODY)

    row = Block(BODY.leading * len(names), draw, keeps=True, head=(head,))
    parts = (*_in_words(finding), finding.method, _told(part, finding))
    said = " ".join(text for text in parts if text)
    face = SMALL if finding.is_told else SMALL_SOFT
    sentence = paragraph(pen, said, face, x=_WHAT, room=RIGHT - _WHAT) if said else ()
    last = tuple(replace(line, keeps=True) for line in sentence[-1:])
    return (row, *sentence[:-1], *last, _hairline())


def _in_words(finding: FindingLine) -> tuple[str, str]:
    """The sentence of a finding, and up to where it is good; nothing where numbers say it."""
    if numbers_say_it(finding):
        return "", ""
    is_plain = finding.state is State.WITHIN and not finding.is_told
    return finding.sentence, "" if is_plain else _good_to(finding)


def numbers_say_it(finding: FindingLine) -> bool:
    """Whether what was ordered, what was found and a difference within leave nothing to say."""
    numbers = (finding.ordered, finding.found, finding.difference)
    return finding.state is State.WITHIN and not finding.is_told and None not in numbers


def _good_to(finding: FindingLine) -> str:
    if finding.good is None:
        return ""
    return f"Good to {words.limit_size(finding.good, finding.unit)}."


def _hairline() -> Block:
    return Block(2.5, lambda pen, top: pen.rule(_WHAT, top + 2, RIGHT - _WHAT, FAINT))


def _told(part: Part, finding: FindingLine) -> str:
    """What the answer adds to the last finding made from it; empty when nothing."""
    last = [each for each in part.findings if each.prompt == finding.prompt][-1]
    if finding.key != last.key:
        return ""
    answers = [answer for answer in part.answers if answer.prompt == finding.prompt]
    return " ".join(
        text for answer in answers if (text := answer_text(answer, finding.sentence))
    )


def answer_text(answer: AnswerLine, besides: str = "") -> str:
    """What was measured and remarked, and why it is to be looked at again; may be empty.

    A measurement or a remark that stands in the text `besides` is not told twice.
    """
    parts = []
    measured = [each for each in answer.measured if each not in besides]
    if measured:
        parts.append(f"Measured: {'; '.join(measured)}.")
    if answer.remark and answer.remark.rstrip(".") not in besides:
        parts.append(f"Remark: {ended(answer.remark)}")
    if answer.again:
        parts.append(f"To be looked at again after: {answer.again}.")
    return " ".join(parts)


def _asked(pen: Pen, slips: Sequence[SlipLine]) -> tuple[Block, ...]:
    """Which common slips would explain what is outside, as questions."""
    if not slips:
        return ()
    rows: list[Block] = []
    for slip in slips:
        rows += told_block(pen, "", f"{slip.about}: {slip.sentence}")
    title = paragraph(pen, _SLIPS_TITLE, SMALL_STRONG)
    return (gap(2, keeps=True), *(replace(line, keeps=True) for line in title), *rows)


def _simply_good(pen: Pen, part: Part) -> tuple[Block, ...]:
    """The titles of what was found good or done, without a word more."""
    good = [finding.what for finding in part.findings if is_simply_good(finding)]
    rows: list[Block] = []
    if good:
        text = f"Found good: {'; '.join(good)}."
        rows += told_block(pen, State.WITHIN.word, text, State.WITHIN)
    done: dict[str, list[str]] = {}
    for answer in _unjudged(part):
        if answer.seen and not _said(answer):
            done.setdefault(answer.seen, []).append(answer.title)
    for word, titles in done.items():
        rows += told_block(pen, word, f"{'; '.join(titles)}.")
    return tuple(rows)


def is_simply_good(finding: FindingLine) -> bool:
    """Whether a check by eye was found good and nothing was remarked."""
    return finding.state is State.WITHIN and finding.sentence == f"{finding.what}: found good."


def _unjudged(part: Part) -> Iterator[AnswerLine]:
    judged = {finding.prompt for finding in part.findings}
    return (answer for answer in part.answers if answer.prompt not in judged)


def _cells(part: Part) -> tuple[Cell, ...]:
    """What was answered by eye or by choice, with a remark or other than good."""
    found = [
        Cell(
            " ".join(text for text in (_sentence(part, each), _told(part, each)) if text),
            _word(each),
            each.state,
        )
        for each in part.findings
        if not _has_numbers(each) and not is_simply_good(each)
    ]
    answered = [
        Cell(": ".join(text for text in (answer.title, _said(answer)) if text), answer.seen)
        for answer in _unjudged(part)
        if _said(answer) or not answer.seen
    ]
    return (*found, *answered)


def _word(finding: FindingLine) -> str:
    """The word of the state; what is only told is noted and not called not applicable."""
    is_noted = finding.is_told and finding.state is State.NONE
    return _NOTED if is_noted else finding.state.word


def _sentence(part: Part, finding: FindingLine) -> str:
    """The sentence, led by the quantity where it does not name it."""
    if finding.what.lower() in finding.sentence.lower():
        return finding.sentence
    return f"{named(part.step, finding)}: {finding.sentence}"


def _said(answer: AnswerLine) -> str:
    said = (answer.choice, answer_text(answer))
    return "; ".join(text for text in said if text)


def _done(pen: Pen, part: Part) -> tuple[Block, ...]:
    """What was corrected and skipped, and what waits for an answer."""
    rows: list[Block] = []
    for line in part.corrections:
        tool = f" ({line.tool})" if line.tool else ""
        done = f"{line.did.rstrip('.')}{tool}."
        said = " ".join(text for text in (f"{line.check}: {done}", ended(line.remark)) if text)
        rows += told_block(pen, "corrected", said)
    for skipped in part.skipped:
        rows += told_block(pen, "skipped", f"{skipped.title}: {ended(skipped.reason)}")
    judged = {finding.prompt for finding in part.findings}
    waiting = [line.title for line in part.open if line.prompt not in judged]
    if waiting:
        text = f"{plural(len(waiting), 'answer')}: {'; '.join(waiting)}"
        rows += told_block(pen, State.MISSING.word, text, State.MISSING)
    return tuple(rows)
