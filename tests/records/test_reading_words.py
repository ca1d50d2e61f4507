"""Readings in the words of the bench."""

from decimal import Decimal

import pytest

from benchassist.job.order import PolarPrism, Surface
from benchassist.job.readings import (
    DisplayAdd,
    DisplayReading,
    DrumAdd,
    DrumReading,
    LensReadings,
    PrismReading,
)
from benchassist.optics.eye import Eye
from benchassist.records.reading_words import MeterReading, meter_readings, typed

SHOWN = DisplayReading(sphere=Decimal("-2.25"), cylinder=Decimal("-0.75"), axis=Decimal(165))
TURNED = DrumReading(
    sphere_lines=Decimal("-2.25"), cylinder_lines=Decimal("-3.00"), axis_wheel=Decimal("164.5")
)


@pytest.mark.parametrize(
    ("reading", "text"),
    [
        (SHOWN, "−2.25 −0.75 × 165"),
        (DisplayReading(sphere=Decimal(1), cylinder=Decimal(0)), "+1.00"),
        (DisplayReading(sphere=Decimal(1)), "sphere +1.00 D"),
        (DisplayReading(), ""),
        (TURNED, "sphere lines −2.25 D, cylinder lines −3.00 D, axis wheel 164.5°"),
        (DrumReading(sphere_lines=Decimal(1)), "sphere lines +1.00 D"),
        (DisplayAdd(shown=Decimal(2)), "+2.00 D (back surface on the stop)"),
        (
            DrumAdd(
                surface=Surface.FRONT, distance_lines=Decimal(-2), near_lines=Decimal("0.25")
            ),
            "distance −2.00 D, near +0.25 D (front surface on the stop)",
        ),
        (
            PrismReading(prism=PolarPrism(amount=Decimal("1.5"), base=Decimal(90))),
            "1.50 Δ base 90° (= 1.50 up)",
        ),
    ],
)
def test_a_reading_is_told_as_typed(reading: MeterReading, text: str) -> None:
    assert typed(reading, Eye.RIGHT) == text


def test_all_readings_of_a_lens_meter_are_found() -> None:
    add = DisplayAdd(shown=Decimal(2))
    lens = LensReadings(distance=(SHOWN, TURNED), near=(add,), intermediate=(add,))
    assert meter_readings(lens) == (SHOWN, TURNED, add, add)
