"""The record tells each defect with its lens, place and zone, and marks it on the drawing."""

from decimal import Decimal

from pypdfium2 import PdfDocument

from benchassist.guide.load import load_guide
from benchassist.job.surface import Defect, Inspection
from benchassist.limits.load import load_limits
from benchassist.optics.eye import Eye
from benchassist.records.defects import defect_lines
from benchassist.records.making import make_record
from benchassist.records.pdf import record_pdf
from benchassist.records.record import Record
from benchassist.verdicts.finding import State
from benchassist.verdicts.judge import judge
from tests.records import bench

DEFECTS = (
    Defect(check="scratches", eye=Eye.LEFT, across=Decimal(3), up=Decimal(-5)),
    Defect(check="scratches", eye=Eye.RIGHT, across=Decimal("-21.5"), up=Decimal(5)),
)


def record(*defects: Defect) -> Record:
    job = bench.job()
    now = job.now.with_(surface=Inspection(defects=defects), skipped={})
    job = job.with_now(now)
    limits = load_limits("iso-21987-2017")
    return make_record(job, judge(job, limits), load_guide(), limits, bench.IMPRINT)


def text_of(made: Record) -> str:
    pages = PdfDocument(record_pdf(made))
    return " ".join(" ".join(page.get_textpage().get_text_range() for page in pages).split())


def test_a_line_for_each_defect() -> None:
    first, second = record(*DEFECTS).defects
    assert (first.number, first.eye, first.zone, first.state) == (
        1,
        Eye.LEFT,
        "central",
        State.OUTSIDE,
    )
    assert (second.number, second.zone, second.state) == (2, "outer", State.CLOSE)
    assert "21.5 mm temporal, 5 mm above the centre" in second.text


def test_without_findings_a_defect_is_not_judged() -> None:
    job = bench.job()
    job = job.with_now(job.now.with_(surface=Inspection(defects=DEFECTS)))
    assert [line.state for line in defect_lines(job, ())] == [State.NONE, State.NONE]


def test_the_paper_tells_lens_place_and_zone() -> None:
    text = text_of(record(*DEFECTS))
    assert "Defect 1, left: Scratch on the front surface, 3 mm nasal, 5 mm below" in text
    assert "the centre, central zone: none may be seen" in text
    assert "Defect 2, right: Scratch on the front surface, 21.5 mm temporal" in text
    assert text.index("Defect 2, right") < text.index("Defect 1, left")
    assert "slanting crosses: defects by their numbers" in text
    assert "1 finding by eye needs a second look and a decision" in text


def test_without_defects_nothing_is_said_of_them() -> None:
    text = text_of(record())
    assert "slanting crosses" not in text
    assert "by eye need" not in text
