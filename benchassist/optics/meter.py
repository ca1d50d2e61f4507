"""What a lens meter shows, turned into power and prism."""

from benchassist.optics.eye import Eye
from benchassist.optics.power import Power, normal_axis
from benchassist.optics.prism import Prism


def power_from_drum(
    sphere_lines: float, cylinder_lines: float, axis_wheel: float | None = None
) -> Power:
    """The power read on a manual lens meter, in the cylinder form in which it was read.

    Args:
        sphere_lines: power drum with the sphere lines sharp and unbroken, D.
        cylinder_lines: power drum with the cylinder lines sharp, D.
        axis_wheel: axis wheel with the SPHERE lines unbroken, degrees; 0 reads as 180. Not
            needed where both drum readings are the same.

    Sphere = sphere lines, cylinder = cylinder lines - sphere lines, for either sign; the sign
    only says which form was read. Source: lecture slides 'Cylinder Form in Lensometer',
    https://powershow.com./view/1379fc-YWQ4N/Cylinder_Form_In_Lensometer_powerpoint_ppt_presentation

    Raises:
        ValueError: the drum readings differ and there is no axis, or a value is not finite.
    """
    axis = None if axis_wheel is None else normal_axis(axis_wheel)
    return Power(sphere_lines, cylinder_lines - sphere_lines, axis)


def zero_corrected(power: Power, zero_reading: float) -> Power:
    """The power without the zero error: what the meter shows with no lens in it, D."""
    return Power(power.sphere - zero_reading, power.cylinder, power.axis)


def prism_from_reticle(right: float, up: float, eye: Eye) -> Prism:
    """The prism at the stop, from where the target's centre lies on the reticle.

    Args:
        right: rings to the observer's right, prism dioptres; negative is left.
        up: rings upwards, prism dioptres; negative is down.
        eye: which eye the lens is for; it decides what is base in.

    With the back surface on the stop, temples away from the observer, the target moves towards
    the base. Source: ophthalmic technician course, module 31,
    http://www.eyetec.net/group6/M31S3.htm
    """
    return Prism(right * eye.nasal_sign, up)


def reticle_target(prism: Prism, eye: Eye) -> tuple[float, float]:
    """Where the target's centre must lie for a prism: rings to the right, rings up."""
    return prism.base_in * eye.nasal_sign, prism.base_up
