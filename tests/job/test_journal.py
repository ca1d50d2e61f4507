import hashlib
import json
from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, datetime, timedelta, timezone
from time import perf_counter
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchassist.job.checks import Seen
from benchassist.job.document import Job
from benchassist.job.journal import Journal, moment
from benchassist.job.signing import countersign as countersigned
from benchassist.job.signing import dispense, new_attempt, prepare, send_back
from benchassist.job.signoff import Outcome
from benchassist.wrong import BenchError
from tests.job.samples import (
    NINE,
    OPTICIAN,
    SUPERVISOR,
    TRAINEE,
    bookbinders_job,
    later,
    with_answer,
    with_correction,
    with_reading,
    with_remark,
)
from tests.job.strategies import is_equal, unsigned_jobs

Step = Callable[[Job], Job]


def written(*steps: Step) -> Journal:
    """The journal of the bookbinder's job after these edits, a minute apart."""
    job = bookbinders_job()
    journal = Journal.start(job, OPTICIAN, NINE)
    for minute, step in enumerate(steps, start=1):
        entries = journal.record(job, step(job), TRAINEE, later(minute))
        journal, job = journal.extended(entries), step(job)
    return journal


def reading(sphere: str) -> Step:
    return lambda job: with_reading(job, sphere)


def remark(text: str) -> Step:
    return lambda job: with_remark(job, text)


def signed(job: Job) -> Job:
    return dispense(job, OPTICIAN, later(30), Outcome.RELEASE)


def test_an_edit_is_written_leaf_by_leaf_with_who_and_when() -> None:
    journal = written(lambda job: with_remark(with_reading(job, "-2.25"), "left eye first"))
    first, *edit = journal.entries
    assert (first.path, first.old, first.sequence, first.edit) == ("", None, 1, 1)
    assert [(one.path, one.old) for one in edit] == [
        ("attempts.0.right.distance.0", None),
        ("order.remark", '""'),
    ]
    assert [(one.sequence, one.edit, one.person, one.at) for one in edit] == [
        (2, 2, TRAINEE, later(1)),
        (3, 2, TRAINEE, later(1)),
    ]
    assert edit[0].previous == first.digest
    assert journal.digest == edit[1].digest
    assert journal.number == "FH-0417"


@settings(max_examples=20, deadline=None)
@given(st.lists(unsigned_jobs, min_size=1, max_size=4))
def test_the_fold_is_the_job_after_any_edits_and_undoing_goes_all_the_way_back(
    stages: list[Job],
) -> None:
    job, *others = stages
    journal = Journal.start(job, OPTICIAN, NINE)
    passed = [job]
    for after in others:
        entries = journal.record(passed[-1], after, OPTICIAN, NINE)
        assert bool(entries) == (not is_equal(passed[-1], after))
        journal = journal.extended(entries)
        assert is_equal(journal.fold(), after)
        if entries:
            passed.append(after)
    for before in reversed(passed[:-1]):
        journal = journal.extended(journal.undo(OPTICIAN, NINE))
        assert is_equal(journal.fold(), before)
    assert journal.undo(OPTICIAN, NINE) == ()
    assert journal.verify(journal.digest) is None


def test_an_undo_is_an_entry_and_a_new_edit_after_it_is_undone_first() -> None:
    journal = written(remark("one"), remark("two"))
    length = len(journal.entries)
    journal = journal.extended(journal.undo(SUPERVISOR, later(9)))
    assert len(journal.entries) == length + 1
    assert journal.fold().order.remark == "one"
    journal = journal.extended(
        journal.record(journal.fold(), with_remark(journal.fold(), "three"), TRAINEE, later(10))
    )
    seen = []
    while entries := journal.undo(SUPERVISOR, later(11)):
        journal = journal.extended(entries)
        seen.append((entries[0].undoes, journal.fold().order.remark))
    assert seen == [(5, "one"), (2, "")]


def test_the_history_says_what_was_taken_back_by_whom() -> None:
    journal = written(remark("one"), lambda job: with_correction(job, "skew"))
    journal = journal.extended(journal.undo(SUPERVISOR, later(9)))
    assert [
        (edit.number, edit.person, edit.undoes, edit.undone_by) for edit in journal.edits
    ] == [
        (1, OPTICIAN, None, None),
        (2, TRAINEE, None, None),
        (3, TRAINEE, None, 4),
        (4, SUPERVISOR, 3, None),
    ]
    assert journal.edits[2].at == later(2)
    assert journal.edits[2].entries[0].path == "attempts.0.bench.corrections.0"


