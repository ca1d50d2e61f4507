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
        name="Fernhollow Spectacle Workshop", address=("3 Mill Lane", "Fernhollow")
    ),
    persons=(OPTICIAN, SUPERVISOR, TRAINEE),
    at_bench=TRAINEE,
    scheme="dark",
    hint_open=False,
    forms={"power": "drum"},
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
    assert note.endswith("not understood and left out: hints, scheme.")
