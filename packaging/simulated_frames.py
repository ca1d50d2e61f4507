"""Simulated frames: rigid geometry with planted faults, and what the bench reads on them.

The frame is bent in space (`benchassist.geometry.frame_state`), the tools are laid against it
(`resting`, `shown`), and only then are the readings misread. Nothing here turns a formula of
the bench checks round.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from functools import cache
from math import atan2, degrees

import numpy as np

from benchassist.geometry.frame_state import (
    MARKS_APART,
    FramePoints,
    FrameState,
    Made,
    frame_points,
)
from benchassist.geometry.resting import TableRest, inverted, upright
from benchassist.geometry.shown import (
    apart,
    edge_gaps,
    end_heights,
    marks,
    pantoscopic_offset,
    plane_step,
    plate_gaps,
    temple_out,
)
from benchassist.guide.load import load_guide
from benchassist.guide.prompts import Measurement, StepId
from benchassist.job.order import Order
from benchassist.limits.load import load_limits
from benchassist.optics.eye import Eye

Shown = dict[str, float]
"""What the tools show for one check, by the names of the prompt's inputs."""

Readings = dict[str, dict[str, Decimal]]
"""What was read, by the ids of the prompts and the names of their inputs."""

ASSUMPTIONS = """\
Assumed, all of it our own:
- frames: A 46 to 56, B 30 to 44, DBL 15 to 21, temples 140 to 150 mm; everything else as in
  `Made`, and true but for the planted faults;
- faults: one to three of nine kinds, none twice, each alone 1.5 to 5 times its limit (a turned
  lens and the drop of a bend up to 4 times, because the fields of the prompts end there),
  either way, on one side or on the bridge; too much or too little face form is shared alike;
- readings: one of each, off by a normal error of placing, then rounded to the step of the
  prompt's input: marks 0.1 mm by graticule, feelers 0.05 mm, offsets of a temple 0.3 mm,
  lengths 0.5 mm, drops 1.5 degrees;
- the table: the frame stands by its own weight; the straight edge and the plate behind the
  front are pressed on at the bridge; X-ing is taken from one plate; an open temple is measured
  90 mm behind its joint."""

PLACING = {
    "bench.rotation": 0.1,
    "bench.skew": 0.05,
    "bench.x-ing": 0.05,
    "bench.four-point": 0.05,
    "bench.open-angle": 0.3,
    "bench.pantoscopic": 0.05,
    "bench.table-inverted": 0.05,
    "bench.table-upright": 0.05,
    "bench.temple-bend": 0.5,
}
"""Standard deviation of placing the tool, mm, for the readings of each check."""

LENGTH_PLACING = 0.5
"""The same for a length over which gaps are compared, mm."""

DROP_PLACING = 1.5
"""The same for the protractor at the bend, degrees."""

BACK = 90.0
"""How far behind the joint an open temple is measured, mm."""

_LENGTHS = frozenset({"separation", "apart", "run", "right_back", "left_back"})
_DROPS = frozenset({"right_drop", "left_drop"})
_FINE = 1e-6
"""A verdict rounds to a millionth before it compares; what is on the limit is within."""


@dataclass(frozen=True, slots=True)
class FaultKind:
    """A number of a frame that can be out.

    Attributes:
        limit: the row of the bench limits that it is measured by.
        check: id of the check that is there to find it.
        number: its name in `Bridge` or `SideState`.
        on_side: whether each side has one of its own.
        most: up to how many limits it is planted.
    """

    limit: str
    check: str
    number: str
    on_side: bool
    most: float = 5.0


KINDS = (
    FaultKind("rotation", "bench.rotation", "lens_turn", on_side=True, most=4.0),
    FaultKind("skew", "bench.skew", "skew_step", on_side=False),
    FaultKind("x-ing", "bench.x-ing", "x_ing", on_side=False),
    FaultKind("plane-step", "bench.four-point", "plane_step", on_side=False),
    FaultKind("face-form", "bench.four-point", "form", on_side=False),
    FaultKind("open-angle", "bench.open-angle", "open_angle", on_side=True),
    FaultKind("pantoscopic", "bench.pantoscopic", "pantoscopic", on_side=True),
    FaultKind("bend-start", "bench.temple-bend", "bend_start", on_side=True),
    FaultKind("bend-drop", "bench.temple-bend", "drop", on_side=True, most=4.0),
)
"""The faults that are planted; 'form' stands for both halves of the front alike."""

