"""What the lab is asked for, and the wearer's language."""

from benchassist.job.journal import Journal
from benchassist.job.signing import decide
from benchassist.job.signoff import Ask, Outcome
from benchassist.job.upgrade import read, write
from tests.job.samples import OPTICIAN, bookbinders_job


def test_asks_are_proposed_with_the_outcome_and_written() -> None:
    asks = (Ask.REMAKE, Ask.CREDIT)
    job = decide(bookbinders_job(), Outcome.RETURN, "axis 8 degrees off", asks)
    assert job.now.signoff.asks == asks
    assert read(write(job)) == job
    assert decide(job, Outcome.HOLD, "waits").now.signoff.asks == ()


def test_the_journal_takes_a_language_into_a_job_that_had_none() -> None:
    job = bookbinders_job()
    journal = Journal.start(job, OPTICIAN, job.created)
    german = job.with_(order=job.order.with_(language="de"))
    entries = journal.record(job, german, OPTICIAN, job.created)
    assert [(one.path, one.old, one.new) for one in entries] == [
        ("order.language", '""', '"de"')
    ]
    edited = journal.extended(entries)
    assert edited.fold() == german
    undone = edited.extended(edited.undo(OPTICIAN, job.created))
    assert undone.fold() == job
