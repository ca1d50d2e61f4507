"""What the files of the papers are called: after the job, without a stroke."""

from datetime import UTC, datetime

from benchassist.job.document import Job
from benchassist.records.file_names import record_name, sheet_name, slip_name

JOB = Job(number="FH/26 11", created=datetime(2026, 11, 25, 14, 5, tzinfo=UTC))


def test_a_file_is_named_after_the_job_and_what_it_is() -> None:
    assert record_name(JOB) == "FH-26 11-record.pdf"
    assert sheet_name(JOB) == "FH-26 11-sheet.pdf"


def test_each_return_has_a_file_of_its_own() -> None:
    assert slip_name(JOB) == "FH-26 11-return-1.pdf"
    assert slip_name(JOB.with_new_attempt()) == "FH-26 11-return-2.pdf"
