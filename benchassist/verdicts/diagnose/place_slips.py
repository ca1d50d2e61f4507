"""Slips of where the lenses sit: centration distances, heights, the front on the face."""

from collections.abc import Callable, Iterable
from dataclasses import replace
from decimal import Decimal

from benchassist.optics.eye import Eye
from benchassist.verdicts.diagnose.lens import Lens, Pair, to_thousandth
from benchassist.verdicts.diagnose.pair_slips import exchanged
from benchassist.verdicts.diagnose.sight import Sight
from benchassist.verdicts.diagnose.slip import Prediction, Slip, on_either_or_both
from benchassist.verdicts.words import millimetres

LARGEST_DATUM = Decimal(5)
"""The largest constant by which heights are counted from elsewhere, mm: between fitting cross
and prism reference point lie about 4; own proposal."""


def _boxed(sight: Sight) -> Decimal | None:
    """The distance of a boxed centre from the middle of the bridge, mm."""
    frame = sight.frame
    return None if frame.a is None or frame.dbl is None else (frame.a + frame.dbl) / 2


def _centred(share: Decimal) -> Callable[[Sight, Eye], Lens | None]:
    """The lens with so much of its decentration from the boxed centre."""

    def changed(sight: Sight, eye: Eye) -> Lens | None:
        lens, boxed = sight.wanted.eye(eye), _boxed(sight)
        if boxed is None or lens.pd is None:
            return None
        return replace(lens, pd=to_thousandth(boxed + share * (lens.pd - boxed)))

    return changed


def _near_for_distance(sight: Sight, eye: Eye) -> Lens | None:
    lens = sight.wanted.eye(eye)
    return None if lens.near_pd is None or lens.pd is None else replace(lens, pd=lens.near_pd)


def _inset_left_out(sight: Sight, eye: Eye) -> Lens | None:
    lens = sight.wanted.eye(eye)
    return None if lens.near_pd is None or lens.pd is None else replace(lens, near_pd=lens.pd)


def _half_way_up(sight: Sight, eye: Eye) -> Lens | None:
    lens, depth = sight.wanted.eye(eye), sight.frame.b
    if depth is None or lens.height is None:
        return None
    return replace(lens, height=to_thousandth(depth / 2))


def _other_datum(sight: Sight) -> Iterable[Prediction]:
    right, left = (_height_error(sight, eye) for eye in Eye)
    if right is None or left is None or right * left <= 0:
        return
    constant = to_thousandth((right + left) / 2)
    if abs(constant) > LARGEST_DATUM:
        return
    lenses = [
        replace(lens, height=lens.height + constant)
        for lens in (sight.wanted.right, sight.wanted.left)
        if lens.height is not None
    ]
    way = "more" if constant > 0 else "less"
    yield Prediction(Pair(*lenses), f"about {millimetres(abs(constant))} {way} in both")


def _height_error(sight: Sight, eye: Eye) -> Decimal | None:
    found, wanted = sight.found.eye(eye).height, sight.wanted.eye(eye).height
    return None if found is None or wanted is None else found - wanted


def _front_rolls(sight: Sight) -> Iterable[Prediction]:
    """On the face one lens is as much too high as the other is too low; the bench is right."""
    right, left = sight.found.right.cross_up, sight.found.left.cross_up
    if right is None or left is None or right * left >= 0:
        return
    if not all(sight.is_sound("height", eye) for eye in Eye):
        return
    roll = to_thousandth((right - left) / 2)
    wanted = sight.wanted
    yield Prediction(
        Pair(replace(wanted.right, cross_up=roll), replace(wanted.left, cross_up=-roll)),
        f"right lens {'high' if roll > 0 else 'low'}",
    )


_HOW_SET = "From where was the decentration reckoned, and which way was it set?"
_WHICH_DISTANCE = "Which distance did the order give, and which was entered?"

PLACE_SLIPS = (
    Slip(
        "distances-changed-over",
        "centration distances of right and left changed over, or the front sits to one side",
        "pair",
        "To which eye does each distance belong, and do the pads sit evenly?",
        exchanged("pd"),
    ),
    Slip(
        "near-for-distance-pd",
        "near distance used as the centration distance",
        "pair",
        _WHICH_DISTANCE,
        on_either_or_both(_near_for_distance),
    ),
    Slip(
        "boxed-centre",
        "left at the boxed centre, without decentration",
        "pair",
        _HOW_SET,
        on_either_or_both(_centred(Decimal(0))),
    ),
    Slip(
        "half-decentration",
        "only half the decentration",
        "pair",
        _HOW_SET,
        on_either_or_both(_centred(Decimal("0.5"))),
    ),
    Slip(
        "double-decentration",
        "decentration doubled",
        "pair",
        _HOW_SET,
        on_either_or_both(_centred(Decimal(2))),
    ),
    Slip(
        "decentred-wrong-way",
        "decentred the wrong way",
        "pair",
        _HOW_SET,
        on_either_or_both(_centred(Decimal(-1))),
    ),
    Slip(
        "inset-left-out",
        "segments set at the centration distance, without inset",
        "pair",
        _WHICH_DISTANCE,
        on_either_or_both(_inset_left_out),
    ),
    Slip(
        "heights-changed-over",
        "heights of right and left changed over",
        "pair",
        "To which eye does each height belong?",
        exchanged("height"),
    ),
    Slip(
        "height-datum",
        "heights counted from another line or to another point",
        "pair",
        "From the groove or the boxed edge, to the fitting cross or the prism reference point?",
        _other_datum,
    ),
    Slip(
        "half-way-up",
        "left at half the depth of the boxed lens",
        "pair",
        "Was the height given to the laboratory?",
        on_either_or_both(_half_way_up),
    ),
    Slip(
        "front-rolls",
        "the front rolls on the face, the lenses are right",
        "pair",
        "Does one temple bend lie higher than the other? Align before anything is remade.",
        _front_rolls,
    ),
)
"""Slips of centration, height and seat."""
