"""Invented pairs: what is ordered, and readings that are right until somebody slips."""

from collections.abc import Mapping
from copy import deepcopy
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Any

from hypothesis import strategies as st

from benchassist.job.document import Job
from tests.verdicts.jobs import components, display, job_of, power

ZERO = Decimal(0)
SIDES = ("right", "left")


@dataclass
class Shown:
    """What one lens shows, to be changed freely; power in the form in which it was ordered."""

    sphere: Decimal
    cylinder: Decimal
    axis: Decimal
    add: Decimal
    base_in: Decimal
    base_up: Decimal
    pd: Decimal
    near_pd: Decimal
    height: Decimal
    engraved: Decimal
    up: Decimal = ZERO

    def transposed(self) -> None:
        """Write the power in the other form."""
        self.sphere += self.cylinder
        self.cylinder = -self.cylinder
        self.turned(Decimal(90))

    def turned(self, by: Decimal) -> None:
        """Turn the axis, counter-clockwise positive."""
        self.axis = (self.axis + by + 180) % 180 or Decimal(180)

    @property
    def centred(self) -> Decimal:
        """The mean power."""
        return self.sphere + self.cylinder / 2


@dataclass
class Drawn:
    """A pair: order and readings, with what else the order says.

    Attributes:
        right: what the right lens shows.
        left: what the left lens shows.
        ordered: the two lenses as ordered.
        order: further parts of the order.
        of_lens: further parts of each lens's order.
        surface: on which surface the additions were read.
    """

    right: Shown
    left: Shown
    ordered: tuple[Shown, Shown]
    order: dict[str, Any] = field(default_factory=dict)
    of_lens: dict[str, dict[str, Any]] = field(default_factory=dict)
    surface: str = "back"

    @property
    def lenses(self) -> tuple[Shown, Shown]:
        """Both lenses as they show."""
        return self.right, self.left

    def job(self, only: tuple[str, ...] = SIDES) -> Job:
        """The job with its readings; of some lenses only where told."""
        order = self.order | {
            side: _ordered(lens) | self.of_lens.get(side, {})
            for side, lens in zip(SIDES, self.ordered, strict=True)
        }
        shown = dict(zip(SIDES, self.lenses, strict=True))
        attempt: dict[str, Any] = {
            side: _read(lens, self.surface) for side, lens in shown.items() if side in only
        }
        attempt["pair"] = {
            side: {
                "distance_pd": [lens.pd],
                "near_pd": [lens.near_pd],
                "height": [lens.height],
            }
            for side, lens in shown.items()
            if side in only
        }
        cross = {f"{side}_up": lens.up for side, lens in shown.items()}
        across = {f"{side}_across": ZERO for side in SIDES}
        attempt["fit"] = {"answers": {"cross": {"measured": cross | across}}}
        return job_of(order, attempt)


def _ordered(lens: Shown) -> dict[str, Any]:
    return {
        "power": written(lens),
        "add": lens.add,
        "prism": components(str(lens.base_in), str(lens.base_up)),
        "distance_pd": lens.pd,
        "near_pd": lens.near_pd,
        "height": lens.height,
    }


def written(lens: Shown) -> dict[str, Any]:
    """The power of a lens as an order gives it."""
    return power(str(lens.sphere), str(lens.cylinder), str(lens.axis))


def _read(lens: Shown, surface: str) -> dict[str, Any]:
    return {
        "distance": [display(str(lens.sphere), str(lens.cylinder), str(lens.axis))],
        "near": [{"kind": "display", "surface": surface, "shown": lens.add}],
        "prism": [{"prism": components(str(lens.base_in), str(lens.base_up))}],
        "engraved_add": lens.engraved,
    }


def _steps(low: str, high: str, step: str) -> st.SearchStrategy[Decimal]:
    size = Decimal(step)
    return st.integers(int(Decimal(low) / size), int(Decimal(high) / size)).map(
        lambda count: count * size
    )


@st.composite
def _lenses(draw: st.DrawFn) -> Shown:
    pd, add = draw(_steps("28", "35", "0.5")), draw(_steps("0.75", "3", "0.25"))
    cylinder = draw(_steps("-3", "3", "0.25").filter(bool))
    return Shown(
        sphere=draw(_steps("-8", "8", "0.25")),
        cylinder=cylinder,
        axis=draw(st.integers(1, 180).map(Decimal)),
        add=add,
        base_in=draw(_steps("-3", "3", "0.25")),
        base_up=draw(_steps("-3", "3", "0.25")),
        pd=pd,
        near_pd=pd - 2,
        height=draw(_steps("15", "23", "0.5")),
        engraved=add,
    )


FRAME: Mapping[str, Any] = {"a": "54", "b": "38", "dbl": "18", "tilt": "14", "face_form": "9"}


@st.composite
def pairs(draw: st.DrawFn, design: str) -> Drawn:
    """Pairs of one design that show exactly what was ordered."""
    lenses = draw(_lenses()), draw(_lenses())
    right, left = deepcopy(lenses)
    order = {"design": design, "frame": FRAME, "vertex_distance": "15"}
    surface = "front" if design == "bifocal" else "back"
    return Drawn(right, left, lenses, order, surface=surface)
