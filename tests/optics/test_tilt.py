from math import acos, atan2, cos, degrees, radians, sin, sqrt

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from benchassist.optics.eye import Eye
from benchassist.optics.power import Power, axis_difference, normal_axis
from benchassist.optics.tilt import (
    FACE_FORM_AXIS,
    PANTOSCOPIC_AXIS,
    centre_drop,
    centre_drop_by_rule,
    combined_tilt,
    compensated,
    exact_factors,
    given_to_eye,
    made_for_eye,
    martin_factors,
    prism_from_tilt,
    tilted,
)

Array = NDArray[np.float64]

eighths = st.integers(-96, 96).map(lambda count: count / 8)
powers = st.builds(Power, eighths, eighths, st.integers(1, 180).map(float))
tilts = st.floats(0.0, 25.0)
axes = st.floats(1.0, 180.0)
modest = settings(max_examples=50)


def parts(power: Power) -> tuple[float, float, float]:
    vector = power.vector()
    return vector.m, vector.j0, vector.j45


@modest
@given(powers, tilts, axes)
def test_compensated_lens_gives_the_ordered_power(
    power: Power, tilt: float, axis: float
) -> None:
    factors = exact_factors(tilt, 1.6)
    worn = tilted(compensated(power, factors, axis), factors, axis)
    assert parts(worn) == pytest.approx(parts(power), abs=1e-9)


@modest
@given(powers, axes)
def test_no_tilt_changes_nothing(power: Power, axis: float) -> None:
    for factors in (exact_factors(0.0, 1.5), martin_factors(0.0, 1.5)):
        assert parts(tilted(power, factors, axis)) == pytest.approx(parts(power), abs=1e-9)


@modest
@given(st.floats(-15.0, 15.0), st.floats(0.0, 15.0))
def test_martin_stays_close_to_the_exact_lens(sphere: float, tilt: float) -> None:
    exact, martin = exact_factors(tilt, 1.498), martin_factors(tilt, 1.498)
    assert sphere * martin.sagittal == pytest.approx(sphere * exact.sagittal, abs=0.0134)
    assert sphere * martin.tangential == pytest.approx(sphere * exact.tangential, abs=0.0134)


@modest
@given(st.floats(1.0, 12.0), st.floats(1.0, 25.0), axes)
def test_induced_cylinder_lies_along_the_axis_of_turn(
    sphere: float, tilt: float, axis: float
) -> None:
    worn = tilted(Power(sphere), exact_factors(tilt, 1.5), axis).in_plus_form()
    assert worn.axis is not None
    assert axis_difference(worn.axis, axis) == pytest.approx(0.0, abs=1e-6)
    assert worn.sphere > sphere


@modest
@given(powers, tilts, tilts)
def test_right_and_left_are_mirror_images(power: Power, down: float, back: float) -> None:
    axis = None if power.axis is None else normal_axis(180.0 - power.axis)
    mirrored = Power(power.sphere, power.cylinder, axis)
    right, left = (combined_tilt(down, back, eye) for eye in (Eye.RIGHT, Eye.LEFT))
    assert right.angle == left.angle
    m, j0, j45 = parts(given_to_eye(power, right, 1.5))
    other = parts(given_to_eye(mirrored, left, 1.5))
    assert other == pytest.approx((m, j0, -j45), abs=1e-9)


@pytest.mark.parametrize("eye", Eye)
@pytest.mark.parametrize(("down", "back"), [(8.0, 6.0), (10.0, 15.0), (12.0, 20.0), (0.0, 5.0)])
def test_both_tilts_by_turning_the_normal_in_space(down: float, back: float, eye: Eye) -> None:
    """The normal points outwards by the face form, then the whole front tips downwards."""
    x, z = -eye.nasal_sign * sin(radians(back)), cos(radians(back))
    y, z = -z * sin(radians(down)), z * cos(radians(down))
    tilt = combined_tilt(down, back, eye)
    assert tilt.angle == pytest.approx(degrees(acos(z)), abs=1e-6)
    lean = degrees(atan2(y, x))
    assert axis_difference(tilt.axis_of_turn, lean + 90.0) == pytest.approx(0.0, abs=1e-9)


def _traced(power: Power, down: float, back: float, eye: Eye, index: float) -> Array:
    """The power matrix at the eye, D, of a thin toric lens between two traced surfaces.

    Two rays a hair to either side of straight ahead, along x and along y of the wearer, through
    z = -(C r, r) / 2 in front and behind in the lens's frame, lengths in metres. What the rays
    are turned by, over their distance, is the power: no tilt formula comes in.
    """
    axis, w, p = radians(power.axis or 0.0), -eye.nasal_sign * radians(back), radians(down)
    u, v = np.array([cos(axis), sin(axis)]), np.array([-sin(axis), cos(axis)])
    surface = power.sphere * np.outer(u, u) + (power.sphere + power.cylinder) * np.outer(v, v)
    front = np.eye(2) * 3.0 / (index - 1.0)
    behind = front - surface / (index - 1.0)
    form = np.array([[cos(w), 0, sin(w)], [0, 1, 0], [-sin(w), 0, cos(w)]])
    lean = np.array([[1, 0, 0], [0, cos(p), -sin(p)], [0, sin(p), cos(p)]])
    lens = lean @ form
    step = 2e-5
    sides = []
    for offset in np.eye(2) * step:
        rays = []
        for sign in (1.0, -1.0):
            at = lens.T @ np.array([*(sign * offset), 0.02])
            way = lens.T @ np.array([0.0, 0.0, -1.0])
            for bent, ratio in ((front, 1.0 / index), (behind, index)):
                at, way = _refracted(at, way, bent, ratio)
            world = lens @ way
            rays.append(world[:2] / -world[2])
        sides.append((rays[1] - rays[0]) / (2.0 * step))
    return np.array(sides).T


