"""Closed forms against a real ray trace, within the differences known and named here."""

import tomllib
from math import radians, tan
from pathlib import Path
from typing import Any

import pytest

from benchassist.optics.eye import Eye
from benchassist.optics.power import Power, PowerMatrix
from benchassist.optics.prism import prentice
from benchassist.optics.thick import ThickLens
from benchassist.optics.tilt import (
    PANTOSCOPIC_AXIS,
    centre_drop,
    combined_tilt,
    exact_factors,
    martin_factors,
    prism_from_tilt,
    tilted,
)

TRACE = tomllib.loads(Path(__file__).with_name("lenses.toml").read_text("utf-8"))
Row = dict[str, Any]

FOUR_DECIMALS = 0.00005
THICK = 4e-5 + FOUR_DECIMALS
TORIC = 2.1e-6 + FOUR_DECIMALS
THIN_TILT = 5e-5 + FOUR_DECIMALS
BOTH_TILTS = 5.2e-6 + FOUR_DECIMALS
TILTED_TORIC = 1.3e-5 + FOUR_DECIMALS
MARTIN_TO_15 = 0.0133 + FOUR_DECIMALS
MARTIN_ON_A_REAL_LENS_TO_15 = {6: 0.06, 10: 0.14, 15: 0.44}
MARTIN_ON_A_REAL_LENS_TO_10 = {6: 0.03, 10: 0.06, 15: 0.17}
PRENTICE_SPHERE = {0.5: 5e-5, 2.0: 0.05, 5.0: 0.05, 10.0: 0.42}
PRENTICE_MATRIX = {1.0: 0.00052, 5.0: 0.036, 12.0: 0.73}
TILT_PRISM_SHARE = 0.13
REAL_LENS_CYLINDER_SHARE = 0.10


def rows(section: str) -> list[Row]:
    found: list[Row] = TRACE[section]["rows"]
    return found


def entries(matrix: PowerMatrix) -> list[float]:
    return [matrix.f11, matrix.f12, matrix.f12, matrix.f22]


def flat(printed: list[list[float]]) -> list[float]:
    return [value for row in printed for value in row]


def upper(limits: dict[float, float], size: float) -> float:
    return next(allowed for bound, allowed in sorted(limits.items()) if size <= bound + 1e-9)


def test_every_section_is_used() -> None:
    counts = {
        name: len(section["rows"]) for name, section in TRACE.items() if "rows" in section
    }
    assert counts == {
        "tilt_toric": 3,
        "tilt_prism": 5,
        "thick_lens": 7,
        "prentice_sphere": 24,
        "prentice_matrix": 30,
        "tilt": 70,
        "tilt_both": 3,
        "toric_matrix": 5,
        "oc_drop": 4,
    }


@pytest.mark.parametrize("row", rows("thick_lens"))
def test_vertex_powers(row: Row) -> None:
    lens = ThickLens(row["F1"], row["F2"], row["t"], row["n"])
    assert lens.back_vertex_power == pytest.approx(row["bvp_ray"], abs=THICK)
    assert lens.front_vertex_power == pytest.approx(row["fvp_ray"], abs=THICK)


@pytest.mark.parametrize("row", rows("toric_matrix"))
def test_toric_lens_is_its_matrix(row: Row) -> None:
    ours = entries(Power(row["S"], row["C"], row["A"]).matrix())
    assert ours == pytest.approx(flat(row["ray"]), abs=TORIC)


@pytest.mark.parametrize("row", rows("prentice_sphere"))
def test_prentice_on_a_sphere(row: Row) -> None:
    prism = prentice(Power(row["P"]), Eye.RIGHT, row["c_mm"], 0.0)
    allowed = PRENTICE_SPHERE[row["c_mm"]] + FOUR_DECIMALS
    assert prism.base_in == pytest.approx(row["ray"], abs=allowed)


@pytest.mark.parametrize("eye", Eye)
@pytest.mark.parametrize("row", rows("prentice_matrix"))
def test_prentice_with_the_matrix(row: Row, eye: Eye) -> None:
    """The trace gives the point looked through; the optical centre lies the other way."""
    oc_in, oc_up = -row["x_mm"] * eye.nasal_sign, -row["y_mm"]
    prism = prentice(Power(row["S"], row["C"], row["A"]), eye, oc_in, oc_up)
    allowed = upper(PRENTICE_MATRIX, (row["x_mm"] ** 2 + row["y_mm"] ** 2) ** 0.5)
    traced_right, traced_up = row["ray"]
    assert prism.base_in * eye.nasal_sign == pytest.approx(traced_right, abs=allowed)
    assert prism.base_up == pytest.approx(traced_up, abs=allowed)


