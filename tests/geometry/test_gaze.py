"""Where an eye looks through its lens."""

from math import radians, sqrt, tan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchassist.geometry.gaze import (
    FAR,
    GAZES,
    READING,
    SCREEN,
    depth_below,
    inset,
    rotation_distance,
)
from benchassist.optics.tilt import centre_drop

TILTS = st.floats(-10.0, 25.0)
LOWERED = st.floats(0.0, 45.0)
ROTATIONS = st.floats(20.0, 35.0)


def test_the_usual_distance_is_the_customary_mean() -> None:
    assert rotation_distance(12.0) == pytest.approx(27.0)
    with pytest.raises(ValueError, match="below zero"):
        rotation_distance(-1.0)


def test_without_tilt_it_is_the_tangent() -> None:
    assert depth_below(30.0, 0.0, 27.0) == pytest.approx(27.0 * tan(radians(30.0)))


@given(TILTS, ROTATIONS)
def test_an_eye_lowered_by_the_tilt_looks_along_the_axis(tilt: float, rotation: float) -> None:
    drop = rotation * tan(radians(tilt))
    assert centre_drop(tilt, rotation) == pytest.approx(drop)
    # Square to the lens the way from the centre of rotation is s cos t, the depth s sin t.
    assert depth_below(tilt, tilt, rotation) == pytest.approx(drop * _cosine(tilt))


def _cosine(tilt: float) -> float:
    return 1.0 / sqrt(1.0 + tan(radians(tilt)) ** 2)


@given(LOWERED, st.floats(0.5, 10.0), TILTS, ROTATIONS)
def test_lower_eyes_look_through_lower_down(
    lowered: float, more: float, tilt: float, rotation: float
) -> None:
    assert depth_below(lowered + more, tilt, rotation) > depth_below(lowered, tilt, rotation)


@given(LOWERED, TILTS, ROTATIONS)
def test_raising_the_eyes_mirrors_it(lowered: float, tilt: float, rotation: float) -> None:
    up, down = depth_below(-lowered, -tilt, rotation), depth_below(lowered, tilt, rotation)
    assert up == pytest.approx(-down)


def test_reading_meets_the_lens_below_the_screen_and_nearer_the_nose() -> None:
    depths = [depth_below(gaze.lowered, 9.0, 27.0) for gaze in GAZES]
    assert depths == sorted(depths)
    assert depths[0] == 0.0
    insets = [inset(32.0, gaze.distance, 27.0) for gaze in (FAR, SCREEN, READING)]
    assert insets[0] == 0.0
    assert insets[2] == pytest.approx(32.0 * 27.0 / 427.0)
    assert insets == sorted(insets)


def test_sixty_degrees_are_the_most_and_can_be() -> None:
    assert depth_below(60.0, 0.0, 27.0) == pytest.approx(27.0 * tan(radians(60.0)))
    assert depth_below(-60.0, 0.0, 27.0) == pytest.approx(-27.0 * tan(radians(60.0)))


@pytest.mark.parametrize(("lowered", "tilt"), [(61.0, 0.0), (-61.0, 0.0), (0.0, 30.0)])
def test_what_no_eye_and_no_front_does_is_refused(lowered: float, tilt: float) -> None:
    with pytest.raises(ValueError, match=r"lowered|tilt"):
        depth_below(lowered, tilt, 27.0)
