"""Files of texts: English read from TOML, another language laid over it, entries made models.

A language replaces words and nothing else: it adds no entry, and it leaves structure alone.
"""

from collections.abc import Mapping
from collections.abc import Set as AbstractSet
from dataclasses import dataclass, replace
from decimal import Decimal
from pathlib import Path
from typing import Any, TypeVar

from pydantic import ValidationError

from benchassist.assets import read_toml
from benchassist.job.base import Frozen
from benchassist.wrong import BenchError

ENGLISH = "en"
"""The language that holds structure and texts; every other language lies over it."""

NAMED_BY = ("id", "name", "material")
"""The keys that name an entry of a list."""

Table = Mapping[str, Any]
Entry = TypeVar("Entry", bound=Frozen)


@dataclass(frozen=True, slots=True)
class TextFile:
    """A file as it was read.

    Attributes:
        name: its folder and its name, as sentences name it, such as 'en/fit.toml'.
        table: what it holds.
    """

    name: str
    table: Table

    def whole(self, kind: type[Entry]) -> Entry:
        """The whole table as one model.

        Raises:
            BenchError: it does not fit, with file, entry, field and fault.
        """
        return self._model(self.table, kind, ())

    def entries(self, key: str, kind: type[Entry]) -> tuple[Entry, ...]:
        """The entries of one list, each as a model; none where there is no such list.

        Raises:
            BenchError: one does not fit, with file, entry, field and fault.
        """
        listed = self.table.get(key, [])
        if not isinstance(listed, list):
            raise self.unusable(f"'{key}' is not written as [[{key}]].")
        return tuple(self._model(item, kind, (key, at)) for at, item in enumerate(listed))

    def unusable(self, why: str) -> BenchError:
        """The sentence about a file of which nothing can be used; `why` ends with a stop."""
        return BenchError(f"The file {self.name} cannot be used: {why}")

    def _model(self, value: Any, kind: type[Entry], place: tuple[int | str, ...]) -> Entry:
        try:
            return kind.model_validate(value)
        except ValidationError as error:
            first = error.errors(include_url=False, include_context=False)[0]
            where = self._named((*place, *first["loc"]))
            raise self.unusable(f"{where}: {first['msg']}.") from error

    def _named(self, place: tuple[int | str, ...]) -> str:
        """A place in words, such as "in prompt 'skew', measurement 'left_outer', low"."""
        words: list[str] = []
        here: Any = self.table
        for part in place:
            if isinstance(part, int):
                here = here[part] if isinstance(here, list) else None
                words[-1] += f" '{_name(here)}'"
            else:
                here = here.get(part) if isinstance(here, dict) else None
                words.append(part)
        return f"in {', '.join(words)}" if words else "as a whole"


def read_file(path: Path) -> TextFile:
    """A file that speaks no language, or one of a single language.

    Raises:
        BenchError: it cannot be read.
    """
    name = f"{path.parent.name}/{path.name}"
    return TextFile(name, read_toml(path, f"The file {name}", Decimal))


def read_texts(root: Path, language: str, name: str, words: AbstractSet[str]) -> TextFile:
    """The English file of this name, with what another language has of it laid over.

    Args:
        root: the folder that holds one folder a language.
        language: name of a folder in it; what it lacks stays English.
        name: name of the file in each of them.
        words: the keys whose text, or list of texts, a language may replace.

    Raises:
        BenchError: a file cannot be read, or the language replaces more than words.
    """
    english = read_file(root / ENGLISH / name)
    path = root / language / name
    if language == ENGLISH or not path.exists():
        return english
    over = read_file(path)
    return replace(over, table=_Overlay(over, words).laid(english.table, over.table, ""))


@dataclass(frozen=True, slots=True)
class _Overlay:
    """The laying of one file over the English one."""

    file: TextFile
    words: AbstractSet[str]

    def laid(self, below: Table, over: Table, where: str) -> Table:
        """One table with the words of the other; `where` names it, empty for the file."""
        result = dict(below)
        for key, value in over.items():
            if key in NAMED_BY and value == below.get(key):
                continue
            if key in self.words and _is_alike(value, below.get(key)):
                result[key] = value
            elif isinstance(value, list) and isinstance(below.get(key), list):
                result[key] = self._laid_list(below[key], value, f"{where} {key}".strip())
            else:
                raise self.file.unusable(
                    f"{f'in {where}, ' if where else ''}'{key}' is no text of the English "
                    "file, and a language may only replace texts."
                )
        return result

    def _laid_list(self, below: list[Any], over: list[Any], where: str) -> list[Any]:
        words = {_name(entry): entry for entry in over if isinstance(entry, dict)}
        unknown = words.keys() - {_name(entry) for entry in below}
        if unknown or len(words) < len(over):
            raise self.file.unusable(
                f"in {where}, there is an entry that the English file lacks, or the same one "
                f"twice ({', '.join(sorted(unknown)) or 'twice'})."
            )
        return [
            self.laid(entry, words[name], f"{where} '{name}'")
            if (name := _name(entry)) in words
            else entry
            for entry in below
        ]


def _is_alike(value: object, below: object) -> bool:
    """Whether both are texts, or both lists of texts."""
    if isinstance(value, str):
        return isinstance(below, str)
    both = (value, below)
    return all(isinstance(one, list) and all(isinstance(t, str) for t in one) for one in both)


def _name(entry: object) -> str:
    if isinstance(entry, dict):
        return next((str(entry[key]) for key in NAMED_BY if key in entry), "without a name")
    return str(entry)
