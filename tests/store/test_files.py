from pathlib import Path

import platformdirs
import pytest

from benchassist.store.files import (
    LARGEST_JOB_FILE,
    load_job_file,
    save_job_file,
    write_whole,
)
from benchassist.store.place import data_folder
from benchassist.wrong import BenchError
from tests.job.samples import bookbinders_job


def test_a_saved_job_loads_again(tmp_path: Path) -> None:
    file = tmp_path / "job.json"
    file.write_text("older")
    save_job_file(file, bookbinders_job())
    assert load_job_file(file) == bookbinders_job()
    assert [one.name for one in tmp_path.iterdir()] == ["job.json"]


@pytest.mark.parametrize(
    ("name", "sentence"),
    [("missing.json", "cannot be read"), (".", "cannot be read"), ("large.json", "too large")],
)
def test_a_file_that_cannot_be_used_is_told(tmp_path: Path, name: str, sentence: str) -> None:
    with (tmp_path / "large.json").open("wb") as file:
        file.truncate(LARGEST_JOB_FILE + 1)
    with pytest.raises(BenchError, match=sentence):
        load_job_file(tmp_path / name)


def test_a_write_that_fails_leaves_what_was_there(tmp_path: Path) -> None:
    (tmp_path / "taken").mkdir()
    (tmp_path / "taken" / "inside").touch()
    with pytest.raises(BenchError, match="could not be written"):
        write_whole(tmp_path / "taken", b"new")
    with pytest.raises(BenchError, match="could not be written"):
        write_whole(tmp_path / "missing" / "job.json", b"new")
    assert [one.name for one in tmp_path.iterdir()] == ["taken"]
    assert (tmp_path / "taken" / "inside").exists()


def test_the_data_folder_is_the_chosen_one_then_the_environments_then_the_users(
    tmp_path: Path,
) -> None:
    environment = {"BENCHASSIST_DATA": str(tmp_path / "moved")}
    own = platformdirs.user_data_path("benchassist", appauthor=False)
    assert data_folder(tmp_path, environment) == tmp_path
    assert data_folder(None, environment) == tmp_path / "moved"
    assert data_folder(None, {"BENCHASSIST_DATA": " "}) == own
    assert data_folder(None, {}) == own
    assert data_folder(Path("jobs"), {}) == Path.cwd() / "jobs"


def test_the_folder_of_a_user_who_is_not_there_is_told() -> None:
    sentence = "The data folder ~nosuch/x cannot be found: there is no such user."
    with pytest.raises(BenchError) as caught:
        data_folder(None, {"BENCHASSIST_DATA": "~nosuch/x"})
    assert caught.value.sentence == sentence
    with pytest.raises(BenchError, match="no such user"):
        data_folder(Path("~nosuch/x"), {})
