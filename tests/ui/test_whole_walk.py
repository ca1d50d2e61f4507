"""One pair from the empty tray to the PDF, by key events alone, and the same from the shell."""

from datetime import UTC, datetime
from decimal import Decimal
from pathlib import Path

import pypdfium2
import pytest
from PySide6.QtCore import Qt

from benchassist.cli import FINE, main
from benchassist.cli import OUTSIDE as SOMETHING_OUTSIDE
from benchassist.guide.prompts import Kind, StepId
from benchassist.job.document import Job, JobState
from benchassist.job.readings import DrumReading
from benchassist.job.signoff import Outcome, SignOff
from benchassist.records.demo import demo_files
from benchassist.records.record import Record
from benchassist.store.files import load_job_file, save_job_file
from benchassist.ui.demo import OPTICIAN, SUPERVISOR, TRAINEE
from tests.ui.hands import CTRL, SHIFT, Hands
from tests.ui.workplace import Workplace

ORDER = (
    "Marit Oduya", "p", "s", "1.5", "", "", "", "", "", "", "", "", "", "", "", "",
    "-225", "-75", "165", "200", "", "", "", "31.5", "", "20", "", "", "", "", "", "", "", "",
    "-200", "", "", "200", "", "", "", "32", "", "20", "", "", "", "", "", "", "", "",
    "Oval", "a", "f", "52", "38", "18", "54", "145", "8", "5",
)  # fmt: skip
"""What is typed into the order, field by field, each with Enter."""

RIGHT = (("-2.25", "-3", "165"), ("-225", "-25"), ("0", "0"), ("200",))
LEFT = (("-2", "-2"), ("-2", "0"), ("0", "0"), ("200",))
PAIR = (("31.5", "32"), ("20", "20"), ("0", "1"))
"""Readings, prompt by prompt; two engraving checks follow those of each lens."""


def type_order(hands: Hands) -> None:
    hands.letters("FH-26-101")
    hands.press(Qt.Key.Key_N, CTRL)
    hands.type(*ORDER)


def read_lenses(hands: Hands) -> None:
    for readings in (RIGHT, LEFT):
        for texts in readings:
            hands.type(*texts, "")
        for _ in ("marks", "level"):
            hands.letters("g")
            hands.type("")
    for texts in PAIR:
        hands.type(*texts, "")


def answer_the_rest(workplace: Workplace) -> None:
    """Good, done or the first choice, to the record."""
    while True:
        prompt = workplace.standing.next_open(None)
        assert prompt is not None
        if prompt.step is StepId.RECORD:
            return
        if prompt.kind is Kind.CHOICE:
            workplace.hands.press(Qt.Key.Key_Space)
        else:
            workplace.hands.letters("g")
        workplace.hands.type("")
        assert workplace.standing.next_open(None) != prompt, f"{prompt.id} stayed open"


def unsigned_demo() -> Job:
    """The demo's progressive pair, all within, as it is before anybody signs."""
    job = load_job_file(demo_files()[0])
    return job.with_now(job.now.with_(signoff=SignOff()))


def take_from_tray(workplace: Workplace, job: Job) -> None:
    """Puts a job into the tray and scans its number."""
    workplace.put(job)
    workplace.hands.letters(job.number)
    workplace.hands.press(Qt.Key.Key_Return)


