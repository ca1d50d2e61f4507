"""What a wearer is told, read from resources/handover: English, and a language over it."""

import tomllib
from collections.abc import Iterable, Mapping
from enum import StrEnum
from pathlib import Path
from typing import Annotated, Any, TypeVar

from pydantic import BeforeValidator, Field, StringConstraints, ValidationError

from benchassist.assets import asset
from benchassist.job.base import Frozen
from benchassist.job.order import (
    Design,
    FrameMaterial,
    LensMaterial,
    Order,
    Rim,
    Treatment,
)
from benchassist.limits.rule import Evidence, Source
from benchassist.wrong import BenchError

ENGLISH = "en"
"""The language that holds every text; what another one lacks is told in English."""

_ADVICE, _WORDS = "advice.toml", "words.toml"
_WITHOUT_SOURCE = frozenset({Evidence.PRACTICE, Evidence.PROPOSED})


def _on_one_line(text: object) -> object:
    return " ".join(text.split()) if isinstance(text, str) else text


Text = Annotated[str, BeforeValidator(_on_one_line), StringConstraints(min_length=1)]
Entry = TypeVar("Entry", bound=Frozen)
Table = Mapping[str, Any]


class Section(StrEnum):
    """The parts of the wearer's sheet, in the order in which they are printed."""

    LOOK = "look"
    MOVING = "moving"
    SETTLING = "settling"
    CARE = "care"
    URGENT = "urgent"


class Use(StrEnum):
    """What single-vision lenses are made for, in the words of the prompt that asks it."""

    FAR = "far"
    READING = "reading"
    SCREEN = "screen"
    ALL = "all distances"
    NOT_TOLD = "not told"


class _AdviceEntry(Frozen):
    """The shape of an entry in the file: `source` holds ids of resources/guide/en."""

    id: Annotated[str, StringConstraints(pattern=r"^[a-z]+(-[a-z]+)*$")]
    section: Section
    says: Text
    evidence: Evidence
    source: tuple[str, ...] = ()
    priority: Annotated[int, Field(ge=0)]
    for_design: tuple[Design, ...] = ()
    for_use: tuple[Use, ...] = ()
    for_material: tuple[LensMaterial, ...] = ()
    for_frame: tuple[FrameMaterial, ...] = ()
    for_rim: tuple[Rim, ...] = ()
    for_treatment: tuple[Treatment, ...] = ()


class Advice(_AdviceEntry):
    """One thing that the wearer is told.

    Attributes:
        id: its plain name, the same in every language.
        section: the part of the sheet in which it stands.
        says: the words for the wearer.
        evidence: how we know.
        source: ids of the publications, in the list of the guide.
        priority: 0 is always printed; of the rest the highest is left out first.
        for_design, for_use, for_material, for_frame, for_rim, for_treatment: for which pairs;
            an empty one means for all. The use counts for single vision only.
        sources: the publications themselves; empty where there is none.
    """

    sources: tuple[Source, ...] = ()

    def suits(self, order: Order, use: Use) -> bool:
        """Whether it is told of this pair; an unknown design counts as single vision."""
        design = order.design or Design.SINGLE_VISION
        uses = frozenset({use} if design is Design.SINGLE_VISION else self.for_use)
        kinds: tuple[tuple[tuple[object, ...], frozenset[object]], ...] = (
            (self.for_design, frozenset({design})),
            (self.for_use, uses),
            (self.for_material, frozenset({order.material})),
            (self.for_frame, frozenset({order.frame.material})),
            (self.for_rim, frozenset({order.frame.rim})),
            (self.for_treatment, frozenset(treatments_of(order))),
        )
        return all(not wanted or not there.isdisjoint(wanted) for wanted, there in kinds)


def treatments_of(order: Order) -> tuple[Treatment, ...]:
    """The treatments ordered; a tint that is only described counts as one."""
    tint = (Treatment.TINTED,) if order.tint else ()
    return tuple(dict.fromkeys((*order.treatments, *tint)))


class SheetWords(Frozen):
    """The words of the sheet around the advice; those with braces are filled in."""

    name: Text
    code: Text
    title: Text
    look: Text
    moving: Text
    settling: Text
    care: Text
    urgent: Text
    call: Text
    no_number: Text
    come_back: Text
    come_back_as_agreed: Text
    come_back_when: Text
    job: Text
    hours: Text
    practice: Text
    day: Text
    weekdays: Annotated[tuple[Text, ...], Field(min_length=7, max_length=7)]
    months: Annotated[tuple[Text, ...], Field(min_length=12, max_length=12)]

    def of(self, section: Section) -> str:
        """The heading of a part."""
        return str(getattr(self, section.value))


class Teaching(Frozen):
    """Everything that can be told to a wearer, in one language."""

    language: str
    words: SheetWords
    advice: tuple[Advice, ...]

    def for_pair(self, order: Order, use: Use) -> tuple[Advice, ...]:
        """What is told of one pair, in the order of printing."""
        return tuple(one for one in self.advice if one.suits(order, use))


