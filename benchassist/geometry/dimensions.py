"""The dimension lines of the front view: centration ordered and found."""

from dataclasses import dataclass

from benchassist.geometry.figure import Point
from benchassist.geometry.layout import CENTRE_DROP, HEIGHT_ASIDE, NEAR_DROP
from benchassist.geometry.plan import Centration, FrontPlan
from benchassist.optics.eye import Eye


@dataclass(frozen=True, slots=True)
class Dimension:
    """One measured length on the drawing.

    Attributes:
        name: 'centre', 'near-centre' or 'height'.
        eye: the lens it belongs to.
        start: where it is measured from: the middle of the bridge, or the boxed lower line.
        ordered_end: where it should end, None where nothing is ordered.
        found_end: where it does end, None while it has not been measured.
        ordered: the length ordered, mm.
        found: the length measured, mm.
    """

    name: str
    eye: Eye
    start: Point
    ordered_end: Point | None
    found_end: Point | None
    ordered: float | None
    found: float | None


def dimensions(
    plan: FrontPlan, right: Centration | None = None, left: Centration | None = None
) -> tuple[Dimension, ...]:
    """The dimension lines of the plan, with what was measured on each lens."""
    lines = []
    for eye, found in ((Eye.RIGHT, right), (Eye.LEFT, left)):
        ordered, read = plan.eye(eye), found or Centration()
        low = -plan.height / 2
        side = -eye.nasal_sign
        for name, drop, wanted, measured in (
            ("centre", CENTRE_DROP, ordered.distance_pd, read.distance_pd),
            ("near-centre", NEAR_DROP, ordered.near_pd, read.near_pd),
        ):
            ends = [None if x is None else (side * x, low - drop) for x in (wanted, measured)]
            lines.append(
                Dimension(name, eye, (0.0, low - drop), ends[0], ends[1], wanted, measured)
            )
        x = plan.place(eye, (plan.reference(eye)[0] - HEIGHT_ASIDE, 0.0))[0]
        tops = [None if up is None else (x, low + up) for up in (ordered.height, read.height)]
        lines.append(
            Dimension("height", eye, (x, low), tops[0], tops[1], ordered.height, read.height)
        )
    return tuple(line for line in lines if line.ordered_end or line.found_end)
