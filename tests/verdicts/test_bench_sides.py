"""Each side of the frame against what is usual or ordered, where both may err alike."""

from decimal import Decimal
from typing import Any

import pytest

from benchassist.optics.eye import Eye
from benchassist.verdicts.finding import Finding, State
from tests.verdicts.jobs import checked

FRAME: dict[str, Any] = {"a": "52", "b": "40", "dbl": "18"}


def bench(name: str, /, **measured: str) -> dict[str, Finding]:
    return bench_for({"frame": FRAME}, name, **measured)


def bench_for(order: dict[str, Any], name: str, /, **measured: str) -> dict[str, Finding]:
    return checked("bench", name, {"measured": measured}, order)


ALIKE = [
    ("open-angle", {"out": "34", "back": "100"}, State.OUTSIDE),
    ("open-angle", {"out": "-17.6", "back": "100"}, State.OUTSIDE),
    ("open-angle", {"out": "8", "back": "100"}, State.WITHIN),
    ("open-angle", {"out": "14", "back": "100"}, State.CLOSE),
    ("pantoscopic", {"offset": "-5"}, State.OUTSIDE),
    ("pantoscopic", {"offset": "5.6"}, State.WITHIN),
    ("pantoscopic", {"offset": "2"}, State.CLOSE),
    ("fold", {"height": "15.2"}, State.OUTSIDE),
    ("fold", {"height": "-15.2"}, State.OUTSIDE),
    ("fold", {"height": "4"}, State.WITHIN),
]
"""Splayed, pinched, leaning the wrong way and climbing, on both sides alike."""


@pytest.mark.parametrize(("name", "side", "state"), ALIKE)
def test_two_sides_that_err_alike_are_no_true_pair(
    name: str, side: dict[str, str], state: State
) -> None:
    read = {f"{eye}_{key}": value for eye in Eye for key, value in side.items()}
    findings = bench(name, **read, **({"half_width": "66"} if name == "fold" else {}))
    assert findings[f"bench.{name}"].state is State.WITHIN
    for eye in Eye:
        finding = findings[f"bench.{name}.{eye}"]
        assert (finding.state, finding.eye) == (state, eye), finding.sentence


def test_a_splayed_temple_is_told_with_the_usual() -> None:
    read = {"right_out": "34", "right_back": "100", "left_out": "34", "left_back": "100"}
    assert bench("open-angle", **read)["bench.open-angle.right"].sentence == (
        "Open temple angle 108.8° ± 0.3°, usual 87.5° to 97.5°, 16.3° above the middle of "
        "that, limit ±10°."
    )


def test_the_pantoscopic_angle_against_the_tilt_ordered() -> None:
    order = {"frame": {**FRAME, "tilt": "2"}}
    findings = bench_for(order, "pantoscopic", right_offset="1.4", left_offset="7.6")
    right, left = (findings[f"bench.pantoscopic.{eye}"] for eye in Eye)
    assert (right.state, right.ordered) == (State.WITHIN, Decimal(2))
    assert left.state is State.OUTSIDE


def test_one_b_is_read_once_for_both_pantoscopic_angles() -> None:
    """Both angles 8 degrees over 40 mm: two offsets of 0.06 mm are 0.12 degrees, twice told."""
    finding = bench("pantoscopic", right_offset="5.6", left_offset="5.6")["bench.pantoscopic"]
    assert "0° ± 0.2° apart" in finding.sentence
