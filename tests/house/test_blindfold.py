"""The simulation of frames put right runs, comes to an end, and its table adds up."""

import re
from collections.abc import Callable

FRAMES = 40


def test_every_frame_comes_to_an_end_near_the_fewest_corrections(
    simulated: Callable[..., str],
) -> None:
    printed = simulated("blindfold.py", "--frames", str(FRAMES))
    rows = [
        [cell.strip() for cell in line.strip("|").split("|")]
        for line in printed.splitlines()
        if re.search(r"\| \d+ \|", line)
    ]
    *by_count, whole = rows
    assert whole[0] == "all"
    assert [int(cell) for cell in whole[1:5]] == [
        sum(int(row[column]) for row in by_count) for column in range(1, 5)
    ]
    assert int(whole[1]) == FRAMES
    assert float(whole[5]) <= 1.3
    ends = dict(re.findall(r"([a-z][a-z ,]+): (\d+)", printed.rpartition("ended: ")[2]))
    assert sum(map(int, ends.values())) == FRAMES
    assert "never ended" not in ends
    assert int(ends["passed, and truly within"]) > 0.9 * FRAMES
    assert "Assumed" in printed
