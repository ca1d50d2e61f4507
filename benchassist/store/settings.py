"""What this workshop and this window remember between jobs."""

import json
from pathlib import Path
from typing import Literal

from pydantic import Field, ValidationError

from benchassist.job.base import Frozen, FrozenMap
from benchassist.job.signoff import Person
from benchassist.store.files import write_whole

FILE = "settings.json"
"""The name of the settings file, beside the database."""


class Workshop(Frozen):
    """The workshop whose name stands on the papers; the address one line an item."""

    name: str = ""
    address: tuple[str, ...] = ()


class Settings(Frozen):
    """The settings.

    Attributes:
        workshop: whose name stands on the papers.
        persons: all who work at the bench.
        at_bench: who is at the bench now, None when nobody has said so.
        scheme: light or dark.
        hint_open: whether the hint panel is open.
        guarded: whether a reading's own uncertainty keeps it from its limit.
        read_first: whether the order stays hidden until the reading is in.
        forms: how the instruments here give each kind of reading, by kind of prompt.
    """

    workshop: Workshop = Workshop()
    persons: tuple[Person, ...] = ()
    at_bench: Person | None = None
    scheme: Literal["light", "dark"] = "light"
    hint_open: bool = True
    read_first: bool = False
    guarded: bool = True
    forms: FrozenMap[str] = Field(default_factory=dict, validate_default=True)


def save_settings(folder: Path, settings: Settings) -> None:
    """Writes the settings.

    Raises:
        BenchError: they could not be written; those before are still there.
    """
    write_whole(folder / FILE, settings.model_dump_json(indent=2).encode() + b"\n")


def load_settings(folder: Path) -> tuple[Settings, str]:
    """The settings and an empty note, or what could be read of them and a sentence about it."""
    file = folder / FILE
    if not file.exists():
        return Settings(), ""
    try:
        found = json.loads(file.read_bytes())
    except (OSError, ValueError, RecursionError):
        return Settings(), f"The settings in {file} cannot be read; the usual ones are used."
    if not isinstance(found, dict):
        return Settings(), f"The settings in {file} are damaged; the usual ones are used."
    return _salvaged(found, file)


def _salvaged(found: dict[str, object], file: Path) -> tuple[Settings, str]:
    """The settings with each field that cannot be read left at its usual value."""
    try:
        return Settings.model_validate(found), ""
    except ValidationError as error:
        bad = {str(fault["loc"][0]) for fault in error.errors()}
        good = {name: value for name, value in found.items() if name not in bad}
        names = ", ".join(sorted(bad))
        return Settings.model_validate(
            good
        ), f"In {file}, not understood and left out: {names}."
