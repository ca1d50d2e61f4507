from decimal import Decimal

import pytest

from benchassist.verdicts.finding import WORST_FIRST, Finding, State, worst


def finding(difference: str | None, limit: str | None) -> Finding:
    return Finding(
        "right.cylinder",
        "right.distance",
        "Cylinder",
        State.WITHIN,
        "Cylinder read.",
        difference=None if difference is None else Decimal(difference),
        limit=None if limit is None else Decimal(limit),
    )


def test_the_share_of_the_limit() -> None:
    assert finding("-0.06", "0.12").share == Decimal("0.5")
    assert finding("0.12", "0.12").share == 1
    assert finding(None, "0.12").share is None
    assert finding("0.12", None).share is None


def test_every_state_has_a_word_and_a_rank() -> None:
    assert sorted(WORST_FIRST) == sorted(State)
    assert [state.word for state in State] == [
        "within",
        "read again",
        "outside",
        "to do",
        "not applicable",
    ]


@pytest.mark.parametrize(
    ("states", "expected"),
    [
        ([], State.NONE),
        ([State.WITHIN, State.MISSING], State.MISSING),
        ([State.CLOSE, State.OUTSIDE], State.OUTSIDE),
    ],
)
def test_the_worst_state(states: list[State], expected: State) -> None:
    assert worst(states) is expected
