"""The guide, read from resources/guide: structure and English, other languages over it."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from benchassist.assets import asset
from benchassist.guide.bends import BENDS_FILE, Bends, load_bends
from benchassist.guide.entries import (
    MeterStepEntry,
    NoteEntry,
    PromptEntry,
    RemedyEntry,
    SourceEntry,
    VariantEntry,
)
from benchassist.guide.guide import Guide, MaterialNote
from benchassist.guide.language import ENGLISH, TextFile, read_texts
from benchassist.guide.metercheck import MeterStep
from benchassist.guide.prompts import (
    Applies,
    Measurement,
    Prompt,
    Remedy,
    Step,
    StepId,
    Variant,
)
from benchassist.guide.sound import faults
from benchassist.limits.rule import Source
from benchassist.optics.eye import Eye
from benchassist.wrong import BenchError

_FILES: tuple[tuple[str, tuple[StepId, ...]], ...] = (
    ("order", (StepId.ORDER,)),
    ("lens", (StepId.RIGHT, StepId.LEFT)),
    ("pair", (StepId.PAIR,)),
    ("surface", (StepId.SURFACE,)),
    ("bench", (StepId.BENCH,)),
    ("fit", (StepId.FIT,)),
    ("handover", (StepId.HANDOVER,)),
    ("record", (StepId.RECORD,)),
)

_METER = "meter"

_TEXTS = frozenset(
    {
        *("title", "ask", "how", "why", "fault", "limit", "caution", "group", "otherwise"),
        *("label", "does", "tool", "text", "never"),
    }
)
"""The keys that another language may replace."""


@dataclass(frozen=True, slots=True)
class _Shared:
    """What the files of all steps refer to."""

    sources: Mapping[str, Source]
    bends: Bends


def load_guide(language: str = ENGLISH, folder: Path | None = None) -> Guide:
    """The guide in a language; each text that the language lacks is in English.

    Args:
        language: name of a folder below resources/guide, such as 'en'.
        folder: another folder than resources/guide.

    Raises:
        BenchError: no such language, or a file that cannot be used, with file and entry.
    """
    root = _root(language, folder)
    general = _read(root, language, "guide")
    shared = _Shared(_listed(general), load_bends(root))
    steps: list[Step] = []
    notes: list[MaterialNote] = []
    for name, step_ids in _FILES:
        file = _read(root, language, name)
        steps.extend(_step(file, step_id, shared) for step_id in step_ids)
        for note in file.entries("material", NoteEntry):
            evidence = _evidence(note.evidence, shared.sources, f"{name}, {note.material}")
            words = "; ".join(source.title for source in evidence)
            notes.append(MaterialNote(note.material, note.text, note.never, words))
    guide = Guide(language, str(general.table.get("version", "")), tuple(steps), tuple(notes))
    for fault in faults(guide):
        raise BenchError(f"The guide cannot be used: {fault}")
    return guide


def load_meter_check(
    language: str = ENGLISH, folder: Path | None = None
) -> tuple[MeterStep, ...]:
    """The steps of the daily check of a lens meter, in their order; arguments as `load_guide`.

    Raises:
        BenchError: no such language, or a file that cannot be used, with file and entry.
    """
    root = _root(language, folder)
    sources = _listed(_read(root, language, "guide"))
    return tuple(
        MeterStep(
            id=entry.id,
            title=entry.title,
            takes=entry.takes,
            speech=entry.speech,
            ask=entry.ask,
            how=entry.how,
            why=entry.why,
            fault=entry.fault,
            sources=_evidence(entry.evidence, sources, f"{_METER}, {entry.id}"),
        )
        for entry in _read(root, language, _METER).entries("step", MeterStepEntry)
    )


def _root(language: str, folder: Path | None) -> Path:
    root = folder or asset("guide")
    if not (root / language).is_dir():
        raise BenchError(f"There is no guide in the language '{language}'.")
    return root


def load_sources(language: str = ENGLISH, folder: Path | None = None) -> Mapping[str, Source]:
    """The publications that the guide lists, by their ids; arguments as `load_guide`.

    Raises:
        BenchError: no such language, or a file that cannot be used, with file and entry.
    """
    return _listed(_read(_root(language, folder), language, "guide"))


def _read(root: Path, language: str, name: str) -> TextFile:
    return read_texts(root, language, f"{name}.toml", _TEXTS)


def _listed(general: TextFile) -> Mapping[str, Source]:
    return {
        entry.id: Source(entry.title, entry.address)
        for entry in general.entries("source", SourceEntry)
    }


def _step(file: TextFile, step: StepId, shared: _Shared) -> Step:
    eye = Eye(step.value) if step in {StepId.RIGHT, StepId.LEFT} else None
    words = replace(file, table=_for_eye(file.table, eye)) if eye else file
    title = words.table.get("title")
    if not isinstance(title, str):
        raise words.unusable("it has no title.")
    entries = words.entries("prompt", PromptEntry)
    return Step(step, title, tuple(_prompt(entry, step, eye, shared) for entry in entries))


def _for_eye(value: Any, eye: Eye) -> Any:
    """The same table with '{eye}' and '{Eye}' put into words."""
    if isinstance(value, str):
        return value.replace("{eye}", eye).replace("{Eye}", eye.capitalize())
    if isinstance(value, dict):
        return {key: _for_eye(item, eye) for key, item in value.items()}
    return [_for_eye(item, eye) for item in value] if isinstance(value, list) else value


def _prompt(entry: PromptEntry, step: StepId, eye: Eye | None, shared: _Shared) -> Prompt:
    where = f"{step}.{entry.id}"
    evidence = _evidence(entry.evidence, shared.sources, where)
    return Prompt(
        id=where,
        step=step,
        kind=entry.kind,
        title=entry.title,
        ask=entry.ask,
        how=entry.how,
        why=entry.why,
        fault=entry.fault,
        limit=entry.limit,
        caution=entry.caution,
        evidence="; ".join(source.title for source in evidence),
        sources=evidence,
        group=entry.group,
        reading=entry.reading,
        eye=eye,
        spot=entry.spot,
        view=entry.view,
        picture=entry.picture,
        inputs=tuple(Measurement(**dict(item)) for item in entry.measurement),
        options=entry.options,
        has_places=entry.places,
        remedies=tuple(_remedy(item, where, shared.bends) for item in entry.remedy),
        applies=Applies(entry.designs, entry.rims, entry.needs, entry.otherwise),
        variants=tuple(_variant(item) for item in entry.variant),
        after=_whole_ids(entry.after, step),
    )


def _remedy(entry: RemedyEntry, where: str, bends: Bends) -> Remedy:
    try:
        disturbs = bends.disturbs(entry.bend, heats=entry.heats)
    except KeyError as error:
        raise BenchError(
            f"The guide cannot be used: {where}, correction {entry.id}, bends {error}, which "
            f"{BENDS_FILE} does not list."
        ) from error
    return Remedy(
        id=entry.id,
        does=entry.does,
        tool=entry.tool,
        bend=entry.bend,
        caution=entry.caution,
        heats=entry.heats,
        disturbs=disturbs,
        materials=entry.materials,
        rims=entry.rims,
    )


def _variant(entry: VariantEntry) -> Variant:
    return Variant(**dict(entry))


def _whole_ids(names: Iterable[str], step: StepId) -> tuple[str, ...]:
    return tuple(name if "." in name else f"{step}.{name}" for name in names)


def _evidence(
    names: Iterable[str], sources: Mapping[str, Source], where: str
) -> tuple[Source, ...]:
    try:
        return tuple(sources[name] for name in names)
    except KeyError as error:
        raise BenchError(
            f"The guide cannot be used: {where} names the source {error}, which guide.toml "
            "does not list."
        ) from error
