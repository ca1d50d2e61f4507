"""Simulated pairs: orders, what good and faulty lenses are off, and how a meter reads them."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from math import sqrt

import numpy as np
import numpy.typing as npt

from benchassist.job.order import Design
from benchassist.limits.arrays import ABSENT, PARTS, Marks, RowLookup, Whole
from benchassist.limits.load import PLAIN_ACCEPTANCE, Limits
from benchassist.optics.eye import Eye
from benchassist.verdicts.arrays import judge_pairs
from benchassist.verdicts.arrays_pairs import Lenses, LensPairs, Side
from benchassist.verdicts.arrays_verdict import Verdicts
from benchassist.verdicts.meters import MeterUsed

Floats = npt.NDArray[np.float64]
Lens = dict[str, Floats]
"""Columns of one lens of each pair, in units: `JUDGED`, the near distance and the frame."""

JUDGED = ("sphere", "cylinder", "axis", "add", "base_in", "base_up", "distance", "height")
FINE = 1e-6
"""The step of what is true, in units."""

ASSUMPTIONS = """\
Assumed, all of it our own:
- orders: 55 % single vision, 10 % bifocal, 35 % progressive; right sphere normal, mean -1.0 D,
  standard deviation 2.8 D, cut to -12..+8; left 0.7 D about it; 22 % without cylinder, else
  exponential with mean 0.9 D up to 4 D; axes half within 20 degrees of 180, a quarter of 90;
  prism ordered in 12 % of pairs; additions 1.00 to 2.75 D;
- good pairs: every quantity off by a normal error of a quarter of its limit, none past it;
- faulty pairs: one quantity off by 1 to 2 limits (sphere, cylinder, axis, addition, prism of
  either direction, centration or height), the others as in good pairs;
- slips: one slip in the order, each kind that can be made alike; the pair is good as the one
  that was made by it;
