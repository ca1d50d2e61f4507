"""Small orders of a pair on a face, and what is found of it."""

from typing import Any

from benchassist.verdicts.finding import Finding
from tests.verdicts.jobs import judged, power

FRAME: dict[str, Any] = {"a": "52", "b": "40", "dbl": "18"}
SINGLE: dict[str, Any] = {
    "design": "single-vision",
    "index": "1.5",
    "right": {"power": power("-6.00"), "distance_pd": "32"},
    "left": {"power": power("-6.00"), "distance_pd": "32"},
    "frame": FRAME,
}
PROGRESSIVE: dict[str, Any] = {
    **SINGLE,
    "design": "progressive",
    "right": {**SINGLE["right"], "add": "2.00", "height": "20"},
    "left": {**SINGLE["left"], "add": "2.00", "height": "20"},
}
ON_PUPIL = dict.fromkeys(("right_across", "right_up", "left_across", "left_up"), "0")
UNLIKE: dict[str, Any] = {**SINGLE, "left": {"power": power("-2.00"), "distance_pd": "32"}}


def worn(
    order: dict[str, Any], answers: dict[str, dict[str, Any]], **more: Any
) -> dict[str, Finding]:
    """The findings on some answers of the fit."""
    return judged(order, {"fit": {"answers": answers}, **more})


def measured(order: dict[str, Any], /, **checks: dict[str, str]) -> dict[str, Finding]:
    """The findings on some measurements of the fit."""
    answers = {name.replace("_", "-"): {"measured": values} for name, values in checks.items()}
    return worn(order, answers)
