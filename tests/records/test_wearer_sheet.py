"""The wearer's sheet: one page, large type, nothing of the prescription."""

import ctypes
import re
from datetime import UTC, datetime
from itertools import product

import pypdfium2.raw as pdfium
import pytest
from pypdfium2 import PdfDocument

from benchassist.guide.load import load_guide
from benchassist.job.base import LONGEST_LINE, LONGEST_REMARK
from benchassist.job.checks import Answer, Checks
from benchassist.job.document import Attempt, Job
from benchassist.job.order import (
    Design,
    FrameMaterial,
    FrameOrder,
    LensMaterial,
    Order,
    Rim,
    Treatment,
)
from benchassist.job.signoff import Outcome
from benchassist.records.advice import Section, Use, languages
from benchassist.records.demo import demo_workshop
from benchassist.records.wearer_sheet import WearerSheet, make_sheet, use_of
from benchassist.records.wearer_sheet_pdf import printed, sheet_pdf
from benchassist.store.settings import Workshop
from benchassist.wrong import BenchError
from tests.records import bench

AT = datetime(2026, 11, 25, 14, 5, tzinfo=UTC)
WORKSHOP = demo_workshop()
FULL = Workshop(
    name="Fernhollow Spectacle Workshop at the Old Mill by the Alder Bridge",
    address=("3 Alder Lane, entrance from the yard behind the mill",) * 9,
    phone="01632 960 417 and 01632 960 418",
    email="bench@fernhollow.example",
    hours=("Monday to Friday 9 to 12 and 14 to 18",) * 9,
    urgent="01632 960 112, eye casualty of the county hospital, day and night, every day "[
        :119
    ],
)
SUBSETS = [(), *((one,) for one in Treatment), tuple(Treatment)]


def handed_over() -> Job:
    """The job of the bench's tests, as a pair that stays."""
    job = bench.job()
    signoff = job.now.signoff.with_(outcome=Outcome.RELEASE)
    return job.with_now(job.now.with_(signoff=signoff))


@pytest.mark.parametrize("outcome", [Outcome.RETURN, Outcome.HOLD])
def test_a_pair_that_does_not_leave_has_no_sheet(outcome: Outcome) -> None:
    job = bench.job()
    job = job.with_now(job.now.with_(signoff=job.now.signoff.with_(outcome=outcome)))
    with pytest.raises(BenchError, match=f"the outcome of this one is '{outcome.value}'"):
        make_sheet(job, WORKSHOP, AT)


def job_of(order: Order, **answers: Answer) -> Job:
    named = {name.replace("_", "-"): answer for name, answer in answers.items()}
    attempt = Attempt(handover=Checks(answers=named))
    return Job(number="FH-1", created=AT, order=order, attempts=(attempt,))


def text_of(content: bytes) -> str:
    page = PdfDocument(content)[0].get_textpage()
    return " ".join(page.get_text_range().split())


def sizes(content: bytes) -> set[float]:
    """The size of every letter on the paper, points."""
    page = PdfDocument(content)[0].get_textpage()
    return {
        round(pdfium.FPDFText_GetFontSize(page.raw, at), 2)
        for at in range(page.count_chars())
        if not pdfium.FPDFText_IsGenerated(page.raw, at)
    }


def colours(content: bytes) -> set[tuple[int, ...]]:
    page = PdfDocument(content)[0].get_textpage()
    found = set()
    for at in range(page.count_chars()):
        if pdfium.FPDFText_IsGenerated(page.raw, at):
            continue
        parts = [ctypes.c_uint() for _ in range(4)]
        pdfium.FPDFText_GetFillColor(page.raw, at, *parts)
        found.add(tuple(part.value for part in parts))
    return found


def ids(sheet: WearerSheet) -> set[str]:
    return {line.id for part in sheet.parts for line in part.lines}


def lowest(content: bytes) -> float:
    page = PdfDocument(content)[0].get_textpage()
    return min(float(page.get_rect(at)[1]) for at in range(page.count_rects()))


@pytest.mark.parametrize("language", languages())
@pytest.mark.parametrize("design", [*Design, None])
def test_every_pair_has_one_page_and_keeps_what_must_be_told(
    design: Design | None, language: str
) -> None:
    uses = Use if design is Design.SINGLE_VISION else (Use.NOT_TOLD,)
    each = [(material, tuple(Treatment)) for material in LensMaterial]
    each += [(LensMaterial.POLYCARBONATE, treatments) for treatments in SUBSETS]
    for (material, treatments), use in product(each, uses):
        order = Order(
            wearer="Marit Oduya",
            design=design,
            material=material,
            treatments=treatments,
            frame=FrameOrder(material=FrameMaterial.METAL, rim=Rim.RIMLESS),
        )
        answers = {"made_for": Answer(choice=use), "follow_up": Answer(choice="in one week")}
        sheet = make_sheet(job_of(order, **answers), FULL, AT, language)
        lines = [line for part in sheet.parts for line in part.lines]
        must = {line.id for line in lines if line.priority == 0}
        there = ids(printed(sheet))
        assert must <= there
        if treatments == tuple(Treatment):
            content = sheet_pdf(sheet)
            assert len(PdfDocument(content)) == 1
            assert lowest(content) > 20
        left_out = [line.priority for line in lines if line.id not in there]
        kept = [line.priority for line in lines if line.id in there]
        assert not left_out or min(left_out) >= max(kept)


