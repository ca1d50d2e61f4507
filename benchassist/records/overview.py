"""The first page: who and what, the outcome, the order."""

from collections.abc import Callable
from dataclasses import dataclass
from itertools import pairwise

from benchassist.job.document import JobState
from benchassist.job.order import EyeOrder
from benchassist.job.signoff import Outcome
from benchassist.optics.eye import Eye
from benchassist.records.ink import (
    BODY,
    BODY_SOFT,
    BODY_STRONG,
    INK,
    LARGE,
    LEAD,
    LEFT,
    RIGHT,
    SMALL,
    SMALL_SOFT,
    TINT,
    TITLE,
    UNIT,
    WIDTH,
    state_colour,
)
from benchassist.records.paper import Block, gap, heading, paragraph
from benchassist.records.pen import Pen
from benchassist.records.record import Record
from benchassist.records.words import (
    amount,
    axis_text,
    day,
    frame_words,
    lens_words,
    prism_text,
)
from benchassist.verdicts.finding import State

_QR_SIZE = 72.0


def title_blocks(pen: Pen, record: Record) -> tuple[Block, ...]:
    """The title, the wearer, the spectacles, the workshop and the square code."""
    room = WIDTH - _QR_SIZE - 3 * UNIT
    place = record.imprint.workshop
    workshop = ", ".join((place.name, *place.address)) if place.name else "Workshop not named"
    lines = (
        ("Record of spectacles", TITLE),
        (record.order.wearer or "Wearer not named", LEAD),
        (lens_words(record.order) or "Lenses not described", BODY),
        (frame_words(record.order) or "Frame not described", BODY),
        (workshop, BODY_SOFT),
    )
    texts = [(line, face) for text, face in lines for line in pen.wrap(text, face, room)]
    height = max(sum(face.leading for _, face in texts), _QR_SIZE + 12)

    def draw(pen: Pen, top: float) -> None:
        y = top
        for line, face in texts:
            pen.text(LEFT, y + face.leading * 0.8, line, face)
            y += face.leading
        _square_code(pen, RIGHT - _QR_SIZE, top, code_text(record))
        pen.text_right(RIGHT, top + _QR_SIZE + 10, "job number and digest", SMALL_SOFT)

    return (Block(height, draw), gap(2 * UNIT))


def doubt_blocks(pen: Pen, record: Record) -> tuple[Block, ...]:
    """Why the paper cannot be relied on, where the stored history does not fit together."""
    damage = record.imprint.damage
    if not damage:
        return ()
    return (*heading("Do not rely on this record"), *paragraph(pen, damage, BODY_STRONG))


def code_text(record: Record) -> str:
    """What the square code says: job number and start of the digest, nothing of the wearer."""
    return f"{record.job_number} {record.imprint.digest[:16]}"


def _square_code(pen: Pen, x: float, y: float, text: str) -> None:
    # Only who prints pays for its import.
    import segno  # noqa: PLC0415

    matrix = segno.make(text, error="m", micro=False).matrix
    side = _QR_SIZE / len(matrix)
    for row, modules in enumerate(matrix):
        start: int | None = None
        for column, module in enumerate((*modules, 0)):
            if module and start is None:
                start = column
            if not module and start is not None:
                pen.block(x + start * side, y + row * side, (column - start) * side, side, INK)
                start = None


@dataclass(frozen=True, slots=True)
class Verdict:
    """The outcome in large type: its mark, its words, and what stands below."""

    state: State
    title: str
    text: str


def verdict(record: Record) -> Verdict:
    """The outcome of this attempt in words, as its signatures make it."""
    decision = record.decision
    match decision.outcome:
        case None:
            return Verdict(State.MISSING, "Not decided", _open_text(record))
        case Outcome.RELEASE:
            state, title = State.WITHIN, "Release"
        case Outcome.RELEASE_ACCEPTED:
            state, title = State.CLOSE, "Release with accepted deviation"
        case Outcome.RETURN:
            state, title = State.OUTSIDE, "Return to lab"
        case Outcome.HOLD:
            state, title = State.CLOSE, "Hold"
    if decision.dispensed is None:
        return Verdict(State.MISSING, f"Proposed: {title.lower()}", decision.reason)
    return Verdict(state, title, decision.reason)


def _open_text(record: Record) -> str:
    if record.decision.sent_back:
        back = record.decision.sent_back
        return f"Sent back by {back.person.name}: {back.remark}"
    return "This job is still being worked on: no outcome has been signed."


_STANDING = {
    JobState.OPEN: "not signed",
    JobState.HELD: "on hold",
    JobState.TO_COUNTERSIGN: "waits for countersignature",
    JobState.AT_LAB: "countersigned, at the lab",
    JobState.CLOSED: "countersigned, closed",
}


def outcome_blocks(pen: Pen, record: Record) -> tuple[Block, ...]:
    """The outcome large, with its reason and how many findings are in each state."""
    outcome = verdict(record)
    lines = pen.wrap(outcome.text, BODY, WIDTH - 6 * UNIT - 132)
    rows = max(2, len(record.counts))
    height = max(56 + len(lines) * BODY.leading, 20 + rows * 13)

    def draw(pen: Pen, top: float) -> None:
        pen.block(LEFT, top, WIDTH, height, TINT)
        pen.block(LEFT, top, 4, height, state_colour(outcome.state))
        pen.mark(LEFT + 28, top + 22, 9, outcome.state)
        pen.text(LEFT + 48, top + 27.5, outcome.title, LARGE)
        for number, line in enumerate(lines):
            pen.text(LEFT + 48, top + 44 + number * BODY.leading, line, BODY)
        standing = f"{_STANDING[record.decision.state]} · attempt {record.attempt}"
        pen.text(LEFT + 48, top + height - 10, standing, SMALL_SOFT)
        _draw_counts(pen, record, top)

    return (Block(height, draw),)


