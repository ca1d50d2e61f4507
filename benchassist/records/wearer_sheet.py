"""The wearer's sheet as data: how to see with this pair, how to keep it, when to come back."""

from datetime import date, datetime, timedelta

from benchassist.job.base import LONGEST_LINE, Deferred
from benchassist.job.document import Job
from benchassist.job.order import Design
from benchassist.job.signoff import Outcome
from benchassist.records.advice import Section, SheetWords, Teaching, Use, load_teaching
from benchassist.records.claims import unsupported
from benchassist.store.settings import Workshop
from benchassist.wrong import BenchError

FOLLOW_UP = "follow-up"
"""The prompt of the handover that asks for the day to come back."""

MADE_FOR = "made-for"
"""The prompt of the handover that asks what single-vision lenses are for."""

_DAYS = {"in one week": 7, "in two weeks": 14, "in three months": 91}
"""The options of the follow-up that set a day, and how many days lie before it."""


class SheetLine(Deferred):
    """One thing that the wearer is told; the highest priority is left out first, 0 never."""

    id: str
    says: str
    priority: int


class SheetPart(Deferred):
    """A part of the sheet under its heading."""

    section: Section
    title: str
    lines: tuple[SheetLine, ...]


class WearerSheet(Deferred):
    """Everything that the sheet can say; what does not fit on the page is left out in print.

    Attributes:
        language: the language it is in.
        code: the same as a tag for a reader of the document, such as 'en-GB'.
        title: what it is.
        about: for whom, of which job and from which day, one item each.
        parts: the advice.
        call: whom to call when it cannot wait; the last line of the urgent part.
        contact: the practice: name, address, numbers, hours; one item each.
    """

    language: str
    code: str
    title: str
    about: tuple[str, ...]
    parts: tuple[SheetPart, ...]
    call: str
    contact: tuple[str, ...]

    def without(self, advice_id: str) -> "WearerSheet":
        """The sheet without one line, and without the heading of a part that it empties."""
        parts = (
            part.with_(lines=tuple(line for line in part.lines if line.id != advice_id))
            for part in self.parts
        )
        return self.with_(parts=tuple(part for part in parts if part.lines))


def no_sheet(job: Job) -> str:
    """Why this pair goes to no wearer, in one sentence; empty where it may."""
    outcome = job.now.signoff.outcome
    if outcome not in {Outcome.RETURN, Outcome.HOLD}:
        return ""
    return f"The wearer's sheet goes with a pair; the outcome of this one is '{outcome.value}'."


def make_sheet(
    job: Job, workshop: Workshop, made_at: datetime, language: str | None = None
) -> WearerSheet:
    """The sheet of the present attempt. It holds no figure of the prescription.

    Args:
        job: the job; its handover says what the lenses are for and when to come back.
        workshop: whose contact and hours it carries.
        made_at: when it is made; a day to come back is reckoned from it.
        language: a tag such as 'de'; that of the order when not given, else English.

    Raises:
        BenchError: the outcome keeps the pair here, the installation is damaged, or the remark
            about the day to come back claims what nothing supports.
    """
    if refusal := no_sheet(job):
        raise BenchError(refusal)
    teaching = load_teaching(job.order.language if language is None else language)
    again = job.now.handover.answers.get(FOLLOW_UP)
    if again and (fault := unsupported(again.remark, teaching.claims)):
        raise BenchError(f"The remark at the day to come back cannot be printed: {fault}")
    words = teaching.words
    wearer = job.order.wearer
    about = (wearer, words.job.format(number=job.number), _day(made_at.date(), words))
    return WearerSheet(
        language=teaching.language,
        code=words.code,
        title=words.title,
        about=tuple(text for text in about if text),
        parts=_parts(job, teaching, made_at.date()),
        call=words.call.format(urgent=workshop.urgent) if workshop.urgent else words.no_number,
        contact=_contact(workshop, words),
    )


def use_of(job: Job) -> Use:
    """What the lenses are made for, as the handover has it."""
    answer = job.now.handover.answers.get(MADE_FOR)
    chosen = answer.choice if answer else ""
    is_known = job.order.design is Design.SINGLE_VISION and chosen in set(Use)
    return Use(chosen) if is_known else Use.NOT_TOLD


def _parts(job: Job, teaching: Teaching, made_on: date) -> tuple[SheetPart, ...]:
    told = teaching.for_pair(job.order, use_of(job))
    parts = []
    for section in Section:
        lines = [
            SheetLine(id=one.id, says=one.says, priority=one.priority)
            for one in told
            if one.section is section
        ]
        if section is Section.SETTLING and (again := _come_back(job, teaching.words, made_on)):
            lines.insert(0, SheetLine(id=FOLLOW_UP, says=again, priority=0))
        if lines:
            title = teaching.words.of(section)
            parts.append(SheetPart(section=section, title=title, lines=tuple(lines)))
    return tuple(parts)


def _come_back(job: Job, words: SheetWords, made_on: date) -> str:
    """When to come back: the day and hour agreed, else the day reckoned; empty for none."""
    answer = job.now.handover.answers.get(FOLLOW_UP)
    if answer is None or not answer.choice:
        return ""
    if answer.remark:
        return words.come_back_as_agreed.format(when=_short(answer.remark).rstrip("."))
    days = _DAYS.get(answer.choice)
    if days is None:
        return words.come_back_when
    return words.come_back.format(day=_day(made_on + timedelta(days=days), words))


def _short(remark: str) -> str:
    """A day and an hour take no more than a line; a longer remark is cut."""
    return remark if len(remark) <= LONGEST_LINE else f"{remark[:LONGEST_LINE].rstrip()}…"


def _day(day: date, words: SheetWords) -> str:
    return words.day.format(
        weekday=words.weekdays[day.weekday()],
        day=day.day,
        month=words.months[day.month - 1],
        year=day.year,
    )


def _contact(workshop: Workshop, words: SheetWords) -> tuple[str, ...]:
    hours = ", ".join(workshop.hours)
    lines = (
        workshop.name or words.practice,
        ", ".join(workshop.address),
        " · ".join(text for text in (workshop.phone, workshop.email) if text),
        words.hours.format(hours=hours) if hours else "",
    )
    return tuple(line for line in lines if line)
