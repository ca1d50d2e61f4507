"""What differs between two jobs, leaf by leaf, and how to make such a change."""

import json
from collections.abc import Iterable, Iterator
from copy import deepcopy
from dataclasses import dataclass
from typing import TypeAlias

from benchassist.job.document import Job

Json: TypeAlias = "dict[str, Json] | list[Json] | str | int | float | bool | None"
"""A value that JSON can write."""

_TAGS = ("kind", "form")
"""Fields that say which of several shapes an object has: a new shape is recorded whole."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One place of a job that changed.

    Attributes:
        path: the names on the way to the place, joined by dots, list items by their number
            from 0: 'attempts.0.right.distance.1'. A dot or backslash inside a name is written
            with a backslash before it. The empty path is the whole job.
        old: canonical JSON of what stood there; None where there was nothing.
        new: canonical JSON of what stands there now; None where it was taken away.
    """

    path: str
    old: str | None
    new: str | None

    @property
    def was(self) -> Json:
        """The value before; None as well where there was nothing."""
        return None if self.old is None else json.loads(self.old)

    @property
    def becomes(self) -> Json:
        """The value after; None as well where it was taken away."""
        return None if self.new is None else json.loads(self.new)


def canonical(value: Json) -> str:
    """The one JSON text of a value: names in order, no blanks, nothing that is not a number."""
    return json.dumps(
        value, sort_keys=True, separators=(",", ":"), ensure_ascii=False, allow_nan=False
    )


def document_of(job: Job) -> Json:
    """The job as JSON values; exact decimals as strings."""
    document: Json = job.model_dump(mode="json")
    return document


def join(names: Iterable[str]) -> str:
    """The path of these names."""
    return ".".join(name.replace("\\", "\\\\").replace(".", "\\.") for name in names)


def split(path: str) -> tuple[str, ...]:
    """The names of a path, the inverse of `join`; none for the empty path."""
    if not path:
        return ()
    if "\\" not in path:
        return tuple(path.split("."))
    names, name, letters = [], "", iter(path)
    for letter in letters:
        if letter == ".":
            names.append(name)
            name = ""
        else:
            name += next(letters, "") if letter == "\\" else letter
    return (*names, name)


def diff(before: Json, after: Json) -> tuple[Change, ...]:
    """The changes that turn one document into the other, in the order to make them.

    A new list item is recorded whole; items taken away are taken from the end.
    """
    return tuple(_differences((), before, after))


def job_diff(before: Job, after: Job) -> tuple[Change, ...]:
    """The changes that turn one job into the other."""
    return diff(document_of(before), document_of(after))


def _differences(at: tuple[str, ...], old: Json, new: Json) -> Iterator[Change]:
    if isinstance(old, dict) and isinstance(new, dict) and _same_shape(old, new):
        yield from _in_objects(at, old, new)
    elif isinstance(old, list) and isinstance(new, list):
        yield from _in_lists(at, old, new)
    elif type(old) is not type(new) or old != new:
        yield Change(path=join(at), old=canonical(old), new=canonical(new))


def _same_shape(old: dict[str, Json], new: dict[str, Json]) -> bool:
    return all(old.get(tag) == new.get(tag) for tag in _TAGS)


def _in_objects(
    at: tuple[str, ...], old: dict[str, Json], new: dict[str, Json]
) -> Iterator[Change]:
    for name, value in old.items():
        if name in new:
            yield from _differences((*at, name), value, new[name])
        else:
            yield Change(path=join((*at, name)), old=canonical(value), new=None)
    for name, value in new.items():
        if name not in old:
            yield Change(path=join((*at, name)), old=None, new=canonical(value))


def _in_lists(at: tuple[str, ...], old: list[Json], new: list[Json]) -> Iterator[Change]:
    for index, (was, becomes) in enumerate(zip(old, new, strict=False)):
        yield from _differences((*at, str(index)), was, becomes)
    for index in range(len(old), len(new)):
        yield Change(path=join((*at, str(index))), old=None, new=canonical(new[index]))
    for index in reversed(range(len(new), len(old))):
        yield Change(path=join((*at, str(index))), old=canonical(old[index]), new=None)


def inverse(changes: Iterable[Change]) -> tuple[Change, ...]:
    """The changes that take these back, in the order to make them."""
    backwards = reversed(tuple(changes))
    return tuple(Change(path=one.path, old=one.new, new=one.old) for one in backwards)


def applied(document: Json, changes: Iterable[Change]) -> Json:
    """A new document with the changes made one after another; None stands for none yet.

    Raises:
        ValueError: a change does not fit: its place is not there or holds something else, or
            what it says is not JSON.
    """
    holder: dict[str, Json] = {} if document is None else {"": deepcopy(document)}
    for change in changes:
        try:
            _make(change, holder)
        except (ValueError, RecursionError) as error:
            raise _misfit(change) from error
    return holder.get("")


def _make(change: Change, holder: dict[str, Json]) -> None:
    way = ("", *split(change.path))
    place: Json = holder
    for name in way[:-1]:
        place = _below(place, name, change)
    if isinstance(place, dict):
        _make_in_object(change, place, way[-1])
    elif isinstance(place, list):
        _make_in_list(change, place, _index(way[-1], change))
    else:
        raise _misfit(change)


def _below(place: Json, name: str, change: Change) -> Json:
    if isinstance(place, dict) and name in place:
        return place[name]
    if isinstance(place, list) and _index(name, change) < len(place):
        return place[int(name)]
    raise _misfit(change)


def _make_in_object(change: Change, place: dict[str, Json], name: str) -> None:
    if change.old != (canonical(place[name]) if name in place else None):
        raise _misfit(change)
    if change.new is None:
        place.pop(name, None)
    else:
        place[name] = json.loads(change.new)


def _make_in_list(change: Change, place: list[Json], index: int) -> None:
    if change.old != (canonical(place[index]) if index < len(place) else None):
        raise _misfit(change)
    if change.new is not None and index <= len(place):
        place[index : index + 1] = [json.loads(change.new)]
    elif change.new is None and index == len(place) - 1:
        place.pop()
    else:
        raise _misfit(change)


def _index(name: str, change: Change) -> int:
    if not (name.isascii() and name.isdecimal()):
        raise _misfit(change)
    return int(name)


def _misfit(change: Change) -> ValueError:
    place = f"'{change.path}'" if change.path else "the whole job"
    return ValueError(f"The change of {place} does not fit the job.")
