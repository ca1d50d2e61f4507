"""What is proposed on the wearer goes the way that was measured, on its side, by its size.

Reckoned by hand: 95 mm from joint to ear, a PD of 64 mm, 122 mm between the ends.
"""

from decimal import Decimal
from typing import Any

import pytest

from benchassist.guide.prompts import StepId
from benchassist.guide.propose import GoOn, Proposal, proposal
from benchassist.job.checks import Answer, Seen
from benchassist.optics.eye import Eye
from tests.guide.bent import GUIDE, stands
from tests.verdicts.jobs import job_of, power

ORDER: dict[str, Any] = {
    "design": "progressive",
    "vertex_distance": "12",
    "frame": {
        "a": "52",
        "b": "40",
        "dbl": "18",
        "temple_length": "140",
        "tilt": "8",
        "material": "metal",
    },
    **{
        eye: {"power": power("-8.00"), "add": "2.00", "distance_pd": "32", "height": "20"}
        for eye in ("right", "left")
    },
}


def proposed(name: str, material: str = "metal", **measured: str) -> Proposal:
    """What is proposed where everything else on the wearer is good."""
    good = {
        prompt.name: Answer(seen=Seen.GOOD)
        for prompt in GUIDE.step(StepId.FIT).prompts
        if prompt.name not in {"distance-vision", "near-vision"}
    }
    read = {key: Decimal(value) for key, value in measured.items()}
    asked = {name: Answer(measured=read) if read else Answer(seen=Seen.FAULT)}
    frame = {**ORDER["frame"], "material": material}
    job = job_of({**ORDER, "frame": frame}, {})
    fit = job.now.fit.with_(answers={**good, **asked})
    found = proposal(stands(job.with_now(job.now.with_(fit=fit))), StepId.FIT)
    assert found is not None
    assert found.check == f"fit.{name}"
    return found


# atan(3 / 95) = 1.81; 2 asin(4.5 / 64) = 8.06; 3 x 122 / 64 = 5.72 mm, atan(5.72 / 95) = 3.45.
CASES = [
    (
        "level",
        {"ends": "3"},
        "right-higher",
        "Bend the right temple up at the endpiece by about 1.8°.",
    ),
    (
        "level",
        {"ends": "-3"},
        "left-higher",
        "Bend the left temple up at the endpiece by about 1.8°.",
    ),
    (
        "vertex",
        {"right": "10", "left": "14.5"},
        "right-closer",
        "Bring the right temple in by about 8.1°.",
    ),
    (
        "vertex",
        {"right": "14.5", "left": "10"},
        "left-closer",
        "Bring the left temple in by about 8.1°.",
    ),
    (
        "vertex",
        {"right": "6", "left": "6"},
        "off-the-lashes",
        "Move the front out, away from the face, by about 6.0 mm.",
    ),
    ("vertex", {"right": "19", "left": "19"}, "front-in", "Move the front in by about 7.0 mm."),
    ("tilt", {"tilt": "1"}, "more-tilt", "Put tilt in on both sides alike by about 7°."),
    ("tilt", {"tilt": "16"}, "less-tilt", "Take tilt out on both sides alike by about 8°."),
    (
        "cross",
        {"right_up": "-2", "left_up": "-2"},
        "raise-front",
        "Raise the front by about 2.0 mm.",
    ),
    (
        "cross",
        {"right_up": "2", "left_up": "2"},
        "lower-front",
        "Lower the front by about 2.0 mm.",
    ),
    (
        "cross",
        {"right_up": "1.5", "left_up": "-1.5"},
        "level-front",
        "Bend the right temple up at the endpiece by about 3.4°.",
    ),
    (
        "cross",
        {"right_up": "-1.5", "left_up": "1.5"},
        "level-front",
        "Bend the left temple up at the endpiece by about 3.4°.",
    ),
    (
        "cross",
        {"right_across": "2", "left_across": "-2"},
        "centre-front",
        "Move the front towards the wearer's right by about 2.0 mm.",
    ),
    (
        "cross",
        {"right_across": "-2", "left_across": "2"},
        "centre-front",
        "Move the front towards the wearer's left by about 2.0 mm.",
    ),
    (
        "face-form",
        {"right": "8", "left": "2"},
        "right-back",
        "Bring the right temple in by about 6°.",
    ),
    (
        "face-form",
        {"right": "2", "left": "8"},
        "left-back",
        "Bring the left temple in by about 6°.",
    ),
]


@pytest.mark.parametrize(("name", "measured", "remedy", "told"), CASES)
def test_the_proposal_goes_back_the_way_the_pair_sits(
    name: str, measured: dict[str, str], remedy: str, told: str
) -> None:
    if name == "cross":
        nought = dict.fromkeys(("right_across", "right_up", "left_across", "left_up"), "0")
        measured = nought | measured
    found = proposed(name, **measured)
    assert found.go_on is GoOn.CORRECT
    assert found.remedy is not None
    assert found.remedy.id == remedy
    assert found.sentence == told


def test_distances_that_do_not_match_the_pupils_are_not_bent_for() -> None:
    for size in ("2", "-2"):
        found = proposed(
            "cross", right_across=size, left_across=size, right_up="0", left_up="0"
        )
        assert found.go_on is GoOn.STOP
        assert found.remedy is None
        assert found.sentence.startswith("The lenses stand apart from both pupils the same way")


@pytest.mark.parametrize("name", ["bridge", "temples", "behind-ear"])
def test_where_only_the_eye_can_tell_the_person_says_which(name: str) -> None:
    found = proposed(name)
    assert (found.go_on, found.remedy, found.move) == (GoOn.CORRECT, None, None)
    assert found.sentence.startswith("Say below which")


def test_a_slipping_pair_does_not_tell_whether_it_is_tight_or_loose() -> None:
    assert proposed("slipping", slip="5").remedy is None


@pytest.mark.parametrize("eye", Eye)
def test_the_side_is_named_in_the_move(eye: Eye) -> None:
    found = proposed("level", ends="3" if eye is Eye.RIGHT else "-3")
    assert found.move is not None
    assert (found.move.side, found.move.number) == (eye, "pantoscopic")


@pytest.mark.parametrize(
    ("material", "remedy"), [("metal", "off-the-lashes"), ("acetate", "off-the-lashes-moulded")]
)
def test_a_moulded_bridge_is_built_up_and_never_spread(material: str, remedy: str) -> None:
    near = proposed("vertex", material=material, right="6", left="6")
    assert near.remedy is not None
    assert near.remedy.id == remedy
    far = proposed("vertex", material=material, right="19", left="19")
    assert far.go_on is (GoOn.CORRECT if material == "metal" else GoOn.STOP)


def test_no_temple_of_carbon_fibre_is_bent_on_the_wearer() -> None:
    assert proposed("level", material="carbon fibre", ends="3").go_on is GoOn.STOP