LEAST = 1.5
"""From how many limits a fault is planted."""


@dataclass(frozen=True, slots=True)
class Planted:
    """A planted fault: what, by how much in mm or degrees, and on which side."""

    kind: FaultKind
    size: float
    eye: Eye | None = None


@dataclass(frozen=True, slots=True)
class SimulatedFrame:
    """A frame with the faults that were planted in it."""

    state: FrameState
    faults: tuple[Planted, ...]


@cache
def bench_limit(name: str) -> float:
    """Where a row of the bench limits is put right, mm or degrees.

    Raises:
        LookupError: the bench limits have no such row.
    """
    row = load_limits(Order().rule_set).bench.row(name)
    limit = row.bands[0].limit({}) if row else None
    if limit is None:
        raise LookupError(f"the bench limits have no row {name}")
    return float(limit.value)


def draw_frame(rng: np.random.Generator) -> SimulatedFrame:
    """A true frame of some size with one to three faults in it."""
    made = Made(
        a=float(rng.integers(46, 56, endpoint=True)),
        b=float(rng.integers(30, 44, endpoint=True)),
        dbl=float(rng.integers(15, 21, endpoint=True)),
        temple_length=float(rng.choice([140, 145, 150])),
    )
    chosen = rng.choice(len(KINDS), size=int(rng.integers(1, 4)), replace=False)
    faults = tuple(_planted(rng, KINDS[int(number)]) for number in sorted(chosen))
    state = FrameState.true(made)
    for fault in faults:
        state = with_fault(state, fault)
    return SimulatedFrame(state, faults)


def _planted(rng: np.random.Generator, kind: FaultKind) -> Planted:
    size = float(rng.uniform(LEAST, kind.most)) * bench_limit(kind.limit)
    signed = float(rng.choice([-1.0, 1.0])) * size
    return Planted(kind, signed, Eye(str(rng.choice(list(Eye)))) if kind.on_side else None)


def with_fault(state: FrameState, fault: Planted) -> FrameState:
    """The frame with one number out by so much more."""
    name = fault.kind.number
    if fault.eye is not None:
        at = float(getattr(state.side(fault.eye), name))
        return state.with_side(fault.eye, **{name: at + fault.size})
    bridge = state.bridge
    if name == "form":
        half = fault.size / 2.0
        return state.with_bridge(
            form_right=bridge.form_right + half, form_left=bridge.form_left + half
        )
    return state.with_bridge(**{name: float(getattr(bridge, name)) + fault.size})


def read(
    state: FrameState, rng: np.random.Generator, *, marks_over_own_rim: bool = False
) -> Readings:
    """One reading of everything that the bench prompts ask to measure.

    Args:
        state: the frame.
        rng: where the reading errors come from.
        marks_over_own_rim: whether the marks of a lens are read against its own rim, and not
            as the prompt has it over an edge along both lower rims.
    """
    shown = exact(state, marks_over_own_rim=marks_over_own_rim)
    return {
        check: {
            name: _misread(rng, check, asked[name], value)
            for name, value in shown[check].items()
            if name in asked
        }
        for check, asked in _asked().items()
        if check in shown
    }


def _misread(rng: np.random.Generator, check: str, asked: Measurement, value: float) -> Decimal:
    placing = PLACING[check]
    if asked.name in _LENGTHS:
        placing = LENGTH_PLACING
    if asked.name in _DROPS:
        placing = DROP_PLACING
    steps = round(float(rng.normal(value, placing)) / float(asked.step))
    return min(max(steps * asked.step, asked.low), asked.high)


