"""What each way of bending can disturb: the graph of corrections, read from one file.

The file speaks no language, so that every language of the guide shares one graph. A correction
of the guide names the way in which it bends, and whether it warms the front.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path

from benchassist.guide.language import read_file
from benchassist.guide.prompts import StepId
from benchassist.job.base import Frozen

BENDS_FILE = "bends.toml"
"""The name of the file, beside the folders of the languages."""


class _Heat(Frozen):
    disturbs: tuple[str, ...]


class _Bend(_Heat):
    id: str


class _File(Frozen):
    lists: Mapping[str, tuple[str, ...]]
    heat: _Heat
    bend: tuple[_Bend, ...]


@dataclass(frozen=True, slots=True)
class Bends:
    """The ways of bending.

    Attributes:
        disturbed: ids of the prompts that each way can disturb, by its name.
        by_heat: ids of those that warmth on the front can disturb besides.
    """

    disturbed: Mapping[str, tuple[str, ...]]
    by_heat: tuple[str, ...]

    def disturbs(self, bend: str, *, heats: bool) -> tuple[str, ...]:
        """What to look at and read again after a correction, each once.

        Raises:
            KeyError: no such way of bending.
        """
        named = self.disturbed[bend]
        return tuple(dict.fromkeys((*named, *self.by_heat))) if heats else named


def load_bends(folder: Path) -> Bends:
    """The ways of bending in the folder of the guide.

    Raises:
        BenchError: the file cannot be read, or an entry is not whole.
    """
    file = read_file(folder / BENDS_FILE)
    found = file.whole(_File)
    try:
        return Bends(
            {bend.id: _whole(bend.disturbs, found.lists) for bend in found.bend},
            _whole(found.heat.disturbs, found.lists),
        )
    except KeyError as error:
        raise file.unusable(f"there is no list {error}.") from error


def _whole(names: Iterable[str], lists: Mapping[str, tuple[str, ...]]) -> tuple[str, ...]:
    """Whole ids: lists put in, and the bench named where no step is."""
    spread: list[str] = []
    for name in names:
        spread += lists[name[1:]] if name.startswith("@") else (name,)
    return tuple(name if "." in name else f"{StepId.BENCH}.{name}" for name in spread)
