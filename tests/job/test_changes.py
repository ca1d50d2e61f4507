import json

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchassist.job.changes import (
    Change,
    Json,
    applied,
    canonical,
    diff,
    document_of,
    inverse,
    job_diff,
    join,
    split,
)
from benchassist.job.document import Job
from tests.job.strategies import jobs

values: st.SearchStrategy[Json] = st.recursive(
    st.none() | st.booleans() | st.integers(-3, 3) | st.text("a.\\", max_size=2),
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(st.sampled_from(["a", "b.c", "kind", "", "\\"]), inner, max_size=3)
    ),
    max_leaves=8,
)
objects = st.dictionaries(st.sampled_from(["x", "y.z", "form"]), values, max_size=3)


@settings(max_examples=25, deadline=None)
@given(jobs, jobs)
def test_the_changes_from_one_job_to_another_make_that_other(before: Job, after: Job) -> None:
    made = applied(document_of(before), job_diff(before, after))
    assert made == document_of(after)
    assert Job.model_validate(made) == after


@settings(max_examples=25, deadline=None)
@given(objects, objects)
def test_changes_of_any_json_are_exact_both_ways(
    before: dict[str, Json], after: dict[str, Json]
) -> None:
    changes = diff(before, after)
    assert canonical(applied(before, changes)) == canonical(after)
    assert canonical(applied(after, inverse(changes))) == canonical(before)
    assert bool(changes) == (canonical(before) != canonical(after))


def test_applying_leaves_the_document_as_it_was() -> None:
    document: Json = {"a": [1, {"b": 2}]}
    assert applied(document, diff(document, {"a": [1, {"b": 3}, 4]})) == {"a": [1, {"b": 3}, 4]}
    assert document == {"a": [1, {"b": 2}]}


@given(st.lists(st.text("a.\\", max_size=3), min_size=2))
def test_a_path_gives_its_names_back(names: list[str]) -> None:
    assert split(join(names)) == tuple(names)


@pytest.mark.parametrize(
    ("before", "after", "expected"),
    [
        ({"a": {"b": "1.5"}}, {"a": {"b": "1.50"}}, [("a.b", '"1.5"', '"1.50"')]),
        ({"a": 1}, {"a": True}, [("a", "1", "true")]),
        ({"a": [1]}, {"a": [1, [2], 3]}, [("a.1", None, "[2]"), ("a.2", None, "3")]),
        ({"a": [1, 2, 3]}, {"a": [1]}, [("a.2", "3", None), ("a.1", "2", None)]),
        ({"a": [1, 2]}, {"a": [2]}, [("a.0", "1", "2"), ("a.1", "2", None)]),
        ({"m": {}}, {"m": {"k.1": None}}, [("m.k\\.1", None, "null")]),
        ({"m": {"k": None}}, {"m": {}}, [("m.k", "null", None)]),
        (
            {"r": {"kind": "drum", "x": 1}},
            {"r": {"kind": "display", "y": 1}},
            [("r", '{"kind":"drum","x":1}', '{"kind":"display","y":1}')],
        ),
    ],
)
def test_each_kind_of_change_as_it_is_written(
    before: Json, after: Json, expected: list[tuple[str, str | None, str | None]]
) -> None:
    changes = diff(before, after)
    assert [(one.path, one.old, one.new) for one in changes] == expected
    assert applied(before, changes) == after


@pytest.mark.parametrize(
    ("path", "old", "new"),
    [
        ("order.nowhere.power", "1", "2"),
        ("order.power", "2", "3"),
        ("order.power", None, "3"),
        ("order.gone", "1", None),
        ("order.power.below", None, "1"),
        ("list.0", None, "1"),
        ("list.3", None, "1"),
        ("list.0", "1", None),
        ("list.-1", "2", "3"),
        ("list.x", "1", "3"),
        ("list.2", None, None),
        ("list.9.a", "1", "3"),
        ("", None, "{}"),
    ],
)
def test_a_change_that_does_not_fit_is_refused(
    path: str, old: str | None, new: str | None
) -> None:
    document: Json = {"order": {"power": 1}, "list": [1, 2]}
    with pytest.raises(ValueError, match="does not fit"):
        applied(document, (Change(path=path, old=old, new=new),))


def test_a_change_tells_its_values() -> None:
    change = Change(path="a", old=None, new=json.dumps(["é"]))
    assert (change.was, change.becomes) == (None, ["é"])
    (back,) = inverse((change,))
    assert (back.was, back.becomes) == (["é"], None)
