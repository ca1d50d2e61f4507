import subprocess
import sys
from itertools import product

import numpy as np
import pytest

from benchassist.optics.arrays import Column, Powers, columns
from benchassist.optics.eye import Eye
from benchassist.optics.power import Power, difference
from benchassist.optics.prism import prentice

LENSES = tuple(
    Power(sphere, cylinder, axis if cylinder else None)
    for sphere, cylinder, axis in product(
        (-6.0, -0.25, 0.0, 3.125), (-2.5, -0.25, 0.0, 1.75), (1.0, 45.0, 90.0, 137.0, 180.0)
    )
)
TABLE = columns(
    [lens.sphere for lens in LENSES],
    [lens.cylinder for lens in LENSES],
    [lens.axis or 0.0 for lens in LENSES],
)


def same(ours: Column, theirs: list[float]) -> None:
    np.testing.assert_allclose(ours, theirs, rtol=0.0, atol=1e-12)


def written(table: Powers, lenses: list[Power]) -> None:
    same(table.sphere, [lens.sphere for lens in lenses])
    same(table.cylinder, [lens.cylinder for lens in lenses])
    np.testing.assert_allclose(table.axis, [lens.axis or 0.0 for lens in lenses], atol=1e-9)


def test_transposed() -> None:
    written(TABLE.transposed(), [lens.transposed() for lens in LENSES])


@pytest.mark.parametrize("meridian", [0.0, 33.0, 90.0, 180.0])
def test_along(meridian: float) -> None:
    same(TABLE.along(meridian), [lens.along(meridian) for lens in LENSES])


def test_vectors_and_back() -> None:
    vectors = TABLE.vectors()
    scalar = [lens.vector() for lens in LENSES]
    same(vectors.m, [one.m for one in scalar])
    same(vectors.j0, [one.j0 for one in scalar])
    same(vectors.j45, [one.j45 for one in scalar])
    same(vectors.length, [one.length for one in scalar])
    written(vectors.powers(), [one.power() for one in scalar])


def test_matrices_and_back() -> None:
    matrices = TABLE.matrices()
    scalar = [lens.matrix() for lens in LENSES]
    same(matrices.f11, [one.f11 for one in scalar])
    same(matrices.f12, [one.f12 for one in scalar])
    same(matrices.f22, [one.f22 for one in scalar])
    written(matrices.vectors().powers(), [one.power() for one in scalar])


def test_sum_and_difference() -> None:
    ordered = TABLE.vectors()
    measured = columns(-1.0, -0.5, 20.0).vectors()
    apart = [difference(Power(-1.0, -0.5, 20.0), lens) for lens in LENSES]
    same((measured - ordered).length, [one.length for one in apart])
    same((measured - ordered + ordered).j45, [measured.j45.item()] * len(LENSES))


@pytest.mark.parametrize("eye", Eye)
def test_prentice(eye: Eye) -> None:
    prisms = TABLE.prentice(eye.nasal_sign, 2.5, -4.0)
    scalar = [prentice(lens, eye, 2.5, -4.0) for lens in LENSES]
    same(prisms.base_in, [one.base_in for one in scalar])
    same(prisms.base_up, [one.base_up for one in scalar])


def test_columns_are_brought_to_one_length() -> None:
    table = columns([1.0, 2.0], -0.5, 90.0)
    assert table.cylinder.tolist() == [-0.5, -0.5]
    assert columns(1.5).axis.tolist() == 0.0


@pytest.mark.parametrize(
    "module", ["power", "prism", "meter", "near", "vertex", "tilt", "thick", "uncertainty"]
)
def test_scalar_modules_do_not_load_numpy(module: str) -> None:
    code = f"import sys, benchassist.optics.{module}; sys.exit('numpy' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
