"""What was read for a prompt, in a few words: it stays with a correction that undoes it."""

from collections.abc import Iterator
from decimal import Decimal

from benchassist.guide.answers import READINGS, answer_to
from benchassist.guide.prompts import Kind, Prompt
from benchassist.job.document import Job
from benchassist.optics.eye import Eye
from benchassist.verdicts.exact import read_power, written_prism
from benchassist.verdicts.words import (
    degrees,
    listed,
    millimetres,
    power,
    prism,
    signed_dioptres,
)

_WORDS = {"base_curve": signed_dioptres, "tilt": degrees}
"""By reading of the layout, how its values are written; the others are lengths."""

NOTHING: dict[Kind, tuple[object, ...] | None] = {
    Kind.POWER: (),
    Kind.ADDITION: (),
    Kind.PRISM: (),
    Kind.ENGRAVED: None,
    Kind.LAYOUT: ((), ()),
}
"""By kind of reading, the answer that holds no reading."""


def has_reading(job: Job, prompt: Prompt) -> bool:
    """Whether anything was read for a prompt of readings, complete or not."""
    return prompt.kind in NOTHING and answer_to(job, prompt) != NOTHING[prompt.kind]


def taken(job: Job, prompt: Prompt) -> str:
    """What was read for a prompt of readings, repeats included; incomplete ones left out.

    Powers stand in minus form, prism as its components.
    """
    if prompt.kind is Kind.LAYOUT:
        parts = zip((*Eye, "both together"), answer_to(job, prompt), strict=False)
        return listed(
            tuple(_side(name, values, prompt.reading) for name, values in parts if values)
        )
    if prompt.kind in READINGS:
        return listed(tuple(_of_one_lens(job, prompt)))
    return ""


def _side(name: str, values: tuple[Decimal, ...], reading: str) -> str:
    words = _WORDS.get(reading, millimetres)
    return f"{name} {listed(tuple(map(words, values)))}"


def _of_one_lens(job: Job, prompt: Prompt) -> Iterator[str]:
    answer = answer_to(job, prompt)
    if prompt.kind is Kind.ENGRAVED:
        yield from () if answer is None else (signed_dioptres(answer),)
    elif prompt.kind is Kind.POWER:
        for shown in map(read_power, answer):
            if shown is not None:
                yield power(shown.sphere, shown.cylinder, shown.axis)
    elif prompt.kind is Kind.ADDITION:
        yield from (signed_dioptres(add.addition) for add in answer if add.addition is not None)
    elif prompt.eye is not None:
        for one in answer:
            found = written_prism(one.prism, prompt.eye)
            yield prism(found.base_in, found.base_up)
