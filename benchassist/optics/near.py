"""The addition for near, read on either surface, and the powers it gives."""

from benchassist.optics.power import Power
from benchassist.optics.thick import ThickLens


def addition(distance: float, near: float) -> float:
    """Near minus distance, D, read with the same set of lines and on the same surface."""
    return near - distance


def addition_by_back_vertex(distance: ThickLens, near: ThickLens) -> float:
    """The addition that shows with the back surface on the stop, D.

    Right for an addition worked on the back surface. With the addition on the front it comes
    out too large in thick plus lenses: both shape factors multiply it.
    """
    return addition(distance.back_vertex_power, near.back_vertex_power)


def addition_by_front_vertex(distance: ThickLens, near: ThickLens) -> float:
    """The addition that shows with the front surface on the stop, D.

    Right for an addition worked on the front surface: near light enters there. A different
    thickness at the two points moves it by a few hundredths.
    """
    return addition(distance.front_vertex_power, near.front_vertex_power)


def excess_by_back_vertex(distance: ThickLens, ordered: float) -> float:
    """Dioptres by which the back vertex overstates an addition worked on the front.

    Args:
        distance: the lens at the distance reference point.
        ordered: the true addition on the front surface, D.
    """
    near = ThickLens(
        distance.front + ordered, distance.back, distance.thickness, distance.index
    )
    return addition_by_back_vertex(distance, near) - ordered


def with_addition(distance: Power, amount: float, share: float = 1.0) -> Power:
    """The near power, or the intermediate one for a share of the addition such as 0.5.

    The addition is spherical: cylinder and axis stay.
    """
    return Power(distance.sphere + share * amount, distance.cylinder, distance.axis)
