"""The end of the paper: earlier attempts, cautions, rules and sources, history, names."""

from dataclasses import dataclass

from benchassist.job.signoff import Signature
from benchassist.records.ink import (
    ACCENT,
    BODY,
    BODY_STRONG,
    LARGE,
    LEFT,
    SMALL,
    SMALL_SOFT,
    UNIT,
    WIDTH,
)
from benchassist.records.paper import Block, gap, heading, paragraph
from benchassist.records.pen import Pen
from benchassist.records.record import Record
from benchassist.records.words import clock, day, moment, plural

_INDENT = 16.0
_TYPED = "Typed names, not electronic signatures."
_CLOCK_RAN_BACK = (
    "The clock was set back in between: the order of the entries is sure, these times are not."
)


def earlier_blocks(pen: Pen, record: Record) -> tuple[Block, ...]:
    """How the earlier attempts ended, one line each."""
    if not record.earlier:
        return ()
    rows: list[Block] = []
    for attempt in record.earlier:
        outcome = attempt.outcome.value if attempt.outcome else "not decided"
        signed = attempt.dispensed
        by = f", {signed.person.name}, {moment(signed.at)}" if signed else ""
        reason = f": {attempt.reason}" if attempt.reason else ""
        rows += paragraph(pen, f"Attempt {attempt.number}: {outcome}{by}{reason}")
    return (*heading("Earlier attempts"), *rows)


def caution_blocks(pen: Pen, record: Record) -> tuple[Block, ...]:
    """What a reader must keep in mind, each with a stroke at its side."""
    if not record.cautions:
        return ()
    rows: list[Block] = []
    for caution in record.cautions:
        lines = paragraph(pen, caution, SMALL, x=LEFT + _INDENT, room=WIDTH - _INDENT)
        rows += (*(_stroked(line) for line in lines), gap(2))
    return (*heading("To keep in mind"), *rows)


def _stroked(line: Block) -> Block:
    def draw(pen: Pen, top: float) -> None:
        pen.block(LEFT + 2, top, 2, line.height, ACCENT)
        line.draw(pen, top)

    return Block(line.height, draw, keeps=line.keeps)


def history_blocks(pen: Pen, record: Record) -> tuple[Block, ...]:
    """Who did what when, as the journal has it."""
    rows: list[Block] = []
    for deed in record.imprint.deeds:
        when = f"{day(deed.first)}, {clock(deed.first)} to {clock(deed.last)}"
        did = f"{plural(deed.edits, 'entry')}: {', '.join(deed.parts)}"
        who = f"{deed.person.name}, {deed.person.role.value}"
        rows += paragraph(pen, f"{who} · {when} · {did}", BODY)
    if record.imprint.clock_ran_back:
        rows += paragraph(pen, _CLOCK_RAN_BACK, SMALL_SOFT)
    return (*heading("Who did what"), *rows) if rows else ()


@dataclass(frozen=True, slots=True)
class _Slot:
    title: str
    signature: Signature | None


def signature_blocks(pen: Pen, record: Record) -> tuple[Block, ...]:
    """The names put to the record, and what kind of name that is."""
    decision = record.decision
    slots = (
        _Slot("Prepared", decision.prepared),
        _Slot("Dispensed", decision.dispensed),
        _Slot("Countersigned", decision.countersigned),
    )
    width = (WIDTH - 4 * UNIT) / 3
    remarks = [
        pen.wrap(slot.signature.remark if slot.signature else "", SMALL, width)
        for slot in slots
    ]
    height = 56 + max(len(lines) for lines in remarks) * SMALL.leading

    def draw(pen: Pen, top: float) -> None:
        for number, (slot, lines) in enumerate(zip(slots, remarks, strict=True)):
            _draw_slot(pen, LEFT + number * (width + 2 * UNIT), top, width, slot)
            for row, line in enumerate(lines):
                x = LEFT + number * (width + 2 * UNIT)
                pen.text(x, top + 60 + row * SMALL.leading, line, SMALL)

    return (
        *heading("Names"),
        Block(height, draw, keeps=True),
        *paragraph(pen, f"{_TYPED} {_digest_text(record)}", SMALL_SOFT),
    )


def _draw_slot(pen: Pen, x: float, top: float, width: float, slot: _Slot) -> None:
    pen.text(x, top + 12, slot.title, SMALL_SOFT)
    pen.rule(x, top + 36, width, ACCENT)
    if slot.signature is None:
        pen.text(x, top + 48, "not signed", SMALL_SOFT)
        return
    person = slot.signature.person
    size = LARGE.size * min(1.0, width / max(pen.width(person.name, LARGE), 1.0))
    face = type(LARGE)(LARGE.font, max(size, BODY_STRONG.size), LARGE.leading)
    pen.text(x, top + 31, pen.wrap(person.name, face, width)[0], face)
    pen.text(x, top + 48, f"{person.role.value}, {moment(slot.signature.at)}", SMALL)


def _digest_text(record: Record) -> str:
    imprint = record.imprint
    is_journal = imprint.digest_of == "journal"
    kind = "The journal's last digest" if is_journal else "SHA-256 of the job file"
    return f"{kind}: {imprint.digest}."


def foot_text(record: Record) -> str:
    """What stands at the foot of each page."""
    made = moment(record.imprint.made_at)
    return f"Made {made} · digest {record.imprint.digest[:16]}"


def head_right(record: Record) -> str:
    """What stands at the right of each page's head."""
    return f"Job {record.job_number} · attempt {record.attempt}"
