"""Lens meters, their steps, and the figures that a display cuts short."""

from decimal import Decimal

import pytest

from benchassist.job.instrument import Instrument, Speech, as_shown, exact_of
from benchassist.job.readings import DisplayReading

SIXTEENTH, EIGHTH, QUARTER = Decimal("0.0625"), Decimal("0.125"), Decimal("0.25")
FIGURES = (
    *("00", "06", "12", "18", "25", "31", "37", "43"),
    *("50", "56", "62", "68", "75", "81", "87", "93"),
)
"""The sixteenths of a dioptre from 0 on, as a display shows them in two places."""


@pytest.mark.parametrize("number", range(16))
def test_each_sixteenth_is_known_by_its_two_figures(number: int) -> None:
    power = 3 + number * SIXTEENTH
    shown = Decimal(f"3.{FIGURES[number]}")
    assert as_shown(power) == shown
    assert exact_of(shown, SIXTEENTH) == power
    assert exact_of(power, SIXTEENTH) == power
    if number % 2 == 0:
        assert exact_of(shown, EIGHTH) == power


@pytest.mark.parametrize(
    ("shown", "step", "power"),
    [
        ("2.63", EIGHTH, "2.625"),
        ("0.19", SIXTEENTH, "0.1875"),
        ("2.60", EIGHTH, "2.60"),
        ("0.07", SIXTEENTH, "0.07"),
        ("0.06", EIGHTH, "0.06"),
        ("0.12", QUARTER, "0.12"),
        ("0.75", QUARTER, "0.75"),
    ],
)
def test_a_rounded_figure_is_known_too_and_others_stay(
    shown: str, step: Decimal, power: str
) -> None:
    assert exact_of(Decimal(shown), step) == Decimal(power)


@pytest.mark.parametrize("value", ["0.12", "0.13", "-2.61", "0.19"])
def test_what_is_no_sixteenth_is_shown_whole(value: str) -> None:
    assert as_shown(Decimal(value)) == Decimal(value)


def test_below_zero_a_sixteenth_is_cut_towards_zero() -> None:
    assert as_shown(Decimal("-2.1875")) == Decimal("-2.18")


@pytest.mark.parametrize(
    ("speech", "step", "cut"),
    [
        (Speech.DISPLAY, "0.0625", "0.0625"),
        (Speech.DISPLAY, "0.125", "0.125"),
        (Speech.DISPLAY, "0.01", None),
        (Speech.DRUM, "0.125", None),
    ],
)
def test_only_a_display_in_sixteenths_cuts_its_figures(
    speech: Speech, step: str, cut: str | None
) -> None:
    meter = Instrument(name="Bench 2", speech=speech, step=Decimal(step))
    assert meter.cut_step == (None if cut is None else Decimal(cut))


def test_a_reading_in_sixteenths_is_kept_whole() -> None:
    read = DisplayReading(sphere=Decimal("-2.0625"), cylinder=Decimal("-0.1875"))
    assert (read.sphere, read.cylinder) == (Decimal("-2.0625"), Decimal("-0.1875"))
