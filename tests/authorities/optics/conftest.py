"""Hands every printed example to the test module that knows its calculation."""

import tomllib
from pathlib import Path
from typing import Any

import pytest

HERE = Path(__file__).parent


def publications() -> list[dict[str, Any]]:
    return [tomllib.loads(path.read_text("utf-8")) for path in sorted(HERE.glob("*.toml"))]


@pytest.fixture(name="publications", scope="session")
def _publications() -> list[dict[str, Any]]:
    return publications()


def pytest_generate_tests(metafunc: pytest.Metafunc) -> None:
    if "example" not in metafunc.fixturenames:
        return
    known = metafunc.module.CALCULATIONS
    examples = [
        example
        for publication in publications()
        for example in publication["example"]
        if example["calc"] in known
    ]
    metafunc.parametrize("example", examples, ids=[example["id"] for example in examples])


def _far(ours: Any, theirs: Any, key: str) -> float:
    """How far two answers lie apart; words and missing values are equal or infinitely far."""
    if isinstance(ours, int | float) and isinstance(theirs, int | float):
        apart = abs(ours - theirs)
        return min(apart, 180.0 - apart) if key.endswith("A") and apart <= 180.0 else apart
    return 0.0 if ours == theirs else float("inf")


@pytest.fixture
def reproduces() -> Any:
    """Our answer is the expected one, and not the one that was printed wrongly."""

    def check(example: dict[str, Any], ours: dict[str, Any]) -> None:
        tolerances = example["tolerance"]

        def apart(answer: dict[str, Any]) -> list[str]:
            return [
                f"{key}: ours {ours[key]}, theirs {theirs}"
                for key, theirs in answer.items()
                if _far(ours[key], theirs, key) > tolerances.get(key, tolerances.get("rest"))
            ]

        assert apart(example["expected"]) == []
        if "published" in example:
            assert apart(example["published"])

    return check
