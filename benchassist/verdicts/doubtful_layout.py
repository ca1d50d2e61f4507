"""What looks unlikely about the ordered distances, heights and the frame."""

from collections.abc import Iterator
from decimal import Decimal

from benchassist.geometry.boxing import Boxing
from benchassist.job.order import Order
from benchassist.optics.eye import Eye
from benchassist.verdicts.question import Question, about_lens, about_pair
from benchassist.verdicts.words import millimetres

_HUNDREDTH = Decimal("0.01")
_MOST_INWARD = 8.0
"""Decentration asked about, mm: a 56 mm lens at 18 mm for a PD of 60 mm is moved by 7."""
_MOST_OUTWARD = 2.0
_MOST_INSET = Decimal("4.5")
"""At 400 mm an eye turns in by some 2 mm; 4.5 mm is reading at some 165 mm (own reckoning)."""
_MOST_UNLIKE = Decimal(4)
_BLANK = Decimal(75)
_CLOSE_TO_RIM = Decimal(2)
_PROGRESSIVE_BELOW = Decimal(14)
_USUAL_PD = (Decimal(24), Decimal(40))
_USUAL_VERTEX = (Decimal(8), Decimal(18))
_BOTH_FOR_ONE = "was the distance of both eyes entered for one?"


def _distances(order: Order) -> Iterator[Question]:
    low, high = _USUAL_PD
    for eye, lens in ((eye, order.eye(eye)) for eye in Eye):
        if lens.distance_pd is not None and not low <= lens.distance_pd <= high:
            yield about_lens(
                eye,
                "pd-unusual",
                "distance_pd",
                f"a distance of {millimetres(lens.distance_pd)} from the bridge is unusual; "
                + ("is it meant?" if lens.distance_pd < low else _BOTH_FOR_ONE),
            )
        if (
            lens.distance_pd is not None
            and lens.near_pd is not None
            and lens.near_pd > lens.distance_pd
        ):
            yield about_lens(
                eye,
                "near-pd-wide",
                "near_pd",
                f"the near distance {millimetres(lens.near_pd)} is wider than the distance "
                f"one, {millimetres(lens.distance_pd)}; are they exchanged?",
            )
        elif (
            lens.distance_pd is not None
            and lens.near_pd is not None
            and lens.distance_pd - lens.near_pd > _MOST_INSET
        ):
            yield about_lens(
                eye,
                "near-pd-narrow",
                "near_pd",
                f"the near distance {millimetres(lens.near_pd)} is more than "
                f"{millimetres(_MOST_INSET)} within the distance one, "
                f"{millimetres(lens.distance_pd)}; is one a slip?",
            )
    yield from _unlike_eyes(order)


def _unlike_eyes(order: Order) -> Iterator[Question]:
    right, left = order.right.distance_pd, order.left.distance_pd
    if right is not None and left is not None and abs(right - left) > _MOST_UNLIKE:
        yield about_pair(
            "pair.pd-unlike",
            "left.distance_pd",
            f"The distances from the bridge are {millimetres(right)} right and "
            f"{millimetres(left)} left, more than {millimetres(_MOST_UNLIKE)} apart: is the "
            "wearer's face so, or is one a slip?",
        )


def _against_frame(order: Order) -> Iterator[Question]:
    boxing = _boxing(order)
    if boxing is None:
        return
    if not boxing.has_possible_ed:
        yield about_pair(
            "frame.ed",
            "frame.ed",
            "The effective diameter does not fit A and B: is one of them a slip?",
        )
    for eye, lens in ((eye, order.eye(eye)) for eye in Eye):
        if lens.distance_pd is None:
            continue
        inward = boxing.decentration(float(lens.distance_pd))
        if inward > _MOST_INWARD or inward < -_MOST_OUTWARD:
            way, most = ("inwards", _MOST_INWARD) if inward > 0 else ("outwards", _MOST_OUTWARD)
            amount = millimetres(Decimal(abs(inward)).quantize(_HUNDREDTH))
            yield about_lens(
                eye,
                "decentration",
                "distance_pd",
                f"the lens is decentred {amount} {way} in this frame, more than "
                f"{millimetres(Decimal(most))}; do PD and frame fit?",
            )
        if boxing.ed is None:
            continue
        needed = Decimal(boxing.ed + 2.0 * abs(inward)).quantize(_HUNDREDTH)
        if needed > _BLANK:
            yield about_lens(
                eye,
                "blank",
                "distance_pd",
                f"a blank of {millimetres(needed)} is needed, more than the usual "
                f"{millimetres(_BLANK)}; can the lens be had so large?",
            )


def _boxing(order: Order) -> Boxing | None:
    """The frame, where all its sizes are known and above zero."""
    frame = order.frame
    if not (frame.a and frame.b and frame.dbl):
        return None
    ed = float(frame.ed) if frame.ed else None
    return Boxing(float(frame.a), float(frame.b), float(frame.dbl), ed)


def _heights(order: Order) -> Iterator[Question]:
    b = order.frame.b
    heights = [lens.height for lens in (order.right, order.left)]
    for eye, lens in ((eye, order.eye(eye)) for eye in Eye):
        if lens.height is None or b is None:
            continue
        if lens.height > b - _CLOSE_TO_RIM:
            yield about_lens(
                eye,
                "height-frame",
                "height",
                f"a height of {millimetres(lens.height)} leaves no room in a lens "
                f"{millimetres(b)} high; is one of them a slip?",
            )
    yield from _low(order)
    both = [height for height in heights if height is not None]
    if len(both) == len(heights) and abs(both[0] - both[1]) > _CLOSE_TO_RIM:
        yield about_pair(
            "pair.height-unequal",
            "left.height",
            f"The heights are {millimetres(both[0])} right and {millimetres(both[1])} left, "
            f"more than {millimetres(_CLOSE_TO_RIM)} apart: is the wearer's face so, or is one "
            "a slip?",
        )


def _low(order: Order) -> Iterator[Question]:
    """Heights below what the design needs; below a usual one while that is not stated."""
    needed = order.minimum_height
    for eye, lens in ((eye, order.eye(eye)) for eye in Eye):
        if lens.height is None:
            continue
        height = millimetres(lens.height)
        if needed is not None and lens.height < needed:
            doubt = f"is below the {millimetres(needed)} that the design needs; is one a slip?"
        elif (
            needed is None
            and order.design
            and order.design.varies
            and lens.height < _PROGRESSIVE_BELOW
        ):
            doubt = "leaves little room for the near part; does the design allow it?"
        else:
            continue
        yield about_lens(eye, "height-low", "height", f"a fitting height of {height} {doubt}")
    b = order.frame.b
    if needed is not None and b is not None and needed > b - _CLOSE_TO_RIM:
        yield about_pair(
            "frame.minimum-height",
            "minimum_height",
            f"The design needs a height of {millimetres(needed)}, which a lens "
            f"{millimetres(b)} high does not have: is one of them a slip?",
        )


def _worn(order: Order) -> Iterator[Question]:
    low, high = _USUAL_VERTEX
    distance = order.vertex_distance
    if distance is not None and not low <= distance <= high:
        yield about_pair(
            "pair.vertex",
            "vertex_distance",
            f"A vertex distance of {millimetres(distance)} is unusual: is it meant?",
        )


LAYOUT_DOUBTS = (_distances, _against_frame, _heights, _worn)
"""What is asked about frame and position, in the order in which questions are listed."""
