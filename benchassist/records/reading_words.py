"""Readings as they were typed, in words."""

from benchassist.job.readings import (
    AddReading,
    DisplayAdd,
    DisplayReading,
    DrumAdd,
    DrumReading,
    LensReadings,
    PowerReading,
    PrismReading,
)
from benchassist.optics.eye import Eye
from benchassist.records.words import amount, prism_text
from benchassist.verdicts import words

MeterReading = DrumReading | DisplayReading | DrumAdd | DisplayAdd | PrismReading
"""Whatever a lens meter gives."""


def typed(reading: MeterReading, eye: Eye) -> str:
    """One reading of a lens as it was typed; a part not typed is left out."""
    match reading:
        case DrumReading() | DisplayReading():
            return _power(reading)
        case DrumAdd() | DisplayAdd():
            return _addition(reading)
        case PrismReading():
            return prism_text(reading.prism, eye)


def _power(reading: PowerReading) -> str:
    match reading:
        case DrumReading():
            lines = (
                ("sphere lines", amount(reading.sphere_lines, "D")),
                ("cylinder lines", amount(reading.cylinder_lines, "D")),
                ("axis wheel", amount(reading.axis_wheel, "°")),
            )
            return ", ".join(f"{name} {value}" for name, value in lines if value)
        case DisplayReading():
            if reading.is_complete and reading.sphere is not None:
                return words.power(reading.sphere, reading.cylinder, reading.axis)
            shown = (
                ("sphere", amount(reading.sphere, "D")),
                ("cylinder", amount(reading.cylinder, "D")),
                ("axis", amount(reading.axis, "°")),
            )
            return ", ".join(f"{name} {value}" for name, value in shown if value)


def _addition(reading: AddReading) -> str:
    side = f"{reading.surface.value} surface on the stop"
    match reading:
        case DrumAdd():
            lines = (
                ("distance", amount(reading.distance_lines, "D")),
                ("near", amount(reading.near_lines, "D")),
            )
            said = ", ".join(f"{name} {value}" for name, value in lines if value)
        case DisplayAdd():
            said = amount(reading.shown, "D")
    return f"{said} ({side})"


def meter_readings(lens: LensReadings) -> tuple[MeterReading, ...]:
    """Every reading of a lens that came from a lens meter."""
    return (*lens.distance, *lens.near, *lens.intermediate, *lens.prism)
