"""What is seen on the face, what may cause it, and what to do: where and by how much."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path
from typing import Annotated, Literal

from pydantic import Field

from benchassist.assets import asset
from benchassist.geometry import usual
from benchassist.geometry.adjusting import (
    MOST_AT_ONCE,
    RECKONINGS,
    USUAL_FRONTAL,
    USUAL_SPLAY,
    Amount,
    Lengths,
    amount_for,
)
from benchassist.geometry.measured import Reading
from benchassist.geometry.possible import Impossible
from benchassist.guide.conditions import has_pads
from benchassist.guide.entries import Name, Text
from benchassist.guide.language import ENGLISH, read_texts
from benchassist.guide.prompts import StepId
from benchassist.job.base import Deferred
from benchassist.job.order import FrameMaterial, FrameOrder, Order, Rim
from benchassist.optics.eye import Eye
from benchassist.optics.tilt import ROTATION_CENTRE
from benchassist.verdicts.words import degrees, millimetres, tenth

FILE = "symptoms.toml"

LARGEST_OFFSET = Decimal(30)
"""No offset on a face is larger, mm; own choice."""

_ORDERED, _BY_HEAD, _BY_NOSE = 1.0, 8.0, 5.0
"""Standard uncertainty of an ordered length and of one of a usual head, mm, and of a usual
nose, degrees. Own proposal."""

_WORDS = frozenset({"title", "label", "does", "instead", "caution", "watch"})
"""What another language may replace."""


_WITHOUT_FIBRE = frozenset({"behind-ear", "bridge"})
"""Checks that are put right at tips, pads or build-up, and not in the frame itself."""

_FIRM_BRIDGES = frozenset({FrameMaterial.NYLON, FrameMaterial.MEMORY_ALLOY})
"""Materials whose bridge is not set at the bench, by their notes in the guide."""

_FIRM = "The bridge of this material is not bent at the bench: send the pair back."

_FIBRE = (
    "Carbon fibre is not bent: set what can be set at its metal parts and tips, or have the "
    "part changed."
)


class Cause(Deferred):
    """One cause of a symptom and what to do about it.

    Attributes:
        id: its name within the symptom.
        title: the cause.
        check: name of the check of the fit that the adjustment puts right.
        by: which reckoning gives the amount; empty where none does.
        bridge: which bridge it is of, with pads on arms or moulded; empty for any.
        instead: what to do instead on the other bridge, in one sentence; without it the
            cause is not named there.
        does: what to do, in one sentence with {side}, {other} and {by}.
        caution: what must not happen.
        watch: what to look at afterwards.
    """

    id: Name
    title: Text
    check: Name
    by: str = ""
    bridge: Literal["", "pads", "moulded"] = ""
    does: Text
    instead: Text = ""
    caution: Text
    watch: Text


class Symptom(Deferred):
    """What is seen on the face, or what the wearer says.

    Attributes:
        id: its name.
        title: the symptom.
        asks_side: whether it is of one side.
        label: the offset to measure, mm; empty where none helps.
        evidence: ids of sources in guide.toml.
        cause: what may cause it, the likeliest first.
    """

    id: Name
    title: Text
    asks_side: bool = False
    label: Text = ""
    evidence: Annotated[tuple[Name, ...], Field(min_length=1)]
    cause: Annotated[tuple[Cause, ...], Field(min_length=1)]

    def belongs_to(self, prompt_id: str) -> bool:
        """Whether its likeliest cause is put right at this prompt."""
        return f"{StepId.FIT}.{self.cause[0].check}" == prompt_id


Known = Mapping[str, str]
"""By name of a length, what it was taken from, in words."""


@dataclass(frozen=True, slots=True)
class Adjustment:
    """What to do about one cause.

    Attributes:
        cause: in a few words.
        does: what to do in one sentence, with side and amount.
        reckoned: how well the amount is known and from what; empty without an amount.
        caution: what must not happen.
        watch: what to look at afterwards.
    """

    cause: str
    does: str
    reckoned: str
    caution: str
    watch: str


def load_symptoms(language: str = ENGLISH, folder: Path | None = None) -> tuple[Symptom, ...]:
    """Every symptom, in a language; what the language lacks is in English.

    Args:
        language: name of a folder below resources/guide.
        folder: another folder than resources/guide.

    Raises:
        BenchError: a file cannot be used, with the fault.
    """
    file = read_texts(folder or asset("guide"), language, FILE, _WORDS)
    symptoms = file.entries("symptom", Symptom)
    for fault in faults(symptoms):
        raise file.unusable(fault)
    return symptoms


def faults(symptoms: tuple[Symptom, ...]) -> Iterator[str]:
    """Everything wrong with the symptoms, each in one sentence; nothing for sound ones."""
    names = [symptom.id for symptom in symptoms]
    yield from (f"{name} is there twice." for name in set(names) if names.count(name) > 1)
    for symptom in symptoms:
        for cause in symptom.cause:
            where = f"{symptom.id}, {cause.id}"
            if cause.by and cause.by not in RECKONINGS:
                yield f"{where} reckons by {cause.by}, which is not there."
            if bool(cause.by) != ("{by}" in cause.does):
                yield f"{where} needs a place for its amount, and only then."
            if cause.by and not symptom.label:
                yield f"{where} reckons an amount from no offset."
            if cause.instead and not cause.bridge:
                yield f"{where} says what to do instead, and not on which bridge."
            if "{side}" in cause.does and not symptom.asks_side:
                yield f"{where} names a side that nobody chooses."


def advise(
    order: Order, symptom: Symptom, side: Eye | None, offset: Decimal | None
) -> tuple[Adjustment, ...]:
    """What to do about each cause of a symptom.

    Args:
        order: whose frame and PD the amount is reckoned from, usual values for what it lacks.
        symptom: what is seen.
        side: on which side; None while it is not said.
        offset: as measured on the face, mm; None where it was not.
    """
    lengths, known = lengths_of(order)
    causes = (_on_frame(cause, order.frame) for cause in symptom.cause)
    return tuple(_advice(cause, side, offset, lengths, known) for cause in causes if cause)


def _on_frame(cause: Cause, frame: FrameOrder) -> Cause | None:
    """The cause as this frame has it; None where it cannot have it.

    While neither material nor mounting is known, it may have pads or a moulded bridge.
    """
    other = "moulded" if has_pads(frame) else "pads"
    is_known = frame.material is not None or frame.rim is Rim.RIMLESS
    if is_known and cause.bridge == other:
        return cause.with_(does=cause.instead, by="") if cause.instead else None
    if frame.material is FrameMaterial.CARBON and cause.check not in _WITHOUT_FIBRE:
        return cause.with_(does=_FIBRE, by="")
    if frame.material in _FIRM_BRIDGES and cause.check == "face-form":
        return cause.with_(does=_FIRM, by="")
    return cause


def _advice(
    cause: Cause, side: Eye | None, offset: Decimal | None, lengths: Lengths, known: Known
) -> Adjustment:
    by = reckoned = ""
    if cause.by and offset:
        try:
            amount = amount_for(cause.by, float(offset), lengths)
        except Impossible:
            reckoned = "No bend makes up for so large an offset: measure it again."
        else:
            by, reckoned = f" by about {_now(amount)}", _reckoned(cause.by, amount, known)
    elif cause.by:
        reckoned = "Measure the offset to learn by how much."
    sides = {"side": side or "named", "other": side.other if side else "other"}
    does = cause.does.format(by=by, **sides)
    return Adjustment(cause.title, does, reckoned, cause.caution, cause.watch)


def _now(amount: Amount) -> str:
    return _in_unit(amount.now, amount.unit)


def _reckoned(name: str, amount: Amount, known: Known) -> str:
    """How well the amount is known, from what, and that a large bend is halved."""
    whole = _in_unit(amount.needed.value, amount.unit)
    spread = _in_unit(2.0 * amount.needed.uncertainty, amount.unit)
    basis = known.get(RECKONINGS[name].length, "")
    said = f"{whole} ± {spread}{f' with {basis}' if basis else ''}."
    if not amount.is_halved:
        return said
    most = degrees(Decimal(MOST_AT_ONCE))
    return f"It needs {said} Never more than {most} in one go: bend so much, then look again."


def _in_unit(size: float, unit: str) -> str:
    return degrees(tenth(size)) if unit == "°" else millimetres(tenth(size))


def lengths_of(order: Order) -> tuple[Lengths, Known]:
    """What amounts are reckoned from, by the order and else as usual, and that in words."""
    frame = order.frame
    reach, reach_words = _joint_to_ear(frame)
    taken = {
        "pd": _ordered_or(order.pd, usual.PD, "a PD of"),
        "width": _ordered_or(frame.a, usual.A, "a lens width of"),
        "depth": _ordered_or(frame.b, usual.B, "a lens depth of"),
    }
    lengths = Lengths(
        joint_to_ear=reach,
        rotation=Reading(ROTATION_CENTRE, 2.0),
        tip=Reading(usual.END, _BY_HEAD),
        frontal=Reading(USUAL_FRONTAL, _BY_NOSE, "°"),
        splay=Reading(USUAL_SPLAY, _BY_NOSE, "°"),
        **{name: reading for name, (reading, _) in taken.items()},
    )
    words = {name: said for name, (_, said) in taken.items()}
    return lengths, {
        **words,
        "joint_to_ear": reach_words,
        "frontal": f"a usual nose of {degrees(Decimal(USUAL_FRONTAL))} from the front",
        "splay": f"a usual nose of {degrees(Decimal(USUAL_SPLAY))} from above",
        "tip": f"a usual end of {millimetres(Decimal(usual.END))} behind the ear",
        "rotation": f"the eye turning {millimetres(Decimal(ROTATION_CENTRE))} behind the lens",
    }


def _joint_to_ear(frame: FrameOrder) -> tuple[Reading, str]:
    """From the joint to the ear: the temple less its end, else that of a usual head."""
    reach = usual.joint_to_ear(frame.temple_length)
    said = f"{millimetres(Decimal(reach))} from joint to ear"
    if frame.temple_length is None or float(frame.temple_length) <= usual.END:
        return Reading(reach, _BY_HEAD), f"a usual {said}"
    end = millimetres(Decimal(usual.END))
    of_temple = f"the temple of {millimetres(frame.temple_length)} less {end} of end"
    return Reading(reach, _BY_HEAD / 2.0), f"{said}, {of_temple}"


def _ordered_or(ordered: Decimal | None, otherwise: float, words: str) -> tuple[Reading, str]:
    if ordered:
        return Reading(float(ordered), _ORDERED), f"{words} {millimetres(ordered)} as ordered"
    return Reading(otherwise, _BY_HEAD), f"{words} {millimetres(Decimal(otherwise))} as usual"
