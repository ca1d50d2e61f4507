import runpy
from collections import Counter
from pathlib import Path
from typing import Any

MODULES = ("test_power.py", "test_prism.py", "test_lens.py")
KNOWN = {"read", "question read, answer supplied here", "memory", "own"}


def test_every_example_is_run_by_exactly_one_module(publications: list[dict[str, Any]]) -> None:
    here = Path(__file__).parent
    runs = Counter(
        calc
        for module in MODULES
        for calc in runpy.run_path(str(here / module))["CALCULATIONS"]
    )
    asked = {example["calc"] for one in publications for example in one["example"]}
    assert set(runs) == asked
    assert set(runs.values()) == {1}


def test_all_examples_are_here(publications: list[dict[str, Any]]) -> None:
    ids = [example["id"] for one in publications for example in one["example"]]
    verification = [one for one in ids if one.startswith("VE")]
    assert len(ids) == len(set(ids))
    assert len(ids) - len(verification) == 124
    assert len(verification) == 9


def test_disagreements_are_kept_with_their_reason(publications: list[dict[str, Any]]) -> None:
    examples = [example for one in publications for example in one["example"]]
    apart = [example for example in examples if example["verdict"] != "agrees"]
    assert Counter(example["verdict"] for example in apart) == {
        "published-looks-wrong": 4,
        "differs-by-convention": 2,
    }
    assert all(example["published"] and example["note"] for example in apart)
    assert not any("published" in example for example in examples if example not in apart)


def test_every_example_says_how_it_is_known(publications: list[dict[str, Any]]) -> None:
    for one in publications:
        known = {example["known"] for example in one["example"]}
        assert known <= KNOWN
        assert one["title"]
        assert one["address"].startswith("http") or known == {"own"}
