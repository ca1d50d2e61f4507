"""Slips planted in simulated orders, each by its id, reckoned apart from the diagnosis."""

from collections.abc import Callable
from dataclasses import dataclass, field

import numpy as np
from simulated_pairs import Pairs

Row = dict[str, float]
"""One lens of one pair, in units."""

Change = Callable[[Row], None]
"""What a slip makes of one lens; nothing changes where it cannot be made."""

POWER = ("sphere", "cylinder", "axis")


@dataclass(frozen=True, slots=True)
class Hand:
    """One pair in the hands of somebody who slips.

    Attributes:
        right: the right lens, changed in place.
        left: the left one.
        random: where chance decides.
    """

    right: Row
    left: Row
    random: np.random.Generator = field(default_factory=np.random.default_rng)

    @property
    def lenses(self) -> tuple[Row, Row]:
        """Right and left."""
        return self.right, self.left

    def some_lenses(self) -> tuple[Row, ...]:
        """The right lens, the left one or, as often, both."""
        return (self.lenses, (self.right,), (self.left,))[self.random.integers(3)]


Plant = Callable[[Hand], None]


def on_lenses(change: Change) -> Plant:
    """A slip made on one lens or on both, in either form of writing."""

    def plant(hand: Hand) -> None:
        in_plus_form = hand.random.integers(2)
        for lens in hand.some_lenses():
            if in_plus_form:
                transpose(lens)
            change(lens)

    return plant


def setting(**values: Callable[[Row], float]) -> Change:
    """Some figures replaced by others that are reckoned from the lens as it was."""

    def change(lens: Row) -> None:
        lens.update({name: value(lens) for name, value in values.items()})

    return change


def exchanging(*names: str) -> Plant:
    """The two lenses have some figures of each other."""

    def plant(hand: Hand) -> None:
        for name in names:
            hand.right[name], hand.left[name] = hand.left[name], hand.right[name]

    return plant


def transpose(lens: Row) -> None:
    """Write the power in the other form."""
    lens["sphere"] += lens["cylinder"]
    lens["cylinder"] *= -1
    lens["axis"] += 90


def turning(right: int, left: int) -> Plant:
    """Axes turned together, against each other or one alone."""

    def plant(hand: Hand) -> None:
        turn = float(hand.random.integers(3, 16)) * hand.random.choice((-1, 1))
        hand.right["axis"] += turn * right
        hand.left["axis"] += turn * left

    return plant


def same_row(hand: Hand) -> None:
    """The left lens is made to the row of the right one."""
    hand.left.update({name: hand.right[name] for name in (*POWER, "add")})


def meter_zero(hand: Hand) -> None:
    """The same sphere in both."""
    offset = hand.random.choice((-0.5, -0.25, 0.25, 0.5))
    for lens in hand.lenses:
        lens["sphere"] += offset


def height_datum(hand: Hand) -> None:
    """The same height in both."""
    constant = hand.random.choice((-4.0, -1.5, 1.5, 4.0))
    for lens in hand.lenses:
        lens["height"] += constant


def axis_digits(lens: Row) -> None:
    """The last digit of the axis comes first."""
    digits = f"{round((lens['axis'] - 1) % 180 + 1):03}"
    axis = int(digits[2] + digits[:2])
    if 0 < axis <= 180:  # noqa: PLR2004 - half a turn
        lens["axis"] = axis


def decentred(share: float) -> Plant:
    """Some other share of the decentration from the boxed centre."""
    return on_lenses(
        setting(
            distance=lambda lens: (
                (lens["a"] + lens["dbl"]) / 2 * (1 - share) + share * lens["distance"]
            )
        )
    )


