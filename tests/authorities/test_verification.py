"""Published verdicts on finished spectacles, and those that follow from published limits."""

import json
import tomllib
from pathlib import Path
from typing import Any

import pytest

from tests.verdicts.bench_cases import BenchCase

FILES = sorted(Path(__file__).parent.glob("verification-*.toml"))
WANTED = {
    *("VE01", "VE03", "VE05", "VE07", "VE09", "VE11", "VE13", "VE15", "VE17", "VE21"),
    *("VE27", "VE29", "VE37"),
}


def examples() -> list[Any]:
    return [
        pytest.param(example, id=example["id"])
        for file in FILES
        for example in tomllib.loads(file.read_text(encoding="utf-8"))["example"]
    ]


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_each_publication_says_what_it_is(file: Path) -> None:
    publication = tomllib.loads(file.read_text(encoding="utf-8"))
    assert publication["title"]
    assert publication["address"].startswith("http")
    assert publication["how_known"] == "read"


@pytest.mark.parametrize("example", examples())
def test_each_example_gives_its_verdict(example: dict[str, Any]) -> None:
    if "case" in example:
        BenchCase(example["case"]).holds()
    else:
        assert example["not_offered"]
        assert json.loads(example["inputs"])
        assert json.loads(example["expected"])


def test_every_example_is_here() -> None:
    ids = [parameters.values[0]["id"] for parameters in examples()]
    assert len(ids) == len(set(ids))
    assert {name.partition("-")[0] for name in ids} == WANTED
    judged = [parameters for parameters in examples() if "case" in parameters.values[0]]
    assert len(judged) == 13