@pytest.mark.parametrize(
    "sign",
    [lambda job: prepare(job, TRAINEE, later(20)), signed],
    ids=["prepared", "dispensed"],
)
def test_a_name_put_to_the_job_is_not_undone_nor_what_came_before(sign: Step) -> None:
    journal = written(remark("one"), sign)
    assert journal.undoable is None
    assert journal.undo(OPTICIAN, later(40)) == ()
    assert journal.edits[-1].is_signed


def test_after_being_sent_back_only_what_came_later_is_undone() -> None:
    journal = written(
        signed, lambda job: send_back(job, SUPERVISOR, later(31), "add?"), remark("x")
    )
    journal = journal.extended(journal.undo(OPTICIAN, later(40)))
    assert journal.fold().order.remark == ""
    assert journal.undo(OPTICIAN, later(41)) == ()


def test_a_new_attempt_is_written_and_the_earlier_one_never_changes_again() -> None:
    def returned(job: Job) -> Job:
        return dispense(job, OPTICIAN, later(30), Outcome.RETURN, "add 0.25 D weak")

    journal = written(
        returned, lambda job: countersigned(job, SUPERVISOR, later(31)), new_attempt
    )
    job = journal.fold()
    assert len(job.attempts) == 2
    changed_before = job.with_(
        attempts=(with_reading(bookbinders_job(), "-1.00").now, job.attempts[1])
    )
    with pytest.raises(ValueError, match="earlier attempt"):
        journal.record(job, changed_before, OPTICIAN, later(50))
    entries = journal.record(job, with_reading(job, "-2.00"), OPTICIAN, later(50))
    assert [entry.path for entry in entries] == ["attempts.1.right.distance.0"]


@pytest.mark.parametrize(
    "change",
    [
        remark("later thought"),
        reading("-2.00"),
        lambda job: countersigned(with_reading(job, "-2.00"), SUPERVISOR, later(31)),
        lambda job: job.with_now(
            job.now.with_(
                signoff=job.now.signoff.with_(outcome=Outcome.RETURN, reason="axis out")
            )
        ),
    ],
    ids=["the order", "a reading", "a reading beside a signature", "the outcome alone"],
)
def test_nothing_of_a_signed_attempt_changes(change: Step) -> None:
    journal = written(signed)
    with pytest.raises(ValueError, match="signed attempt"):
        journal.record(journal.fold(), change(journal.fold()), OPTICIAN, later(40))


def test_number_and_creation_never_change() -> None:
    journal, job = written(), bookbinders_job()
    for other in (job.with_(number="FH-0418"), job.with_(created=later(1))):
        with pytest.raises(ValueError, match="never changes"):
            journal.record(job, other, OPTICIAN, later(1))


def test_an_edit_must_start_where_the_journal_stands() -> None:
    journal, job = written(remark("one")), bookbinders_job()
    with pytest.raises(ValueError, match="another job"):
        journal.record(job, with_remark(job, "two"), OPTICIAN, later(1))


def test_times_are_written_in_utc_and_need_a_zone() -> None:
    west = datetime(2026, 3, 2, 4, 0, tzinfo=timezone(timedelta(hours=-5)))
    (entry,) = Journal.start(bookbinders_job(), OPTICIAN, west).entries
    assert (entry.at, entry.at.tzinfo) == (NINE, UTC)
    assert moment(west) == "2026-03-02T09:00:00.000000+00:00"
    with pytest.raises(ValueError, match="zone"):
        Journal.start(bookbinders_job(), OPTICIAN, datetime(2026, 3, 2))  # noqa: DTZ001 - the fault tested


