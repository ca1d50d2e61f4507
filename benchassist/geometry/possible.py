"""Sets of bench readings that no rigid frame can show, refused in words.

The ranges are our own: far wider than any frame on sale, so that only a slip of the rule, a
wrong sign or a wrong box is refused. Each refusal names the readings and says what to do; it
ends without a full stop, because the finding that shows it ends the sentence.
"""


class Impossible(ValueError):  # noqa: N818  (it says what the readings are)
    """A set of readings that no rigid frame can show; its text names them.

    It is the one refusal that may be caught and told as a slip of the reading. Any other
    `ValueError` of the geometry is a fault of our own.
    """


READING_ERROR = 0.5
"""What a gap read as touching may be off, mm: half a division of a rule read by eye."""

LARGEST_LEAN = 30.0
"""Degrees that a lens can lean, or a temple point down."""

LARGEST_TURN = 20.0
"""Degrees by which a lens can be turned in its rim: one turned further was set wrongly or has
other marks, and is no matter of turning it back."""

LARGEST_LIFT = 20.0
"""Degrees that one temple can point lower than the other, by a touch on the table."""

LARGEST_CLIMB = 30.0
"""Degrees that a folded temple can climb or sink over the front."""

BENDS_APART = 30.0
"""How far the starts of the two bends can be apart on one pair of temples, mm."""

FORMS = (-10.0, 35.0)
"""Degrees of face form of one lens, from reversed to a sports wrap."""

OPEN_ANGLES = (60.0, 130.0)
"""Degrees between front and open temple."""


def refuse_both_lifted(part: str, right: float, left: float) -> None:
    """Refuses a touch on the table at which both sides stand off.

    Args:
        part: what touches, 'shaft' or 'tip'.
        right: gap under the right one, mm.
        left: gap under the left one, mm.

    A rigid frame rests on three places. While both rims are down one of the two temples is the
    third, so at least one gap is nothing but reading error.

    Raises:
        Impossible: both gaps are larger than the reading error.
    """
    if min(right, left) > READING_ERROR:
        raise Impossible(
            f"both {part}s were read as lifted, {right:g} mm right and {left:g} mm left, but "
            f"one always touches: press the bridge down until both rims rest on the plate, "
            f"and take both gaps anew"
        )


def refuse_edge_in_the_air(gaps: tuple[float, ...]) -> None:
    """Refuses gaps along a straight edge that touches nowhere, or that cuts into the frame.

    Raises:
        Impossible: the smallest of the gaps, mm, is further from zero than the reading error.
    """
    smallest = min(gaps)
    said = _listed(gaps)
    if smallest > READING_ERROR:
        raise Impossible(
            f"with gaps of {said} mm the straight edge touches nowhere: press it against the "
            f"front at the bridge, and take all gaps anew"
        )
    if smallest < -READING_ERROR:
        raise Impossible(
            f"with a gap of {smallest:g} mm among {said} mm the straight edge would cut into "
            f"the front: lay it behind the front, and count gaps from the edge forwards"
        )


def refuse_steeper_than_wide(part: str, one: float, other: float, width: float) -> None:
    """Refuses two readings that differ by more than lies between their places.

    Args:
        part: what they were taken of, such as 'right lens'.
        one: the one reading, mm.
        other: the other, mm.
        width: from place to place on the rigid piece, mm.

    Raises:
        Impossible: their difference is larger than the width.
    """
    if abs(one - other) > width:
        raise Impossible(
            f"the ends of the {part} were read at {one:g} and {other:g} mm, further apart than "
            f"the {width:g} mm from end to end: see that both are taken over the same edge"
        )


def refuse_lean(what: str, angle: float, readings: str) -> None:
    """Refuses a lens that leans, or a temple that points down, by more than 30 degrees.

    Args:
        what: what leans, such as 'right lens'.
        angle: degrees.
        readings: the readings that say so, in words.

    Raises:
        Impossible: the angle is larger than 30 degrees either way.
    """
    if abs(angle) > LARGEST_LEAN:
        raise Impossible(
            f"{readings} would lean the {what} by {angle:.1f}°, and more than "
            f"{LARGEST_LEAN:g}° is no spectacle frame: see that the readings have the right "
            f"sign and the right place"
        )


def refuse_turn(angle: float, readings: str) -> None:
    """Refuses a lens turned in its rim by more than 20 degrees.

    Args:
        angle: degrees.
        readings: the readings that say so, in words.

    Raises:
        Impossible: the angle is larger than 20 degrees either way.
    """
    _refuse_outside("turn of the lens", angle, (-LARGEST_TURN, LARGEST_TURN), readings)


def refuse_lift(angle: float, readings: str) -> None:
    """Refuses a touch on the table by which the temples are more than 20 degrees apart.

    Args:
        angle: degrees by which the right temple lies lower.
        readings: the readings that say so, in words.

    Raises:
        Impossible: the angle is larger than 20 degrees either way.
    """
    span = (-LARGEST_LIFT, LARGEST_LIFT)
    _refuse_outside("angle between the temples", angle, span, readings)


def refuse_climb(angle: float, readings: str) -> None:
    """Refuses a folded temple that climbs or sinks by more than 30 degrees.

    Args:
        angle: degrees, upwards positive.
        readings: the readings that say so, in words.

    Raises:
        Impossible: the angle is larger than 30 degrees either way.
    """
    span = (-LARGEST_CLIMB, LARGEST_CLIMB)
    _refuse_outside("climb of a folded temple", angle, span, readings)


def refuse_bends_apart(right: float, left: float) -> None:
    """Refuses two bends that start further apart than one pair of temples can have them.

    Args:
        right: start of the right bend, mm from its joint.
        left: start of the left bend, mm from its joint.

    Raises:
        Impossible: they are more than 30 mm apart.
    """
    if abs(right - left) > BENDS_APART:
        raise Impossible(
            f"the bends were read as starting at {right:g} mm right and {left:g} mm left, and "
            f"more than {BENDS_APART:g} mm apart they are not of one pair: see that both are "
            f"taken from the joint"
        )


def refuse_form(angle: float, readings: str) -> None:
    """Refuses a face form of each lens outside -10 to 35 degrees.

    Args:
        angle: degrees, positive with the temporal side back; of two lenses against an edge the
            mean, because the edge may lie aslant and make one too large and the other too
            small.
        readings: the readings that say so, in words.

    Raises:
        Impossible: the angle is outside the range.
    """
    _refuse_outside("face form of each lens", angle, FORMS, readings)


def refuse_open_angle(angle: float, readings: str) -> None:
    """Refuses an open temple angle outside 60 to 130 degrees.

    Args:
        angle: degrees between front and temple.
        readings: the readings that say so, in words.

    Raises:
        Impossible: the angle is outside the range.
    """
    _refuse_outside("open temple angle", angle, OPEN_ANGLES, readings)


def _refuse_outside(what: str, angle: float, span: tuple[float, float], readings: str) -> None:
    low, high = span
    if not low <= angle <= high:
        raise Impossible(
            f"{readings} would make the {what} {angle:.1f}°, and only {low:g}° to {high:g}° "
            f"can be: see that the readings have the right sign and the right place"
        )


def _listed(gaps: tuple[float, ...]) -> str:
    *first, last = (f"{gap:g}" for gap in gaps)
    return f"{', '.join(first)} and {last}"
