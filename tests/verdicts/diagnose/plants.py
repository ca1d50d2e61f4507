"""How each slip is planted, written without the code that looks for it."""

from collections.abc import Callable
from dataclasses import dataclass
from decimal import Decimal

from hypothesis import strategies as st

from benchassist.optics.eye import Eye
from benchassist.optics.near import excess_by_back_vertex
from benchassist.optics.power import Power
from benchassist.optics.thick import ThickLens
from benchassist.optics.tilt import combined_tilt, made_for_eye
from benchassist.optics.vertex import replaced_at
from tests.verdicts.diagnose.lens_changes import (
    add_low,
    added,
    axis_kept,
    base_in_reversed,
    base_up_reversed,
    both_signs,
    corridor,
    cylinder_first,
    cylinder_left_out,
    cylinder_sign,
    directions,
    half_way,
    head_down,
    last_digit_first,
    mirrored,
    near_distance,
    near_total,
    no_inset,
    no_prism,
    one_more,
    other_engraving,
    other_lens,
    point_moved,
    quarter_turn,
    sign_kept,
    sphere_kept,
    sphere_sign,
    taken_off,
)
from tests.verdicts.diagnose.pairs import SIDES, Drawn, Shown, written

BOXED = Decimal(36)
"""(54 + 18) / 2, the distance of a boxed centre in the frame of these pairs, mm."""

Plant = Callable[[Drawn, st.DataObject], None]


def on_lenses(change: Callable[[Shown], None]) -> Plant:
    """A slip on the right lens, on the left or on both, in either form of writing."""

    def plant(pair: Drawn, data: st.DataObject) -> None:
        sides = data.draw(st.sampled_from((("right",), ("left",), SIDES)))
        other_form = data.draw(st.booleans())
        for side, lens in zip(SIDES, pair.lenses, strict=True):
            if side in sides:
                if other_form:
                    lens.transposed()
                change(lens)

    return plant


def swapping(*names: str) -> Plant:
    def plant(pair: Drawn, data: st.DataObject) -> None:
        for name in names:
            right, left = getattr(pair.right, name), getattr(pair.left, name)
            setattr(pair.right, name, left)
            setattr(pair.left, name, right)

    return plant


POWER = ("sphere", "cylinder", "axis")


def decentred(share: str) -> Plant:
    def change(lens: Shown) -> None:
        lens.pd = BOXED + Decimal(share) * (lens.pd - BOXED)

    return on_lenses(change)


def zero(pair: Drawn, data: st.DataObject) -> None:
    offset = data.draw(st.sampled_from(("-0.75", "-0.25", "0.25", "0.5"))).strip()
    for lens in pair.lenses:
        lens.sphere += Decimal(offset)


def turning(right: int, left: int) -> Plant:
    def plant(pair: Drawn, data: st.DataObject) -> None:
        turn = data.draw(st.integers(-20, 20).filter(bool))
        pair.right.turned(Decimal(turn * right))
        pair.left.turned(Decimal(turn * left))

    return plant


def turned_round(pair: Drawn, data: st.DataObject) -> None:
    swapping(*POWER)(pair, data)
    mirrored(pair.right)
    mirrored(pair.left)


def same_row(pair: Drawn, data: st.DataObject) -> None:
    for name in (*POWER, "add"):
        setattr(pair.left, name, getattr(pair.right, name))


def datum(pair: Drawn, data: st.DataObject) -> None:
    constant = data.draw(st.sampled_from((Decimal(4), Decimal("-1.5"))))
    for lens in pair.lenses:
        lens.height += constant


def rolls(pair: Drawn, data: st.DataObject) -> None:
    pair.right.up, pair.left.up = Decimal("1.5"), Decimal("-1.7")


def computed(change: Callable[[Power, Eye], Power]) -> Plant:
    """A computed power in both lenses, as fine as a reading can be."""

    def plant(pair: Drawn, data: st.DataObject) -> None:
        for eye, lens in zip(Eye, pair.lenses, strict=True):
            power = Power(float(lens.sphere), float(lens.cylinder), float(lens.axis))
            shown = change(power, eye)
            lens.sphere = Decimal(f"{shown.sphere:.3f}")
            lens.cylinder = Decimal(f"{shown.cylinder:.3f}")
            lens.axis = Decimal(f"{shown.axis or 180:.1f}")
            lens.turned(Decimal(0))

    return plant


def as_worn(power: Power, eye: Eye) -> Power:
    return made_for_eye(power, combined_tilt(14.0, 9.0, eye), 1.5)


def not_as_worn(pair: Drawn, data: st.DataObject) -> None:
    """The maker states half a dioptre less, and the lens is as ordered."""
    for side, lens in zip(SIDES, pair.ordered, strict=True):
        stated = written(lens) | {"sphere": lens.sphere - Decimal("0.5")}
        pair.of_lens[side] = {"verification": {"power": stated}}