@pytest.mark.parametrize(
    "field",
    ["path", "old", "new", "at", "person", "edit", "undoes", "previous", "job", "sequence"],
)
@pytest.mark.parametrize("index", [0, 1, 2, 3])
def test_no_field_of_any_entry_can_be_altered_unseen(field: str, index: int) -> None:
    journal = written(remark("one"), reading("-2.25"), remark("two"))
    digest, entry = journal.digest, journal.entries[index]
    other: dict[str, Any] = {
        "path": entry.path + "x",
        "old": '"other"',
        "new": '"other"',
        "at": entry.at + timedelta(microseconds=1),
        "person": SUPERVISOR,
        "edit": entry.edit + 1,
        "undoes": 1,
        "previous": "0" * 64,
        "job": "FH-0400",
        "sequence": entry.sequence + 1,
    }
    altered = replace(entry, **{field: other[field]})
    entries = (*journal.entries[:index], altered, *journal.entries[index + 1 :])
    found = Journal(entries).verify(digest)
    assert found is not None
    assert found.sequence in {index, index + 1, index + 2}
    assert "FH-04" in found.sentence


def test_entries_missing_or_out_of_order_are_found() -> None:
    journal = written(remark("one"), reading("-2.25"), remark("two"))
    first, second, third, fourth = journal.entries
    for entries in ((first, third, fourth), (first, third, second, fourth), (second, third)):
        assert Journal(entries).verify() is not None
    assert Journal((first, second, third)).verify() is None
    cut = Journal((first, second, third)).verify(journal.digest)
    assert cut is not None
    assert cut.sequence == 3


def test_a_journal_that_does_not_fold_says_so() -> None:
    journal = written(remark("one"), remark("two"))
    damaged = Journal((journal.entries[0], journal.entries[2]))
    with pytest.raises(BenchError, match=r"history of job FH-0417 is damaged.*order\.remark"):
        damaged.fold()


@pytest.mark.parametrize("new", ["{", "[" * 100_000, "NaN"], ids=["cut", "deep", "no number"])
def test_an_entry_that_is_no_json_is_told_in_plain_words(new: str) -> None:
    journal = written(remark("one"), remark("two"))
    one, two, three = journal.entries
    with pytest.raises(BenchError, match=r"history of job FH-0417 is damaged") as caught:
        Journal((one, replace(two, new=new), three)).fold()
    assert caught.value.sentence == (
        "The history of job FH-0417 is damaged: The change of 'order.remark' does not fit the "
        "job. Open the job from the last back-up."
    )
    with pytest.raises(BenchError, match="The change of the whole job does not fit"):
        Journal((replace(one, new="{"),)).fold()


def test_a_clock_that_was_set_back_is_known_by_its_edits() -> None:
    assert written(remark("one"), remark("two")).clock_ran_back == ()
    job = bookbinders_job()
    journal = Journal.start(job, OPTICIAN, later(10))
    for minute in (11, 5, 5, 6, 4):
        after = with_remark(
            with_reading(job, f"-{minute}.00"), f"{minute} {len(job.now.right.distance)}"
        )
        journal = journal.extended(journal.record(job, after, OPTICIAN, later(minute)))
        job = after
    assert journal.clock_ran_back == (3, 6)
    assert journal.verify() is None


def test_a_digest_is_over_plain_canonical_json() -> None:
    # The digest is printed on papers that outlive the program: it must never come out anew.
    (entry,) = Journal.start(bookbinders_job(), OPTICIAN, NINE).entries
    said = {
        "at": "2026-03-02T09:00:00.000000+00:00",
        "edit": 1,
        "job": "FH-0417",
        "new": entry.new,
        "old": None,
        "path": "",
        "person": "Ilse Varga",
        "previous": "",
        "role": "optician",
        "sequence": 1,
        "undoes": None,
    }
    assert json.loads(entry.new or "")["order"]["wearer"] == "Marit Oduya"
    text = json.dumps(said, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    assert entry.digest == hashlib.sha256(text.encode()).hexdigest()


def test_five_hundred_entries_fold_at_once() -> None:
    job = bookbinders_job()
    journal = Journal.start(job, OPTICIAN, NINE)
    for number in range(500):
        name = f"check-{number % 20}"
        after = with_answer(job, name, Seen.FAULT if number // 20 % 2 else Seen.GOOD)
        journal = journal.extended(journal.record(job, after, TRAINEE, NINE))
        job = after
    assert len(journal.entries) == 501
    started = perf_counter()
    assert journal.fold() == job
    # Measured 2 ms; the bound only keeps a fold that validates at each entry from coming back.
    assert perf_counter() - started < 0.1