def meridians(power: Power) -> tuple[float, float]:
    """The powers along and across the horizontal axis of turn."""
    return power.along(180.0), power.along(90.0)


@pytest.mark.parametrize("row", rows("tilt"))
def test_tilted_thin_lens(row: Row) -> None:
    exact = tilted(Power(row["F"]), exact_factors(row["tau"], row["n"]), PANTOSCOPIC_AXIS)
    assert meridians(exact) == pytest.approx(row["ray_thin"], abs=THIN_TILT)


@pytest.mark.parametrize("row", [row for row in rows("tilt") if row["tau"] <= 15])
def test_martin(row: Row) -> None:
    martin = tilted(Power(row["F"]), martin_factors(row["tau"], row["n"]), PANTOSCOPIC_AXIS)
    limits = MARTIN_ON_A_REAL_LENS_TO_15 if row["tau"] > 10 else MARTIN_ON_A_REAL_LENS_TO_10
    allowed = limits[next(bound for bound in limits if abs(row["F"]) <= bound)] + 0.005
    assert meridians(martin) == pytest.approx(row["ray_thin"], abs=MARTIN_TO_15)
    assert meridians(martin) == pytest.approx(row["ray_real"], abs=allowed)


@pytest.mark.parametrize("row", rows("tilt_toric"))
def test_tilted_thin_toric(row: Row) -> None:
    power = Power(row["S"], row["C"], row["A"])
    worn = tilted(power, exact_factors(row["tau"], row["n"]), PANTOSCOPIC_AXIS)
    assert entries(worn.matrix()) == pytest.approx(flat(row["matrix_ray"]), abs=TILTED_TORIC)
    assert (worn.sphere, worn.cylinder) == pytest.approx(row["ray"][:2], abs=0.0001)
    assert worn.axis == pytest.approx(row["ray"][2], abs=0.001)


@pytest.mark.parametrize("row", rows("tilt_both"))
def test_two_tilts_together(row: Row) -> None:
    """The trace tilts first and forms after; its meridian, two decimals, is taken from it."""
    angle = combined_tilt(row["panto"], row["wrap"], Eye.LEFT).angle
    turn = row["tilt_meridian_deg"] - 90.0
    worn = tilted(Power(row["F"]), exact_factors(angle, row["n"]), turn)
    assert angle == pytest.approx(row["phi"], abs=FOUR_DECIMALS)
    assert entries(worn.matrix()) == pytest.approx(flat(row["ray"]), abs=2 * BOTH_TILTS)


@pytest.mark.parametrize("row", rows("tilt_prism"))
def test_prism_from_tilt(row: Row) -> None:
    """The trace turns the right edge away: nasal for a right lens, so positive face form."""
    prism = prism_from_tilt(row["F1"], row["t"], row["n"], 0.0, row["tilt"])
    traced = row["ray_through_back_pole"]
    assert prism.base_in == pytest.approx(-row["formula_F1"], abs=0.0005)
    assert prism.base_in == pytest.approx(traced, rel=TILT_PRISM_SHARE)
    assert abs(prism.base_in) < abs(traced)


@pytest.mark.parametrize("row", rows("oc_drop"))
def test_lowered_centre_meets_the_centre_of_rotation(row: Row) -> None:
    """So lowered, the axis passes through it and less than a quarter of the cylinder stays."""
    traced = row["induced_cyl_D"]
    worn = tilted(Power(row["F"]), exact_factors(row["tau"], row["n"]), PANTOSCOPIC_AXIS)
    induced = worn.along(90.0) - worn.along(180.0)
    crossing = centre_drop(row["tau"]) / tan(radians(row["tau"]))
    assert crossing == pytest.approx(traced["crosses_axis_behind_back_vertex_mm"])
    assert induced == pytest.approx(traced["oc_at_pupil"], rel=REAL_LENS_CYLINDER_SHARE)
    assert abs(traced["oc_dropped"]) < abs(induced) / 4.0
