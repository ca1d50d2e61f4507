"""Gaps that no rigid front can show are refused in a sentence that names them."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchassist.geometry.alignment import (
    AlongFront,
    LeanGaps,
    form_from_depth,
    four_point,
    open_angle,
    pantoscopic_angle,
    skew,
    x_ing,
)
from benchassist.geometry.bench_measured import (
    Tools,
    measured_fold,
    measured_inverted,
    measured_lens_turn,
    measured_upright,
)
from benchassist.geometry.possible import READING_ERROR, Impossible, refuse_bends_apart
from benchassist.geometry.touch import Gaps, inverted_angle, two_way_touch, upright_angle
from benchassist.optics.eye import Eye

DOWN = Gaps(0.0, 0.0)
EXACT = Tools(gap=0.0)


@pytest.mark.parametrize(
    ("said", "refused"),
    [
        (
            "both tips were read as lifted, 2 mm right and 0.6 mm left, but one always",
            lambda: upright_angle(Gaps(2.0, 0.6), 128.0),
        ),
        (
            "both shafts were read as lifted, 2 mm right and 0.6 mm left, but one always",
            lambda: inverted_angle(Gaps(2.0, 0.6), 100.0),
        ),
        ("both tips", lambda: two_way_touch(Gaps(1.0, 1.0), 128.0, DOWN, 100.0)),
        ("both shafts", lambda: two_way_touch(DOWN, 128.0, Gaps(1.0, 1.0), 100.0)),
        (
            "with gaps of 0.6, 2, 3 and 1 mm the straight edge touches nowhere: press it",
            lambda: four_point(AlongFront(0.6, 2.0, 3.0, 1.0), 50.0, 9.0),
        ),
        (
            "with a gap of -1 mm among 0, 4, -1 and 0 mm the straight edge would cut into",
            lambda: four_point(AlongFront(0.0, 4.0, -1.0, 0.0), 50.0, 9.0),
        ),
        (
            "the ends of the left lens were read at 62 and 3 mm, further apart than the 50 mm",
            lambda: skew(AlongFront(3.0, 3.0, 3.0, 62.0), 50.0, 9.0),
        ),
        (
            "the ends of the right lens were read at 60 and 0 mm",
            lambda: four_point(AlongFront(60.0, 0.0, 0.0, 0.0), 50.0, 9.0),
        ),
        (
            "the ends of the right lens were read at 3 and 62 mm",
            lambda: skew(AlongFront(3.0, 62.0, 3.0, 3.0), 50.0, 9.0),
        ),
        (
            "gaps of 9 mm at the top and -9 mm at the bottom would lean the left lens by 31.0°",
            lambda: x_ing(LeanGaps(0.0, 0.0), LeanGaps(9.0, -9.0), 30.0),
        ),
        (
            "an offset of -20 mm over 38 mm would lean the temple by -31.8°",
            lambda: pantoscopic_angle(-20.0, 38.0),
        ),
        (
            "gaps of 0, 40, 40, 0 mm from the right end to the left would make the face form",
            lambda: four_point(AlongFront(0.0, 40.0, 40.0, 0.0), 50.0, 9.0),
        ),
        (
            "a depth of -13 mm over 130 mm would make the face form of each lens -11.3°",
            lambda: form_from_depth(-13.0, 130.0),
        ),
        (
            "85 mm outwards at 100 mm behind the joint would make the open temple angle 130.4°",
            lambda: open_angle(85.0, 100.0),
        ),
        ("-60 mm outwards at 100 mm", lambda: open_angle(-60.0, 100.0)),
        (
            "marks 5 mm apart in height over 10 mm would make the turn of the lens -30.0°",
            lambda: measured_lens_turn(Eye.RIGHT, 5.0, 0.0, 10.0, EXACT),
        ),
        (
            "a height of -50 mm over 66 mm would make the climb of a folded temple -37.1°",
            lambda: measured_fold(50.0 - 40.0, -50.0, 66.0, EXACT),
        ),
        (
            "gaps of 0 and 60 mm under the tips over 100 mm would make the angle",
            lambda: measured_upright(Gaps(0.0, 60.0), 100.0, EXACT),
        ),
        (
            "gaps of 60 and 0 mm under the shafts over 100 mm would make the angle",
            lambda: measured_inverted(Gaps(60.0, 0.0), 100.0, EXACT),
        ),
        (
            "the bends were read as starting at 130 mm right and 20 mm left",
            lambda: refuse_bends_apart(130.0, 20.0),
        ),
    ],
)
def test_an_impossible_set_is_refused(said: str, refused: object) -> None:
    assert callable(refused)
    with pytest.raises(Impossible, match=r"[^.]$") as found:
        refused()
    assert str(found.value).startswith(said)
    assert ": " in str(found.value), "it says what to do"


@settings(max_examples=30)
@given(st.floats(0.0, READING_ERROR), st.floats(0.0, 20.0), st.floats(80.0, 150.0))
def test_a_touch_read_within_the_error_is_taken(touch: float, lift: float, run: float) -> None:
    for gaps in (Gaps(touch, lift), Gaps(lift, touch)):
        upright_angle(gaps, run)
        inverted_angle(gaps, run)


def test_what_lies_just_inside_is_taken() -> None:
    both = Gaps(READING_ERROR, READING_ERROR)
    cutting = AlongFront(-READING_ERROR, 1.0, 1.0, -READING_ERROR)
    assert four_point(cutting, 50.0, 9.0).total == pytest.approx(3.44, abs=0.01)
    assert upright_angle(both, 128.0) == inverted_angle(both, 100.0) == 0.0
    edge = AlongFront(READING_ERROR, 1.0, 1.0, READING_ERROR)
    assert four_point(edge, 50.0, 9.0).total == pytest.approx(1.15, abs=0.01)
    assert open_angle(-57.7, 100.0) > 60.0
    assert open_angle(83.9, 100.0) < 130.0
    assert LeanGaps(8.6, -8.6).lean(30.0) < 30.0
    assert form_from_depth(-11.4, 130.0) > -10.0


def test_an_edge_that_lies_aslant_is_no_impossible_form() -> None:
    """A reversed front with a plane step: the edge touches both nasal ends and leans far."""
    found = four_point(AlongFront(10.0, 0.0, 0.0, 1.0), 52.0, 9.0)
    assert found.right_form < -10.0
    assert found.total > -20.0
