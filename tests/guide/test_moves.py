"""The bend that is proposed for a frame bent in space undoes it: place, side, way and size."""

from decimal import Decimal
from types import ModuleType
from typing import Any

import pytest

from benchassist.geometry.frame_state import FrameState
from benchassist.guide.moves import Move, move_for, one_temple
from benchassist.guide.propose import GoOn, Proposal
from benchassist.job.checks import Answer
from benchassist.job.document import Job
from benchassist.job.order import FrameMaterial
from benchassist.optics.eye import Eye
from tests.guide.bent import job_of, stands
from tests.guide.test_propose import proposed

TRUE = FrameState.true()


def sentence(frames: ModuleType, state: FrameState) -> str:
    one = proposed(job_of(frames, state))
    assert one.go_on is GoOn.CORRECT
    return one.sentence


# The signs are those of `Bridge`; the way back is the opposite one. Own derivation. Gaps over a
# width that is taken along the lens read 18 degrees of form as 17.8.
BRIDGE = [
    ({"skew_step": 3.0}, "Bring the left half down against the right by about 3.0 mm."),
    ({"skew_step": -3.0}, "Bring the left half up against the right by about 3.0 mm."),
    ({"x_ing": 3.0}, "Bring the top of the left lens back against the right by about 3°."),
    (
        {"x_ing": -3.0},
        "Bring the top of the left lens forward against the right by about 3°.",
    ),
    ({"plane_step": 3.0}, "Bring the left lens back against the right by about 3.0 mm."),
    ({"plane_step": -3.0}, "Bring the left lens forward against the right by about 3.0 mm."),
    (
        {"form_right": 9.0, "form_left": 9.0},
        "Ease both lenses flatter, shared alike, by about 9.8°.",
    ),
    (
        {"form_right": -1.0, "form_left": -1.0},
        "Swing both lenses back, shared alike, by about 10°.",
    ),
]


@pytest.mark.parametrize(("bent", "told"), BRIDGE, ids=[told for _, told in BRIDGE])
def test_the_bridge_is_bent_back_the_way_it_came(
    frames: ModuleType, bent: dict[str, float], told: str
) -> None:
    assert sentence(frames, TRUE.with_bridge(**bent)) == told


SIDES = [
    ("lens_turn", 4.0, "Turn the {eye} lens clockwise by about 4°."),
    ("lens_turn", -4.0, "Turn the {eye} lens counter-clockwise by about 4°."),
    ("open_angle", 6.0, "Bring the {eye} temple in by about 6°."),
    ("open_angle", -6.0, "Let the {eye} temple out by about 6°."),
    ("pantoscopic", 4.0, "Bend the {eye} temple up at the endpiece by about 4°."),
    ("pantoscopic", -4.0, "Bend the {eye} temple down at the endpiece by about 4°."),
    ("bend_start", 8.0, "Move the {eye} bend forward by about 8.0 mm."),
    ("bend_start", -8.0, "Move the {eye} bend back by about 8.0 mm."),
    ("drop", 18.0, "Bend the {eye} tip up by about 18°."),
    ("drop", -18.0, "Bend the {eye} tip down by about 18°."),
]


@pytest.mark.parametrize("eye", Eye)
@pytest.mark.parametrize(("number", "by", "told"), SIDES, ids=[told for *_, told in SIDES])
def test_one_side_is_bent_back_the_way_it_came(
    frames: ModuleType, eye: Eye, number: str, by: float, told: str
) -> None:
    bent = TRUE.with_side(eye, **{number: getattr(TRUE.side(eye), number) + by})
    assert sentence(frames, bent) == told.format(eye=eye)


@pytest.mark.parametrize("eye", Eye)
@pytest.mark.parametrize("material", [FrameMaterial.METAL, FrameMaterial.ACETATE])
@pytest.mark.parametrize(
    ("by", "ids"),
    [(6.0, {"bring-in", "press"}), (-6.0, {"let-out", "press"})],
    ids=["in", "out"],
)
def test_the_correction_goes_the_same_way_as_the_bend(
    frames: ModuleType, eye: Eye, material: FrameMaterial, by: float, ids: set[str]
) -> None:
    bent = TRUE.with_side(eye, open_angle=TRUE.side(eye).open_angle + by)
    one = proposed(job_of(frames, bent, material=material))
    assert one.remedy is not None
    assert one.remedy.id.removesuffix("-warm") in ids


