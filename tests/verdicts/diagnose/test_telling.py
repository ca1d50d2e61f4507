"""What may have happened is asked of the findings that it is about, by name."""

from benchassist.records.demo import demo_files
from benchassist.store.files import load_job_file
from benchassist.verdicts.diagnose.diagnose import NOTHING_FITS
from benchassist.verdicts.diagnose.telling import SlipQuestion, about_any, slip_questions
from benchassist.verdicts.judge import judge
from tests.verdicts.jobs import guarded_limits

TURNED, SHIFTED, PLAIN = "FH-2611-048", "FH-2611-055", "FH-2611-033"


def asked(number: str) -> tuple[SlipQuestion, ...]:
    jobs = (load_job_file(file) for file in demo_files())
    job = next(job for job in jobs if job.number == number)
    limits = guarded_limits()
    return slip_questions(job, limits, judge(job, limits))


def test_a_slip_is_a_question_about_findings_by_name() -> None:
    (question,) = asked(TURNED)
    assert (question.keys, question.about) == (("right.axis",), "Right axis")
    assert question.sentence.startswith("Lens turned in its rim")
    assert "?" in question.sentence
    assert "It would read right" in question.sentence


def test_what_nothing_explains_is_said_last() -> None:
    *_, last = asked(SHIFTED)
    assert last.sentence == NOTHING_FITS
    assert last.about == "Horizontal prism imbalance"


def test_where_nothing_is_outside_nothing_is_asked() -> None:
    assert asked(PLAIN) == ()


def test_questions_are_found_by_the_findings_they_are_about() -> None:
    questions = asked(SHIFTED)
    assert about_any(questions, ["pair.centration-horizontal"]) == questions[:1]
    assert about_any(questions, []) == ()
