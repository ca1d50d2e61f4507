"""What puts a measured fault of the fit right: which correction, on which side, by how much.

Rule of direction on a face: in with in, out with out, up with up, down with down. A temple
that is bent up at the endpiece brings its end of the front down; one that is brought in moves
its lens away from the eye. Source: the fitting texts of the guide; the amounts are those of
`geometry.adjusting`.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from decimal import Decimal

from benchassist.geometry import usual
from benchassist.geometry.adjusting import open_for_vertex
from benchassist.geometry.on_face import temple_difference_for_ears
from benchassist.guide.moves import Move
from benchassist.job.document import Job
from benchassist.optics.eye import Eye
from benchassist.verdicts.exact import ZERO, millionth
from benchassist.verdicts.finding import Finding

_DISTANCES = (
    "The lenses stand apart from both pupils the same way: nothing on the frame changes that. "
    "Take both distances again, then send the pair back or let the supervisor decide."
)
_MADE_SO = (
    "The front sits where it should, so the lenses were made so: send the pair back, or let "
    "the supervisor decide."
)
_FORM = (
    "Both sides are off alike: take the pair back to the bench, set the form of the front "
    "there and go through the checks that follow."
)


@dataclass(frozen=True, slots=True)
class Fitting:
    """What to do about a check of the fit.

    Attributes:
        remedy: id of the correction; empty where none of them would help.
        move: what it changes, with side and amount; None where nothing measured tells.
        sentence: what to do instead of a correction; empty where there is one.
    """

    remedy: str = ""
    move: Move | None = None
    sentence: str = ""


Outside = tuple[Finding, ...]
_Rule = Callable[[Job, Finding, Outside], Fitting | None]


def fitting(job: Job, worst: Finding, findings: Outside) -> Fitting | None:
    """What puts a check of the fit right; None where a person must say what is seen.

    Args:
        job: order and measurements.
        worst: the finding that is furthest outside.
        findings: all findings of its check.
    """
    rule = _RULES.get(worst.prompt)
    return rule(job, worst, findings) if rule else None


def _level(job: Job, worst: Finding, _: Outside) -> Fitting | None:
    """The temple of the higher end goes up at its endpiece."""
    higher = worst.difference
    return _levelled(job, float(higher), "{eye}-higher") if higher else None


def _levelled(job: Job, higher: float, remedy: str) -> Fitting:
    """Where the right end stands higher by so many mm."""
    eye = Eye.RIGHT if higher > 0 else Eye.LEFT
    reach = usual.joint_to_ear(job.order.frame.temple_length)
    angle = temple_difference_for_ears(abs(higher), reach)
    move = Move("pantoscopic", -millionth(angle), "°", eye)
    return Fitting(remedy.format(eye=eye), move)


def _vertex(job: Job, worst: Finding, _: Outside) -> Fitting | None:
    """The closer lens's temple comes in; a front too near or too far moves as a whole."""
    if worst.eye is None and worst.difference:
        return _squared(job, -worst.difference, "{eye}-closer")
    read = job.now.fit.answers["vertex"].measured
    wanted = job.order.vertex_distance or Decimal(usual.VERTEX)
    nearer = wanted - (read[worst.eye] if worst.eye else sum(read.values(), ZERO) / len(read))
    if not nearer:
        return None
    remedy = "off-the-lashes" if nearer > 0 else "front-in"
    return Fitting(remedy, Move("front_out", nearer, "mm"))


def _squared(job: Job, right_closer: Decimal, remedy: str) -> Fitting:
    """Where the right lens stands closer to its eye by so many mm."""
    eye = Eye.RIGHT if right_closer > 0 else Eye.LEFT
    pd = float(job.order.pd or usual.PD)
    angle = open_for_vertex(min(abs(float(right_closer)), pd), pd)
    return Fitting(remedy.format(eye=eye), Move("open_angle", -millionth(angle), "°", eye))


def _tilt(job: Job, _worst: Finding, _: Outside) -> Fitting | None:
    ordered = job.order.frame.tilt
    wanted = Decimal(usual.TILT) if ordered is None else ordered
    less = wanted - job.now.fit.answers["tilt"].measured["tilt"]
    if not less:
        return Fitting(sentence=_MADE_SO)
    return Fitting("more-tilt" if less > 0 else "less-tilt", Move("tilt", less, "°"))


def _face_form(_: Job, worst: Finding, _findings: Outside) -> Fitting | None:
    """A turned front has one side further back; what both have alike is of the bridge."""
    if worst.eye is not None or not worst.difference:
        return Fitting(sentence=_FORM)
    eye = Eye.RIGHT if worst.difference > 0 else Eye.LEFT
    return Fitting(f"{eye}-back", Move("open_angle", -abs(worst.difference), "°", eye))


def _cross(job: Job, worst: Finding, findings: Outside) -> Fitting | None:
    """What both sides have in common moves the front; what they have not, levels or ends it.

    Sideways the front is moved where both stand to the same side of the wearer; that both stand
    nearer to the nose, or both further, was ordered or made so.
    """
    off = {one.key: one.difference or ZERO for one in findings}
    across, up = (
        tuple(off.get(f"fit.cross.{eye}-{way}", ZERO) for eye in Eye)
        for way in ("across", "up")
    )
    if worst.key.endswith(("-across", "-horizontal")):
        to_left, apart = (across[0] - across[1]) / 2, (across[0] + across[1]) / 2
        if abs(apart) >= abs(to_left):
            return Fitting(sentence=_DISTANCES)
        return Fitting("centre-front", Move("front_left", -to_left, "mm"))
    higher, rolled = (up[0] + up[1]) / 2, up[0] - up[1]
    if not (higher or rolled):
        return Fitting(sentence=_MADE_SO)
    if abs(rolled) / 2 > abs(higher):
        return _rolled(job, float(rolled))
    return Fitting(
        "lower-front" if higher > 0 else "raise-front", Move("front_up", -higher, "mm")
    )


def _rolled(job: Job, right_higher: float) -> Fitting:
    """Where the right cross stands higher than the left by so many mm: the front rolls."""
    frame, pd = job.order.frame, float(job.order.pd or usual.PD)
    ends = right_higher * usual.between_ends(frame.a, frame.dbl) / pd
    return _levelled(job, ends, "level-front")


_RULES: Mapping[str, _Rule] = {
    "fit.level": _level,
    "fit.vertex": _vertex,
    "fit.cross": _cross,
    "fit.tilt": _tilt,
    "fit.face-form": _face_form,
}
"""The rule of each check of the fit whose measurements say what to do."""