def from_front(pair: Drawn, data: st.DataObject) -> None:
    """A thick plus lens: front vertex power, and the axis in mirror image."""
    base, thick = Decimal(11), Decimal(7)
    for side, lens in zip(SIDES, pair.lenses, strict=True):
        mean = float(lens.centred)
        shape = ThickLens(float(base), 0.0, float(thick), 1.5).back_vertex_power
        front = ThickLens(float(base), mean - shape, float(thick), 1.5).front_vertex_power
        lens.sphere += Decimal(f"{front - mean:.3f}")
        mirrored(lens)
        pair.of_lens[side] = {"base_curve": base, "centre_thickness": thick}


def wrong_surface(pair: Drawn, data: st.DataObject) -> None:
    """The back was on the stop, the front of a thick lens carries the addition unsaid."""
    for side, lens in zip(SIDES, pair.lenses, strict=True):
        mean = float(lens.centred)
        shape = ThickLens(12.0, 0.0, 9.0, 1.5).back_vertex_power
        form = ThickLens(12.0, mean - shape, 9.0, 1.5)
        lens.add += Decimal(f"{excess_by_back_vertex(form, float(lens.add)):.2f}")
        pair.of_lens[side] = {"base_curve": "12", "centre_thickness": "9"}


@dataclass(frozen=True)
class Case:
    """How one slip is planted, and in which designs."""

    plant: Plant
    designs: tuple[str, ...] = ("single-vision", "bifocal", "progressive")


ANY = ("single-vision", "bifocal", "progressive")
WITH_ADD = ("bifocal", "progressive")
VARYING = ("progressive",)
CENTRED = ("single-vision", "bifocal")

PLANTS: dict[str, Case] = {
    "changed-over": Case(swapping(*POWER, "add", "base_in", "base_up")),
    "meter-zero": Case(zero),
    "turned-together": Case(turning(1, 1)),
    "turned-opposite": Case(turning(1, -1)),
    "turned-alone": Case(turning(0, 1)),
    "turned-round": Case(turned_round),
    "same-row": Case(same_row),
    "adds-changed-over": Case(swapping("add"), WITH_ADD),
    "prisms-changed-over": Case(swapping("base_in", "base_up")),
    "vertical-in-wrong-eye": Case(swapping("base_up")),
    "distances-changed-over": Case(swapping("pd")),
    "near-for-distance-pd": Case(on_lenses(near_distance)),
    "boxed-centre": Case(decentred("0")),
    "half-decentration": Case(decentred("0.5")),
    "double-decentration": Case(decentred("2")),
    "decentred-wrong-way": Case(decentred("-1")),
    "inset-left-out": Case(on_lenses(no_inset), ("bifocal",)),
    "heights-changed-over": Case(swapping("height")),
    "height-datum": Case(datum, WITH_ADD),
    "half-way-up": Case(on_lenses(half_way)),
    "front-rolls": Case(rolls),
    "cylinder-sign": Case(on_lenses(cylinder_sign)),
    "sphere-sign": Case(on_lenses(sphere_sign)),
    "axis-90": Case(on_lenses(quarter_turn)),
    "transposed-axis-kept": Case(on_lenses(axis_kept)),
    "transposed-sphere-kept": Case(on_lenses(sphere_kept)),
    "transposed-sign-kept": Case(on_lenses(sign_kept)),
    "axis-mirrored": Case(on_lenses(mirrored)),
    "both-signs": Case(on_lenses(both_signs)),
    "axis-digits": Case(on_lenses(last_digit_first)),
    "sphere-for-cylinder": Case(on_lenses(cylinder_first)),
    "cylinder-left-out": Case(on_lenses(cylinder_left_out)),
    "whole-dioptre": Case(on_lenses(one_more)),
    "decimal-point": Case(on_lenses(point_moved)),
    "from-front": Case(from_front),
    "near-for-distance": Case(on_lenses(added)),
    "distance-for-near": Case(on_lenses(taken_off)),
    "as-ordered": Case(not_as_worn),
    "as-worn": Case(computed(as_worn)),
    "vertex-kept": Case(computed(lambda power, _: replaced_at(power, 12.0, 15.0))),
    "vertex-twice": Case(computed(lambda power, _: replaced_at(power, 15.0, 12.0))),
    "near-total": Case(on_lenses(near_total), WITH_ADD),
    "wrong-surface": Case(wrong_surface, VARYING),
    "low-in-corridor": Case(on_lenses(corridor), VARYING),
    "beside-near-zone": Case(on_lenses(add_low), VARYING),
    "other-lens": Case(on_lenses(other_lens), VARYING),
    "engraving": Case(on_lenses(other_engraving), VARYING),
    "horizontal-reversed": Case(on_lenses(base_in_reversed)),
    "vertical-reversed": Case(on_lenses(base_up_reversed)),
    "upside-down": Case(on_lenses(head_down)),
    "directions-exchanged": Case(on_lenses(directions)),
    "prism-left-out": Case(on_lenses(no_prism)),
}
"""One independent planting for each slip."""
