"""Whether a guide holds together: each rule a function that names what it finds wrong."""

from collections import Counter
from collections.abc import Callable, Iterator

from benchassist.guide.answers import ACUITY, ANSWERED
from benchassist.guide.conditions import CONDITIONS
from benchassist.guide.guide import UNKNOWN_FRAME, Guide
from benchassist.guide.prompts import Kind, Prompt, StepId
from benchassist.job.order import FrameMaterial, LensMaterial, Rim, Treatment
from benchassist.job.readings import EyeLayout
from benchassist.job.signoff import SignOff

_STEPS_OF = {
    Kind.FORM: {StepId.ORDER},
    Kind.POWER: {StepId.RIGHT, StepId.LEFT},
    Kind.ADDITION: {StepId.RIGHT, StepId.LEFT},
    Kind.PRISM: {StepId.RIGHT, StepId.LEFT},
    Kind.ENGRAVED: {StepId.RIGHT, StepId.LEFT},
    Kind.LAYOUT: {StepId.PAIR},
    Kind.SIGN: {StepId.RECORD},
}
_ANSWERING = set(StepId) - {StepId.ORDER, StepId.PAIR, StepId.RECORD}
_READINGS = {
    Kind.POWER: {"distance"},
    Kind.ADDITION: {"near", "intermediate"},
    Kind.PRISM: {"prism"},
    Kind.ENGRAVED: {"engraved_add"},
    Kind.LAYOUT: set(EyeLayout.model_fields),
    Kind.SIGN: set(SignOff.model_fields),
    Kind.CHOICE: {"", ACUITY},
}
_VIEWS = {"front", "top", "side", "behind", "table"}
_NOTED = {
    UNKNOWN_FRAME,
    *FrameMaterial,
    *Rim,
    *LensMaterial,
    *Treatment,
}


def faults(guide: Guide) -> Iterator[str]:
    """Everything wrong with the guide, each in one sentence; nothing for a sound one."""
    for rule in RULES:
        yield from rule(guide)


def _ids_are_unique(guide: Guide) -> Iterator[str]:
    counts = Counter(prompt.id for prompt in guide.prompts)
    yield from (f"{name} is there twice." for name, count in counts.items() if count > 1)


def _parts_are_unique(guide: Guide) -> Iterator[str]:
    for prompt in guide.prompts:
        parts = Counter(
            [item.name for item in prompt.inputs]
            + [f"correction {item.id}" for item in prompt.remedies]
            + [f"variant {item.id}" for item in prompt.variants]
        )
        yield from (
            f"{prompt.id} has {name} twice." for name, count in parts.items() if count > 1
        )


def _kinds_fit(guide: Guide) -> Iterator[str]:
    for prompt in guide.prompts:
        if prompt.step not in _STEPS_OF.get(prompt.kind, _ANSWERING):
            yield f"{prompt.id} cannot be of kind '{prompt.kind}' in its step."
        if prompt.reading not in _READINGS.get(prompt.kind, {""}):
            yield f"{prompt.id} cannot take the reading '{prompt.reading}'."
        if bool(prompt.options) != (prompt.kind is Kind.CHOICE):
            yield f"{prompt.id}: a choice, and nothing else, has options."
        if prompt.inputs and prompt.kind is not Kind.CHECK:
            yield f"{prompt.id}: only a check has measurements."
        if prompt.has_places and not _can_have_places(prompt):
            yield f"{prompt.id}: only a check of the surfaces by eye has places."
        if prompt.view not in _VIEWS:
            yield f"{prompt.id} has no view '{prompt.view}'."


def _can_have_places(prompt: Prompt) -> bool:
    is_by_eye = prompt.kind is Kind.CHECK and not prompt.inputs
    return is_by_eye and prompt.step is StepId.SURFACE and prompt.view == "front"


def _measurements_are_possible(guide: Guide) -> Iterator[str]:
    for prompt in guide.prompts:
        for item in prompt.inputs:
            if not (item.low < item.high and 0 < item.step <= item.high - item.low):
                yield f"{prompt.id}: '{item.name}' has no possible value."


def _references_exist(guide: Guide) -> Iterator[str]:
    ids = {prompt.id for prompt in guide.prompts}
    needs = {condition.name for condition in CONDITIONS}
    for prompt in guide.prompts:
        for remedy in prompt.remedies:
            for name in (name for name in remedy.disturbs if name not in ids):
                yield f"{prompt.id}, correction {remedy.id}, names {name}, which is not there."
            for name in (name for name in remedy.materials if name not in set(FrameMaterial)):
                yield f"{prompt.id}, correction {remedy.id}: no frame material '{name}'."
        for name in (name for name in prompt.applies.needs if name not in needs):
            yield f"{prompt.id} needs '{name}', which is no known condition."


def _corrections_are_at_the_bench(guide: Guide) -> Iterator[str]:
    for prompt in guide.prompts:
        if prompt.remedies and prompt.kind not in ANSWERED:
            yield f"{prompt.id} has corrections and takes no answer to reopen."


def _exclusions_say_why(guide: Guide) -> Iterator[str]:
    for prompt in guide.prompts:
        applies = prompt.applies
        if (applies.designs or applies.rims) and not applies.otherwise:
            yield f"{prompt.id} does not say why it is not asked of every order."


def _order_has_no_circle(guide: Guide) -> Iterator[str]:
    seen: set[str] = set()
    for prompt in guide.prompts:
        yield from (
            f"{prompt.id} is to come after {name}, which does not stand before it."
            for name in prompt.after
            if name not in seen
        )
        seen.add(prompt.id)


def _notes_name_materials(guide: Guide) -> Iterator[str]:
    for note in guide.materials:
        if note.material not in _NOTED:
            yield f"there is a note on '{note.material}', which no order can hold."


def _version_is_there(guide: Guide) -> Iterator[str]:
    if not guide.version:
        yield "guide.toml states no version."


RULES: tuple[Callable[[Guide], Iterator[str]], ...] = (
    _version_is_there,
    _ids_are_unique,
    _parts_are_unique,
    _kinds_fit,
    _measurements_are_possible,
    _references_exist,
    _corrections_are_at_the_bench,
    _exclusions_say_why,
    _order_has_no_circle,
    _notes_name_materials,
)
"""The rules that a guide must keep."""
