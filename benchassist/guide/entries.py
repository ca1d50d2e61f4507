"""The shape of the files in resources/guide: what an entry may hold, checked on reading."""

from decimal import Decimal
from typing import Annotated

from pydantic import BeforeValidator, Field, StringConstraints

from benchassist.guide.metercheck import Taken
from benchassist.guide.prompts import Kind
from benchassist.job.base import Frozen
from benchassist.job.instrument import Speech
from benchassist.job.order import Design, Rim
from benchassist.optics.eye import Eye

Name = Annotated[str, StringConstraints(pattern=r"^[a-z]+([_-][a-z]+)*$")]
"""A plain name: small letters, joined by hyphens or underscores."""


def _on_one_line(text: object) -> object:
    return " ".join(text.split()) if isinstance(text, str) else text


Text = Annotated[str, BeforeValidator(_on_one_line)]
"""Words for people; line breaks in the file mean nothing."""

Words = Annotated[Text, StringConstraints(min_length=1)]
"""Words that are never empty."""


class MeasurementEntry(Frozen):
    """One number that a check asks for."""

    name: Name
    label: Text
    unit: str
    low: Decimal
    high: Decimal
    step: Decimal
    eye: Eye | None = None


class RemedyEntry(Frozen):
    """One correction; `bend` names a way of bending in bends.toml."""

    id: Name
    does: Text
    tool: Text
    caution: Text = ""
    bend: Name
    heats: bool = False
    materials: tuple[str, ...] = ()
    rims: tuple[Rim, ...] = ()


class VariantEntry(Frozen):
    """Other words for some orders."""

    id: Name
    designs: tuple[Design, ...] = ()
    rims: tuple[Rim, ...] = ()
    title: Text = ""
    ask: Text = ""
    how: Text = ""
    why: Text = ""
    fault: Text = ""
    caution: Text = ""


class PromptEntry(Frozen):
    """One prompt; `evidence` names sources of the list in guide.toml."""

    id: Name
    kind: Kind
    title: Text
    ask: Text
    how: Text = ""
    why: Text = ""
    fault: Text = ""
    limit: Text = ""
    caution: Text = ""
    evidence: Annotated[tuple[Name, ...], Field(min_length=1)]
    group: Text = ""
    reading: str = ""
    spot: str = ""
    view: str = "front"
    picture: str = ""
    measurement: tuple[MeasurementEntry, ...] = ()
    options: tuple[Text, ...] = ()
    places: bool = False
    remedy: tuple[RemedyEntry, ...] = ()
    designs: tuple[Design, ...] = ()
    rims: tuple[Rim, ...] = ()
    needs: tuple[Name, ...] = ()
    otherwise: Text = ""
    variant: tuple[VariantEntry, ...] = ()
    after: tuple[Name, ...] = ()


class MeterStepEntry(Frozen):
    """One step of the daily check of a lens meter."""

    id: Name
    title: Text
    takes: Taken = Taken.NOTHING
    speech: Speech | None = None
    ask: Text
    how: Text
    why: Text
    fault: Text = ""
    evidence: Annotated[tuple[Name, ...], Field(min_length=1)]


class NoteEntry(Frozen):
    """What to know about a material, a mounting or a treatment."""

    material: str
    text: Text
    never: Text
    evidence: Annotated[tuple[Name, ...], Field(min_length=1)]


class SourceEntry(Frozen):
    """A publication, or the plain statement that there is none."""

    id: Name
    title: Text
    address: str = ""
