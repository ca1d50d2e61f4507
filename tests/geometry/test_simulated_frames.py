"""The simulated frames of packaging/ are read as the guide asks, and lie as planted."""

import importlib.util
import sys
from collections.abc import Iterator
from decimal import Decimal
from pathlib import Path
from types import ModuleType

import numpy as np
import pytest

from benchassist.geometry.alignment import (
    AlongFront,
    LeanGaps,
    four_point,
    open_angle,
    pantoscopic_angle,
    skew,
    x_ing,
)
from benchassist.geometry.frame_state import FrameState
from benchassist.geometry.touch import Gaps, inverted_angle, upright_angle
from benchassist.guide.load import load_guide
from benchassist.guide.prompts import StepId
from benchassist.optics.eye import Eye
from benchassist.verdicts.bench import BENCH_CHECKS

ENDS = ("right_outer", "right_inner", "left_inner", "left_outer")
SCRIPT = Path(__file__).parents[2] / "packaging" / "simulated_frames.py"


@pytest.fixture(scope="module")
def frames() -> Iterator[ModuleType]:
    spec = importlib.util.spec_from_file_location("simulated_frames", SCRIPT)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules[spec.name] = module
    spec.loader.exec_module(module)
    yield module
    del sys.modules[spec.name]


def random() -> np.random.Generator:
    return np.random.default_rng(20)


def test_every_measured_check_is_read_in_its_steps(frames: ModuleType) -> None:
    rng = random()
    prompts = {prompt.id: prompt for prompt in load_guide().step(StepId.BENCH).prompts}
    for _ in range(20):
        readings = frames.read(frames.draw_frame(rng).state, rng)
        assert set(readings) == {check.id for check in BENCH_CHECKS}
        for check in BENCH_CHECKS:
            asked = {one.name: one for one in prompts[check.id].inputs}
            assert set(check.needs) <= set(readings[check.id])
            for name, value in readings[check.id].items():
                assert isinstance(value, Decimal)
                assert value % asked[name].step == 0
                assert asked[name].low <= value <= asked[name].high


def test_what_a_rigid_frame_shows_is_never_refused(frames: ModuleType) -> None:
    rng = random()
    for _ in range(100):
        state = frames.draw_frame(rng).state
        made = state.made
        read = {
            check: {name: float(value) for name, value in values.items()}
            for check, values in frames.read(state, rng).items()
        }
        edge, heights = read["bench.four-point"], read["bench.skew"]
        names = ("right_temporal", "right_nasal", "left_nasal", "left_temporal")
        four_point(AlongFront(**{name: edge[name] for name in names}), made.a, made.dbl / 2)
        ends = (heights[end] for end in ENDS)
        skew(AlongFront(*ends), made.a, made.dbl / 2)
        plate = read["bench.x-ing"]
        right, left = (LeanGaps(plate[f"{eye}_top"], plate[f"{eye}_bottom"]) for eye in Eye)
        x_ing(right, left, plate["apart"])
        for check, angle in (("upright", upright_angle), ("inverted", inverted_angle)):
            table = read[f"bench.table-{check}"]
            angle(Gaps(table["right_gap"], table["left_gap"]), table["run"])
        for eye in Eye:
            temple, tilt = read["bench.open-angle"], read["bench.pantoscopic"]
            open_angle(temple[f"{eye}_out"], temple[f"{eye}_back"])
            pantoscopic_angle(tilt[f"{eye}_offset"], made.b)


def test_the_same_numbers_draw_the_same_frame(frames: ModuleType) -> None:
    assert frames.draw_frame(random()) == frames.draw_frame(random())


def test_a_true_frame_is_beyond_nothing(frames: ModuleType) -> None:
    assert frames.beyond_limit(FrameState.true()) == set()


def test_planted_faults_are_of_the_size_that_is_said(frames: ModuleType) -> None:
    rng = random()
    for _ in range(100):
        drawn = frames.draw_frame(rng)
        assert 1 <= len(drawn.faults) <= 3
        for fault in drawn.faults:
            limits = abs(fault.size) / frames.bench_limit(fault.kind.limit)
            assert 1.5 <= limits <= fault.kind.most
            assert (fault.eye is not None) is fault.kind.on_side


def test_each_fault_alone_is_beyond_the_limit_of_its_check(frames: ModuleType) -> None:
    for kind in frames.KINDS:
        for eye in Eye if kind.on_side else (None,):
            for sign in (-1.5, 1.5):
                size = sign * frames.bench_limit(kind.limit)
                fault = frames.Planted(kind, size, eye)
                bent = frames.with_fault(FrameState.true(), fault)
                assert kind.check in frames.beyond_limit(bent)
                back = frames.with_fault(bent, frames.Planted(kind, -size, eye))
                assert frames.beyond_limit(back) == set()


def test_a_row_that_is_not_there_is_our_fault(frames: ModuleType) -> None:
    with pytest.raises(LookupError, match="no row droop"):
        frames.bench_limit("droop")
