"""What a wearer is told, read from resources/handover: English, and a language over it."""

from collections.abc import Mapping
from enum import StrEnum
from pathlib import Path
from typing import Annotated

from pydantic import Field, StringConstraints

from benchassist.assets import asset
from benchassist.guide.entries import Words
from benchassist.guide.language import ENGLISH, TextFile, read_file, read_texts
from benchassist.guide.load import load_sources
from benchassist.job.base import Deferred
from benchassist.job.order import (
    Design,
    FrameMaterial,
    LensMaterial,
    Order,
    Rim,
    Treatment,
)
from benchassist.limits.rule import Evidence, Source
from benchassist.records.claims import Claim, load_claims, unsupported

_ADVICE, _WORDS = "advice.toml", "words.toml"
_SAYS = frozenset({"says"})
"""What another language may replace of an advice."""

_WITHOUT_SOURCE = frozenset({Evidence.PRACTICE, Evidence.PROPOSED})


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


class _AdviceEntry(Deferred):
    """The shape of an entry in the file: `source` holds ids of resources/guide/en."""

    id: Annotated[str, StringConstraints(pattern=r"^[a-z]+(-[a-z]+)*$")]
    section: Section
    says: Words
    evidence: Evidence
    source: tuple[str, ...] = ()
    priority: Annotated[int, Field(ge=0)]
    for_design: tuple[Design, ...] = ()
    for_use: tuple[Use, ...] = ()
    for_material: tuple[LensMaterial, ...] = ()
    for_frame: tuple[FrameMaterial, ...] = ()
    for_rim: tuple[Rim, ...] = ()
    for_treatment: tuple[Treatment, ...] = ()


class WearerAdvice(_AdviceEntry):
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


class SheetWords(Deferred):
    """The words of the sheet around the advice; those with braces are filled in."""

    name: Words
    code: Words
    title: Words
    look: Words
    moving: Words
    settling: Words
    care: Words
    urgent: Words
    call: Words
    no_number: Words
    come_back: Words
    come_back_as_agreed: Words
    come_back_when: Words
    job: Words
    hours: Words
    practice: Words
    day: Words
    weekdays: Annotated[tuple[Words, ...], Field(min_length=7, max_length=7)]
    months: Annotated[tuple[Words, ...], Field(min_length=12, max_length=12)]

    def of(self, section: Section) -> str:
        """The heading of a part."""
        return str(getattr(self, section.value))


class Teaching(Deferred):
    """Everything that can be told to a wearer, in one language, and what never may be."""

    language: str
    words: SheetWords
    advice: tuple[WearerAdvice, ...]
    claims: tuple[Claim, ...]

    def for_pair(self, order: Order, use: Use) -> tuple[WearerAdvice, ...]:
        """What is told of one pair, in the order of printing."""
        return tuple(one for one in self.advice if one.suits(order, use))

    def of_materials(self, order: Order) -> tuple[str, ...]:
        """What is told of this pair alone: of its lenses, their treatments and its frame."""
        return tuple(
            one.says
            for one in self.for_pair(order, Use.NOT_TOLD)
            if one.section is Section.CARE
            and (one.for_material or one.for_frame or one.for_rim or one.for_treatment)
        )


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
        BenchError: a file that cannot be used, with file and entry: one without evidence too,
            and one that claims what evidence does not support.
    """
    root = folder or asset("handover")
    tag = language.strip().lower().replace("_", "-").partition("-")[0]
    chosen = tag if tag in languages(root) else ENGLISH
    words = read_texts(root, chosen, _WORDS, SheetWords.model_fields.keys())
    file = read_texts(root, chosen, _ADVICE, _SAYS)
    sources = load_sources()
    advice = tuple(_advice(one, file, sources) for one in file.entries("advice", _AdviceEntry))
    if len({one.id for one in advice}) < len(advice):
        raise file.unusable("an entry is there twice.")
    teaching = Teaching(
        language=chosen, words=words.whole(SheetWords), advice=advice, claims=load_claims(root)
    )
    _refuse_claims(teaching, words, file)
    return teaching


def language_name(language: str, folder: Path | None = None) -> str:
    """A language of the sheet by its own name, such as 'Deutsch'.

    Raises:
        BenchError: its words cannot be read.
    """
    return str(read_file((folder or asset("handover")) / language / _WORDS).table["name"])


def _advice(entry: _AdviceEntry, file: TextFile, sources: Mapping[str, Source]) -> WearerAdvice:
    if not entry.source and entry.evidence not in _WITHOUT_SOURCE:
        raise file.unusable(
            f"in advice '{entry.id}', it is '{entry.evidence}' and names no source."
        )
    unknown = [name for name in entry.source if name not in sources]
    if unknown:
        raise file.unusable(
            f"in advice '{entry.id}', the guide lists no source '{unknown[0]}'."
        )
    return WearerAdvice(**dict(entry), sources=tuple(sources[name] for name in entry.source))


def _refuse_claims(teaching: Teaching, words: TextFile, advice: TextFile) -> None:
    """Raises BenchError where a text says what no text for a wearer may."""
    told = (
        *((words, name, text) for name, text in teaching.words if isinstance(text, str)),
        *((advice, f"advice '{one.id}'", one.says) for one in teaching.advice),
    )
    for file, where, text in told:
        if fault := unsupported(text, teaching.claims):
            raise file.unusable(f"in {where}, {fault}")