@cache
def _asked() -> Mapping[str, Mapping[str, Measurement]]:
    """The inputs of every bench prompt that asks for a measurement."""
    prompts = load_guide().step(StepId.BENCH).prompts
    return {
        prompt.id: {one.name: one for one in prompt.inputs}
        for prompt in prompts
        if prompt.inputs
    }


def exact(state: FrameState, *, marks_over_own_rim: bool = False) -> dict[str, Shown]:
    """What the tools show before anybody misreads them, by the ids of the prompts."""
    points = frame_points(state)
    return {
        "bench.rotation": {"separation": MARKS_APART}
        | _each("marks", lambda eye: marks(points, eye, own_rim=marks_over_own_rim)),
        "bench.skew": _skew(points),
        "bench.x-ing": _x_ing(points),
        "bench.four-point": _four_point(points),
        "bench.open-angle": _each("out", lambda eye: temple_out(points, eye, BACK))
        | _each("back", lambda _: BACK),
        "bench.pantoscopic": _each("offset", lambda eye: pantoscopic_offset(points.half(eye))),
        "bench.table-inverted": _touch(inverted(points)),
        "bench.table-upright": _touch(upright(points)),
        "bench.temple-bend": _each("start", lambda eye: state.side(eye).bend_start)
        | _each("drop", lambda eye: state.side(eye).drop),
    }


def _each(name: str, of: Callable[[Eye], float]) -> Shown:
    return {f"{eye}_{name}": of(eye) for eye in Eye}


def _skew(points: FramePoints) -> Shown:
    names = ("right_outer", "right_inner", "left_inner", "left_outer")
    return dict(zip(names, end_heights(points).readings, strict=True))


def _four_point(points: FramePoints) -> Shown:
    names = ("right_temporal", "right_nasal", "left_nasal", "left_temporal")
    return dict(zip(names, edge_gaps(points).readings, strict=True))


def _x_ing(points: FramePoints) -> Shown:
    right, left = plate_gaps(points)
    return {
        "right_top": right.top,
        "right_bottom": right.bottom,
        "left_top": left.top,
        "left_bottom": left.bottom,
        "apart": apart(points.right),
    }


def _touch(stand: TableRest) -> Shown:
    return _each("gap", lambda eye: stand.behind[eye]) | {"run": stand.run}


def beyond_limit(state: FrameState) -> set[str]:
    """Ids of the checks at which the frame truly is beyond its limit, whatever was read.

    Numbers of the frame are taken as they are; the plane step where the straight edge lies, the
    open angles and the table gaps, in which several numbers meet, come from its points.
    """
    points, bridge = frame_points(state), state.bridge
    right, left = state.right, state.left
    opened = {eye: _opened(points, eye) for eye in Eye}
    total = bridge.form_right + bridge.form_left - 2.0 * state.made.face_form
    sizes = (
        ("bench.rotation", "rotation", max(abs(right.lens_turn), abs(left.lens_turn))),
        ("bench.skew", "skew", bridge.skew_step),
        ("bench.x-ing", "x-ing", bridge.x_ing),
        ("bench.four-point", "plane-step", plane_step(points)),
        ("bench.four-point", "face-form", total),
        ("bench.open-angle", "open-angle", opened[Eye.RIGHT] - opened[Eye.LEFT]),
        ("bench.pantoscopic", "pantoscopic", right.pantoscopic - left.pantoscopic),
        ("bench.table-inverted", "table-touch", max(inverted(points).behind.values())),
        ("bench.table-upright", "table-touch", max(upright(points).behind.values())),
        ("bench.temple-bend", "bend-start", right.bend_start - left.bend_start),
        ("bench.temple-bend", "bend-drop", right.drop - left.drop),
    )
    return {check for check, row, size in sizes if abs(size) > bench_limit(row) + _FINE}


def _opened(points: FramePoints, eye: Eye) -> float:
    """The angle from straight back to the shaft, seen from above, degrees outwards."""
    return degrees(atan2(temple_out(points, eye, BACK), BACK))
