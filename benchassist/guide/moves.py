"""Which bend would put a measured fault right: of what, where and by how much."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from math import cos, degrees, radians

from benchassist.geometry import usual
from benchassist.job.document import Job
from benchassist.optics.eye import Eye
from benchassist.verdicts import frame_measured as found
from benchassist.verdicts.answers import Measures
from benchassist.verdicts.exact import ZERO, millionth
from benchassist.verdicts.finding import Finding
from benchassist.verdicts.words import degrees as in_degrees
from benchassist.verdicts.words import millimetres

_SHORTEST_END = 10.0
"""No end behind a bend is taken for shorter, mm."""

_FLAT = 0.5
"""A steeper end than 60 degrees is taken for 60: its tip hardly moves any more."""


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


def measured(job: Job, name: str) -> Measures:
    """What was measured for a check of the bench and still counts.

    Raises:
        KeyError: it was not answered, or is to be repeated.
    """
    answer = job.now.bench.answers[name]
    if answer.again_because:
        raise KeyError(name)
    return answer.measured


def to_zero(number: str, unit: str, value: Decimal) -> Move:
    """The bend that makes a number of the bridge nought."""
    return Move(number, -value, unit)


def one_temple(job: Job, apart: Decimal) -> Move:
    """The bend of one endpiece that makes the temples parallel.

    Args:
        job: where the pantoscopic angles are measured.
        apart: by how many degrees the right temple points lower than the left.
    """
    true = job.order.frame.tilt or Decimal(usual.TILT)
    try:
        read = measured(job, "pantoscopic")
        right = millionth(found.pantoscopic_of(Eye.RIGHT, job.order.frame, read).value)
    except (KeyError, ValueError):
        right = true + apart / 2
    return _odd_side("pantoscopic", "°", right, right - apart, true)


def _to_zero(number: str, unit: str) -> Callable[[Job, Finding], Move]:
    return lambda _, finding: to_zero(number, unit, finding.difference or ZERO)


def _lens(eye: Eye) -> Callable[[Job, Finding], Move]:
    return lambda _, finding: Move("lens_turn", -(finding.difference or ZERO), "°", eye)


def _odd_side(number: str, unit: str, right: Decimal, left: Decimal, true: Decimal) -> Move:
    """The side further from what is usual, brought to the other one."""
    if abs(right - true) >= abs(left - true):
        return Move(number, left - right, unit, Eye.RIGHT)
    return Move(number, right - left, unit, Eye.LEFT)


def _open_angle(job: Job, _: Finding) -> Move:
    read = measured(job, "open-angle")
    right, left = (millionth(found.open_angle_of(eye, read).value) for eye in Eye)
    return _odd_side("open_angle", "°", right, left, Decimal(usual.OPEN_ANGLE))


def _pantoscopic(job: Job, finding: Finding) -> Move:
    return one_temple(job, finding.difference or ZERO)


def _at_plate(job: Job, _: Finding) -> Move:
    return one_temple(job, millionth(found.at_plate(measured(job, "table-inverted")).value))


def _bend_start(job: Job, _: Finding) -> Move:
    read = measured(job, "temple-bend")
    true = _temple(job) - Decimal(usual.END)
    return _odd_side("bend_start", "mm", read["right_start"], read["left_start"], true)


def _temple(job: Job) -> Decimal:
    """Length of a temple as ordered, or as usual, mm."""
    return job.order.frame.temple_length or Decimal(usual.TEMPLE)


def _drop(job: Job, _: Finding) -> Move:
    read = measured(job, "temple-bend")
    return _odd_side("drop", "°", read["right_drop"], read["left_drop"], Decimal(usual.DROP))


def _at_tips(job: Job, _: Finding) -> Move:
    """The tip that presses on the table hangs too low, the temple angles left out."""
    lower = tip_lower(job)
    side = Eye.RIGHT if lower > 0 else Eye.LEFT
    read = measured(job, "temple-bend")
    length = _temple(job)
    end = max(float(length - read[f"{side}_start"]), _SHORTEST_END)
    drop = radians(float(read[f"{side}_drop"]))
    bent = degrees(float(abs(lower)) / (end * max(cos(drop), _FLAT)))
    return Move("drop", -millionth(bent), "°", side)


def tip_lower(job: Job) -> Decimal:
    """How much lower the right tip is bent than the left, the temple angles left out, mm.

    Raises:
        KeyError: one of the two table tests is not measured.
        ValueError: they cannot be.
    """
    upright, inverted = measured(job, "table-upright"), measured(job, "table-inverted")
    return millionth(found.two_way(upright, inverted).right_tip_lower.value)


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
