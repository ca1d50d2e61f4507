"""A record says what it is the record of."""

import hashlib
from datetime import timedelta

from benchassist.job.document import Job
from benchassist.job.journal import Journal
from benchassist.job.signoff import Person, Role
from benchassist.job.upgrade import read, write
from benchassist.records.imprint import imprint_of_file, imprint_of_journal
from tests.records import bench

TRAINEE = Person(name="Tomas Aldana", role=Role.TRAINEE)


def journal() -> Journal:
    at = bench.MADE_AT
    job = Job(number="FH-3", created=at)
    book = Journal.start(job, bench.OPTICIAN, at)
    steps = (
        (job.with_(order=bench.order()), bench.OPTICIAN, at + timedelta(minutes=2)),
        (job.with_(order=bench.order()).with_now(bench.attempt()), TRAINEE, at + timedelta(1)),
    )
    for after, person, moment in steps:
        book = book.extended(book.record(job, after, person, moment))
        job = after
    return book


def test_the_digest_of_a_job_file_is_that_of_its_canonical_text() -> None:
    job = bench.job()
    imprint = imprint_of_file(job, bench.WORKSHOP, bench.MADE_AT)
    assert imprint.digest == hashlib.sha256(write(job).encode()).hexdigest()
    assert imprint.digest_of == "job file"
    again = imprint_of_file(read(write(job)), bench.WORKSHOP, bench.MADE_AT)
    assert again == imprint


def test_another_job_has_another_digest() -> None:
    one = imprint_of_file(bench.job(), bench.WORKSHOP, bench.MADE_AT)
    other = imprint_of_file(bench.job().with_new_attempt(), bench.WORKSHOP, bench.MADE_AT)
    assert one.digest != other.digest


def test_a_journal_tells_who_did_what_on_which_day() -> None:
    imprint = imprint_of_journal(journal(), bench.WORKSHOP, bench.MADE_AT)
    assert imprint.digest == journal().digest
    first, second = imprint.deeds
    assert (first.person, first.edits) == (bench.OPTICIAN, 2)
    assert first.parts == ("job begun", "order")
    assert first.last - first.first == timedelta(minutes=2)
    assert second.person == TRAINEE
    assert {"right lens", "the pair", "frame on the bench", "outcome and names"} <= set(
        second.parts
    )
