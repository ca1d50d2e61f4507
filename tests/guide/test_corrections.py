"""The graph of corrections: it comes to an end, and nothing that it disturbs stays closed."""

from collections.abc import Iterator
from itertools import product
from random import Random
from types import ModuleType

from hypothesis import given, settings
from hypothesis import strategies as st

from benchassist.geometry.frame_state import FrameState
from benchassist.guide.load import load_guide
from benchassist.guide.prompts import Prompt, Remedy, StepId
from benchassist.job.order import FrameMaterial, Rim
from benchassist.optics.eye import Eye

BENCH = load_guide().step(StepId.BENCH).prompts
PLACE = {prompt.id: at for at, prompt in enumerate(BENCH)}
STIRRED = {
    "bridge-height": ("skew_step", None),
    "bridge-twist": ("x_ing", None),
    "bridge-planes": ("plane_step", None),
    "bridge-form": ("form_right", None),
    "endpiece-width": ("open_angle", Eye.RIGHT),
    "endpiece-tilt": ("pantoscopic", Eye.RIGHT),
    "endpiece-at-plate": ("pantoscopic", Eye.RIGHT),
    "tip": ("drop", Eye.RIGHT),
    "lens": ("lens_turn", Eye.RIGHT),
}
"""The number of the frame that each way of bending is there to change."""

BENT = 3.0
"""By so much a number is changed, mm or degrees: several times its limit."""


def remedies(material: FrameMaterial, rim: Rim) -> Iterator[tuple[Prompt, Remedy]]:
    """Every correction of the bench that suits a frame."""
    for prompt in BENCH:
        for remedy in prompt.remedies:
            fits = not remedy.materials or material in remedy.materials
            if fits and (not remedy.rims or rim in remedy.rims):
                yield prompt, remedy


def disturbed(prompt: Prompt, remedy: Remedy) -> set[str]:
    return {name for name in (prompt.id, *remedy.disturbs) if name in PLACE}


@settings(max_examples=200, deadline=None)
@given(
    st.sets(st.sampled_from(sorted(PLACE))),
    st.sampled_from(FrameMaterial),
    st.sampled_from(Rim),
    st.randoms(use_true_random=False),
)
def test_from_any_faults_the_loop_ends(
    faults: set[str], material: FrameMaterial, rim: Rim, random: Random
) -> None:
    """A hand that spoils what it can further out, and nothing further in, comes to an end."""
    by_check: dict[str, list[Remedy]] = {}
    for prompt, remedy in remedies(material, rim):
        by_check.setdefault(prompt.id, []).append(remedy)
    curable = {name for name in faults if name in by_check}
    steps = 0
    while curable:
        inner = min(curable, key=PLACE.__getitem__)
        remedy = random.choice(by_check[inner])
        spoiled = {
            name
            for name in disturbed(BENCH[PLACE[inner]], remedy)
            if PLACE[name] > PLACE[inner] and name in by_check and random.random() < 0.7
        }
        curable = (curable - {inner}) | spoiled
        steps += 1
        assert steps <= len(PLACE)


def moved(frames: ModuleType, number: str, side: Eye | None) -> set[str]:
    """The measured checks that show it by a reading step when a number of the frame changes."""
    true = FrameState.true()
    if side is None:
        bent = true.with_bridge(**{number: getattr(true.bridge, number) + BENT})
    else:
        bent = true.with_side(side, **{number: getattr(true.side(side), number) + BENT})
    before, after = (frames.exact(state, marks_over_own_rim=True) for state in (true, bent))
    return {
        check
        for check, shown in before.items()
        if any(
            abs(after[check][item.name] - shown[item.name]) >= float(item.step)
            for item in BENCH[PLACE[check]].inputs
            if item.name not in {"run", "apart", "separation"}
        )
    }


def test_no_check_that_a_bend_moves_stays_closed(frames: ModuleType) -> None:
    """The rigid frame itself says what moves; the graph may reopen more, and never less."""
    tried = 0
    for prompt in BENCH:
        for remedy in prompt.remedies:
            if remedy.bend not in STIRRED:
                continue
            missing = moved(frames, *STIRRED[remedy.bend]) - disturbed(prompt, remedy)
            assert missing == set(), (prompt.id, remedy.id)
            tried += 1
    assert tried > 20


def test_every_fault_can_be_put_right_on_metal_and_on_acetate() -> None:
    curable = {"rotation", "skew", "x-ing", "planes", "face-form", "four-point", "open-angle"}
    curable |= {"pantoscopic", "table-inverted", "shafts", "table-upright", "temple-bend"}
    for material, rim in product((FrameMaterial.METAL, FrameMaterial.ACETATE), (Rim.FULL,)):
        known = {prompt.id for prompt, _ in remedies(material, rim)}
        assert {f"bench.{name}" for name in curable} <= known


def test_warmth_reopens_more_than_the_same_bend_without() -> None:
    for prompt in BENCH:
        by_bend: dict[str, list[Remedy]] = {}
        for remedy in prompt.remedies:
            by_bend.setdefault(remedy.bend, []).append(remedy)
        for same in by_bend.values():
            warm = [set(one.disturbs) for one in same if one.heats]
            cold = [set(one.disturbs) for one in same if not one.heats]
            assert all(one > other for one in warm for other in cold)