class Claim(Frozen):
    """What no text for a wearer may say, and why.

    Attributes:
        id: its plain name.
        says: the claim.
        patterns: regular expressions that find it, whatever its case.
        examples: sentences that must be found.
        evidence: what is known about it.
        address: where that was read; may be empty.
    """

    id: str
    says: Text
    patterns: Annotated[tuple[str, ...], Field(min_length=1)]
    examples: Annotated[tuple[str, ...], Field(min_length=1)]
    evidence: Text
    address: str = ""


def languages(folder: Path | None = None) -> tuple[str, ...]:
    """The languages in which the sheet can be printed, such as 'de'.

    Raises:
        BenchError: the installation is damaged.
    """
    root = folder or asset("handover")
    return tuple(sorted(path.name for path in root.iterdir() if path.is_dir()))


def load_teaching(language: str = ENGLISH, folder: Path | None = None) -> Teaching:
    """What a wearer can be told, in the language where there is one, else in English.

    Args:
        language: a language tag such as 'de' or 'de-AT'; empty or unknown for English.
        folder: another folder than resources/handover.

    Raises:
        BenchError: a file that cannot be used, with file and entry: one without evidence too.
    """
    root = folder or asset("handover")
    tag = language.strip().lower().replace("_", "-").partition("-")[0]
    chosen = tag if tag in languages(root) else ENGLISH
    sources = _sources()
    words = _toml(root / ENGLISH / _WORDS)
    entries = _toml(root / ENGLISH / _ADVICE).get("advice", [])
    if chosen != ENGLISH:
        words = {**words, **_toml(root / chosen / _WORDS)}
        entries = _overlaid(entries, _toml(root / chosen / _ADVICE), chosen)
    advice = tuple(_advice(item, sources) for item in entries)
    if len({one.id for one in advice}) < len(advice):
        raise BenchError(f"The file {_ADVICE} cannot be used: an entry is there twice.")
    return Teaching(
        language=chosen, words=_entry(words, SheetWords, f"{chosen}/{_WORDS}"), advice=advice
    )


def language_name(language: str, folder: Path | None = None) -> str:
    """A language of the sheet by its own name, such as 'Deutsch'.

    Raises:
        BenchError: its words cannot be read.
    """
    return str(_toml((folder or asset("handover")) / language / _WORDS)["name"])


def load_claims(folder: Path | None = None) -> tuple[Claim, ...]:
    """What no text for a wearer may say.

    Raises:
        BenchError: the file cannot be used.
    """
    file = (folder or asset("handover")) / "unsupported.toml"
    return tuple(_entry(item, Claim, file.name) for item in _toml(file).get("claim", []))


def _advice(item: Table, sources: Mapping[str, Source]) -> Advice:
    entry = _entry(item, _AdviceEntry, _ADVICE)
    if not entry.source and entry.evidence not in _WITHOUT_SOURCE:
        raise _unusable(_ADVICE, entry.id, f"it is '{entry.evidence}' and names no source")
    unknown = [name for name in entry.source if name not in sources]
    if unknown:
        raise _unusable(_ADVICE, entry.id, f"the guide lists no source '{unknown[0]}'")
    return Advice(**dict(entry), sources=tuple(sources[name] for name in entry.source))


def _overlaid(entries: Iterable[Table], over: Table, language: str) -> list[Table]:
    """The entries with the words of another language, which may replace nothing else."""
    below = list(entries)
    words = {str(one.get("id")): one for one in over.get("advice", [])}
    for name, one in words.items():
        if name not in {item["id"] for item in below} or set(one) != {"id", "says"}:
            raise _unusable(
                f"{language}/{_ADVICE}", name, "a language gives words to English entries only"
            )
    return [{**item, **words.get(item["id"], {})} for item in below]


def _sources() -> dict[str, Source]:
    """The publications that the guide lists."""
    listed = _toml(asset("guide", ENGLISH, "guide.toml")).get("source", [])
    return {one["id"]: Source(one["title"], one.get("address", "")) for one in listed}


def _toml(path: Path) -> Table:
    try:
        return tomllib.loads(path.read_text(encoding="utf-8"))
    except (OSError, UnicodeDecodeError, tomllib.TOMLDecodeError) as error:
        raise BenchError(f"The file {path.name} cannot be read: {error}.") from error


def _entry(item: Table, kind: type[Entry], file: str) -> Entry:
    try:
        return kind.model_validate(item)
    except ValidationError as error:
        first = error.errors()[0]
        field = ".".join(str(part) for part in first["loc"]) or "the entry itself"
        raise _unusable(
            file, str(item.get("id", "words")), f"{field}: {first['msg']}"
        ) from error


def _unusable(file: str, entry: str, why: str) -> BenchError:
    return BenchError(f"The file {file} cannot be used: in '{entry}', {why}.")
