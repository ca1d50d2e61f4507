"""What the order says about a prompt, in words for the ask strip."""

from decimal import Decimal

from benchassist.guide.answers import TOGETHER, may_be_together
from benchassist.guide.expect import expect
from benchassist.guide.prompts import Kind, Prompt
from benchassist.job.instrument import Speech
from benchassist.job.order import (
    EyeOrder,
    Order,
    PolarPrism,
    Verification,
    WrittenPower,
    WrittenPrism,
)
from benchassist.optics.eye import Eye
from benchassist.ui.inputs import specs
from benchassist.ui.inputs.answering import layout_spec
from benchassist.ui.inputs.parsing import NumberSpec, plain_text

_POWER = specs.dioptre("Power")
_LAYOUT_ORDERS = {
    "thickness": "centre_thickness",
    "distance_pd": "distance_pd",
    "near_pd": "near_pd",
    "height": "height",
    "base_curve": "base_curve",
}
_BY_MAKER = "  (the maker's verification power)"
_PAIR_ORDERS = frozenset({"segment_width", "segment_depth"})


def target_words(order: Order, prompt: Prompt, speech: Speech, *, is_read: bool) -> str:
    """What to expect before a reading, and what was ordered once it is in; may be empty.

    Args:
        order: what was ordered.
        prompt: what is asked.
        speech: how the lens meter gives a power.
        is_read: whether the reading is in.
    """
    expected = "" if is_read else expect(order, prompt, speech)
    words = ordered_words(order, prompt)
    return expected or (f"Ordered  {words}" if words else "")


def ordered_words(order: Order, prompt: Prompt) -> str:
    """The ordered value of a reading with its unit; empty where nothing is ordered."""
    if prompt.eye is not None:
        return _of_eye(order.eye(prompt.eye), prompt)
    if prompt.kind is Kind.LAYOUT:
        return _of_layout(order, prompt)
    return ""


def power_words(power: WrittenPower) -> str:
    """A power as it was written, such as '−2.25 −0.75 × 165'; empty without a sphere."""
    if power.sphere is None:
        return ""
    if not power.cylinder:
        return f"{plain_text(power.sphere, _POWER)} sphere"
    axis = "?" if power.axis is None else plain_text(power.axis, specs.axis(""))
    return f"{plain_text(power.sphere, _POWER)} {plain_text(power.cylinder, _POWER)} × {axis}"


def prism_words(prism: WrittenPrism | None) -> str:
    """A prism as it was written; 'none' where none is ordered."""
    if prism is None:
        return "none"
    if isinstance(prism, PolarPrism):
        return f"{plain_text(prism.amount, specs.prism(''))} Δ base at {prism.base}°"
    parts = [
        f"{plain_text(abs(value), specs.prism(''))} Δ {word}"
        for value, word in (
            (prism.base_in, "in" if prism.base_in > 0 else "out"),
            (prism.base_up, "up" if prism.base_up > 0 else "down"),
        )
        if value
    ]
    return ", ".join(parts) or "none"


def _of_eye(eye: EyeOrder, prompt: Prompt) -> str:
    """The target of a reading of one lens, with the maker's word where it counts instead."""
    verification = eye.verification or Verification()
    match prompt.kind:
        case Kind.POWER if verification.power.is_complete:
            return f"{power_words(verification.power)}{_BY_MAKER}"
        case Kind.POWER:
            return power_words(eye.power)
        case Kind.ADDITION if prompt.reading == "intermediate":
            return _addition_words(eye.intermediate)
        case Kind.ADDITION if verification.add is not None:
            return f"{_addition_words(verification.add)}{_BY_MAKER}"
        case Kind.ADDITION | Kind.ENGRAVED:
            return _addition_words(eye.add)
        case Kind.PRISM if verification.prism is not None:
            return f"{prism_words(verification.prism)}{_BY_MAKER}"
        case Kind.PRISM:
            return prism_words(eye.prism)
        case _:
            return ""


def _addition_words(value: Decimal | None) -> str:
    return "" if value is None else f"{plain_text(value, specs.addition(''))} D"


def _of_layout(order: Order, prompt: Prompt) -> str:
    spec = layout_spec(prompt)
    if prompt.reading in _PAIR_ORDERS:
        value = getattr(order, prompt.reading)
        return "" if value is None else _with_unit(value, spec)
    field = _LAYOUT_ORDERS.get(prompt.reading)
    if field is None:
        return ""
    values = [(eye, getattr(order.eye(eye), field)) for eye in Eye]
    known = [(eye, value) for eye, value in values if value is not None]
    each = ", ".join(f"{eye} {_with_unit(value, spec)}" for eye, value in known)
    if prompt.reading != TOGETHER or not may_be_together(order) or len(known) < len(Eye):
        return each
    both = sum((value for _, value in known), Decimal(0))
    return f"{each}, both together {_with_unit(both, spec)}"


def _with_unit(value: Decimal, spec: NumberSpec) -> str:
    gap = "" if spec.unit == "°" else " "
    return f"{plain_text(value, spec)}{gap}{spec.unit}"
