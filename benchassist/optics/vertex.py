"""What a lens is worth at another distance from the eye."""

from benchassist.optics.power import Power


def effectivity(power: float, towards_eye: float) -> float:
    """The power that replaces a lens after it moved towards the eye, F / (1 - x F), D.

    Args:
        power: the power of one meridian before the move, D.
        towards_eye: mm towards the eye, negative away from it. Some books count the other
            way and write 1 + d F.

    Raises:
        ValueError: the lens has its focus within that distance.
    """
    left = 1.0 - towards_eye / 1000.0 * power
    if left <= 0.0:
        raise ValueError(f"{power} D moved by {towards_eye} mm passes its own focus")
    return power / left


def replaced_at(power: Power, from_distance: float, to_distance: float) -> Power:
    """The power needed at one vertex distance for the effect found at another.

    Args:
        power: what was found at `from_distance`.
        from_distance: vertex distance of the refraction, mm.
        to_distance: vertex distance as worn, mm.

    Each principal meridian is taken by itself; the axis stays.

    Raises:
        ValueError: a meridian has its focus within the change of distance.
    """
    moved = from_distance - to_distance
    along, across = (effectivity(meridian, moved) for meridian in power.principal)
    return Power(along, across - along, power.axis)


def effect_at(power: Power, made_for: float, worn_at: float) -> Power:
    """The power a lens made for one vertex distance is worth when worn at another.

    The result is given for the distance for which the lens was made, so that it compares with
    the order: a plus lens slipping down the nose is worth more.
    """
    return replaced_at(power, worn_at, made_for)


def power_change(power: float, moved: float) -> float:
    """The size of the change for a small move, D: F^2 d, first term of the exact formula."""
    return power**2 * abs(moved) / 1000.0