@pytest.mark.parametrize("material", [FrameMaterial.METAL, FrameMaterial.ACETATE])
@pytest.mark.parametrize(
    ("bent", "names"),
    [
        ({"plane_step": 3.0}, {"even-planes"}),
        ({"form_right": 9.0, "form_left": 9.0}, {"even-form"}),
        ({"form_right": -1.0, "form_left": -1.0}, {"even-form"}),
    ],
)
def test_the_front_is_evened_in_planes_or_in_form(
    frames: ModuleType, material: FrameMaterial, bent: dict[str, float], names: set[str]
) -> None:
    one = proposed(job_of(frames, TRUE.with_bridge(**bent), material=material))
    assert one.remedy is not None
    assert one.remedy.id.removesuffix("-warm") in names


def changed(frames: ModuleType, state: FrameState, **checks: dict[str, str]) -> Proposal:
    """What is proposed with some checks of the bench measured otherwise."""
    job = job_of(frames, state)
    answers: dict[str, Any] = dict(job.now.bench.answers)
    for name, values in checks.items():
        check = name.replace("_", "-")
        read = {**answers[check].measured, **{key: Decimal(at) for key, at in values.items()}}
        answers[check] = Answer(measured=read)
    return proposed(job.with_now(job.now.with_(bench=job.now.bench.with_(answers=answers))))


@pytest.mark.parametrize("eye", Eye)
def test_the_tip_that_presses_on_the_table_is_bent_up(frames: ModuleType, eye: Eye) -> None:
    """A tip of a rigid frame at rest, bent 5 degrees too low: it lifts the other one."""
    bent = TRUE.with_side(eye, drop=TRUE.side(eye).drop + 5.0)
    one = proposed(job_of(frames, bent))
    assert one.check == "bench.table-upright"
    assert one.move is not None
    assert (one.move.number, one.move.side) == ("drop", eye)
    assert one.sentence.startswith(f"Bend the {eye} tip up by about 5.")
    assert float(one.move.change) == pytest.approx(-5.0, rel=0.15)


def test_a_steep_and_a_short_end_are_bent_by_no_more_than_they_can(frames: ModuleType) -> None:
    """At 60 degrees and steeper an end counts as at 60, and one of 4 mm as of 10.

    60 - asin(sin 60 - 3 / 45) = 60 - 53.06 and asin(3 / 10) = 17.46. Own derivation.
    """
    gaps = {"left_gap": "3.0", "right_gap": "0"}
    steep = {"right_drop": "80", "left_drop": "80"}
    told = changed(frames, TRUE, table_upright=gaps, temple_bend=steep).sentence
    assert told == "Bend the right tip up by about 6.9°."
    short = {"right_start": "141", "left_start": "141", "right_drop": "0", "left_drop": "0"}
    told = changed(frames, TRUE, table_upright=gaps, temple_bend=short).sentence
    assert told == "Bend the right tip up by about 17.5°."


@pytest.mark.parametrize("eye", Eye)
def test_a_tip_far_too_low_is_bent_back_by_what_it_is_off(frames: ModuleType, eye: Eye) -> None:
    """45 mm that drop by 55 degrees instead of 45 hang 45 (sin 55 - sin 45) = 5.04 mm lower.

    The slope at 55 degrees would ask for 5.04 / (45 cos 55) = 11.2 degrees. Own derivation.
    """
    bends = {f"{one}_drop": "45" for one in Eye} | {f"{eye}_drop": "55"}
    gaps = {f"{eye.other}_gap": "5.04", f"{eye}_gap": "0"}
    job = answered(
        job_of(frames, TRUE),
        temple_bend=Answer(
            measured=numbers({"right_start": "100", "left_start": "100", **bends})
        ),
        table_upright=Answer(measured=numbers({**gaps, "run": "132"})),
    )
    move = moved(job, "bench.table-upright")
    assert move is not None
    assert (move.number, move.side) == ("drop", eye)
    assert float(move.change) == pytest.approx(-10.0, abs=0.1)


def numbers(read: dict[str, str]) -> dict[str, Decimal]:
    return {name: Decimal(value) for name, value in read.items()}


