"""What a finding puts into the columns of numbers."""

from dataclasses import dataclass
from decimal import Decimal

import pytest

from benchassist.records.columns import compared


@dataclass(frozen=True, slots=True)
class Numbers:
    key: str
    unit: str
    ordered: Decimal | None
    found: Decimal | None
    difference: Decimal | None
    limit: Decimal | None


@pytest.mark.parametrize(
    ("key", "unit", "numbers", "said"),
    [
        ("right.sphere", "D", "-2.00 -2.25 -0.25 0.12", ("−2.00 D", "−2.25 D", "−0.25 D")),
        ("pair.height", "mm", "20 21 1 1", ("20.0 mm", "21.0 mm", "+1.0 mm")),
        ("pair.prism-horizontal", "Δ", "0 -1 -1 0.67", ("none", "1.00 Δ out", "1.00 Δ out")),
        (
            "pair.prism-vertical",
            "Δ",
            "0 1 1 0.5",
            ("none", "1.00 Δ up right", "1.00 Δ"),
        ),
    ],
)
def test_prism_of_the_pair_is_told_with_its_base(
    key: str, unit: str, numbers: str, said: tuple[str, str, str]
) -> None:
    assert compared(Numbers(key, unit, *map(Decimal, numbers.split()))) == said


def test_what_is_not_there_is_left_empty() -> None:
    assert compared(Numbers("right.sphere", "D", None, None, None, None)) == ("", "", "")