def _draw_counts(pen: Pen, record: Record, top: float) -> None:
    for number, count in enumerate(record.counts):
        y = top + 18 + number * 13
        pen.text_right(RIGHT - 96, y, str(count.number), BODY_STRONG)
        pen.mark(RIGHT - 84, y - 3, 4, count.state)
        pen.text(RIGHT - 74, y, count.state.word, BODY)


@dataclass(frozen=True, slots=True)
class _Ordered:
    """A quantity of the order: its title, and how an eye's is written."""

    title: str
    cell: Callable[[EyeOrder, Eye], str]


_POWER_COLUMNS = (
    _Ordered("Sphere", lambda lens, _: amount(lens.power.sphere, "D")),
    _Ordered("Cylinder", lambda lens, _: amount(lens.power.cylinder, "D")),
    _Ordered("Axis", lambda lens, _: axis_text(lens.power)),
    _Ordered("Addition", lambda lens, _: amount(lens.add, "D")),
    _Ordered("Intermediate", lambda lens, _: amount(lens.intermediate, "D")),
    _Ordered("Prism", lambda lens, eye: prism_text(lens.prism, eye)),
)
_PLACE_COLUMNS = (
    _Ordered("Distance PD", lambda lens, _: amount(lens.distance_pd, "mm")),
    _Ordered("Near PD", lambda lens, _: amount(lens.near_pd, "mm")),
    _Ordered("Height", lambda lens, _: amount(lens.height, "mm")),
    _Ordered("Centre thickness", lambda lens, _: amount(lens.centre_thickness, "mm")),
    _Ordered("Base curve", lambda lens, _: amount(lens.base_curve, "D")),
)


def order_blocks(pen: Pen, record: Record) -> tuple[Block, ...]:
    """The order: the powers of both eyes, the maker's verification powers, where they sit."""
    order = record.order
    rows = [_Row(eye.capitalize(), eye, order.eye(eye)) for eye in Eye]
    made = [
        _Row(f"{eye.capitalize()}, as made", eye, as_made)
        for eye in Eye
        if (as_made := _verification(order.eye(eye)))
    ]
    note = f"ordered {day(record.job_created)}"
    return (
        *heading("As ordered", note),
        *_grid(pen, _POWER_COLUMNS, (*rows, *made)),
        *_grid(pen, _PLACE_COLUMNS, tuple(rows)),
        *_more(pen, record),
    )


def _verification(eye: EyeOrder) -> EyeOrder | None:
    maker = eye.verification
    if maker is None:
        return None
    return EyeOrder(power=maker.power, add=maker.add, prism=maker.prism)


@dataclass(frozen=True, slots=True)
class _Row:
    """One line of the order: what it is called, and the eye and lens that it is about."""

    name: str
    eye: Eye
    lens: EyeOrder


def _grid(pen: Pen, columns: tuple[_Ordered, ...], rows: tuple[_Row, ...]) -> tuple[Block, ...]:
    used = [column for column in columns if any(column.cell(row.lens, row.eye) for row in rows)]
    if not used:
        return ()
    places = [LEFT + 80 + number * (WIDTH - 80) / len(columns) for number in range(len(used))]
    rooms = [end - start - 4 for start, end in pairwise((*places, RIGHT + 4))]

    def head(pen: Pen, top: float) -> None:
        for x, column in zip(places, used, strict=True):
            pen.text(x, top + 12, column.title, SMALL_SOFT)

    def line(row: _Row) -> Block:
        cells = [
            pen.wrap(column.cell(row.lens, row.eye) or "–", BODY, room)
            for column, room in zip(used, rooms, strict=True)
        ]

        def draw(pen: Pen, top: float) -> None:
            pen.text(LEFT, top + 10, row.name, BODY_STRONG)
            for x, lines in zip(places, cells, strict=True):
                for number, text in enumerate(lines):
                    pen.text(x, top + 10 + number * BODY.leading, text, BODY)

        return Block(2 + max(map(len, cells)) * BODY.leading, draw, keeps=True)

    return (Block(16, head, keeps=True), *map(line, rows))


def _more(pen: Pen, record: Record) -> tuple[Block, ...]:
    order, frame = record.order, record.order.frame
    said = (
        ("boxed width A", frame.a, "mm"),
        ("height B", frame.b, "mm"),
        ("bridge DBL", frame.dbl, "mm"),
        ("effective diameter", frame.ed, "mm"),
        ("temple", frame.temple_length, "mm"),
        ("segment width", order.segment_width, "mm"),
        ("segment depth", order.segment_depth, "mm"),
        ("tilt", frame.tilt, "°"),
        ("face form", frame.face_form, "°"),
        ("vertex distance", order.vertex_distance, "mm"),
    )
    text = " · ".join(
        f"{name} {amount(value, unit)}" for name, value, unit in said if value is not None
    )
    blocks = (gap(6, keeps=True), *paragraph(pen, text, SMALL)) if text else ()
    if order.remark:
        blocks += paragraph(pen, f"Remark on the order: {order.remark}", SMALL)
    return blocks