@pytest.mark.parametrize(
    ("heights", "told"),
    [
        (("6", "1"), "Turn the right joint until its folded temple lies lower, by about 4.3°."),
        (("1", "6"), "Turn the left joint until its folded temple lies lower, by about 4.3°."),
        (
            ("-6", "0"),
            "Turn the right joint until its folded temple climbs more, by about 5.2°.",
        ),
        (
            ("0", "-6"),
            "Turn the left joint until its folded temple climbs more, by about 5.2°.",
        ),
    ],
)
def test_the_joint_whose_temple_folds_further_from_level_is_turned(
    frames: ModuleType, heights: tuple[str, str], told: str
) -> None:
    """atan(6 / 66) - atan(1 / 66) = 4.33 and atan(6 / 66) = 5.19 degrees. Own derivation."""
    right, left = heights
    fold = numbers({"right_height": right, "left_height": left, "half_width": "66"})
    one = proposed(answered(job_of(frames, TRUE), fold=Answer(measured=fold)))
    assert one.sentence == told
    assert one.remedy is not None
    assert one.remedy.id == "set-joint"


def test_the_side_further_from_the_order_is_bent(frames: ModuleType) -> None:
    """Both temples are off: the one further from what is usual or ordered goes to the other."""
    state = TRUE.with_side(Eye.RIGHT, open_angle=97.0).with_side(Eye.LEFT, open_angle=89.0)
    assert sentence(frames, state) == "Let the left temple out by about 8°."
    bends = {"right_start": "103", "left_start": "94"}
    told = changed(frames, TRUE, temple_bend=bends).sentence
    assert told == "Move the left bend back by about 9.0 mm."
    # Ordered with 2 degrees of tilt: the right one is the odd one, with usual ones the left.
    state = TRUE.with_side(Eye.RIGHT, pantoscopic=8.0).with_side(Eye.LEFT, pantoscopic=4.0)
    job = job_of(frames, state, tilt=Decimal(2))
    assert proposed(job).sentence == "Bend the right temple up at the endpiece by about 4°."
    job = job_of(frames, state)
    assert proposed(job).sentence == "Bend the left temple down at the endpiece by about 4°."


@pytest.mark.parametrize("lower", ["4", "-4"])
def test_a_temple_angle_to_be_measured_again_no_longer_says_which_side(
    frames: ModuleType, lower: str
) -> None:
    """Both sides are then equally far from what is usual, and the right one is bent."""
    state = TRUE.with_side(Eye.LEFT, pantoscopic=TRUE.left.pantoscopic - float(lower))
    job, apart = job_of(frames, state), Decimal(lower)
    assert one_temple(job, apart).side is Eye.LEFT
    answers = dict(job.now.bench.answers)
    again = answers["pantoscopic"].with_(again_because=("bench.skew",))
    bench = job.now.bench.with_(answers={**answers, "pantoscopic": again})
    move = one_temple(job.with_now(job.now.with_(bench=bench)), apart)
    assert (move.side, move.change) == (Eye.RIGHT, -apart)


def answered(job: Job, **changed: Answer | None) -> Job:
    """The job with some answers of the bench changed, or without them."""
    bench = job.now.bench
    answers = dict(bench.answers) | {k.replace("_", "-"): v for k, v in changed.items()}
    kept = {name: answer for name, answer in answers.items() if answer is not None}
    return job.with_now(job.now.with_(bench=bench.with_(answers=kept)))


def moved(job: Job, key: str) -> Move | None:
    return move_for(job, next(one for one in stands(job).findings if one.key == key))


@pytest.mark.parametrize(
    "pantoscopic",
    [None, Answer(measured={"right_offset": Decimal(39), "left_offset": Decimal(0)})],
    ids=["not measured", "cannot be"],
)
def test_without_the_angles_a_temple_is_taken_to_be_as_far_off_as_the_other(
    frames: ModuleType, pantoscopic: Answer | None
) -> None:
    job = answered(job_of(frames, FrameState.true()), pantoscopic=pantoscopic)
    assert one_temple(job, Decimal(2)) == Move("pantoscopic", Decimal(-2), "°", Eye.RIGHT)


@pytest.mark.parametrize("lacking", ["table-inverted", "temple-bend"])
def test_a_tip_is_not_bent_while_it_cannot_be_told_from_the_rest(
    frames: ModuleType, lacking: str
) -> None:
    state = FrameState.true()
    job = job_of(frames, state.with_side(Eye.RIGHT, drop=state.right.drop + 8.0))
    key = "bench.table-upright"
    assert moved(job, key) is not None
    assert moved(answered(job, **{lacking: None}), key) is None


def test_what_is_to_be_measured_again_tells_no_bend(frames: ModuleType) -> None:
    job = job_of(frames, FrameState.true().with_bridge(skew_step=3.0))
    finding = next(one for one in stands(job).outside if one.key == "bench.skew")
    again = job.now.bench.answers["skew"].with_(again_because=("bench.skew",))
    assert move_for(job, finding) is not None
    assert move_for(answered(job, skew=again), finding) is None
