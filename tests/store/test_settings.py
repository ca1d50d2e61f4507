import json
from pathlib import Path

import pytest

from benchassist.store.settings import (
    FILE,
    Settings,
    Workshop,
    load_settings,
    save_settings,
)
from tests.job.samples import OPTICIAN, SUPERVISOR, TRAINEE

FERNHOLLOW = Settings(
    workshop=Workshop(
        name="Fernhollow Spectacle Workshop",
        address=("3 Mill Lane", "Fernhollow"),
        phone="01632 960 417",
        email="bench@fernhollow.example",
        hours=("Monday to Friday 9 to 18",),
        urgent="01632 960 112",
    ),
    persons=(OPTICIAN, SUPERVISOR, TRAINEE),
    at_bench=TRAINEE,
    scheme="dark",
    hint_open=False,
    forms={"power": "drum"},
)


def test_settings_of_a_workshop_that_had_no_contact_are_still_understood(
    tmp_path: Path,
) -> None:
    (tmp_path / FILE).write_text('{"workshop": {"name": "A", "address": ["B"]}}', "utf-8")
    assert load_settings(tmp_path) == (
        Settings(workshop=Workshop(name="A", address=("B",))),
        "",
    )


def test_settings_are_kept(tmp_path: Path) -> None:
    assert load_settings(tmp_path) == (Settings(), "")
    save_settings(tmp_path, FERNHOLLOW)
    assert load_settings(tmp_path) == (FERNHOLLOW, "")


@pytest.mark.parametrize(
    ("content", "sentence"),
    [
        (b"", "cannot be read"),
        (b'{"scheme": "da', "cannot be read"),
        (b"\xff\xfe", "cannot be read"),
        (b"[" * 100_000, "cannot be read"),
        (b"[]", "damaged"),
    ],
)
def test_damaged_settings_give_the_usual_ones_and_a_note(
    tmp_path: Path, content: bytes, sentence: str
) -> None:
    (tmp_path / FILE).write_bytes(content)
    settings, note = load_settings(tmp_path)
    assert settings == Settings()
    assert sentence in note


def test_what_is_not_understood_is_left_out_and_the_rest_is_kept(tmp_path: Path) -> None:
    text = FERNHOLLOW.model_dump_json()
    (tmp_path / FILE).write_text(
        text.replace('"dark"', '"sepia"').replace('"hint_open"', '"hints"'), "utf-8"
    )
    settings, note = load_settings(tmp_path)
    assert settings == FERNHOLLOW.with_(scheme="light", hint_open=True)
    assert "not understood and left out: hints, scheme." in note


def copies(folder: Path) -> list[str]:
    return sorted(file.name for file in folder.iterdir() if file.name != FILE)


def test_damaged_settings_are_kept_beside_those_written_next(tmp_path: Path) -> None:
    file = tmp_path / FILE
    file.write_bytes(b"first damage")
    _, note = load_settings(tmp_path)
    assert note.endswith(f"kept as {tmp_path / 'settings.json.damaged'}.")
    assert load_settings(tmp_path)[1] == note
    save_settings(tmp_path, FERNHOLLOW)
    assert load_settings(tmp_path) == (FERNHOLLOW, "")
    assert copies(tmp_path) == ["settings.json.damaged"]
    file.write_bytes(b"second damage")
    _, note = load_settings(tmp_path)
    assert note.endswith(f"kept as {tmp_path / 'settings.json.damaged-2'}.")
    assert (tmp_path / "settings.json.damaged").read_bytes() == b"first damage"
    assert (tmp_path / "settings.json.damaged-2").read_bytes() == b"second damage"


def test_a_copy_that_cannot_be_kept_is_told(tmp_path: Path) -> None:
    (tmp_path / FILE).write_bytes(b"{")
    (tmp_path / "settings.json.damaged").mkdir()
    _, note = load_settings(tmp_path)
    assert "No copy of it could be kept: Is a directory." in note


def test_settings_that_the_disk_does_not_give_are_told(tmp_path: Path) -> None:
    (tmp_path / FILE).mkdir()
    settings, note = load_settings(tmp_path)
    assert settings == Settings()
    assert "cannot be read: Is a directory." in note


def test_one_person_who_is_not_understood_leaves_the_others(tmp_path: Path) -> None:
    found = json.loads(FERNHOLLOW.model_dump_json())
    found["persons"][1]["role"] = "owner"
    found["persons"].append({"name": " \u200b", "role": "optician"})
    (tmp_path / FILE).write_text(json.dumps(found), "utf-8")
    settings, note = load_settings(tmp_path)
    assert settings == FERNHOLLOW.with_(persons=(OPTICIAN, TRAINEE))
    assert "not understood and left out: persons (2 of 4)." in note


def test_persons_that_are_no_list_are_left_out(tmp_path: Path) -> None:
    (tmp_path / FILE).write_text('{"persons": 7, "scheme": "dark"}', "utf-8")
    settings, note = load_settings(tmp_path)
    assert settings == Settings(scheme="dark")
    assert "left out: persons." in note
