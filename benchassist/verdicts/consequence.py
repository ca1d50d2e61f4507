"""Why a fault of the frame matters to this wearer: what it does before the eyes, in words."""

from collections.abc import Callable, Mapping
from decimal import Decimal
from math import hypot, radians, sin, tan

from benchassist.geometry import usual
from benchassist.geometry.on_face import Sides, cross_height_difference, roll, yaw
from benchassist.optics.eye import Eye
from benchassist.optics.power import axis_error_cylinder
from benchassist.optics.prism import imbalance, prentice
from benchassist.optics.vertex import effect_at
from benchassist.verdicts.case import Case
from benchassist.verdicts.prism import lenses_to_find
from benchassist.verdicts.words import PRISM, dioptres, millimetres, prism_amount, shows, tenth


def consequence(case: Case, name: str, fault: Decimal) -> str:
    """What a fault does, as the end of a sentence that begins with a semicolon; or nothing.

    Args:
        case: the job: its powers and distances.
        name: the row of the bench limits, such as 'skew'; for 'table-touch' the fault is the
            angle between the temples, degrees, since a gap means nothing without its run.
        fault: its size in that row's unit, of either sign.
    """
    rule = _RULES.get(name)
    said = rule(case, abs(float(fault))) if rule and fault else ""
    return f"; {said}" if said else ""


def _skew(case: Case, step: float) -> str:
    """One lens is carried up and the other down by half of the step."""
    felt = between_the_eyes(case, step)
    return f"on these powers {prism_amount(felt)} of vertical imbalance" if felt else ""


def _x_ing(case: Case, twist: float) -> str:
    return f"it lifts the tip of a temple by about {_about(_run(case) * tan(radians(twist)))}"


def _open_angle(case: Case, apart: float) -> str:
    closer = abs(yaw(Sides(90.0 + apart, 90.0), float(centre_distance(case)[0])).right_closer)
    worth = _closer(case, closer)
    moved = f"one lens comes {_about(closer)} closer{centre_distance(case)[1]}"
    return f"{moved}, {worth}" if worth else moved


def _rolled(case: Case, apart: float) -> str:
    """Unequal temple angles roll the front on the face and carry one lens over the other."""
    frame = case.order.frame
    reach = usual.joint_to_ear(frame.temple_length)
    rolled = roll(Sides(apart, 0.0), 0.0, reach, usual.between_hinges(frame.a, frame.dbl))
    pd, assumed = centre_distance(case)
    crosses = abs(cross_height_difference(float(pd), rolled.angle))
    said = f"on the face one lens stands {_about(crosses)} higher{assumed}"
    felt = between_the_eyes(case, crosses)
    return f"{said}, {prism_amount(felt)} between the eyes" if felt else said


def turn_leaves(case: Case, eye: Eye, turn: Decimal) -> str:
    """What a lens turned in its rim leaves of cylinder and moves of ordered prism, in words.

    A prism P turned by t differs from itself by the chord 2 P sin(t / 2). Own derivation.

    Args:
        case: the job: cylinder and prism to be found.
        eye: which lens.
        turn: degrees, either way.
    """
    power, prism = case.power_to_find(eye)[0], case.prism_to_find(eye)
    cylinder = float(power.cylinder) if power else 0.0
    left = Decimal(axis_error_cylinder(cylinder, float(turn)))
    amount = hypot(float(prism.base_in), float(prism.base_up))
    moved = Decimal(2.0 * amount * sin(radians(abs(float(turn))) / 2.0))
    parts = []
    if shows(left, "D"):
        parts.append(f"leaves {dioptres(left)} of cylinder")
    if shows(moved, PRISM):
        parts.append(f"moves the ordered prism by {prism_amount(moved)}")
    return f"; it {' and '.join(parts)}" if parts else ""


def between_the_eyes(case: Case, apart: float) -> Decimal:
    """Vertical prism between the eyes, prism dioptres, when one lens stands higher by so much.

    Each lens is carried by half of it, mm, and prisms by its whole power. Nought where a power
    is not known, or where nothing would show.
    """
    lenses = lenses_to_find(case)
    if lenses is None:
        return Decimal(0)
    prisms = (
        prentice(lens.power(), eye, 0.0, half)
        for lens, eye, half in zip(lenses, Eye, (apart / 2.0, -apart / 2.0), strict=True)
    )
    felt = Decimal(abs(imbalance(*prisms).vertical))
    return felt if shows(felt, PRISM) else Decimal(0)


def _closer(case: Case, moved: float) -> str:
    """What a lens is worth to its eye when it stands so much closer than the other, in D."""
    changes = [
        abs(worth - made)
        for eye in Eye
        if (power := case.power_to_find(eye)[0]) is not None
        for worth, made in zip(
            effect_at(power.power(), moved, 0.0).principal,
            power.power().principal,
            strict=True,
        )
    ]
    most = Decimal(max(changes, default=0.0))
    return f"worth {dioptres(most)} to one eye" if shows(most, "D") else ""


def centre_distance(case: Case) -> tuple[Decimal, str]:
    """The centre distance of the pair, and what is said where a usual one was taken."""
    if case.order.pd is not None:
        return case.order.pd, ""
    assumed = Decimal(usual.PD)
    return assumed, f" at a usual PD of {millimetres(assumed)}"


def _about(length: float) -> str:
    """A length to a tenth of a millimetre."""
    return millimetres(tenth(length))


def _run(case: Case) -> float:
    """From the joint to the tip of a temple in a straight line, mm."""
    return usual.run(case.order.frame.temple_length)


_RULES: Mapping[str, Callable[[Case, float], str]] = {
    "skew": _skew,
    "x-ing": _x_ing,
    "plane-step": _closer,
    "open-angle": _open_angle,
    "pantoscopic": _rolled,
    "table-touch": _rolled,
}
"""What each fault of the frame does, by the row of its limit."""
