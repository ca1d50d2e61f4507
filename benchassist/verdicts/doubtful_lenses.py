"""What looks unlikely about the ordered powers, additions and prisms."""

from collections.abc import Iterator
from decimal import Decimal
from enum import StrEnum

from benchassist.job.order import Design, EyeOrder, Order, WrittenPower
from benchassist.optics.eye import Eye
from benchassist.optics.power import difference
from benchassist.verdicts.exact import ZERO, written_power, written_prism
from benchassist.verdicts.question import Question, about_lens, about_pair
from benchassist.verdicts.words import (
    horizontal_prism,
    power,
    signed,
    signed_dioptres,
    vertical_prism,
)


class CylinderForm(StrEnum):
    """The cylinder form in which a workshop has its orders written."""

    MINUS = "minus"
    PLUS = "plus"


_EIGHTH = Decimal("0.125")
_HUNDREDTH = Decimal("0.01")
_CUT_OFF = Decimal("0.005")
_USUAL_ADD = (Decimal("0.75"), Decimal("3.50"))
_STRONG = Decimal("1.00")
_ANISOMETROPIA = Decimal("2.00")
_COMPENSATION = 0.75
"""A worn position changes a power by less than that in any meridian, D; own proposal."""


def _powers(order: Order) -> Iterator[Question]:
    for eye, lens in ((eye, order.eye(eye)) for eye in Eye):
        yield from _one_power(eye, lens.power, "power", "")
        if lens.verification:
            word = "verification "
            yield from _one_power(eye, lens.verification.power, "verification.power", word)
            yield from _far_from_order(eye, lens)


def _far_from_order(eye: Eye, lens: EyeOrder) -> Iterator[Question]:
    """A maker's power so far from the ordered one that no wearing position explains it."""
    ordered = written_power(lens.power)
    made = written_power(lens.verification.power) if lens.verification else None
    if ordered is None or made is None:
        return
    change = difference(made.power(), ordered.power()).power().principal
    if max(map(abs, change)) > _COMPENSATION:
        yield about_lens(
            eye,
            "verification-far",
            "verification.power.sphere",
            f"the maker's power {power(made.sphere, made.cylinder, made.axis)} is far from the "
            f"ordered {power(ordered.sphere, ordered.cylinder, ordered.axis)}; does it belong "
            "to this lens?",
        )


def _one_power(eye: Eye, power: WrittenPower, path: str, word: str) -> Iterator[Question]:
    name = f"{word.strip()}-" if word else ""
    if power.cylinder and power.axis is None:
        cylinder = signed_dioptres(power.cylinder)
        yield about_lens(
            eye,
            f"{name}axis-missing",
            f"{path}.axis",
            f"the {word}cylinder {cylinder} has no axis; which is it?",
        )
    if power.axis is not None and not power.cylinder:
        yield about_lens(
            eye,
            f"{name}cylinder-missing",
            f"{path}.cylinder",
            f"the {word}axis {power.axis.normalize():f} has no cylinder; is one missing?",
        )
    for part, value in (("sphere", power.sphere), ("cylinder", power.cylinder)):
        if value is not None and not word and not _on_step(value):
            yield about_lens(
                eye,
                f"{part}-step",
                f"{path}.{part}",
                f"{part} {signed(value)} D is not on a quarter or an eighth; is that meant?",
            )


def _on_step(value: Decimal) -> bool:
    """Whether a power lies on an eighth, whole or cut to two decimals as written."""
    size = abs(value)
    cut = size + _CUT_OFF if size == size.quantize(_HUNDREDTH) else size
    return size % _EIGHTH == 0 or cut % _EIGHTH == 0


def _between_eyes(order: Order) -> Iterator[Question]:
    right, left = (written_power(lens.power) for lens in (order.right, order.left))
    if right is None or left is None:
        return
    means = [power.sphere + power.cylinder / 2 for power in (right, left)]
    spheres = f"{signed_dioptres(means[0])} right and {signed_dioptres(means[1])} left"
    if means[0] * means[1] < 0 and min(abs(mean) for mean in means) >= _STRONG:
        yield about_pair(
            "pair.sign",
            "left.power.sphere",
            f"The mean powers are {spheres}: is the sign of both eyes right?",
        )
    elif abs(means[0] - means[1]) > _ANISOMETROPIA:
        yield about_pair(
            "pair.difference",
            "left.power.sphere",
            f"The mean powers are {spheres}, more than 2.00 D apart: is that meant?",
        )
    written = [lens.power.cylinder or ZERO for lens in (order.right, order.left)]
    if written[0] * written[1] < 0:
        yield about_pair(
            "pair.cylinder-form",
            "left.power.cylinder",
            f"The cylinders are {signed_dioptres(written[0])} right and "
            f"{signed_dioptres(written[1])} left: is one of the signs a slip?",
        )


