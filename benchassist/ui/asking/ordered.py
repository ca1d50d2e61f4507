"""What the order says about a prompt, in words for the ask strip."""

from decimal import Decimal

from benchassist.guide.prompts import Kind, Prompt
from benchassist.job.order import (
    EyeOrder,
    Order,
    PolarPrism,
    Surface,
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
_PAIR_ORDERS = frozenset({"segment_width", "segment_depth"})


def ordered_words(order: Order, prompt: Prompt) -> str:
    """The ordered value of a reading with its unit; empty where nothing is ordered."""
    if prompt.eye is not None:
        return _of_eye(order.eye(prompt.eye), prompt)
    if prompt.kind is Kind.LAYOUT:
        return _of_layout(order, prompt)
    return ""


def proposed_surface(order: Order) -> Surface:
    """The surface to lay on the stop for an addition.

    The front one where the addition is a segment, which lies on the front surface; then the
    front readings differ by the true addition. Source: near addition by front vertex power,
    common practice, and the derivation in optics/near.py.
    """
    is_on_front = order.design is not None and order.design.has_segment
    return Surface.FRONT if is_on_front else Surface.BACK


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
    verification = eye.verification
    told = "as the maker states for the lens meter" if verification else ""
    match prompt.kind:
        case Kind.POWER:
            words = power_words(verification.power if verification else eye.power)
        case Kind.ADDITION | Kind.ENGRAVED:
            words = _addition_words(eye, prompt)
            told = ""
        case Kind.PRISM:
            has_prism = verification is not None and verification.prism is not None
            words = prism_words(verification.prism if verification and has_prism else eye.prism)
            told = told if has_prism else ""
        case _:
            return ""
    return f"{words}  ({told})" if words and told else words


def _addition_words(eye: EyeOrder, prompt: Prompt) -> str:
    value = eye.intermediate if prompt.reading == "intermediate" else eye.add
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
    return ", ".join(f"{eye} {_with_unit(value, spec)}" for eye, value in known)


def _with_unit(value: Decimal, spec: NumberSpec) -> str:
    gap = "" if spec.unit == "°" else " "
    return f"{plain_text(value, spec)}{gap}{spec.unit}"