def test_from_the_empty_tray_to_the_pdf_by_keys_alone(
    workplace: Workplace, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    hands, desk = workplace.hands, workplace.desk
    type_order(hands)
    read_lenses(hands)
    answer_the_rest(workplace)
    assert not workplace.standing.outside
    hands.press(Qt.Key.Key_Space)
    assert workplace.job.now.signoff.outcome is Outcome.RELEASE
    hands.choose(Qt.Key.Key_S)
    assert workplace.job.state is JobState.TO_COUNTERSIGN
    hands.press(Qt.Key.Key_P, CTRL)
    assert workplace.ask.asked == ["Write the record"]

    paper = tmp_path / "record.pdf"
    text = "".join(
        page.get_textpage().get_text_range() for page in pypdfium2.PdfDocument(paper)
    )
    assert "FH-26-101" in text
    assert "Marit Oduya" in text
    assert "Ilse Varga" in text

    file = tmp_path / "job.json"
    save_job_file(file, workplace.job)
    assert main(["judge", str(file)]) == FINE
    by_shell = tmp_path / "by-shell.json"
    call = ["record", str(file), "--out", str(tmp_path / "b.pdf"), "--json", str(by_shell)]
    assert main(call) == FINE
    capsys.readouterr()
    ours = desk.record()
    theirs = Record.model_validate_json(by_shell.read_text())
    assert theirs.with_(imprint=ours.imprint) == ours


def test_what_was_typed_is_the_job(workplace: Workplace) -> None:
    type_order(workplace.hands)
    read_lenses(workplace.hands)
    order, now = workplace.job.order, workplace.job.now
    assert order.wearer == "Marit Oduya"
    assert order.design == "progressive"
    assert str(order.right.power.axis) == "165"
    assert str(order.left.distance_pd) == "32"
    assert str(order.frame.ed) == "54"
    assert now.right.distance[0] == DrumReading(
        sphere_lines=Decimal("-2.25"), cylinder_lines=Decimal(-3), axis_wheel=Decimal(165)
    )
    assert str(now.left.near[0].addition) == "2"
    assert now.pair.left.tilt == (Decimal(1),)
    assert workplace.standing.step(StepId.PAIR).is_complete


def test_a_trainee_prepares_and_does_not_release(workplace: Workplace) -> None:
    workplace.desk.take_over(TRAINEE)
    take_from_tray(workplace, unsigned_demo())
    workplace.hands.press(Qt.Key.Key_9, CTRL)
    workplace.hands.press(Qt.Key.Key_Space)
    workplace.hands.choose(Qt.Key.Key_S)
    assert workplace.job.now.signoff.dispensed is None
    workplace.hands.choose(Qt.Key.Key_M)
    prepared = workplace.job.now.signoff.prepared
    assert prepared is not None
    assert prepared.person == TRAINEE


def test_a_supervisor_sends_back_and_then_countersigns(workplace: Workplace) -> None:
    hands, desk = workplace.hands, workplace.desk
    take_from_tray(workplace, unsigned_demo())
    hands.press(Qt.Key.Key_9, CTRL)
    hands.press(Qt.Key.Key_Space)
    hands.choose(Qt.Key.Key_S)
    desk.take_over(SUPERVISOR)
    hands.press(Qt.Key.Key_9, CTRL)
    hands.choose(Qt.Key.Key_B)
    assert workplace.job.state is JobState.OPEN
    desk.take_over(OPTICIAN)
    hands.press(Qt.Key.Key_9, CTRL)
    hands.choose(Qt.Key.Key_S)
    desk.take_over(SUPERVISOR)
    hands.press(Qt.Key.Key_9, CTRL)
    hands.choose(Qt.Key.Key_C)
    assert workplace.job.now.signoff.countersigned is not None


def test_an_axis_outside_is_seen_and_stops_a_plain_release(
    workplace: Workplace, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    hands = workplace.hands
    type_order(hands)
    hands.type("-2.25", "-3", "150")
    assert [one.key for one in workplace.standing.outside] == ["right.axis"]
    file = tmp_path / "job.json"
    save_job_file(file, workplace.job)
    assert main(["judge", str(file)]) == SOMETHING_OUTSIDE
    capsys.readouterr()
    hands.press(Qt.Key.Key_9, CTRL)
    hands.press(Qt.Key.Key_Space)
    hands.choose(Qt.Key.Key_S)
    assert workplace.job.now.signoff.dispensed is None


def test_going_back_reading_again_and_undoing(workplace: Workplace) -> None:
    hands, desk = workplace.hands, workplace.desk
    type_order(hands)
    hands.type("-2.25", "-3", "165")
    hands.letters("r")
    hands.type("-2.25", "-3", "163")
    assert len(workplace.job.now.right.distance) == 2
    hands.press(Qt.Key.Key_Z, CTRL)
    assert workplace.job.now.right.distance[1] == DrumReading(
        sphere_lines=Decimal("-2.25"), cylinder_lines=Decimal(-3)
    )
    hands.type("")
    hands.press(Qt.Key.Key_Return, SHIFT)
    assert workplace.job.order.right.power.axis == 165
    journal = desk.session.journal
    assert journal is not None
    assert journal.verify() is None
    assert journal.edits[-1].undoes is not None


def test_not_applicable_needs_a_reason(workplace: Workplace) -> None:
    type_order(workplace.hands)
    workplace.hands.letters("n")
    assert workplace.job.now.skipped == {"right.distance": "to be judged by eye only"}
    workplace.ask.answer = None
    workplace.hands.letters("n")
    assert len(workplace.job.now.skipped) == 1


def test_bad_input_stays_with_a_sentence_and_holds_the_page(workplace: Workplace) -> None:
    hands = workplace.hands
    type_order(hands)
    for text in ("-2x", "1e9", "2NaN", "-2.2512"):
        hands.letters(text)
        hands.press(Qt.Key.Key_Return)
        hands.press(Qt.Key.Key_5, CTRL)
        assert workplace.job.now.right.distance == ()
        assert "cannot be taken" in workplace.shell.statusBar().currentMessage()
        hands.press(Qt.Key.Key_Escape)
    hands.type("-2,25")
    first = DrumReading(sphere_lines=Decimal("-2.25"))
    assert workplace.job.now.right.distance == (first,)


def test_what_is_on_disk_is_what_the_next_window_opens(workplace: Workplace) -> None:
    type_order(workplace.hands)
    workplace.hands.type("-2.25")
    job = workplace.job
    workplace.hands.press(Qt.Key.Key_T, CTRL)
    assert workplace.desk.session.standing is None
    workplace.hands.letters("oduya")
    workplace.hands.press(Qt.Key.Key_Return)
    assert workplace.job == job
    assert datetime.now(UTC) > job.created
