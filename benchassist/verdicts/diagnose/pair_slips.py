"""Slips that show only in both lenses together: changed over, meter zero, turned."""

from collections.abc import Callable, Iterable
from dataclasses import replace
from decimal import Decimal
from typing import Any

from benchassist.optics.eye import Eye
from benchassist.optics.power import difference
from benchassist.verdicts.diagnose.lens import Lens, Pair, Quantity, as_writable
from benchassist.verdicts.diagnose.sight import Sight
from benchassist.verdicts.diagnose.slip import Prediction, Slip, on_each_lens
from benchassist.verdicts.exact import MinusForm, axis_difference, turned
from benchassist.verdicts.words import degrees, signed_dioptres

_HALF_TURN = Decimal(180)

FURTHEST_TURN = Decimal(25)
"""A frame or lens turned by more than so many degrees is seen without a meter; own proposal."""

LARGEST_ZERO = Decimal(1)
"""A meter further off zero than so many dioptres is seen without a lens; own proposal."""


def exchanged(*quantities: Quantity) -> Callable[[Sight], Iterable[Prediction]]:
    """Each lens has these quantities of the other one."""

    def predict(sight: Sight) -> Iterable[Prediction]:
        lenses = [sight.found.eye(eye) for eye in Eye]
        if any(lens.value(quantities[0]) is None for lens in lenses):
            return ()
        right, left = sight.wanted.right, sight.wanted.left
        changed = with_values_of(left, right, quantities)
        pair = Pair(changed, with_values_of(right, left, quantities))
        return (Prediction(pair),)

    return predict


def with_values_of(giver: Lens, lens: Lens, quantities: tuple[Quantity, ...]) -> Lens:
    """A lens with these quantities of another one."""
    values: dict[str, Any] = {name: giver.value(name) for name in quantities}
    return replace(lens, **values)


def _same_row(sight: Sight, eye: Eye) -> Iterable[tuple[Lens, str]]:
    if _shows_other_row(sight, eye.other):
        return
    lens, other = sight.wanted.eye(eye), sight.wanted.eye(eye.other)
    yield with_values_of(other, lens, ("power", "add")), ""


def _shows_other_row(sight: Sight, eye: Eye) -> bool:
    """Whether a lens was read nearer to the power of the other eye than to its own."""
    found = sight.found.eye(eye).power
    own, other = sight.wanted.eye(eye).power, sight.wanted.eye(eye.other).power
    if found is None or own is None or other is None:
        return False
    read = found.power()
    to_own, to_other = (difference(read, row.power()).length for row in (own, other))
    return to_other < to_own


def mirrored(power: MinusForm) -> MinusForm:
    """The power of the same lens seen from its other side."""
    if power.axis is None:
        return power
    return replace(power, axis=turned(_HALF_TURN - power.axis))


def _turned_round(sight: Sight) -> Iterable[Prediction]:
    powers = [sight.wanted.eye(eye).power for eye in Eye]
    right, left = powers
    if right is None or left is None or not _both_powers(sight):
        return
    yield Prediction(
        Pair(
            replace(sight.wanted.right, power=mirrored(left)),
            replace(sight.wanted.left, power=mirrored(right)),
        )
    )


def _both_powers(sight: Sight) -> bool:
    return sight.found.right.power is not None and sight.found.left.power is not None


def _meter_zero(sight: Sight) -> Iterable[Prediction]:
    right, left = (_sphere_error(sight, eye) for eye in Eye)
    if right is None or left is None or right * left <= 0:
        return
    offset = (right + left) / 2
    if abs(offset) > LARGEST_ZERO:
        return
    lenses = [with_sphere(sight.wanted.eye(eye), offset) for eye in Eye]
    yield Prediction(Pair(*lenses), f"about {signed_dioptres(offset)} in both")


def _sphere_error(sight: Sight, eye: Eye) -> Decimal | None:
    """Found minus wanted mean power, D."""
    found, wanted = sight.found.eye(eye).power, sight.wanted.eye(eye).power
    if found is None or wanted is None:
        return None
    return (found.along + found.across - wanted.along - wanted.across) / 2


def with_sphere(lens: Lens, added: Decimal) -> Lens:
    """The lens with so many dioptres more sphere."""
    if lens.power is None:
        return lens
    return replace(
        lens, power=as_writable(replace(lens.power, sphere=lens.power.sphere + added))
    )


def turn_of(sight: Sight, eye: Eye) -> Decimal | None:
    """Degrees from the wanted to the found axis, counter-clockwise; None without both axes."""
    found, wanted = sight.found.eye(eye).power, sight.wanted.eye(eye).power
    if found is None or wanted is None or found.axis is None or wanted.axis is None:
        return None
    return axis_difference(found.axis, wanted.axis)


