"""With which surface on the stop an addition is read, and why."""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from benchassist.job.order import Design, Order, Surface
from benchassist.job.readings import AddReading
from benchassist.optics.eye import Eye
from benchassist.optics.near import addition_by_front_vertex, excess_by_back_vertex
from benchassist.optics.thick import ThickLens
from benchassist.verdicts.form import lens_form
from benchassist.verdicts.words import dioptres

_HUNDREDTH = Decimal("0.01")
MATTERS = Decimal("0.04")
"""From so many dioptres on the wrong surface matters, as more than 0.03 D; own proposal."""

_OTHER = {Surface.BACK: Surface.FRONT, Surface.FRONT: Surface.BACK}


@dataclass(frozen=True, slots=True)
class Proposal:
    """How the addition of one lens is to be read.

    Attributes:
        surface: the surface to lay on the stop, for the near and the distance reading alike.
        reason: why, and what the other surface would show, in whole sentences with the
            assumptions made.
        difference: what the other surface would show beyond the true addition, D, rounded to
            0.01; negative for too little, None where it cannot be told.
    """

    surface: Surface
    reason: str
    difference: Decimal | None

    @property
    def other(self) -> Surface:
        """The surface that would show another addition."""
        return _OTHER[self.surface]

    @property
    def matters(self) -> bool:
        """Whether the other surface would be off by more than a reading can tell."""
        return self.difference is None or abs(self.difference) >= MATTERS


def proposal(order: Order, eye: Eye) -> Proposal:
    """The surface proposed for reading the addition of one lens.

    The surface that carries the addition belongs on the stop: near light then enters where the
    addition is. A segment is on the front unless the order says otherwise; for a progressive
    lens whose maker does not say, the back is proposed, as is usual. Source: ophthalmic optics
    course, vertex powers, http://www.nfos.org/degree/opt11/practice_answers_11a.html; the usual
    sides are common practice without a source.
    """
    surface, why = _carrier(order)
    form, add = lens_form(order, eye), order.eye(eye).add
    if form is None or add is None:
        return Proposal(surface, f"{why}: {_on_the_stop(surface)}.", None)
    difference = _difference(form.lens, surface, float(add))
    told = _told(surface, difference, form.words)
    return Proposal(surface, f"{why}: {_on_the_stop(surface)}. {told}", difference)


def counted(readings: Sequence[AddReading], proposed: Proposal) -> tuple[AddReading, ...]:
    """The complete readings that are judged: with the proposed surface, if there are any."""
    read = tuple(reading for reading in readings if reading.addition is not None)
    fitting = tuple(reading for reading in read if reading.surface is proposed.surface)
    return fitting or read


def must_turn(judged: Sequence[AddReading], proposed: Proposal) -> bool:
    """Whether what is judged was read on the other surface, on a lens where that matters."""
    return proposed.matters and any(reading.surface is proposed.other for reading in judged)


def remark(readings: Sequence[AddReading], proposed: Proposal) -> str:
    """What is said of the readings with the other surface, for the end of a sentence."""
    read = [reading for reading in readings if reading.addition is not None]
    others = sum(reading.surface is proposed.other for reading in read)
    if not others:
        return ""
    with_other = f"with the {proposed.other.value} surface on the stop"
    if others < len(read):
        kept = "1 reading" if others == 1 else f"{others} readings"
        return f"; {kept} {with_other} kept and not judged"
    return f"; read {with_other}, which {_off(proposed)}"


def _off(proposed: Proposal) -> str:
    if proposed.difference is None:
        return "may be off by an amount that cannot be told"
    size = dioptres(proposed.difference)
    if not proposed.matters:
        return f"may be off by {size} on this lens and matters little"
    way = "too much" if proposed.difference > 0 else "too little"
    return f"may show {size} {way} on this lens"


def _carrier(order: Order) -> tuple[Surface, str]:
    """The surface that carries the addition, and how that is known."""
    if order.addition_surface is not None:
        side = order.addition_surface
        return side, f"The order says that the {side.value} surface carries the addition"
    if order.design is Design.PROGRESSIVE:
        return Surface.BACK, (
            "The order does not say which surface carries the addition; the back is usual"
        )
    return Surface.FRONT, "A segment is on the front unless the maker says otherwise"


def _on_the_stop(surface: Surface) -> str:
    return f"take both readings with the {surface.value} surface on the stop"


def _difference(lens: ThickLens, carrier: Surface, add: float) -> Decimal | None:
    """What the other surface shows beyond the true addition, D; None for no possible lens."""
    try:
        if carrier is Surface.FRONT:
            excess = excess_by_back_vertex(lens, add)
        else:
            near = ThickLens(lens.front, lens.back + add, lens.thickness, lens.index)
            excess = addition_by_front_vertex(lens, near) - add
    except ValueError:
        return None
    return Decimal(excess).quantize(_HUNDREDTH)


def _told(surface: Surface, difference: Decimal | None, form: str) -> str:
    other = _OTHER[surface]
    if difference is None:
        return f"What the {other.value} would show cannot be told."
    if not difference:
        return f"The {other.value} would show the same ({form})."
    way = "too much" if difference > 0 else "too little"
    little = ", which matters little" if abs(difference) < MATTERS else ""
    return f"The {other.value} would show {dioptres(difference)} {way}{little} ({form})."
