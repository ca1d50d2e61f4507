"""How lens meters give powers, additions and prism: one form an instrument."""

from dataclasses import replace
from decimal import Decimal
from typing import Any

from benchassist.job.order import ComponentPrism, PolarPrism
from benchassist.job.readings import (
    DisplayAdd,
    DisplayReading,
    DrumAdd,
    DrumReading,
    PrismReading,
)
from benchassist.optics.eye import Eye
from benchassist.records.words import prism_text
from benchassist.ui.inputs import specs
from benchassist.ui.inputs.parsing import NumberSpec, plain_text
from benchassist.ui.inputs.repeated import Form

_POWER = specs.dioptre("Power", in_eighths=True)
_AXIS = specs.axis("Axis")


def _words(value: Decimal | None, spec: NumberSpec = _POWER) -> str:
    return "…" if value is None else plain_text(value, spec)


def _drum_words(reading: DrumReading) -> str:
    sphere, lines = reading.sphere_lines, reading.cylinder_lines
    cylinder = None if sphere is None or lines is None else lines - sphere
    return _power_words(sphere, cylinder, reading.axis_wheel)


def _power_words(sphere: Decimal | None, cylinder: Decimal | None, axis: Decimal | None) -> str:
    if cylinder == 0:
        return f"{_words(sphere)} sphere"
    return f"{_words(sphere)} {_words(cylinder)} × {_words(axis, _AXIS)}"


DRUM_POWER = Form(
    key="drum",
    name="Manual meter",
    specs=(
        specs.dioptre("Sphere lines", in_eighths=True),
        specs.dioptre("Cylinder lines", in_eighths=True),
        specs.axis("Axis wheel"),
    ),
    make=lambda values: DrumReading(
        sphere_lines=values[0], cylinder_lines=values[1], axis_wheel=values[2]
    ),
    values=lambda reading: (reading.sphere_lines, reading.cylinder_lines, reading.axis_wheel),
    words=_drum_words,
    needed=lambda values: 2 if values[0] is not None and values[0] == values[1] else 3,
)

DISPLAY_POWER = Form(
    key="display",
    name="Digital meter",
    specs=(specs.dioptre("Sphere"), specs.dioptre("Cylinder", limit=20), specs.axis("Axis")),
    make=lambda values: DisplayReading(sphere=values[0], cylinder=values[1], axis=values[2]),
    values=lambda reading: (reading.sphere, reading.cylinder, reading.axis),
    words=lambda reading: _power_words(reading.sphere, reading.cylinder, reading.axis),
    needed=lambda values: 2 if values[1] == 0 else 3,
    is_shown_in_steps=True,
)


def _addition_words(reading: DrumAdd | DisplayAdd) -> str:
    return f"{_words(reading.addition)}, {reading.surface} surface on the stop"


DRUM_ADDITION = Form(
    key="drum",
    name="Manual meter",
    specs=(
        specs.dioptre("Distance, sphere lines", in_eighths=True),
        specs.dioptre("Near, same lines", in_eighths=True),
    ),
    make=lambda values: DrumAdd(distance_lines=values[0], near_lines=values[1]),
    values=lambda reading: (reading.distance_lines, reading.near_lines),
    words=_addition_words,
)

DISPLAY_ADDITION = Form(
    key="display",
    name="Digital meter",
    specs=(specs.addition("Addition", low=-10),),
    make=lambda values: DisplayAdd(shown=values[0]),
    values=lambda reading: (reading.shown,),
    words=_addition_words,
    is_shown_in_steps=True,
)


def _prism_words(reading: PrismReading, eye: Eye | None = None) -> str:
    prism = reading.prism
    if isinstance(prism, PolarPrism):
        return prism_text(prism, eye) if eye else f"{prism.amount} Δ base at {prism.base}°"
    horizontal = plain_text(prism.base_in, specs.horizontal_prism(""))
    return f"{horizontal}, {plain_text(prism.base_up, specs.vertical_prism(''))}"


def _components(values: tuple[Decimal | None, ...]) -> PrismReading:
    zero = Decimal(0)
    prism = ComponentPrism(base_in=values[0] or zero, base_up=values[1] or zero)
    return PrismReading(prism=prism)


COMPONENT_PRISM = Form(
    key="components",
    name="In/out and up/down",
    specs=(specs.horizontal_prism("Horizontal"), specs.vertical_prism("Vertical")),
    make=_components,
    values=lambda reading: (reading.prism.base_in, reading.prism.base_up),
    words=_prism_words,
    needs_all=True,
)

POLAR_PRISM = Form(
    key="polar",
    name="Ring and direction",
    specs=(specs.prism("Amount"), specs.base("Base at")),
    make=lambda values: PrismReading(
        prism=PolarPrism(amount=values[0] or Decimal(0), base=values[1] or Decimal(0))
    ),
    values=lambda reading: (reading.prism.amount, reading.prism.base),
    words=_prism_words,
    needs_all=True,
)

POWER_FORMS = (DRUM_POWER, DISPLAY_POWER)
ADDITION_FORMS = (DRUM_ADDITION, DISPLAY_ADDITION)
PRISM_FORMS = (COMPONENT_PRISM, POLAR_PRISM)


def prism_forms(eye: Eye | None) -> tuple[Form, ...]:
    """The forms of prism, a direction also told in and out and up and down for this eye."""
    return tuple(
        replace(form, words=lambda reading: _prism_words(reading, eye)) for form in PRISM_FORMS
    )


def kind_of(reading: Any) -> str:
    """The key of the form that made a power or an addition."""
    return str(reading.kind)


def prism_form_of(reading: PrismReading) -> str:
    """The key of the form that made a prism reading."""
    return reading.prism.form