def _additions(order: Order) -> Iterator[Question]:
    adds = [lens.add for lens in (order.right, order.left)]
    for eye, lens in ((eye, order.eye(eye)) for eye in Eye):
        if order.design and order.design.has_addition:
            yield from _wanted_add(eye, lens)
            if order.design is Design.TRIFOCAL and lens.add and lens.intermediate is None:
                yield about_lens(
                    eye,
                    "intermediate-missing",
                    "intermediate",
                    "no intermediate addition is ordered; is it half of the near addition?",
                )
        elif order.design and lens.add:
            yield about_lens(
                eye,
                "add-unused",
                "add",
                f"an addition of {signed_dioptres(lens.add)} is ordered but a "
                f"{order.design.replace('-', ' ')} lens does not use it; is the design right?",
            )
    both = [add for add in adds if add is not None]
    if len(both) == len(adds) and both[0] != both[1]:
        yield about_pair(
            "pair.add-unequal",
            "left.add",
            f"The additions differ, {signed_dioptres(both[0])} right and "
            f"{signed_dioptres(both[1])} left: is that meant?",
        )


def written_in(form: CylinderForm, order: Order) -> Iterator[Question]:
    """What is asked about cylinders that are not written in the form usual in a workshop."""
    for eye, lens in ((eye, order.eye(eye)) for eye in Eye):
        cylinder = lens.power.cylinder
        if cylinder and (cylinder > 0) is (form is CylinderForm.MINUS):
            yield about_lens(
                eye,
                "cylinder-form",
                "power.cylinder",
                f"cylinder {signed_dioptres(cylinder)} is not in the {form.value} form that is "
                "usual here; is its sign meant so?",
            )


def _wanted_add(eye: Eye, lens: EyeOrder) -> Iterator[Question]:
    low, high = _USUAL_ADD
    if not lens.add:
        yield about_lens(eye, "add-missing", "add", "no addition is ordered; which is it?")
    elif not low <= lens.add <= high:
        add = signed_dioptres(lens.add)
        yield about_lens(
            eye, "add-unusual", "add", f"an addition of {add} is unusual; is it meant?"
        )
    elif not _on_step(lens.add):
        add = signed_dioptres(lens.add)
        yield about_lens(
            eye,
            "add-step",
            "add",
            f"addition {add} is not on a quarter or an eighth; is that meant?",
        )
    if lens.add and lens.intermediate and lens.intermediate >= lens.add:
        yield about_lens(
            eye,
            "intermediate-large",
            "intermediate",
            f"the intermediate addition {signed_dioptres(lens.intermediate)} is not below the "
            f"near addition {signed_dioptres(lens.add)}; are they exchanged?",
        )


def _prisms(order: Order) -> Iterator[Question]:
    for eye, lens in ((eye, order.eye(eye)) for eye in Eye):
        if lens.prism is None:
            continue
        prism = written_prism(lens.prism, eye)
        if not (prism.base_in or prism.base_up):
            yield about_lens(
                eye, "prism-empty", "prism", "prism is ordered with no amount; is it missing?"
            )
        elif lens.power.sphere is None:
            yield about_lens(
                eye,
                "prism-without-power",
                "power.sphere",
                "prism is ordered but no power; is the power missing?",
            )
    right, left = (
        written_prism(lens.prism, eye) for eye, lens in ((eye, order.eye(eye)) for eye in Eye)
    )
    may_thin = order.design is None or order.design.varies
    thins = may_thin and right.base_up == left.base_up < 0
    if right.base_up * left.base_up > 0 and not thins:
        yield about_pair(
            "pair.prism-same-way",
            "left.prism",
            f"The vertical prisms, {vertical_prism(right.base_up)} right and "
            f"{vertical_prism(left.base_up)} left, lie the same way and cancel: is one turned?",
        )
    if right.base_in * left.base_in < 0:
        yield about_pair(
            "pair.prism-opposite",
            "left.prism",
            f"The horizontal prisms, {horizontal_prism(right.base_in)} right and "
            f"{horizontal_prism(left.base_in)} left, cancel: is one turned?",
        )


LENS_DOUBTS = (_powers, _between_eyes, _additions, _prisms)
"""What is asked about the lenses, in the order in which questions are listed."""
