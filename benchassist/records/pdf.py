"""The record as a PDF document."""

from benchassist.guide.prompts import StepId
from benchassist.records.closing import (
    caution_blocks,
    earlier_blocks,
    foot_text,
    head_right,
    history_blocks,
    signature_blocks,
)
from benchassist.records.drawing import drawing_blocks
from benchassist.records.frame_drawing import frame_blocks
from benchassist.records.ink import (
    BODY_BOTTOM,
    BODY_TOP,
    LEFT,
    RIGHT,
    SMALL_SOFT,
    SMALL_STRONG,
    WIDTH,
)
from benchassist.records.overview import (
    doubt_blocks,
    order_blocks,
    outcome_blocks,
    title_blocks,
)
from benchassist.records.paper import Block, Page, paginate
from benchassist.records.pen import Pen
from benchassist.records.record import Record
from benchassist.records.rulebook import rule_blocks
from benchassist.records.tables import part_blocks


def record_pdf(record: Record) -> bytes:
    """The record on A4 pages; the same record gives the same bytes."""
    pen = Pen(
        title=f"Record of spectacles, job {record.job_number}, attempt {record.attempt}",
        author=record.imprint.workshop.name or "Workshop not named",
        subject="Verification, alignment, fitting and handover of one pair of spectacles",
    )
    pages = paginate(_blocks(pen, record))
    for number, page in enumerate(pages, start=1):
        _draw_page(pen, record, page, f"page {number} of {len(pages)}")
    return pen.finish()


def _blocks(pen: Pen, record: Record) -> tuple[Block, ...]:
    parts: list[Block] = []
    for part in record.parts:
        parts += part_blocks(pen, part)
        if part.step is StepId.BENCH:
            parts += frame_blocks(pen, record)
    return (
        *title_blocks(pen, record),
        *doubt_blocks(pen, record),
        *outcome_blocks(pen, record),
        *order_blocks(pen, record),
        *drawing_blocks(record),
        *parts,
        *earlier_blocks(pen, record),
        *caution_blocks(pen, record),
        *rule_blocks(pen, record),
        *history_blocks(pen, record),
        *signature_blocks(pen, record),
    )


def _draw_page(pen: Pen, record: Record, page: Page, folio: str) -> None:
    place = record.imprint.workshop.name or "Workshop not named"
    pen.text(LEFT, 40, place, SMALL_STRONG)
    pen.text_right(RIGHT, 40, head_right(record), SMALL_STRONG)
    pen.rule(LEFT, 48, WIDTH)
    top = BODY_TOP
    for block in page:
        block.draw(pen, top)
        top += block.height
    pen.rule(LEFT, BODY_BOTTOM + 12, WIDTH)
    pen.text(LEFT, BODY_BOTTOM + 26, foot_text(record), SMALL_SOFT)
    pen.text_right(RIGHT, BODY_BOTTOM + 26, folio, SMALL_SOFT)
    pen.end_page()
