"""The pair as it sits: what was measured on the wearer, and the power that it gives the eye."""

from dataclasses import dataclass
from decimal import Decimal
from math import atan2, degrees

from benchassist.geometry.gaze import rotation_distance
from benchassist.job.order import Design
from benchassist.optics.eye import Eye
from benchassist.optics.power import Power, difference, normal_axis
from benchassist.optics.tilt import ROTATION_CENTRE, combined_tilt, given_to_eye
from benchassist.optics.vertex import effect_at
from benchassist.verdicts.bench_limits import bench_finding
from benchassist.verdicts.case import Case
from benchassist.verdicts.exact import millionth
from benchassist.verdicts.finding import Finding
from benchassist.verdicts.form import index_of
from benchassist.verdicts.weigh import Subject, Value
from benchassist.verdicts.words import degrees as in_degrees
from benchassist.verdicts.words import millimetres, power, signed_dioptres, tenth

_HUNDREDTH = Decimal("0.01")


@dataclass(frozen=True, slots=True)
class Worn:
    """What is known of how the pair sits, measured on the wearer or else as ordered.

    Attributes:
        tilt: pantoscopic tilt, degrees, lower rim to the cheek positive.
        form: face form of this lens, degrees, outer end back positive.
        vertex: from the back of this lens to the eye, mm.
        centre_up: the lens's mark minus the pupil, mm, upwards positive; never as ordered.
    """

    tilt: Decimal | None
    form: Decimal | None
    vertex: Decimal | None
    centre_up: Decimal | None

    @property
    def rotation(self) -> float:
        """From the lens to the eye's centre of rotation, mm; the customary mean if unknown."""
        return ROTATION_CENTRE if self.vertex is None else rotation_distance(float(self.vertex))


def worn(case: Case, eye: Eye) -> Worn:
    """How one lens sits."""
    frame = case.order.frame
    return Worn(
        _known(measured_worn(case, "tilt", "tilt"), frame.tilt),
        _known(measured_worn(case, "face-form", eye), frame.face_form),
        _known(measured_worn(case, "vertex", eye), case.order.vertex_distance),
        measured_worn(case, "cross", f"{eye}_up"),
    )


def measured_worn(case: Case, check: str, name: str) -> Decimal | None:
    """A measurement of the fit; None where it was not taken or is to be repeated."""
    answer = case.now.fit.answers.get(check)
    return None if answer is None or answer.again_because else answer.measured.get(name)


def _known(measured: Decimal | None, ordered: Decimal | None) -> Decimal | None:
    return ordered if measured is None else measured


def power_worn_findings(case: Case) -> tuple[Finding, ...]:
    """What each lens gives to its eye in the place where it sits, less what was ordered.

    The lens as read, or as it must be found where it was not read yet, goes exactly through
    tilt and face form as a thin lens and then through the change of vertex distance.
    """
    return tuple(_one_lens(case, eye) for eye in Eye)


def _one_lens(case: Case, eye: Eye) -> Finding:
    subject = Subject(f"fit.tilt.power-{eye}", "fit.tilt", "Power at the eye", eye)
    ordered = case.ordered_power(eye)
    lens = case.power_found(eye) or case.power_to_find(eye)[0]
    seat = worn(case, eye)
    if ordered is None or lens is None or seat.tilt is None:
        return subject.none(f"{subject.what}: no power is ordered to compare with.")
    gives, places = _at_eye(case, eye, lens.power(), seat)
    change = difference(gives, ordered.power()).power()
    largest = max((millionth(part) for part in change.principal), key=abs)
    known = "read" if case.power_found(eye) else "to be found"
    more = f"{signed_dioptres(largest)} at most from the order" if largest else "as ordered"
    said = (
        f"{_written(lens.power())} {known} gives the eye {_written(gives)} "
        f"({', '.join(places)}): {more}"
    )
    return bench_finding(
        case, subject, "worn-power", Value(found=largest, difference=largest), said
    )


def _at_eye(case: Case, eye: Eye, lens: Power, seat: Worn) -> tuple[Power, tuple[str, ...]]:
    """What a lens gives to the eye, and the places that were reckoned with, in words."""
    left, lowered = tilt_left(case, eye, seat)
    form = float(seat.form or 0)
    tilt = combined_tilt(left, form, eye)
    gives = given_to_eye(lens, tilt, index_of(case.order)[0])
    places = [f"tilt {in_degrees(seat.tilt or Decimal(0))}{lowered}"]
    places.append(_form_words(seat.form))
    refracted = case.order.vertex_distance
    if refracted is not None and seat.vertex is not None:
        gives = effect_at(gives, float(refracted), float(seat.vertex))
        places.append(millimetres(seat.vertex))
    return gives, tuple(places)


def _form_words(form: Decimal | None) -> str:
    if form is None:
        return "face form not known"
    return f"face form {in_degrees(form)}"


def tilt_left(case: Case, eye: Eye, seat: Worn) -> tuple[float, str]:
    """The tilt that works on the lens, degrees, and what is said of a lowered centre.

    The tilt changes a lens only as far as its axis misses the eye's centre of rotation. A
    single-vision centre that stands d below the pupil turns the line from there by
    atan(d / s), and what is left of the tilt is what counts; a ray trace with the centre
    lowered by 27 tan t leaves 0.03 to 0.08 D of the 0.4 D at 8 D and 12 degrees. Own reckoning.
    """
    tilt = float(seat.tilt or 0)
    may_lower = case.design is Design.SINGLE_VISION and not case.prism_to_find(eye).base_up
    if not may_lower or seat.centre_up is None or seat.centre_up >= 0:
        return tilt, ""
    turned = degrees(atan2(-float(seat.centre_up), seat.rotation))
    left = tilt - turned
    said = in_degrees(tenth(abs(left)))
    return left, f" of which the lowered centre leaves {said}"


def _written(shown: Power) -> str:
    """A power to a hundredth, in minus form."""
    minus = shown.in_minus_form()
    sphere, cylinder = (
        Decimal(part).quantize(_HUNDREDTH) for part in (minus.sphere, minus.cylinder)
    )
    if minus.axis is None or not cylinder:
        return power(sphere)
    return power(sphere, cylinder, Decimal(normal_axis(round(minus.axis))))
