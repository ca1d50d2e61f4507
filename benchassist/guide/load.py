"""The guide, read from resources/guide: structure and English, other languages over it."""

import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path
from typing import Any, TypeVar

from pydantic import ValidationError

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
from benchassist.job.base import Frozen
from benchassist.limits.rule import Source
from benchassist.optics.eye import Eye
from benchassist.wrong import BenchError

ENGLISH = "en"
"""The language that holds structure and texts; every other language lies over it."""

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

_NAMED_BY = ("id", "name", "material")
"""The keys that name an entry of a list."""


@dataclass(frozen=True, slots=True)
class _Shared:
    """What the files of all steps refer to."""

    sources: Mapping[str, Source]
    bends: Bends


Entry = TypeVar("Entry", bound=Frozen)
Table = Mapping[str, Any]


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
    shared = _Shared(_sources(general), load_bends(root))
    steps: list[Step] = []
    notes: list[MaterialNote] = []
    for name, step_ids in _FILES:
        table = _read(root, language, name)
        steps.extend(_step(table, step_id, shared, name) for step_id in step_ids)
        for note in _entries(table, "material", NoteEntry, name):
            evidence = _evidence(note.evidence, shared.sources, f"{name}, {note.material}")
            words = "; ".join(source.title for source in evidence)
            notes.append(MaterialNote(note.material, note.text, note.never, words))
    guide = Guide(language, str(general.get("version", "")), tuple(steps), tuple(notes))
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
    sources = _sources(_read(root, language, "guide"))
    table = _read(root, language, _METER)
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
        for entry in _entries(table, "step", MeterStepEntry, _METER)
    )


def _root(language: str, folder: Path | None) -> Path:
    root = folder or asset("guide")
    if not (root / language).is_dir():
        raise BenchError(f"There is no guide in the language '{language}'.")
    return root


def _sources(general: Table) -> dict[str, Source]:
    return {
        entry.id: Source(entry.title, entry.address)
        for entry in _entries(general, "source", SourceEntry, "guide")
    }


def _read(root: Path, language: str, name: str) -> Table:
    english = _toml(root / ENGLISH / f"{name}.toml")
    over = root / language / f"{name}.toml"
    if language == ENGLISH or not over.exists():
        return english
    return _overlaid(english, _toml(over), f"{language}/{name}.toml")


def _toml(path: Path) -> Table:
    try:
        return tomllib.loads(path.read_text(encoding="utf-8"), parse_float=Decimal)
    except (OSError, UnicodeDecodeError, tomllib.TOMLDecodeError) as error:
        raise BenchError(f"The guide file {path.name} cannot be read: {error}.") from error


def _overlaid(below: Table, over: Table, where: str) -> Table:
    """The texts of `over` laid on `below`, entry by entry; nothing but texts may differ."""
    result = dict(below)
    for key, value in over.items():
        if key in _NAMED_BY and value == below.get(key):
            continue
        if key in _TEXTS and isinstance(value, str) and key in below:
            result[key] = value
        elif isinstance(value, list) and isinstance(below.get(key), list):
            result[key] = _overlaid_list(below[key], value, f"{where}, {key}")
        else:
            raise BenchError(
                f"The guide file {where} cannot be used: '{key}' is no text of the English "
                "guide, and a language may only replace texts."
            )
    return result


def _overlaid_list(below: list[Table], over: list[Table], where: str) -> list[Table]:
    words = {_name(entry): entry for entry in over if isinstance(entry, dict)}
    unknown = words.keys() - {_name(entry) for entry in below}
    if unknown or len(words) < len(over):
        raise BenchError(
            f"The guide file {where} cannot be used: it has an entry that the English guide "
            f"lacks, or the same entry twice ({', '.join(sorted(unknown)) or 'twice'})."
        )
    return [
        _overlaid(entry, words.get(_name(entry), {}), f"{where} {_name(entry)}")
        for entry in below
    ]


def _name(entry: Table) -> str:
    return next((str(entry[key]) for key in _NAMED_BY if key in entry), "without a name")


def _entries(table: Table, key: str, kind: type[Entry], file: str) -> tuple[Entry, ...]:
    return tuple(_entry(item, key, kind, file) for item in table.get(key, []))


def _entry(item: Table, key: str, kind: type[Entry], file: str) -> Entry:
    try:
        return kind.model_validate(item)
    except ValidationError as error:
        first = error.errors()[0]
        field = ".".join(str(part) for part in first["loc"]) or "the entry itself"
        name = _name(item) if isinstance(item, dict) else str(item)
        raise BenchError(
            f"The guide file {file}.toml cannot be used: in {key} '{name}', {field}: "
            f"{first['msg']}."
        ) from error


def _step(table: Table, step: StepId, shared: _Shared, file: str) -> Step:
    eye = Eye(step.value) if step in {StepId.RIGHT, StepId.LEFT} else None
    words = _for_eye(table, eye) if eye else table
    title = words.get("title")
    if not isinstance(title, str):
        raise BenchError(f"The guide file {file}.toml cannot be used: it has no title.")
    entries = _entries(words, "prompt", PromptEntry, file)
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
