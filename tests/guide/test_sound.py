"""Each rule that a guide must keep, broken once."""

from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal
from typing import Any

import pytest

from benchassist.guide.guide import Guide
from benchassist.guide.prompts import Applies, Measurement, Prompt, Remedy, Variant
from benchassist.guide.sound import faults
from benchassist.job.order import Design


def changed(guide: Guide, prompt_id: str, **changes: Any) -> Guide:
    def swap(prompt: Prompt) -> Prompt:
        return replace(prompt, **changes) if prompt.id == prompt_id else prompt

    steps = (replace(step, prompts=tuple(map(swap, step.prompts))) for step in guide.steps)
    return replace(guide, steps=tuple(steps))


def measured(low: int, high: int, step: str) -> Measurement:
    return Measurement("gap", "Gap", "mm", Decimal(low), Decimal(high), Decimal(step))


def remedied(**changes: Any) -> tuple[Remedy, ...]:
    return (replace(Remedy("bend", "Bend it.", "pliers"), **changes),)


def test_the_guide_is_sound(guide: Guide) -> None:
    assert list(faults(guide)) == []


BROKEN: tuple[tuple[str, dict[str, Any], str], ...] = (
    ("pair.height", {"kind": "check", "reading": ""}, "cannot be of kind 'check'"),
    ("fit.level", {"kind": "power"}, "cannot be of kind 'power'"),
    ("pair.height", {"reading": "weight"}, "cannot take the reading 'weight'"),
    ("fit.level", {"reading": "prism"}, "cannot take the reading 'prism'"),
    ("fit.level", {"options": ("yes",)}, "has options"),
    ("handover.worn", {"options": ()}, "has options"),
    ("handover.care", {"inputs": (measured(0, 9, "1"),)}, "only a check has measurements"),
    ("fit.level", {"view": "back"}, "no view 'back'"),
    ("fit.level", {"inputs": (measured(9, 0, "1"),)}, "'gap' has no possible value"),
    ("fit.level", {"inputs": (measured(0, 9, "0"),)}, "'gap' has no possible value"),
    ("fit.level", {"inputs": (measured(0, 9, "10"),)}, "'gap' has no possible value"),
    ("fit.level", {"inputs": (measured(0, 9, "1"),) * 2}, "has gap twice"),
    ("fit.level", {"remedies": remedied() * 2}, "has correction bend twice"),
    ("fit.level", {"variants": (Variant("a"), Variant("a"))}, "has variant a twice"),
    ("fit.level", {"remedies": remedied(disturbs=("fit.nose",))}, "names fit.nose"),
    ("fit.level", {"remedies": remedied(materials=("wood",))}, "no frame material 'wood'"),
    ("fit.level", {"applies": Applies(needs=("luck",))}, "no known condition"),
    ("pair.tilt", {"remedies": remedied()}, "takes no answer to reopen"),
    ("fit.level", {"applies": Applies(designs=(Design.BIFOCAL,))}, "does not say why"),
    ("fit.level", {"after": ("fit.comfort",)}, "which does not stand before it"),
    ("fit.level", {"after": ("fit.level",)}, "which does not stand before it"),
    ("fit.level", {"id": "fit.tilt"}, "fit.tilt is there twice"),
)


@pytest.mark.parametrize(("prompt", "changes", "words"), BROKEN)
def test_a_broken_rule_is_named(
    guide: Guide, prompt: str, changes: dict[str, Any], words: str
) -> None:
    found = list(faults(changed(guide, prompt, **changes)))
    assert any(words in fault for fault in found)
    assert any(fault.startswith((prompt, changes.get("id", prompt))) for fault in found)


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (lambda guide: replace(guide, version=""), "no version"),
        (
            lambda guide: replace(
                guide, materials=(replace(guide.materials[0], material="wood"),)
            ),
            "'wood'",
        ),
    ],
)
def test_a_guide_as_a_whole(guide: Guide, change: Callable[[Guide], Guide], words: str) -> None:
    (fault,) = faults(change(guide))
    assert words in fault
