"""The return slip as a PDF: one page, two at most."""

from benchassist.job.signoff import Ask, Signature
from benchassist.records.columns import Column, draw_cells, draw_titles, free_from
from benchassist.records.ink import (
    ACCENT,
    BODY_BOTTOM,
    BODY_SOFT,
    BODY_TOP,
    INK,
    LARGE,
    LEFT,
    REGULAR,
    RIGHT,
    SMALL,
    SMALL_SOFT,
    SMALL_STRONG,
    STRONG,
    TITLE,
    WIDTH,
    Face,
)
from benchassist.records.paper import Block, Page, gap, heading, paginate, paragraph
from benchassist.records.pen import Pen
from benchassist.records.return_slip import ReturnLine, ReturnSlip
from benchassist.records.words import ended, moment
from benchassist.verdicts.finding import State

_BODY = Face(REGULAR, 10, 13.5)
_STRONG = Face(STRONG, 10, 13.5)
_INDENT = 18.0

_QUESTIONS = (
    "Questions and not a finding: each of these would give what was read. Which can you rule "
    "out?"
)
_NO_QUESTION = "No common slip would give this: {what}. How was it made, and by which order?"
_DRAFT = "Draft: nobody has signed this return yet."
_NOTHING_OUT = "Nothing was found outside its limit; the remark says why the pair goes back."


_COLUMNS = (
    Column("Ordered", LEFT + 262),
    Column("Found", LEFT + 348),
    Column("Difference", LEFT + 424),
    Column("Limit", LEFT + 474),
    Column("Rule", RIGHT),
)


def slip_pdf(slip: ReturnSlip) -> bytes:
    """The slip on A4 pages, all that is out on it; the same slip gives the same bytes."""
    pen = Pen(
        title=f"Return slip, job {slip.job_number}, attempt {slip.attempt}",
        author=slip.imprint.workshop.name or "Workshop not named",
        subject="A pair of spectacles that goes back to the lab",
    )
    pages = paginate(_blocks(pen, slip))
    for number, page in enumerate(pages, start=1):
        _draw_page(pen, slip, page, f"page {number} of {len(pages)}")
    return pen.finish()


def _blocks(pen: Pen, slip: ReturnSlip) -> tuple[Block, ...]:
    return (
        *_title(pen, slip),
        *_asked(slip),
        *_out(pen, slip),
        *_questions(pen, slip),
        *_remark(pen, slip),
        *_signatures(pen, slip),
        *_rules(pen, slip),
    )


def _title(pen: Pen, slip: ReturnSlip) -> tuple[Block, ...]:
    workshop = slip.imprint.workshop
    contact = (*workshop.address, workshop.phone, workshop.email)

    def draw(pen: Pen, top: float) -> None:
        pen.text(LEFT, top + 18, "Return slip", TITLE)
        pen.text_right(RIGHT, top + 18, f"Job {slip.job_number}", LARGE)
        pen.text_right(RIGHT, top + 33, f"attempt {slip.attempt}", SMALL_SOFT)

    sender = ", ".join(text for text in contact if text)
    return (
        Block(36, draw),
        *paragraph(pen, sender, _BODY),
        gap(4),
        *paragraph(pen, _capital(slip.lenses or "lenses not described"), _STRONG),
        *paragraph(pen, _capital(slip.frame or "frame not described"), _BODY),
        *(() if slip.dispensed else (gap(4), *paragraph(pen, _DRAFT, _STRONG))),
    )


def _capital(text: str) -> str:
    return f"{text[:1].upper()}{text[1:]}"


def _asked(slip: ReturnSlip) -> tuple[Block, ...]:
    """A box for each thing that can be asked for, those asked for crossed."""
    width = WIDTH / len(Ask)

    def draw(pen: Pen, top: float) -> None:
        for number, ask in enumerate(Ask):
            x, is_asked = LEFT + number * width, ask in slip.asks
            _box(pen, x, top + 4, is_crossed=is_asked)
            pen.text(x + 16, top + 13, _capital(ask.value), _STRONG if is_asked else _BODY)

    note = "" if slip.asks else "nothing chosen: please call us"
    return (*heading("We ask you to", note), gap(2), Block(20, draw))


def _box(pen: Pen, x: float, y: float, *, is_crossed: bool) -> None:
    side = 10.0
    corners = ((x, y), (x + side, y), (x + side, y + side), (x, y + side))
    pen.shape(corners, line=INK, thickness=0.9)
    if is_crossed:
        pen.stroke(((x + 2, y + 2), (x + side - 2, y + side - 2)), INK, 1.6)
        pen.stroke(((x + 2, y + side - 2), (x + side - 2, y + 2)), INK, 1.6)


def _out(pen: Pen, slip: ReturnSlip) -> tuple[Block, ...]:
    title = heading("What is out", f"{len(slip.lines)} outside")
    if not slip.lines:
        return (*title, *paragraph(pen, _NOTHING_OUT, _BODY))
    head = _head()
    rows = (block for line in slip.lines for block in _row(pen, line, head))
    return (*title, head, *rows)


def _head() -> Block:
    def draw(pen: Pen, top: float) -> None:
        draw_titles(pen, top + 9, _COLUMNS)

    return Block(13, draw, keeps=True)