def _refracted(at: Array, way: Array, bent: Array, ratio: float) -> tuple[Array, Array]:
    """Where a ray meets a surface and how it goes on, by Snell's law in vectors."""
    along = -at[2] / way[2]
    for _ in range(20):
        here = at + along * way
        curved = bent @ here[:2]
        off = here[2] + curved @ here[:2] / 2.0
        along -= off / (way[2] + curved @ way[:2])
    here = at + along * way
    normal = np.array([*(bent @ here[:2]), 1.0])
    normal /= np.linalg.norm(normal)
    falls = -normal @ way
    return here, ratio * way + (
        ratio * falls - sqrt(1.0 - ratio**2 * (1.0 - falls**2))
    ) * normal


BOTH_TILTED = [
    (10.0, 6.0, Power(-6.0, -1.0, 30.0), 1.5),
    (12.0, 20.0, Power(-4.0, -3.0, 45.0), 1.5),
    (18.0, 18.0, Power(5.0, -3.0, 120.0), 1.67),
    (8.0, -4.0, Power(2.0, -2.5, 10.0), 1.6),
]


@pytest.mark.parametrize("eye", Eye)
@pytest.mark.parametrize(("down", "back", "power", "index"), BOTH_TILTED)
def test_both_tilts_on_a_cylinder_as_rays_go(
    down: float, back: float, power: Power, index: float, eye: Eye
) -> None:
    given_power = given_to_eye(power, combined_tilt(down, back, eye), index).matrix()
    found = [given_power.f11, given_power.f12, given_power.f12, given_power.f22]
    traced = _traced(power, down, back, eye, index).flatten()
    assert found == pytest.approx(traced, abs=2e-5)


@modest
@given(powers, tilts, tilts)
def test_lens_made_for_both_tilts_gives_what_it_was_made_for(
    power: Power, down: float, back: float
) -> None:
    tilt = combined_tilt(down, back, Eye.LEFT)
    worn = given_to_eye(made_for_eye(power, tilt, 1.6), tilt, 1.6)
    assert parts(worn) == pytest.approx(parts(power), abs=1e-9)


def test_single_tilts_and_none() -> None:
    assert combined_tilt(0.0, 0.0, Eye.RIGHT).angle == 0.0
    assert combined_tilt(0.0, 0.0, Eye.LEFT).axis_of_turn == PANTOSCOPIC_AXIS
    only_down = combined_tilt(9.0, 0.0, Eye.LEFT)
    assert only_down.angle == pytest.approx(9.0)
    assert only_down.axis_of_turn == PANTOSCOPIC_AXIS
    only_back = combined_tilt(0.0, 7.0, Eye.LEFT)
    assert only_back.angle == pytest.approx(7.0)
    assert only_back.axis_of_turn == pytest.approx(FACE_FORM_AXIS)


@modest
@given(st.floats(1.0, 12.0), st.floats(1.0, 9.0), tilts, tilts)
def test_prism_from_tilt_lies_out_and_down(
    front: float, thickness: float, down: float, back: float
) -> None:
    prism = prism_from_tilt(front, thickness, 1.5, down, back)
    assert prism.base_in <= 0.0
    assert prism.base_up <= 0.0
    reverse = prism_from_tilt(front, thickness, 1.5, -down, -back)
    assert (reverse.base_in, reverse.base_up) == (-prism.base_in, -prism.base_up)


def test_centre_is_lowered_by_about_half_a_millimetre_a_degree() -> None:
    assert centre_drop(10.0) == pytest.approx(4.76, abs=0.005)
    assert centre_drop(2.0) == pytest.approx(centre_drop_by_rule(2.0), abs=0.06)
    assert centre_drop(-5.0) == -centre_drop(5.0)


@pytest.mark.parametrize("tilt", [90.0, -120.0, float("nan")])
def test_impossible_tilt_is_refused(tilt: float) -> None:
    with pytest.raises(ValueError, match=str(tilt)):
        exact_factors(tilt, 1.5)
    with pytest.raises(ValueError, match=str(tilt)):
        combined_tilt(tilt, 0.0, Eye.RIGHT)
    with pytest.raises(ValueError, match=str(tilt)):
        centre_drop(tilt)


def test_impossible_index_is_refused() -> None:
    for refuse in (exact_factors, martin_factors):
        with pytest.raises(ValueError, match=r"index 1\.0"):
            refuse(10.0, 1.0)
    with pytest.raises(ValueError, match=r"index 0\.5"):
        prism_from_tilt(6.0, 2.0, 0.5, 5.0, 5.0)
