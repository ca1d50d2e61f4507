"""Job files in and out: read in any schema since the first, written in the newest."""

import json
from collections.abc import Callable, Sequence
from typing import NoReturn, TypeAlias

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from benchassist.job.changes import Json, document_of, join
from benchassist.job.document import SCHEMA, Job
from benchassist.wrong import BenchError

Upgrade: TypeAlias = Callable[[dict[str, Json]], dict[str, Json]]
"""Turns a document of one schema into one of the next; the version is counted up for it."""

_EXPECTED = {
    "decimal_type": "a number is expected",
    "decimal_parsing": "a number is expected",
    "string_type": "a text is expected",
    "string_too_short": "a text is expected",
    "string_pattern_mismatch": "the characters in it are not taken",
    "datetime_type": "a date and time is expected",
    "datetime_from_date_parsing": "a date and time is expected",
    "datetime_parsing": "a date and time is expected",
    "timezone_aware": "a date and time with its zone is expected",
    "tuple_type": "a list is expected",
    "model_type": "a group of fields is expected",
    "model_attributes_type": "a group of fields is expected",
    "too_short": "at least one is expected",
}
"""What a field expects, by pydantic's type of fault; other faults in pydantic's own words."""

UPGRADES: tuple[Upgrade, ...] = ()
"""One function a step: the first turns schema 1 into 2. Schema 1 is the first and newest."""


def read(text: str | bytes) -> Job:
    """The job in a job file.

    Raises:
        BenchError: cut, not JSON, a newer schema, an unknown field or a value that a field
            does not take.
    """
    return job_of(parsed(text))


def write(job: Job) -> str:
    """The text of a job file, the same for the same job; it ends in a newline."""
    return json.dumps(document_of(job), indent=2, ensure_ascii=False) + "\n"


def parsed(text: str | bytes) -> Json:
    """The JSON values of a text, read strictly.

    Raises:
        BenchError: not whole JSON in UTF-8, a name twice in one object, or not a number.
    """
    try:
        plain = text.decode("utf-8-sig") if isinstance(text, bytes) else text
        document: Json = json.loads(
            plain,
            object_pairs_hook=_object,
            parse_constant=_no_number,
            parse_float=_number,
        )
    except UnicodeDecodeError as error:
        raise BenchError("This is not a job file: it is not a text in UTF-8.") from error
    except json.JSONDecodeError as error:
        raise BenchError(
            f"This is not a whole job file: the JSON breaks off or is wrong in line "
            f"{error.lineno}, column {error.colno}."
        ) from error
    except (RecursionError, ValueError) as error:
        raise BenchError(
            "This is not a job file: it nests too deeply or holds a number that is too long."
        ) from error
    return document


def upgraded(
    document: Json, upgrades: Sequence[Upgrade] = UPGRADES, newest: int = SCHEMA
) -> dict[str, Json]:
    """The document in the newest schema.

    Raises:
        BenchError: not a job, no schema version, or one newer than this program knows.
    """
    if not isinstance(document, dict):
        raise BenchError("This is not a job file: it does not hold one job.")
    version = document.get("schema_version")
    if not isinstance(version, int) or isinstance(version, bool) or version < 1:
        raise BenchError("This is not a job file: 'schema_version' is missing or wrong.")
    if version > newest:
        raise BenchError(
            f"This job was written by a newer Benchassist (schema {version}, this one reads up "
            f"to {newest}). Install the newer Benchassist to open it."
        )
    for step in range(version, newest):
        document = upgrades[step - 1](document) | {"schema_version": step + 1}
    return document


def job_of(document: Json) -> Job:
    """The job that a document of any known schema describes.

    Raises:
        BenchError: as `read`.
    """
    newest = upgraded(document)
    try:
        # As JSON and strictly: so a string is never taken for a truth or a number for a time.
        return Job.model_validate_json(json.dumps(newest), strict=True)
    except ValidationError as error:
        raise BenchError(_sentence(error.errors(include_url=False)[0])) from error


def _sentence(fault: ErrorDetails) -> str:
    field = join(str(part) for part in fault["loc"])
    match fault["type"]:
        case "extra_forbidden":
            told = f"the field '{field}' is not known to this Benchassist"
        case "missing":
            told = f"the field '{field}' is missing"
        case "json_invalid":
            told = "it holds half of a character"
        case "string_too_long":
            most = fault["ctx"]["max_length"]
            told = f"in the field '{field}': at most {most} characters are taken"
        case kind:
            expected = _EXPECTED.get(kind, fault["msg"].rstrip("."))
            told = f"in the field '{field}': {expected[:1].lower()}{expected[1:]}"
    return f"The job cannot be read: {told}."


def _object(pairs: list[tuple[str, Json]]) -> dict[str, Json]:
    found = dict(pairs)
    if len(found) < len(pairs):
        names = [name for name, _ in pairs]
        twice = next(name for name in names if names.count(name) > 1)
        raise BenchError(f"The job cannot be read: the field '{twice}' is there twice.")
    return found


def _number(text: str) -> float:
    number = float(text)
    if number in {float("inf"), float("-inf")}:
        _no_number(text)
    return number


def _no_number(text: str) -> NoReturn:
    raise BenchError(f"The job cannot be read: it holds {text}, which is not a number.")
