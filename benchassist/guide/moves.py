"""Which bend would put a measured fault right: of what, where and by how much."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from math import cos, degrees, radians

from benchassist.geometry.alignment import open_angle, pantoscopic_angle
from benchassist.geometry.touch import Gaps, inverted_angle, two_way_touch
from benchassist.job.document import Job
from benchassist.optics.eye import Eye
from benchassist.verdicts.exact import ZERO, millionth
from benchassist.verdicts.finding import Finding
from benchassist.verdicts.words import degrees as in_degrees
from benchassist.verdicts.words import millimetres

USUAL_OPEN = Decimal(94)
"""Open angle to which an odd side is brought, degrees. Source: the 94 to 95 of Brooks and
Borish, System for Ophthalmic Dispensing, from memory; another text says about 90."""

USUAL_TILT = Decimal(9)
"""Pantoscopic angle to which an odd side is brought where none is ordered, degrees: the middle
of the 8 to 10 of a teaching article; sources do not agree on any figure."""

USUAL_DROP = Decimal(45)
"""Drop of a bend on the bench, degrees. Source: a fitting text of 1999; common practice."""

USUAL_END = 40.0
"""Length of the end behind the bend where none is known, mm; common practice, no source."""


@dataclass(frozen=True, slots=True)
class Move:
    """A change of one number of the frame.

    Attributes:
        number: its name, as `geometry.frame_state` has it; 'form' is that of both halves
            together.
        change: how much is added to it, in `unit`, with the sign of that number.
        unit: 'mm' or '°'.
        side: the side that is bent; None for the bridge.
    """

    number: str
    change: Decimal
    unit: str
    side: Eye | None = None

    @property
    def amount(self) -> Decimal:
        """The size of the change to a tenth, as finely as hands can bend."""
        return abs(self.change).quantize(Decimal("0.1"))

    @property
    def words(self) -> str:
        """What to do, with side and amount: 'bring the right temple in by about 3.0°'."""
        more, less = _WORDS[self.number]
        words = (more if self.change > 0 else less).format(eye=self.side or "")
        size = in_degrees(self.amount) if self.unit == "°" else millimetres(self.amount)
        return f"{words} by about {size}"


_WORDS: Mapping[str, tuple[str, str]] = {
    "lens_turn": ("turn the {eye} lens counter-clockwise", "turn the {eye} lens clockwise"),
    "skew_step": (
        "bring the left half up against the right",
        "bring the left half down against the right",
    ),
    "x_ing": (
        "bring the top of the left lens forward against the right",
        "bring the top of the left lens back against the right",
    ),
    "plane_step": (
        "bring the left lens forward against the right",
        "bring the left lens back against the right",
    ),
    "form": (
        "swing both lenses back, shared alike,",
        "ease both lenses flatter, shared alike,",
    ),
    "open_angle": ("let the {eye} temple out", "bring the {eye} temple in"),
    "pantoscopic": (
        "bend the {eye} temple down at the endpiece",
        "bend the {eye} temple up at the endpiece",
    ),
    "bend_start": ("move the {eye} bend back", "move the {eye} bend forward"),
    "drop": ("bend the {eye} tip down", "bend the {eye} tip up"),
}
"""What a change of each number is, upwards and downwards, facing the wearer."""


def move_for(job: Job, finding: Finding) -> Move | None:
    """The bend that would put a finding right; None where its measurements do not tell."""
    rule = _MOVES.get(finding.key)
    if rule is None or not finding.difference:
        return None
    try:
        return rule(job, finding)
    except (KeyError, ValueError):
        return None


def _measured(job: Job, check: str) -> Mapping[str, Decimal]:
    """What was measured for a check of the bench and still counts.

    Raises:
        KeyError: it was not answered, or is to be repeated.
    """
    answer = job.now.bench.answers[check]
    if answer.again_because:
        raise KeyError(check)
    return answer.measured


def _to_zero(number: str, unit: str) -> Callable[[Job, Finding], Move]:
    """A number of the bridge that should be zero."""
    return lambda _, finding: Move(number, -(finding.difference or ZERO), unit)


def _lens(eye: Eye) -> Callable[[Job, Finding], Move]:
    return lambda _, finding: Move("lens_turn", -(finding.difference or ZERO), "°", eye)


def _odd_side(number: str, unit: str, right: Decimal, left: Decimal, usual: Decimal) -> Move:
    """The side further from what is usual, brought to the other one."""
    if abs(right - usual) >= abs(left - usual):
        return Move(number, left - right, unit, Eye.RIGHT)
    return Move(number, right - left, unit, Eye.LEFT)


def _open_angle(job: Job, _: Finding) -> Move:
    read = _measured(job, "open-angle")
    right, left = (
        millionth(open_angle(float(read[f"{eye}_out"]), float(read[f"{eye}_back"])))
        for eye in Eye
    )
    return _odd_side("open_angle", "°", right, left, USUAL_OPEN)


def _pantoscopic(job: Job, _: Finding) -> Move:
    read, frame = _measured(job, "pantoscopic"), job.order.frame
    right, left = (
        millionth(pantoscopic_angle(float(read[f"{eye}_offset"]), float(frame.b or 0)))
        for eye in Eye
    )
    return _odd_side("pantoscopic", "°", right, left, frame.tilt or USUAL_TILT)


def _bend_start(job: Job, _: Finding) -> Move:
    """The longer one is moved forward: a bend too far back lets the frame slide."""
    read = _measured(job, "temple-bend")
    apart = read["right_start"] - read["left_start"]
    return Move("bend_start", -abs(apart), "mm", Eye.RIGHT if apart > 0 else Eye.LEFT)


def _drop(job: Job, _: Finding) -> Move:
    read = _measured(job, "temple-bend")
    return _odd_side("drop", "°", read["right_drop"], read["left_drop"], USUAL_DROP)


def _gaps(read: Mapping[str, Decimal]) -> tuple[Gaps, float]:
    return Gaps(float(read["right_gap"]), float(read["left_gap"])), float(read["run"])


def _at_plate(job: Job, _: Finding) -> Move:
    """The temple whose shaft lifts upside down points too low."""
    lower = millionth(inverted_angle(*_gaps(_measured(job, "table-inverted"))))
    return Move("pantoscopic", -abs(lower), "°", Eye.RIGHT if lower > 0 else Eye.LEFT)


def _at_tips(job: Job, _: Finding) -> Move:
    """The tip that presses on the table hangs too low, the temple angles left out."""
    upright, run = _gaps(_measured(job, "table-upright"))
    upside_down, run_inverted = _gaps(_measured(job, "table-inverted"))
    lower = two_way_touch(upright, run, upside_down, run_inverted).right_tip_lower
    side = Eye.RIGHT if lower > 0 else Eye.LEFT
    read = _measured(job, "temple-bend")
    end = _end(job, float(read[f"{side}_start"]))
    drop = radians(float(read[f"{side}_drop"]))
    bent = degrees(abs(lower) / (end * max(cos(drop), 0.5)))
    return Move("drop", -millionth(bent), "°", side)


def _end(job: Job, start: float) -> float:
    """Length of the temple behind its bend, mm."""
    length = job.order.frame.temple_length
    return max(float(length) - start, 10.0) if length else USUAL_END


_MOVES: Mapping[str, Callable[[Job, Finding], Move]] = {
    "bench.rotation.right": _lens(Eye.RIGHT),
    "bench.rotation.left": _lens(Eye.LEFT),
    "bench.skew": _to_zero("skew_step", "mm"),
    "bench.x-ing": _to_zero("x_ing", "°"),
    "bench.four-point": _to_zero("plane_step", "mm"),
    "bench.four-point.form": _to_zero("form", "°"),
    "bench.open-angle": _open_angle,
    "bench.pantoscopic": _pantoscopic,
    "bench.table-inverted": _at_plate,
    "bench.table-upright": _at_tips,
    "bench.temple-bend": _bend_start,
    "bench.temple-bend.drop": _drop,
}
"""The bend for each finding of the bench, by its key."""