SLIPS: dict[str, Plant] = {
    "changed-over": exchanging(*POWER, "add", "base_in", "base_up"),
    "same-row": same_row,
    "meter-zero": meter_zero,
    "turned-together": turning(1, 1),
    "turned-opposite": turning(1, -1),
    "turned-alone": turning(1, 0),
    "cylinder-sign": on_lenses(setting(cylinder=lambda lens: -lens["cylinder"])),
    "sphere-sign": on_lenses(setting(sphere=lambda lens: -lens["sphere"])),
    "both-signs": on_lenses(
        setting(sphere=lambda lens: -lens["sphere"], cylinder=lambda lens: -lens["cylinder"])
    ),
    "axis-90": on_lenses(setting(axis=lambda lens: lens["axis"] + 90)),
    "transposed-sphere-kept": on_lenses(
        setting(cylinder=lambda lens: -lens["cylinder"], axis=lambda lens: lens["axis"] + 90)
    ),
    "axis-mirrored": on_lenses(setting(axis=lambda lens: 180 - lens["axis"])),
    "axis-digits": on_lenses(axis_digits),
    "cylinder-left-out": on_lenses(setting(cylinder=lambda _: 0.0)),
    "whole-dioptre": on_lenses(setting(sphere=lambda lens: lens["sphere"] + 1)),
    "near-for-distance": on_lenses(setting(sphere=lambda lens: lens["sphere"] + lens["add"])),
    "near-total": on_lenses(
        setting(add=lambda lens: lens["add"] + (max(lens["sphere"], 0) if lens["add"] else 0))
    ),
    "horizontal-reversed": on_lenses(setting(base_in=lambda lens: -lens["base_in"])),
    "vertical-reversed": on_lenses(setting(base_up=lambda lens: -lens["base_up"])),
    "vertical-in-wrong-eye": exchanging("base_up"),
    "prism-left-out": on_lenses(setting(base_in=lambda _: 0.0, base_up=lambda _: 0.0)),
    "near-for-distance-pd": on_lenses(setting(distance=lambda lens: lens["near"])),
    "boxed-centre": decentred(0),
    "half-decentration": decentred(0.5),
    "double-decentration": decentred(2),
    "decentred-wrong-way": decentred(-1),
    "distances-changed-over": exchanging("distance"),
    "heights-changed-over": exchanging("height"),
    "height-datum": height_datum,
    "half-way-up": on_lenses(setting(height=lambda lens: lens["b"] / 2)),
}
"""Each slip that is planted, by the id under which the diagnosis lists it."""


def with_slips(random: np.random.Generator, order: Pairs) -> tuple[Pairs, list[str]]:
    """The orders with one slip made in each pair, and which it was.

    Each slip that can be made is as likely; the power may come out in either form.
    """
    right, left = (
        {name: column.copy() for name, column in lens.items()} for lens in order.lenses
    )
    planted = []
    for place in range(len(right["sphere"])):
        rows = [{name: float(lens[name][place]) for name in lens} for lens in (right, left)]
        for slip in random.permutation(list(SLIPS)):
            hand = Hand(dict(rows[0]), dict(rows[1]), random)
            SLIPS[slip](hand)
            if any(map(_differ, hand.lenses, rows)):
                break
        for lens, row in zip((right, left), hand.lenses, strict=True):
            for name, value in row.items():
                lens[name][place] = value
        planted.append(str(slip))
    return Pairs(right, left), planted


def _differ(lens: Row, other: Row) -> bool:
    """Whether two lenses are not the same, however they are written."""
    return any(abs(a - b) > 1e-9 for a, b in zip(_shown(lens), _shown(other), strict=True))  # noqa: PLR2004


def _shown(lens: Row) -> tuple[float, ...]:
    """What the meter and the rule would show of a lens."""
    double = np.radians(2 * lens["axis"])
    power = (
        lens["sphere"] + lens["cylinder"] / 2,
        lens["cylinder"] * float(np.cos(double)),
        lens["cylinder"] * float(np.sin(double)),
    )
    others = ("add", "base_in", "base_up", "distance", "height")
    return (*power, *(lens[name] for name in others))
