import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from benchassist.store.faults import in_words, reading
from benchassist.wrong import BenchError

HERE = Path("jobs.sqlite3")


def test_our_own_fault_rises_as_it_is() -> None:
    with closing(sqlite3.connect(":memory:")) as connection:
        with pytest.raises(sqlite3.OperationalError, match="syntax"), in_words(HERE):
            connection.execute("SELEKT")
        with pytest.raises(sqlite3.ProgrammingError), in_words(HERE):
            connection.execute("SELECT ?", ())


def test_a_fault_of_the_world_is_told_with_its_consequence(tmp_path: Path) -> None:
    with pytest.raises(BenchError) as caught, in_words(HERE, "Nothing is stored."):
        sqlite3.connect(tmp_path / "missing" / "jobs.sqlite3")
    assert caught.value.sentence == (
        "This file cannot be opened: its folder is missing or closed. Nothing is stored. "
        "The file is jobs.sqlite3."
    )
    with pytest.raises(BenchError, match=r"The disk refuses: No such file"), in_words(HERE):
        (tmp_path / "missing").stat()


def test_another_program_holding_the_file_is_told(tmp_path: Path) -> None:
    file = tmp_path / "held.sqlite3"
    with closing(sqlite3.connect(file)) as one, closing(sqlite3.connect(file)) as other:
        one.execute("BEGIN EXCLUSIVE")
        other.execute("PRAGMA busy_timeout = 0")
        with pytest.raises(BenchError, match="Another program is holding"), in_words(file):
            other.execute("BEGIN EXCLUSIVE")


def test_what_does_not_fit_in_reading_is_damage_of_the_file() -> None:
    with closing(sqlite3.connect(":memory:")) as connection:
        with pytest.raises(BenchError, match="not of Benchassist"), reading(HERE):
            connection.execute("SELECT * FROM jobs")
        with pytest.raises(sqlite3.ProgrammingError), reading(HERE):
            connection.execute("SELECT ?", ())
    with pytest.raises(BenchError, match=r"The file is jobs\.sqlite3\."), reading(HERE):
        int("x")
