"""Which bend would put a measured fault right: of what, where and by how much."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from math import asin, degrees, radians, sin

from benchassist.geometry import usual
from benchassist.geometry.alignment import fold
from benchassist.geometry.possible import Impossible
from benchassist.job.document import Job
from benchassist.optics.eye import Eye
from benchassist.verdicts import frame_measured as found
from benchassist.verdicts.answers import Measures
from benchassist.verdicts.exact import millionth
from benchassist.verdicts.finding import Finding
from benchassist.verdicts.rocking import tips_of
from benchassist.verdicts.words import degrees as in_degrees
from benchassist.verdicts.words import millimetres

_SHORTEST_END = 10.0
"""No end behind a bend is taken for shorter, mm."""

_STEEPEST = 60.0
"""No end is taken for steeper, degrees: its tip hardly moves any more, and the bend asked for
would grow without end."""


@dataclass(frozen=True, slots=True)
class Move:
    """A change of one number of the frame.

    Attributes:
        number: its name, as `geometry.frame_state` has it; 'form' is that of both halves
            together. On the wearer also 'tilt' of both temples, and the front as a whole:
            'front_up', 'front_out' from the face, 'front_left' towards the wearer's left.
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
    "tilt": ("put tilt in on both sides alike", "take tilt out on both sides alike"),
    "front_up": ("raise the front", "lower the front"),
    "front_out": ("move the front out, away from the face,", "move the front in"),
    "front_left": (
        "move the front towards the wearer's left",
        "move the front towards the wearer's right",
    ),
    "bend_start": ("move the {eye} bend back", "move the {eye} bend forward"),
    "drop": ("bend the {eye} tip down", "bend the {eye} tip up"),
    "fold": (
        "turn the {eye} joint until its folded temple climbs more,",
        "turn the {eye} joint until its folded temple lies lower,",
    ),
}
"""What a change of each number is, upwards and downwards, facing the wearer."""


def move_for(job: Job, finding: Finding) -> Move | None:
    """The bend that would put a finding right; None where its measurements do not tell."""
    rule = _MOVES.get(finding.key)
    read = found.counted(job, finding.prompt.removeprefix("bench."))
    if rule is None or read is None or not finding.difference:
        return None
    return rule(job, read, finding.difference)


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
    right = _right_pantoscopic(job)
    if right is None:
        right = true + apart / 2
    return _odd_side("pantoscopic", "°", right, right - apart, true)


def _right_pantoscopic(job: Job) -> Decimal | None:
    """The pantoscopic angle of the right side, degrees; None where nothing tells it."""
    read = found.counted(job, "pantoscopic")
    if read is None:
        return None
    try:
        return millionth(found.pantoscopic_of(Eye.RIGHT, job.order.frame, read).value)
    except Impossible:
        return None


Rule = Callable[[Job, Measures, Decimal], Move | None]
"""The bend of a job, by what its check read and by how much that is off; None where it does
not tell."""


def _to_zero(number: str, unit: str) -> Rule:
    return lambda _job, _read, off: to_zero(number, unit, off)


def _lens(eye: Eye) -> Rule:
    return lambda _job, _read, off: Move("lens_turn", -off, "°", eye)


def _one_side(number: str, eye: Eye) -> Rule:
    """One side by itself, where both differ alike from what is usual or ordered."""
    return lambda _job, _read, off: Move(number, -off, "°", eye)


def _odd_side(number: str, unit: str, right: Decimal, left: Decimal, true: Decimal) -> Move:
    """The side further from what is usual, brought to the other one."""
    if abs(right - true) >= abs(left - true):
        return Move(number, left - right, unit, Eye.RIGHT)
    return Move(number, right - left, unit, Eye.LEFT)


def _open_angle(_job: Job, read: Measures, _off: Decimal) -> Move:
    right, left = (millionth(found.open_angle_of(eye, read).value) for eye in Eye)
    return _odd_side("open_angle", "°", right, left, Decimal(usual.OPEN_ANGLE))


def _pantoscopic(job: Job, _read: Measures, off: Decimal) -> Move:
    return one_temple(job, off)


def _at_plate(job: Job, read: Measures, _off: Decimal) -> Move:
    return one_temple(job, millionth(found.at_plate(read).value))


def _bend_start(job: Job, read: Measures, _off: Decimal) -> Move:
    true = _temple(job) - Decimal(usual.END)
    return _odd_side("bend_start", "mm", read["right_start"], read["left_start"], true)


def _temple(job: Job) -> Decimal:
    """Length of a temple as ordered, or as usual, mm."""
    return job.order.frame.temple_length or Decimal(usual.TEMPLE)


def _drop(_job: Job, read: Measures, _off: Decimal) -> Move:
    return _odd_side("drop", "°", read["right_drop"], read["left_drop"], Decimal(usual.DROP))


def _at_tips(job: Job, _read: Measures, _off: Decimal) -> Move | None:
    """The tip that presses on the table hangs too low, the temple angles left out.

    An end of length d that drops by t hangs d sin(t) below its shaft; to hang lower by h less
    it drops by asin(sin(t) - h / d). Own derivation. The slope at t would ask for too much: the
    end levels out while it is bent up, and its tip rises faster.
    """
    tips, read = tips_of(job), found.counted(job, "temple-bend")
    if tips is None or read is None:
        return None
    side = Eye.RIGHT if tips.lower > 0 else Eye.LEFT
    length = _temple(job)
    end = max(float(length - read[f"{side}_start"]), _SHORTEST_END)
    drop = min(float(read[f"{side}_drop"]), _STEEPEST)
    level = sin(radians(drop)) - float(abs(tips.lower)) / end
    return Move("drop", millionth(degrees(asin(max(level, -1.0))) - drop), "°", side)


def _fold(_job: Job, read: Measures, _off: Decimal) -> Move:
    """The joint whose folded temple is further from level, by the slopes of both."""
    half = float(read["half_width"])
    both = fold(float(read["right_height"]), float(read["left_height"]), half)
    return _odd_side("fold", "°", millionth(both.right), millionth(both.left), Decimal(0))


_MOVES: Mapping[str, Rule] = {
    "bench.rotation.right": _lens(Eye.RIGHT),
    "bench.rotation.left": _lens(Eye.LEFT),
    "bench.skew": _to_zero("skew_step", "mm"),
    "bench.x-ing": _to_zero("x_ing", "°"),
    "bench.four-point": _to_zero("plane_step", "mm"),
    "bench.four-point.form": _to_zero("form", "°"),
    "bench.open-angle": _open_angle,
    "bench.open-angle.right": _one_side("open_angle", Eye.RIGHT),
    "bench.open-angle.left": _one_side("open_angle", Eye.LEFT),
    "bench.pantoscopic": _pantoscopic,
    "bench.pantoscopic.right": _one_side("pantoscopic", Eye.RIGHT),
    "bench.pantoscopic.left": _one_side("pantoscopic", Eye.LEFT),
    "bench.table-inverted": _at_plate,
    "bench.table-upright": _at_tips,
    "bench.temple-bend": _bend_start,
    "bench.temple-bend.drop": _drop,
    "bench.fold": _fold,
}
"""The bend for each finding of the bench, by its key."""