- readings: one of each point. Meter error normal with the class limit / sqrt 3, common to both
  meridians of a lens; setting noise of step / sqrt 12 on each line; then rounded to the step.
  Axis: marker 1 / sqrt 3 and step / sqrt 12. Lengths: rule of 0.5 mm, step / sqrt 12."""


@dataclass(frozen=True, slots=True)
class Pairs:
    """Pairs of one design, in units."""

    right: Lens
    left: Lens

    @property
    def lenses(self) -> tuple[Lens, Lens]:
        """Right and left."""
        return self.right, self.left

    def some(self, rows: slice) -> "Pairs":
        """These pairs only."""
        right, left = (
            {name: column[rows] for name, column in lens.items()} for lens in self.lenses
        )
        return Pairs(right, left)


def quarters(values: Floats) -> Floats:
    """Values in whole quarters."""
    return np.rint(values * 4) / 4


def chance(random: np.random.Generator, size: int, share: float) -> Marks:
    """Yes for a share of them."""
    return random.random(size) < share


def draw_orders(random: np.random.Generator, size: int, design: Design) -> Pairs:
    """Orders by the mixture that is assumed."""
    frame = {
        name: random.integers(low, high, size, endpoint=True).astype(np.float64)
        for name, low, high in (("a", 50, 56), ("b", 34, 42), ("dbl", 16, 20))
    }
    centre = random.normal(-1.0, 2.8, size)
    add = quarters(random.uniform(0.9, 2.85, size)) * design.has_addition
    right, left = (_one_lens(random, centre, add, frame) for _ in range(2))
    amount = quarters(random.uniform(0.4, 2.6, size)) * np.sign(random.uniform(-1, 1, size))
    amount *= chance(random, size, 0.12)
    is_vertical = chance(random, size, 0.4)
    for lens, sign in ((right, 1), (left, -1)):
        lens["base_in"] = np.where(is_vertical, 0.0, amount)
        lens["base_up"] = np.where(is_vertical, sign * amount, 0.0)
    return Pairs(right, left)


def _one_lens(
    random: np.random.Generator, centre: Floats, add: Floats, frame: Mapping[str, Floats]
) -> Lens:
    size = len(centre)
    cylinder = quarters(np.minimum(random.exponential(0.9, size) + 0.125, 4.0))
    middle = random.choice(np.array([180.0, 90.0]), size, p=[2 / 3, 1 / 3])
    near = middle + random.uniform(-20, 20, size)
    anywhere = random.uniform(0, 180, size)
    axis = np.rint(np.where(chance(random, size, 0.75), near, anywhere))
    distance = np.rint(random.normal(32, 1.5, size).clip(28, 36) * 2) / 2
    return {
        "sphere": quarters(np.clip(centre + random.normal(0, 0.7, size), -12, 8)),
        "cylinder": np.where(chance(random, size, 0.22), 0.0, -cylinder),
        "axis": (axis - 1) % 180 + 1,
        "add": add,
        "distance": distance,
        "near": distance - 2,
        "height": np.rint(random.uniform(17, 22, size) * 2) / 2,
        **frame,
    }


def in_parts(values: Floats, step: float) -> Whole:
    """Values rounded to a step, in parts."""
    whole: Whole = np.rint(values / step).astype(np.int64) * round(step * PARTS)
    return whole


def in_columns(lens: Lens, step: float, turn: float) -> Lenses:
    """A lens in minus form, rounded to a step in everything and its axis to a turn."""
    columns = {name: in_parts(lens[name], turn if name == "axis" else step) for name in JUDGED}
    sphere, cylinder, axis = (columns[name] for name in JUDGED[:3])
    is_plus = cylinder > 0
    axis = (axis + is_plus * (90 * PARTS) - 1) % (180 * PARTS) + 1
    columns["sphere"] = np.where(is_plus, sphere + cylinder, sphere)
    columns["cylinder"] = -np.abs(cylinder)
    columns["axis"] = np.where(cylinder == 0, 0, axis)
    return Lenses(**columns)


@dataclass(frozen=True, slots=True)
class Workbench:
    """What the pairs of one design are judged by, and the meter with which they are read."""

    limits: Limits
    design: Design
    meter: MeterUsed

    def judged(self, order: Pairs, shown: Pairs, *, as_read: bool) -> Verdicts:
        """The verdicts on what is read, guarded, or on what is true, by the limit alone."""
        right, left = (
            Side(in_columns(ordered, 0.001, 0.1), in_columns(found, FINE, FINE))
            for ordered, found in zip(order.lenses, shown.lenses, strict=True)
        )
        decision = self.limits.decision if as_read else PLAIN_ACCEPTANCE
        limits = replace(self.limits, decision=decision)
        return judge_pairs(LensPairs(right, left, self.meter), limits, self.design)

    def shares(self, order: Pairs, true: Pairs) -> Floats:
        """The largest share of its limit that any quantity of each pair uses."""
        verdicts = self.judged(order, true, as_read=False).by_key.values()
        shares = [
            np.where(one.limit == ABSENT, 0.0, np.abs(one.difference) / one.limit)
            for one in verdicts
        ]
        largest: Floats = np.max(shares, axis=0)
        return largest

    def step(self, quantity: str) -> float:
        """The step in which a quantity is read, by its name in the table of the meter."""
        return float(self.limits.meter.figure(quantity))

    def error(self, quantity: str, of: str, sizes: Floats) -> Floats:
        """The class limits of the meter's error for readings of these sizes."""
        row = self.limits.meter.row(quantity)
        if row is None:
            raise LookupError(quantity)
        looked_up = {of: in_parts(np.abs(sizes), FINE)}
        limits: Floats = RowLookup(row).look(looked_up, len(sizes)).limits / PARTS
        return limits

    def read(self, random: np.random.Generator, true: Pairs) -> Pairs:
        """One reading of every point of every pair."""
        right, left = (self._read_lens(random, lens) for lens in true.lenses)
        return Pairs(right, left)

    def _read_lens(self, random: np.random.Generator, true: Lens) -> Lens:
        size, is_drum = len(true["sphere"]), self.meter.is_drum
        step = self.step("step-drum" if is_drum else "step-display")
        prism_step = self.step("step-reticle" if is_drum else "step-display-prism")

        def shown(values: Floats, step: float, spread: float | Floats) -> Floats:
            noise = random.normal(0, 1, size) * np.hypot(spread, step / sqrt(12))
            rounded: Floats = np.rint((values + noise) / step) * step
            return rounded

        along, across = true["sphere"], true["sphere"] + true["cylinder"]
        largest = np.maximum(np.abs(along), np.abs(across))
        error = (
            random.normal(0, 1, size) * self.error("error-power", "power", largest) / sqrt(3)
        )
        lines = [shown(line + error, step, 0) for line in (along, across)]
        near, far = shown(along + error + true["add"], step, 0), shown(along + error, step, 0)
        lens = {**true, "sphere": lines[0], "cylinder": lines[1] - lines[0], "add": near - far}
        lens["axis"] = shown(true["axis"], self.step("step-axis"), 1 / sqrt(3))
        for name in ("base_in", "base_up"):
            spread = self.error("error-prism", "prism", true[name]) / sqrt(3)
            lens[name] = shown(true[name], prism_step, spread)
        for name in ("distance", "height"):
            lens[name] = shown(true[name], self.step("step-rule"), 0)
        return lens


