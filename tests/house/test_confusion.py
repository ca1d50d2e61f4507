"""The simulation of right and wrong verdicts runs, and its tables add up."""

import re
from collections.abc import Callable

import pytest

PAIRS = 200
SCRIPT = ("confusion.py", "--pairs", str(PAIRS))


def counts(line: str) -> list[int]:
    """The whole numbers of a line of a table: all pairs, then by state."""
    cells = [cell.strip() for cell in line.strip("|").split("|")][1:]
    return [int(re.split(r"\s", cell)[0]) for cell in cells]


@pytest.mark.parametrize("meter", ["display", "drum"])
def test_the_tables_add_up_and_are_the_same_again(
    simulated: Callable[..., str], meter: str
) -> None:
    printed = simulated(*SCRIPT, "--meter", meter)
    rows = [line for line in printed.splitlines() if re.search(r"\| \d+ \|", line)]
    assert len(rows) == 6
    for line in rows:
        total, *by_state = counts(line)
        assert total == sum(by_state)
    assert sum(counts(line)[0] for line in rows) == PAIRS
    beyond = counts(rows[3])
    assert "beyond 1.5" in rows[3]
    assert beyond[0] > 20
    assert beyond[1] == 0
    assert "Assumed" in printed
    assert "the true slip is listed in" in printed
    if meter == "display":
        assert simulated(*SCRIPT) == printed
