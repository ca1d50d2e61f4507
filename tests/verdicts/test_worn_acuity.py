"""Lines read: near ones, those to be read again, and the choice that they amount to."""

import pytest

from benchassist.job.acuity import Acuity, LineRead
from benchassist.verdicts.finding import State
from benchassist.verdicts.worn_acuity import AS_EXPECTED, WORSE, chosen_by_lines
from tests.verdicts.worn_cases import worn


def test_lines_read_near_count_and_those_to_be_read_again_do_not() -> None:
    acuity = {"right": {"read": "N8", "expected": "N5"}}
    near = {"choice": "worse than expected", "acuity": acuity}
    finding = worn({}, {"near-vision": near})["fit.near-vision.lines"]
    assert finding.state is State.OUTSIDE
    assert finding.sentence.startswith("Lines read, near: right N8 (N5 expected): right worse")
    again = {**near, "again_because": ["fit.cross"]}
    assert "fit.near-vision.lines" not in worn({}, {"near-vision": again})


@pytest.mark.parametrize(
    ("right", "left", "chosen"),
    [
        (("6/6", "6/6"), ("6/9", "6/6"), WORSE),
        (("6/9", "6/6"), ("6/5", "6/6"), WORSE),
        (("6/5", "6/6"), ("6/6", "6/6"), AS_EXPECTED),
        (("6/5", "6/6"), ("6/9", ""), AS_EXPECTED),
        (("6/5", ""), ("N5", "6/6"), ""),
    ],
)
def test_one_line_worse_chooses_for_all(
    right: tuple[str, str], left: tuple[str, str], chosen: str
) -> None:
    lines = [LineRead(read=read, expected=expected) for read, expected in (right, left)]
    assert chosen_by_lines(Acuity(right=lines[0], left=lines[1])) == chosen


@pytest.mark.parametrize("typed", ["abc", "999", "-1"])
def test_what_is_no_line_is_to_be_read_again(typed: str) -> None:
    lines = {"right": {"read": typed, "expected": "6/6"}, "left": {"read": "6/6"}}
    answer = {"choice": "as expected", "acuity": lines}
    finding = worn({}, {"distance-vision": answer})["fit.distance-vision.lines"]
    assert finding.state is State.CLOSE
    assert (
        f"right {typed} (6/6 expected), left 6/6: '{typed}' is not a line" in finding.sentence
    )