def errors_within(random: np.random.Generator, bench: Workbench, order: Pairs) -> Pairs:
    """What good pairs are off: a quarter of each limit, none past one."""
    known = bench.judged(order, order, as_read=False)
    sides = []
    for eye, lens in zip(Eye, order.lenses, strict=True):
        size = len(lens["sphere"])
        spreads = {
            "sphere": limit_of(known, f"{eye}.meridian-high") / 4,
            "cylinder": limit_of(known, f"{eye}.cylinder") / 4,
            "axis": limit_of(known, f"{eye}.axis") / 4,
            "add": limit_of(known, f"{eye}.add") / 4,
            "base_in": limit_of(known, "pair.prism-horizontal") / 4 / sqrt(2),
            "base_up": limit_of(known, "pair.prism-vertical") / 4 / sqrt(2),
            "distance": np.full(size, 0.25),
            "height": np.full(size, 0.25),
        }
        sides.append({name: random.normal(0, 1, size) * spreads[name] for name in JUDGED})
    errors = Pairs(*sides)
    scale = 0.98 / np.maximum(bench.shares(order, off_by(order, errors)), 0.98)
    right, left = (
        {name: column * scale for name, column in lens.items()} for lens in errors.lenses
    )
    return Pairs(right, left)


def limit_of(verdicts: Verdicts, key: str) -> Floats:
    """The limits of a quantity in units, nought where none applies."""
    limit = verdicts.by_key[key].limit
    return np.where(limit == ABSENT, 0.0, limit / PARTS)


def off_by(order: Pairs, errors: Pairs) -> Pairs:
    """The pairs that are off the order by these errors."""
    right, left = (
        {**lens, **{name: lens[name] + error[name] for name in JUDGED}}
        for lens, error in zip(order.lenses, errors.lenses, strict=True)
    )
    return Pairs(right, left)


def with_faults(
    random: np.random.Generator, bench: Workbench, order: Pairs, errors: Pairs
) -> Pairs:
    """The errors with one quantity of each right lens off by one to two limits."""
    known, lens = bench.judged(order, order, as_read=False), order.right
    size = len(lens["sphere"])
    fault = random.uniform(1, 2, size) * np.sign(random.uniform(-1, 1, size))
    along = np.abs(lens["sphere"] + lens["cylinder"] * np.sin(np.radians(lens["axis"])) ** 2)
    by_prism = limit_of(known, "pair.centration-horizontal") * 10 / np.maximum(along, 0.5)
    sizes = {
        "sphere": limit_of(known, "right.meridian-high"),
        "cylinder": limit_of(known, "right.cylinder"),
        "axis": limit_of(known, "right.axis"),
        "add": limit_of(known, "right.add"),
        "base_in": limit_of(known, "pair.prism-horizontal"),
        "base_up": limit_of(known, "pair.prism-vertical"),
        "distance": np.where(along < 1, 0, by_prism) + limit_of(known, "right.centration"),
        "height": limit_of(known, "right.height"),
    }
    kinds = random.permuted(np.tile(np.arange(len(JUDGED)), (size, 1)), axis=1)
    can_be = np.array([sizes[name] > 0 for name in JUDGED]).T
    first = np.take_along_axis(can_be, kinds, axis=1).argmax(axis=1)
    kind = kinds[np.arange(size), first]
    right = {
        name: np.where(kind == place, fault * sizes[name], errors.right[name])
        for place, name in enumerate(JUDGED)
    }
    is_cylinder = kind == JUDGED.index("cylinder")
    right["sphere"] = np.where(is_cylinder, -right["cylinder"] / 2, right["sphere"])
    return Pairs(right, errors.left)
