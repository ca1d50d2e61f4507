"""Why a frame rocks on the table: the checks that measure parts of it, brought to agree.

Upside down the angle between the temples is one number, known finely. Three others make it up:
X-ing, the difference of the pantoscopic angles, and the skew step of the bridge. Each of these
is measured by itself and less finely. Together they are one number too many, so that they are
brought to agree by least squares: what they must change by is shared out by their variances.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from math import degrees

from benchassist.geometry.measured import Measured
from benchassist.job.document import Job
from benchassist.optics.eye import Eye
from benchassist.verdicts import frame_measured as found
from benchassist.verdicts.answers import Measures
from benchassist.verdicts.exact import millionth

X_ING, PANTOSCOPIC, SKEW = "x-ing", "pantoscopic", "skew"

_PANTOSCOPIC_SHARE = 0.93
"""A temple turns about its joint, behind the rims: of its angle so much shows between rims and
bend. From the model of `geometry.frame_state` in its usual sizes; own reckoning."""

_FITS = 3.0
"""So many standard uncertainties apart, measurements cannot all be right. Common practice."""


@dataclass(frozen=True, slots=True)
class Share:
    """One cause of a table touch.

    Attributes:
        name: the row of its limit: 'x-ing', 'pantoscopic' (right minus left) or 'skew'.
        value: its best value once all measurements agree, degrees or mm, with the sign of its
            check.
        angle: the part of the angle between the temples that it makes, degrees.
    """

    name: str
    value: Decimal
    angle: Decimal


@dataclass(frozen=True, slots=True)
class Rocking:
    """What the angle between the temples is made of.

    Attributes:
        angle: the angle upside down, degrees, positive with the right temple lower.
        shares: its causes, the one furthest inwards first.
        misfit: by how many standard uncertainties the measurements contradict one another.
    """

    angle: Decimal
    shares: tuple[Share, ...]
    misfit: float

    @property
    def agrees(self) -> bool:
        """Whether all measurements can be right together."""
        return abs(self.misfit) <= _FITS

    def share(self, name: str) -> Share:
        """One of the causes."""
        return next(share for share in self.shares if share.name == name)


def rocking(job: Job) -> Rocking | None:
    """The angle upside down and its causes; None while one of the four is not measured."""
    try:
        plate = _measured(job, "table-inverted")
        angle = found.at_plate(plate)
        parts = _parts(job, float(plate["run"]))
    except (KeyError, ValueError):
        return None
    apart = angle.value - sum(part.value * by for part, by in parts.values())
    variance = angle.uncertainty**2 + sum(
        (by * part.uncertainty) ** 2 for part, by in parts.values()
    )
    if not variance:
        return None
    shares = tuple(
        _share(name, part.value + by * part.uncertainty**2 * apart / variance, by)
        for name, (part, by) in parts.items()
    )
    return Rocking(millionth(angle.value), shares, apart / variance**0.5)


def _share(name: str, value: float, by: float) -> Share:
    return Share(name, millionth(value), millionth(value * by))


def _parts(job: Job, run: float) -> Mapping[str, tuple[Measured, float]]:
    """Each cause, and by how many degrees one unit of it opens the temples upside down."""
    frame = job.order.frame
    pantoscopic = _measured(job, "pantoscopic")
    right, left = (found.pantoscopic_of(eye, frame, pantoscopic) for eye in Eye)
    return {
        SKEW: (found.skew_of(frame, _measured(job, "skew")), -degrees(1.0 / run)),
        X_ING: (found.x_ing_of(_measured(job, "x-ing")), 1.0),
        PANTOSCOPIC: (right.minus(left), _PANTOSCOPIC_SHARE),
    }


def _measured(job: Job, name: str) -> Measures:
    """The measurements of a bench check that count.

    Raises:
        KeyError: it was not measured, or is to be looked at again.
    """
    answer = job.now.bench.answers[name]
    if answer.again_because:
        raise KeyError(name)
    return answer.measured
