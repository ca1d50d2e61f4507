"""Defects keep their numbers in the whole list, whichever check they are asked for."""

from decimal import Decimal

from benchassist.job.surface import Defect, Inspection
from benchassist.optics.eye import Eye


def test_the_defects_of_a_check_keep_their_numbers() -> None:
    first, second, third = (
        Defect(check=check, eye=Eye.LEFT, across=Decimal(across), up=Decimal(0))
        for check, across in (("edge", 1), ("scratches", 2), ("edge", 3))
    )
    noted = Inspection(defects=(first, second, third))
    assert noted.noted_at("edge") == ((1, first), (3, third))
    assert noted.noted_at("scratches") == ((2, second),)
    assert noted.noted_at("waves") == ()