# Large print: at least 14 pt where it can be, RNIB Clear Print guidelines (from memory);
# contrast of 7:1 for text: WCAG 2.2, 1.4.6 (AAA), https://www.w3.org/TR/WCAG22/#contrast-enhanced
def test_type_is_large_and_black_on_white() -> None:
    content = sheet_pdf(make_sheet(handed_over(), WORKSHOP, AT))
    assert min(sizes(content)) >= 14
    assert sizes(content) == {14, 20, 24}
    assert colours(content) == {(0, 0, 0, 255)}
    page = PdfDocument(content)[0].render(scale=1).to_pil()
    assert page.getpixel((2, 2)) == (255, 255, 255)


def test_what_is_kept_is_on_the_paper() -> None:
    sheet = make_sheet(handed_over(), WORKSHOP, AT)
    said = "".join(text_of(sheet_pdf(sheet)).split())
    kept = [line.says for part in printed(sheet).parts for line in part.lines]
    titles = [part.title for part in printed(sheet).parts]
    for words in (*kept, *titles, *sheet.contact, sheet.call, "Marit Oduya", "Job FH-1"):
        assert "".join(words.split()) in said
    assert "01632960417" in said
    assert "Call01632960112,eyecasualty" in said


def test_no_figure_of_the_prescription_is_on_it() -> None:
    bare = Workshop(name="Fernhollow Spectacle Workshop")
    said = text_of(sheet_pdf(make_sheet(handed_over(), bare, AT)))
    assert not re.search(r"[+−-]\d[.,]\d|\d[.,]\d\d|\b(D|dpt)\b|Δ|°", said)
    for figure in ("1.50", "31.5", "20.0"):
        assert figure not in said


@pytest.mark.parametrize(
    ("answer", "words"),
    [
        (Answer(choice="in one week"), "Please come back on Wednesday, 2 December 2026."),
        (Answer(choice="in two weeks"), "Please come back on Wednesday, 9 December 2026."),
        (Answer(choice="in three months"), "on Wednesday, 24 February 2027."),
        (Answer(choice="when the wearer wishes"), "Come back whenever you wish"),
        (
            Answer(choice="in one week", remark="Thursday 3 December, half past ten"),
            "Please come back: Thursday 3 December, half past ten.",
        ),
    ],
)
def test_the_day_to_come_back_is_on_it(answer: Answer, words: str) -> None:
    sheet = make_sheet(job_of(Order(), follow_up=answer), WORKSHOP, AT)
    assert words in text_of(sheet_pdf(sheet))
    assert "come back on" not in text_of(sheet_pdf(make_sheet(job_of(Order()), WORKSHOP, AT)))


def test_every_option_of_the_follow_up_is_understood() -> None:
    for option in load_guide().prompt("handover.follow-up").options:
        job = job_of(Order(), follow_up=Answer(choice=option))
        assert "follow-up" in ids(make_sheet(job, WORKSHOP, AT))


def test_it_is_in_the_wearers_language_or_in_english() -> None:
    german = make_sheet(job_of(Order(language="de")), WORKSHOP, AT)
    content = sheet_pdf(german)
    assert "Ihre neue Brille" in text_of(content)
    assert "Mittwoch, 25. November 2026" in text_of(content)
    assert b"(de)" in content
    unknown = make_sheet(job_of(Order(language="fi")), WORKSHOP, AT)
    assert unknown == make_sheet(job_of(Order()), WORKSHOP, AT)
    assert make_sheet(job_of(Order(language="de")), WORKSHOP, AT, "en") == unknown


def test_without_a_number_the_nearest_emergency_department_is_told() -> None:
    said = text_of(sheet_pdf(make_sheet(job_of(Order()), Workshop(), AT)))
    assert "Go to the nearest emergency department." in said
    assert "Your optician" in said


def test_a_reading_pair_is_not_for_driving() -> None:
    order = Order(design=Design.SINGLE_VISION)
    job = job_of(order, made_for=Answer(choice="reading"))
    assert use_of(job) is Use.READING
    said = text_of(sheet_pdf(make_sheet(job, FULL, AT)))
    assert "Not for driving" in said
    assert use_of(job_of(order)) is Use.NOT_TOLD
    assert use_of(job_of(order, made_for=Answer(choice="a word of tomorrow"))) is Use.NOT_TOLD


def test_a_remark_that_claims_what_nothing_supports_is_not_printed() -> None:
    remark = "Friday, yellow lenses for driving at night"
    job = job_of(Order(), follow_up=Answer(choice="in one week", remark=remark))
    with pytest.raises(BenchError, match="at the day to come back cannot be printed: nothing"):
        make_sheet(job, WORKSHOP, AT)


def test_the_longest_names_and_remarks_stay_on_the_page() -> None:
    longest = Answer(choice="in one week", remark=("word " * LONGEST_REMARK)[:LONGEST_REMARK])
    order = Order(wearer="W" * LONGEST_LINE, design=Design.PROGRESSIVE)
    content = sheet_pdf(make_sheet(job_of(order, follow_up=longest), FULL, AT))
    assert len(PdfDocument(content)) == 1
    assert lowest(content) > 20
    page = PdfDocument(content)[0].get_textpage()
    assert max(page.get_rect(at)[2] for at in range(page.count_rects())) < 595 - 30


def test_the_same_sheet_gives_the_same_bytes_and_what_cannot_wait_is_boxed() -> None:
    sheet = make_sheet(handed_over(), WORKSHOP, AT)
    assert sheet_pdf(sheet) == sheet_pdf(sheet)
    assert sheet.parts[-1].section is Section.URGENT