def _row(pen: Pen, line: ReturnLine, head: Block) -> tuple[Block, ...]:
    cells = (line.ordered, line.found, line.difference, line.limit, str(line.rule or ""))
    room = free_from(pen, LEFT + _INDENT, _COLUMNS, cells, _BODY)
    names = pen.wrap(line.what, _STRONG, room)

    def draw(pen: Pen, top: float) -> None:
        pen.mark(LEFT + 5, top + 7.5, 4.5, State.OUTSIDE)
        for number, name in enumerate(names):
            pen.text(LEFT + _INDENT, top + 11 + number * _BODY.leading, name, _STRONG)
        draw_cells(pen, top + 11, _COLUMNS, cells, _BODY)

    told = paragraph(pen, line.sentence, BODY_SOFT, x=LEFT + _INDENT, room=WIDTH - _INDENT)
    row = Block(_BODY.leading * len(names), draw, keeps=True, head=(head,))
    return (row, *told, gap(3))


def _questions(pen: Pen, slip: ReturnSlip) -> tuple[Block, ...]:
    if not slip.questions and not slip.unexplained:
        return ()
    intro = paragraph(pen, _QUESTIONS, _BODY) if slip.questions else ()
    rows: list[Block] = [*intro, gap(2)]
    for question in slip.questions:
        lines = paragraph(pen, question, _BODY, x=LEFT + _INDENT, room=WIDTH - _INDENT)
        rows += (_asking(lines[0]), *lines[1:], gap(2))
    if slip.unexplained:
        rows += paragraph(pen, _NO_QUESTION.format(what=slip.unexplained), _BODY)
    return (*heading("What may have happened"), *rows)


def _asking(line: Block) -> Block:
    """The first line of a question, with a box for the lab to cross."""

    def draw(pen: Pen, top: float) -> None:
        _box(pen, LEFT, top + 2, is_crossed=False)
        line.draw(pen, top)

    return Block(line.height, draw, keeps=line.keeps)


def _remark(pen: Pen, slip: ReturnSlip) -> tuple[Block, ...]:
    if not slip.remark:
        return ()
    return (*heading("Remark"), *paragraph(pen, ended(slip.remark), _BODY))


def _signatures(pen: Pen, slip: ReturnSlip) -> tuple[Block, ...]:
    """The names of the workshop, and lines for those of the lab."""
    width = (WIDTH - 24) / 2
    ours = (("Sent back by", slip.dispensed), ("Countersigned by", slip.countersigned))
    theirs = ("Received at the lab, day and name", "Answer of the lab, day and name")

    def names(pen: Pen, top: float) -> None:
        for number, (title, signature) in enumerate(ours):
            x = LEFT + number * (width + 24)
            pen.text(x, top + 26, _signed(pen, signature, width), _BODY)
            _signature_line(pen, x, top + 31, width, title)

    def lines(pen: Pen, top: float) -> None:
        for number, title in enumerate(theirs):
            _signature_line(pen, LEFT + number * (width + 24), top + 31, width, title)

    note = "Typed names, not electronic signatures." if slip.dispensed else ""
    return (
        *heading("Names", note),
        Block(46, names, keeps=True),
        Block(50, lines),
        *paragraph(pen, f"SHA-256 of the order without the wearer: {slip.order_digest}", SMALL),
    )


def _signature_line(pen: Pen, x: float, y: float, width: float, title: str) -> None:
    pen.stroke(((x, y), (x + width, y)), ACCENT, 0.7)
    pen.text(x, y + 11, title, SMALL_SOFT)


def _signed(pen: Pen, signature: Signature | None, width: float) -> str:
    """The name and when, or nothing; what does not fit on the line is cut."""
    if signature is None:
        return ""
    text = f"{signature.person.name}, {moment(signature.at)}"
    lines = pen.wrap(text, _BODY, width)
    return lines[0] if len(lines) == 1 else signature.person.name[:40]


def _rules(pen: Pen, slip: ReturnSlip) -> tuple[Block, ...]:
    """The limits that were passed, each with where it is from and how we know it."""
    rows: list[Block] = [*paragraph(pen, f"Judged by {ended(slip.judged_by)}", SMALL)]
    for rule in slip.rules:
        text = f"{rule.text}. Source: {rule.source}."
        lines = paragraph(pen, text, SMALL, x=LEFT + _INDENT, room=WIDTH - _INDENT)
        rows += (_numbered(str(rule.number), lines[0]), *lines[1:])
    return (*heading("Limits"), *rows)


def _numbered(number: str, line: Block) -> Block:
    def draw(pen: Pen, top: float) -> None:
        pen.text(LEFT, top + SMALL.leading * 0.76, number, SMALL_STRONG)
        line.draw(pen, top)

    return Block(line.height, draw, keeps=line.keeps)


def _draw_page(pen: Pen, slip: ReturnSlip, page: Page, folio: str) -> None:
    place = slip.imprint.workshop.name or "Workshop not named"
    pen.text(LEFT, 40, place, SMALL_STRONG)
    pen.text_right(RIGHT, 40, f"Job {slip.job_number} · attempt {slip.attempt}", SMALL_STRONG)
    pen.rule(LEFT, 48, WIDTH)
    top = BODY_TOP
    for block in page:
        block.draw(pen, top)
        top += block.height
    imprint = slip.imprint
    foot = f"Made {moment(imprint.made_at)} · {imprint.digest_of} {imprint.digest[:16]}"
    pen.rule(LEFT, BODY_BOTTOM + 12, WIDTH)
    pen.text(LEFT, BODY_BOTTOM + 26, foot, SMALL_SOFT)
    pen.text_right(RIGHT, BODY_BOTTOM + 26, folio, SMALL_SOFT)
    pen.end_page()
