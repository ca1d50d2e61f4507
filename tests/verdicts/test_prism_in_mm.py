"""Prism imbalance in millimetres: each lens by its own power, equal thinning taken off."""

from decimal import Decimal
from typing import Any

import pytest

from benchassist.verdicts.finding import Finding, State
from tests.verdicts.jobs import ANSI, components, judged, power


def pair(powers: tuple[str, str], right: dict[str, Any], left: dict[str, Any]) -> Any:
    order = {
        "design": "single-vision",
        "rule_set": ANSI,
        "right": {"power": power(powers[0])},
        "left": {"power": power(powers[1])},
    }
    attempt = {"right": {"prism": [{"prism": right}]}, "left": {"prism": [{"prism": left}]}}
    return judged(order, attempt)


def vertical(powers: tuple[str, str], right_up: str, left_up: str) -> Finding:
    found = pair(powers, components("0", right_up), components("0", left_up))
    finding: Finding = found["pair.prism-vertical"]
    return finding


def test_an_error_of_the_weak_lens_counts_by_its_own_power() -> None:
    # 1.00 prism dioptre in -0.50 D is 20 mm; by the -10.00 D it would be 1.0 mm
    assert vertical(("-10.00", "-0.50"), "0", "1.00").state is State.OUTSIDE


@pytest.mark.parametrize(
    ("right", "left", "state"), [("0", "0.50", State.WITHIN), ("1.00", "0", State.WITHIN)]
)
def test_the_strong_lens_may_be_a_millimetre_off(right: str, left: str, state: State) -> None:
    assert vertical(("-10.00", "-10.00"), right, left).state is state


def test_equal_thinning_is_no_displacement() -> None:
    finding = vertical(("-10.00", "-4.00"), "-3.00", "-3.00")
    assert (finding.state, finding.difference) == (State.WITHIN, Decimal(0))


def test_thinning_leaves_the_rest_to_its_own_lens() -> None:
    # 2.00 down in both cancel, 1.00 is left on the -10.00 D lens: 1.0 mm
    finding = vertical(("-10.00", "-2.00"), "-3.00", "-2.00")
    assert (finding.state, finding.difference, finding.unit) == (
        State.WITHIN,
        Decimal("1.000000"),
        "mm",
    )
    assert vertical(("-2.00", "-10.00"), "-3.00", "-2.00").state is State.OUTSIDE


def test_a_lens_without_power_has_no_millimetres() -> None:
    finding = vertical(("-10.00", "0.00"), "0", "1.00")
    assert (finding.state, finding.unit) == (State.OUTSIDE, "Δ")


def test_lenses_of_opposite_sign_move_their_centres_opposite_ways() -> None:
    # base in moves the centre of +5.00 D in by 2 mm and that of -5.00 D out by 2 mm
    read = components("1.00")
    finding = pair(("5.00", "-5.00"), read, read)["pair.prism-horizontal"]
    assert finding.state is State.WITHIN
    assert finding.difference == 0
