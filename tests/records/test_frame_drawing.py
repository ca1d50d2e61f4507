"""The paper shows the faults of the frame that are outside or were corrected, and no others."""

from decimal import Decimal

from pypdfium2 import PdfDocument

from benchassist.cli import record_of
from benchassist.job.checks import Answer, Correction
from benchassist.records.demo import demo_files, demo_workshop, last_moment
from benchassist.records.pdf import record_pdf
from benchassist.records.record import Record
from benchassist.store.files import load_job_file

TITLE = "The frame as measured"
SKEWED = {"right_outer": "20", "right_inner": "20", "left_inner": "22", "left_outer": "22"}
LEVEL = SKEWED | {"left_inner": "20.2", "left_outer": "20.2"}


def decimals(read: dict[str, str]) -> dict[str, Decimal]:
    return {name: Decimal(text) for name, text in read.items()}


def record_with(read: dict[str, str], *corrections: Correction) -> Record:
    job = load_job_file(demo_files()[0])
    bench = job.now.bench
    answers = {**bench.answers, "skew": Answer(measured=decimals(read))}
    bench = bench.with_(answers=answers, corrections=corrections)
    job = job.with_now(job.now.with_(bench=bench))
    return record_of(job, demo_workshop(), last_moment(job))


def text(record: Record) -> str:
    document = PdfDocument(record_pdf(record))
    pages = (page.get_textpage().get_text_range() for page in document)
    return " ".join(" ".join(pages).split())


def test_a_good_pair_has_no_picture_of_faults() -> None:
    record = record_with(LEVEL)
    assert record.frame == ()
    assert TITLE not in text(record)


def test_what_is_outside_is_drawn_with_its_factor() -> None:
    record = record_with(SKEWED)
    (line,) = record.frame
    assert (line.prompt, line.view, line.before) == ("bench.skew", "front", ())
    assert line.now[0].value == Decimal(2)
    said = text(record)
    assert TITLE in said
    assert "skew step 2.0 mm; drawn 3 times larger" in said


def test_what_was_corrected_is_drawn_before_and_after() -> None:
    correction = Correction(check="bench.skew", action="Lifted.", measured=decimals(SKEWED))
    record = record_with(LEVEL, correction)
    (line,) = record.frame
    assert line.now[0].is_within
    assert "skew step before 2.0 mm, now 0.2 mm; both drawn 3 times larger" in text(record)
    assert Record.model_validate_json(record.model_dump_json()) == record


def skewed_by(left: str) -> dict[str, str]:
    return SKEWED | {"left_inner": left, "left_outer": left}


def test_of_several_corrections_the_last_is_the_one_before() -> None:
    corrections = [
        Correction(check="bench.skew", action="Lifted.", measured=decimals(skewed_by(left)))
        for left in ("24", "22.5")
    ]
    (line,) = record_with(LEVEL, *corrections).frame
    assert [fault.value for fault in line.before] == [Decimal("2.5")]


def test_what_is_not_good_and_not_yet_out_is_within_its_limit() -> None:
    correction = Correction(check="bench.skew", action="Lifted.", measured=decimals(SKEWED))
    (line,) = record_with(skewed_by("20.8"), correction).frame
    assert [(fault.value, fault.is_within) for fault in line.now] == [(Decimal("0.8"), True)]


def test_what_is_to_be_measured_again_or_passed_over_has_no_picture() -> None:
    correction = Correction(check="bench.skew", action="Lifted.", measured=decimals(SKEWED))
    job = load_job_file(demo_files()[0])
    read = Answer(measured=decimals(SKEWED))
    again = read.with_(again_because=("bench.skew",))
    for answer, skipped in ((again, {}), (read, {"bench.skew": "no bridge to speak of"})):
        answers = {**job.now.bench.answers, "skew": answer}
        bench = job.now.bench.with_(answers=answers, corrections=(correction,))
        now = job.now.with_(bench=bench, skipped=skipped)
        made = record_of(job.with_now(now), demo_workshop(), last_moment(job))
        assert [fault for line in made.frame for fault in line.now] == []
        assert bool(made.frame) is bool(skipped)