def _common_turn(sight: Sight, way: int) -> Decimal | None:
    """The turn of the right lens that fits both best, `way` times that of the left lens.

    Each lens counts the more, the narrower its axis limit is; a lens without an axis says
    nothing.
    """
    right, left = (turn_of(sight, eye) for eye in Eye)
    if not _both_powers(sight):
        return None
    if right is None or left is None:
        return right if left is None else left * way
    if right * left * way <= 0:
        return None
    limits = [sight.limit(f"{eye}.axis") for eye in Eye]
    if limits[0] is None or limits[1] is None:
        return right if limits[1] is None else left * way
    return (right * limits[1] + left * way * limits[0]) / (limits[0] + limits[1])


def _turned_together(way: int) -> Callable[[Sight], Iterable[Prediction]]:
    def predict(sight: Sight) -> Iterable[Prediction]:
        turn = _common_turn(sight, way)
        if turn is None or abs(turn) > FURTHEST_TURN:
            return ()
        wanted = sight.wanted
        pair = Pair(_turned(wanted.right, turn), _turned(wanted.left, turn * way))
        return (Prediction(pair, _turn_words(turn, way)),)

    return predict


def _turn_words(turn: Decimal, way: int) -> str:
    size = f"by about {degrees(Decimal(round(abs(turn))))}"
    if way > 0:
        return f"{size} {'counter-clockwise' if turn > 0 else 'clockwise'}"
    return f"{size}, both outer ends {'low' if turn > 0 else 'high'}"


def _turned(lens: Lens, turn: Decimal) -> Lens:
    power = lens.power
    if power is None or power.axis is None:
        return lens
    axis = turned(power.axis + turn + _HALF_TURN)
    return replace(lens, power=as_writable(replace(power, axis=axis)))


def _turned_alone(sight: Sight, eye: Eye) -> Iterable[tuple[Lens, str]]:
    turn, other = turn_of(sight, eye), turn_of(sight, eye.other)
    if turn is None or abs(turn) > FURTHEST_TURN or not _both_powers(sight):
        return
    if other is not None and _is_one_story(sight, turn, other):
        return
    way = "counter-clockwise" if turn > 0 else "clockwise"
    detail = f"by about {degrees(Decimal(round(abs(turn))))} {way}"
    yield _turned(sight.wanted.eye(eye), turn), detail


def _is_one_story(sight: Sight, turn: Decimal, other: Decimal) -> bool:
    """Whether both axes are outside by about the same turn, so that the frame is the story."""
    limits = [sight.limit(f"{eye}.axis") for eye in Eye]
    apart = abs(abs(turn) - abs(other))
    both_out = all(sight.is_outside("power", eye) for eye in Eye)
    return both_out and apart <= sum(limit for limit in limits if limit is not None)


LENS_PAIR_SLIPS = (
    Slip(
        "changed-over",
        "right and left lenses changed over, or each read as the other",
        "pair",
        "Which lens lies on which side, with the temples away from you?",
        exchanged("power", "add", "prism"),
    ),
    Slip(
        "meter-zero",
        "the same sphere offset in both lenses: zero or eyepiece of the lens meter",
        "pair",
        "Without a lens, does the meter show 0.00 with the eyepiece focused?",
        _meter_zero,
    ),
    Slip(
        "turned-together",
        "spectacles or axis scale not level: axes turned the same way",
        "pair",
        "Do both rims lie level on the rest?",
        _turned_together(1),
    ),
    Slip(
        "turned-opposite",
        "front bent at the bridge: axes turned opposite ways",
        "pair",
        "Does the front lie straight along a straight edge?",
        _turned_together(-1),
    ),
    Slip(
        "turned-alone",
        "lens turned in its rim",
        "pair",
        "Do the engravings or the segment of this lens lie level while those of the other do?",
        on_each_lens(_turned_alone),
    ),
    Slip(
        "turned-round",
        "spectacles turned round on the rest, with right and left taken for each other",
        "pair",
        "Do the temples point away from you?",
        _turned_round,
    ),
    Slip(
        "same-row",
        "made to the prescription of the other eye: the same row used for both",
        "pair",
        "Does the other lens show this eye's power? Then they are changed over.",
        on_each_lens(_same_row),
    ),
    Slip(
        "adds-changed-over",
        "additions of right and left changed over",
        "pair",
        "Which addition does the engraving of each lens name?",
        exchanged("add"),
    ),
)
"""Slips of power, seen in both lenses."""
