"""What a prompt is: the frozen values that resources/guide/*.toml are read into."""

from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from benchassist.job.order import Design, Rim
from benchassist.limits.rule import Source
from benchassist.optics.eye import Eye


class StepId(StrEnum):
    """The nine steps, in the order of the trade."""

    ORDER = "order"
    RIGHT = "right"
    LEFT = "left"
    PAIR = "pair"
    SURFACE = "surface"
    BENCH = "bench"
    FIT = "fit"
    HANDOVER = "handover"
    RECORD = "record"


class Kind(StrEnum):
    """What sort of answer a prompt takes, and so which input the window shows."""

    FORM = "form"
    """The order page."""
    POWER = "power"
    """Readings of a power: attempt.<eye>.distance."""
    ADDITION = "addition"
    """Readings of an addition: attempt.<eye>.<reading>."""
    PRISM = "prism"
    """Readings of prism: attempt.<eye>.prism."""
    ENGRAVED = "engraved"
    """The engraved addition: attempt.<eye>.engraved_add."""
    LAYOUT = "layout"
    """A length or angle of each lens, one input an eye: attempt.pair.<eye>.<reading>."""
    CHECK = "check"
    """Good or fault by eye, or by the prompt's measurements: an Answer."""
    CONFIRM = "confirm"
    """Something done or taught, to be confirmed: an Answer with seen good."""
    CHOICE = "choice"
    """One of the prompt's options: an Answer with choice."""
    SIGN = "sign"
    """The record page."""


@dataclass(frozen=True, slots=True)
class Measurement:
    """One number that a check asks for.

    Attributes:
        name: its name in `Answer.measured`.
        label: what the person sees.
        unit: 'mm', '°', ...
        low: smallest value taken.
        high: largest value taken.
        step: reading step of the usual tool, in `unit`.
        eye: the side it belongs to, if any.
    """

    name: str
    label: str
    unit: str
    low: Decimal
    high: Decimal
    step: Decimal
    eye: Eye | None = None


@dataclass(frozen=True, slots=True)
class Remedy:
    """A correction that can be made at the bench, and the checks that it can disturb.

    Attributes:
        id: its name, unique within the check.
        does: what to do, in one sentence.
        tool: what with.
        bend: the way of bending, as bends.toml names it.
        caution: what to watch, empty when nothing special.
        heats: whether it warms the front.
        disturbs: ids of the prompts to look at again afterwards, mostly bench checks; ids of
            readings stand here too, where a bend can change what the lens meter shows.
        materials: frame materials it suits; empty for all.
        rims: mountings it suits; empty for all.
    """

    id: str
    does: str
    tool: str
    bend: str = ""
    caution: str = ""
    heats: bool = False
    disturbs: tuple[str, ...] = ()
    materials: tuple[str, ...] = ()
    rims: tuple[Rim, ...] = ()


@dataclass(frozen=True, slots=True)
class Applies:
    """For which orders a prompt is asked; an empty tuple means for all."""

    designs: tuple[Design, ...] = ()
    rims: tuple[Rim, ...] = ()
    needs: tuple[str, ...] = ()
    """Names of conditions on the job, see guide/conditions.py: 'thickness', 'near-pd', ..."""
    otherwise: str = ""
    """Why it is not asked, in one sentence, shown where a person looks for it."""


@dataclass(frozen=True, slots=True)
class Variant:
    """Other words of a prompt for some orders; an empty text keeps that of the prompt.

    Attributes:
        id: its name, unique within the prompt.
        designs: lens designs it is for; empty for all.
        rims: mountings it is for; empty for all.
        title, ask, how, why, fault, caution: the words.
    """

    id: str
    designs: tuple[Design, ...] = ()
    rims: tuple[Rim, ...] = ()
    title: str = ""
    ask: str = ""
    how: str = ""
    why: str = ""
    fault: str = ""
    caution: str = ""


@dataclass(frozen=True, slots=True)
class Prompt:
    """One thing to do now.

    Attributes:
        id: unique in the job, '<step>.<name>', such as 'right.distance' or 'bench.skew'.
        step: the step it belongs to.
        kind: what sort of answer it takes.
        title: a few words.
        ask: what to do now, in one sentence.
        how, why, fault, caution: hint texts; `fault` says what a fault looks like.
        limit: what is still good, for a check by eye, and how that is known.
        evidence: how we know, in words: titles of sources, or 'common practice, no source'.
        sources: the same with addresses.
        group: heading within the step, may be empty.
        reading: for readings, the field of the job that takes them.
        eye: the eye, for prompts of a lens.
        spot: named place on the drawing.
        view: 'front', 'top', 'side' or 'table'.
        picture: name of the hint drawing, may be empty.
        inputs: measurements asked for.
        options: choices offered.
        has_places: whether what is found is noted at its place on the lens, as `Defect`s.
        remedies: corrections that put a fault right; of the prompts that `steps_for` gives
            only those that suit the frame.
        applies: for which orders it is asked.
        variants: other words for some orders, the first that fits; already put in place in
            the prompts that `steps_for` gives.
        after: ids of the checks that should stand first, because putting one of them right
            moves this one.
    """

    id: str
    step: StepId
    kind: Kind
    title: str
    ask: str
    how: str = ""
    why: str = ""
    fault: str = ""
    limit: str = ""
    caution: str = ""
    evidence: str = ""
    sources: tuple[Source, ...] = ()
    group: str = ""
    reading: str = ""
    eye: Eye | None = None
    spot: str = ""
    view: str = "front"
    picture: str = ""
    inputs: tuple[Measurement, ...] = ()
    options: tuple[str, ...] = ()
    has_places: bool = False
    remedies: tuple[Remedy, ...] = ()
    applies: Applies = Applies()
    variants: tuple[Variant, ...] = ()
    after: tuple[str, ...] = ()

    @property
    def name(self) -> str:
        """The part of the id after the step: the key of its `Answer`."""
        return self.id.partition(".")[2]

    @property
    def spots(self) -> tuple[str, ...]:
        """The places on the drawing: a prompt about both sides has a twin place on the left."""
        side, dot, place = self.spot.partition(".")
        if self.eye is None and side == Eye.RIGHT and dot:
            return (self.spot, f"{Eye.LEFT}.{place}")
        return (self.spot,) if self.spot else ()

    def remedy(self, remedy_id: str) -> Remedy:
        """One of its corrections.

        Raises:
            KeyError: no correction of that name.
        """
        for remedy in self.remedies:
            if remedy.id == remedy_id:
                return remedy
        raise KeyError(f"{self.id} has no correction {remedy_id}")


@dataclass(frozen=True, slots=True)
class Step:
    """One of the nine steps with the prompts that apply to this job, in order."""

    id: StepId
    title: str
    prompts: tuple[Prompt, ...]
