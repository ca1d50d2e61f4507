"""What this workshop and this window remember between jobs."""

import json
from itertools import chain, count
from pathlib import Path
from typing import Any, Literal

from pydantic import Field, ValidationError

from benchassist.job.base import Frozen, FrozenMap, Line
from benchassist.job.signoff import Person
from benchassist.store.files import write_whole
from benchassist.wrong import BenchError

FILE = "settings.json"
"""The name of the settings file, beside the database."""


class Workshop(Frozen):
    """The workshop whose name stands on the papers.

    Attributes:
        name: its name.
        address: its address, one line an item.
        phone: the number for wearers and the lab.
        email: the address for their letters.
        hours: when it is open, one line an item.
        urgent: the number a wearer calls with a sign that cannot wait.
    """

    name: Line = ""
    address: tuple[Line, ...] = ()
    phone: Line = ""
    email: Line = ""
    hours: tuple[Line, ...] = ()
    urgent: Line = ""


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
        cylinder_form: how orders write cylinders here; empty where they come in both forms.
        meter: name of the lens meter that is read now; empty when none was chosen.
        forms: how the instruments here give each kind of reading, by kind of prompt.
    """

    workshop: Workshop = Workshop()
    persons: tuple[Person, ...] = ()
    at_bench: Person | None = None
    scheme: Literal["light", "dark"] = "light"
    hint_open: bool = True
    read_first: bool = False
    guarded: bool = True
    cylinder_form: Literal["", "minus", "plus"] = ""
    meter: Line = ""
    forms: FrozenMap[str] = Field(default_factory=dict, validate_default=True)


def save_settings(folder: Path, settings: Settings) -> None:
    """Writes the settings.

    Raises:
        BenchError: they could not be written; those before are still there.
    """
    write_whole(folder / FILE, settings.model_dump_json(indent=2).encode() + b"\n")


def load_settings(folder: Path) -> tuple[Settings, str]:
    """The settings and an empty note, or what could be read of them and a sentence about it.

    What could not be read is kept in a copy beside the file, which the note names: the next
    change of a setting writes the file anew.
    """
    file = folder / FILE
    if not file.exists():
        return Settings(), ""
    try:
        content = file.read_bytes()
    except OSError as error:
        return Settings(), (
            f"The settings in {file} cannot be read: {error.strerror}. The usual ones are "
            "used; the next change of a setting writes over them."
        )
    settings, note = _understood(content, file)
    return settings, f"{note} {_kept(content, file)}" if note else ""


def _understood(content: bytes, file: Path) -> tuple[Settings, str]:
    try:
        found = json.loads(content)
    except (ValueError, RecursionError):
        return Settings(), f"The settings in {file} cannot be read; the usual ones are used."
    if not isinstance(found, dict):
        return Settings(), f"The settings in {file} are damaged; the usual ones are used."
    return _salvaged(found, file)


def _salvaged(found: dict[str, Any], file: Path) -> tuple[Settings, str]:
    """The settings with each field and each person that cannot be read left out."""
    try:
        return Settings.model_validate(found), ""
    except ValidationError as error:
        bad = {str(fault["loc"][0]): str(fault["loc"][0]) for fault in error.errors()}
    good = {name: value for name, value in found.items() if name not in bad}
    if "persons" in bad and isinstance(found["persons"], list):
        every = found["persons"]
        good["persons"] = [person for person in every if _is_person(person)]
        bad["persons"] = f"persons ({len(every) - len(good['persons'])} of {len(every)})"
    names = ", ".join(bad[name] for name in sorted(bad))
    return Settings.model_validate(good), f"In {file}, not understood and left out: {names}."


def _is_person(found: object) -> bool:
    try:
        Person.model_validate(found)
    except ValidationError:
        return False
    return True


def _kept(content: bytes, file: Path) -> str:
    """A sentence on the copy of settings that cannot be read; one copy of the same content."""
    first = file.with_name(f"{file.name}.damaged")
    numbered = (first.with_name(f"{first.name}-{number}") for number in count(2))
    copies = chain((first,), numbered)
    try:
        copy = next(one for one in copies if not one.exists() or one.read_bytes() == content)
        if not copy.exists():
            write_whole(copy, content)
    except OSError as error:
        return f"No copy of it could be kept: {error.strerror}."
    except BenchError as error:
        return f"No copy of it could be kept. {error.sentence}"
    return f"The file as it was is kept as {copy}."
