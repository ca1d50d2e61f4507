"""The portion that each eye meets: rim, corridor, and the worse of two eyes."""

from typing import Any

import pytest

from benchassist.verdicts.finding import Finding
from tests.verdicts.worn_cases import FRAME, ON_PUPIL, PROGRESSIVE, SINGLE, UNLIKE, measured


def looked_through(order: dict[str, Any], right_up: str, left_up: str) -> Finding:
    """What is told of a front without tilt: reading, the eye meets 27 tan 30 = 15.59 mm."""
    flat = {**order, "frame": {**FRAME, "tilt": "0"}}
    cross = {**ON_PUPIL, "right_up": right_up, "left_up": left_up}
    return measured(flat, cross=cross)["fit.cross.zones"]


@pytest.mark.parametrize(("height", "is_there"), [("17.6", True), ("17.5", False)])
def test_within_two_millimetres_of_the_rim_nobody_reads(height: str, *, is_there: bool) -> None:
    """15.59 mm below a pupil that stands 17.6 mm over the rim leaves 2.01 mm."""
    lens = {**PROGRESSIVE["right"], "height": height}
    told = looked_through({**PROGRESSIVE, "left": lens}, "0", "0").sentence
    assert ("too shallow" not in told) is is_there


def test_the_corridor_is_as_long_as_its_maker_says() -> None:
    """A minimum height of 18 leaves 14 mm, and reading begins at 0.85 of them, 11.9 mm."""
    maker = {**PROGRESSIVE, "minimum_height": "18"}
    near = looked_through(maker, "-3.6", "-3.6")
    assert "15.6 mm below the pupil, near portion" in near.sentence
    assert not near.is_told
    assert (
        "below the pupil, corridor; for reading"
        in looked_through(maker, "-3.8", "-3.8").sentence
    )
    long = looked_through({**maker, "minimum_height": "24"}, "0", "0")
    assert "15.6 mm below the pupil, corridor" in long.sentence


def test_one_eye_that_misses_its_portion_is_enough() -> None:
    for ups in (("-4", "-3"), ("-3", "-4")):
        told = looked_through(PROGRESSIVE, *ups)
        assert told.is_told
        assert "for reading it should be the near portion: raise the front" in told.sentence


def test_a_front_that_rolls_is_levelled_before_it_is_raised() -> None:
    for ups in (("-4", "1"), ("1", "-4")):
        told = looked_through(PROGRESSIVE, *ups)
        assert "the near portion: the front rolls, level it first" in told.sentence
        assert "raise" not in told.sentence


def test_one_lens_of_a_plain_pair_at_the_rim_is_named_alone() -> None:
    shallow = {**SINGLE, "right": {**SINGLE["right"], "height": "14"}}
    told = looked_through(shallow, "0", "0").sentence
    assert "below the pupil, right lower rim; for reading the right lens is too shallow" in told


def test_the_deeper_of_two_eyes_is_told() -> None:
    order = {**PROGRESSIVE, "frame": {**FRAME, "tilt": "0"}}
    told = measured(order, vertex={"right": "12", "left": "15"}, cross=ON_PUPIL)
    # 30 tan 30 = 17.3 mm on the left, where 2.7 mm are left down to the rim.
    assert "down) 17.3 mm below the pupil" in told["fit.cross.zones"].sentence


def test_a_lens_without_zones_is_told_for_reading_alone() -> None:
    assert looked_through(SINGLE, "0", "0").sentence == (
        "Looked through: reading (40 cm, eyes 30° down) 15.6 mm below the pupil, for "
        "information."
    )


def test_a_centre_that_stands_high_makes_reading_worse() -> None:
    """4 D of difference at 15.59 + 3 mm below the centres: 7.44 prism dioptres."""
    assert "differ by 7.44 Δ" in looked_through(UNLIKE, "3", "3").sentence
    assert "differ by 5.04 Δ" in looked_through(UNLIKE, "-3", "-3").sentence
