"""The diagnosis against every worked example of a slip's numeric signature."""

import tomllib
from collections.abc import Callable
from decimal import Decimal
from pathlib import Path

import pytest

from benchassist.optics.eye import Eye
from benchassist.optics.near import addition_by_back_vertex, addition_by_front_vertex
from benchassist.optics.power import Power, difference
from benchassist.optics.prism import imbalance, prentice
from benchassist.optics.thick import ThickLens
from benchassist.verdicts.diagnose.slips import SLIPS
from benchassist.verdicts.exact import axis_difference
from benchassist.verdicts.finding import State
from tests.authorities.bench.signatures import (
    EYES,
    OURS,
    Given,
    Seen,
    lens,
    near_read,
    numbers,
    ours,
    shown,
    written,
)
from tests.verdicts.jobs import components, display, power

EXAMPLES: list[Given] = tomllib.loads(
    Path(__file__).with_name("diagnosis.toml").read_text("utf-8")
)["example"]


def explain(given: Given, expected: Given) -> None:
    order: Given = {"right": {"power": written(given["order"]), "add": given.get("add")}}
    if "other_eye" in given:
        order["left"] = {"power": written(given["other_eye"])}
    seen = Seen(order, {"right": {"distance": [shown(given["reading"])]}})
    assert seen.is_within("right.") is expected["in_tolerance"]
    seen.means(*expected["all_that_fit"])
    if expected["all_that_fit"]:
        assert len(seen.suspicions) == 1
        assert ours(expected["cause"]) in seen.slips
    assert numbers(seen.sight.wanted.right.power) == expected["order_minus_form"]
    assert numbers(seen.sight.found.right.power) == expected["reading_minus_form"]
    if "error_vector" in expected:
        error = difference(lens(given["reading"]), lens(given["order"]))
        assert [error.m, error.j0, error.j45] == pytest.approx(
            expected["error_vector"], abs=0.005
        )


def pair_pattern(given: Given, expected: Given) -> None:
    seen = Seen(
        {EYES[side]: {"power": written(lens)} for side, lens in given["order"].items()},
        {EYES[side]: {"distance": [shown(lens)]} for side, lens in given["reading"].items()},
    )
    for side, eye in EYES.items():
        assert seen.is_within(f"{eye}.") is expected[f"{side}_ok"]
        ordered, read = given["order"][side], given["reading"][side]
        turn = axis_difference(Decimal(str(read[2])), Decimal(str(ordered[2])))
        assert turn == expected["axis_turn"][side]
        assert read[0] - ordered[0] == expected["sphere_offset"][side]
    assert seen.suspicions[0].id == ours(expected["cause"])
    assert ("changed-over" in seen.slips) is expected["swapped_fits"]


def centres(given: Given, expected: Given) -> None:
    def half(name: str) -> str:
        return str(given[name] / 2)

    ordered = {
        "power": power(str(given["F_each"])),
        "distance_pd": half("distance_PD"),
        "near_pd": half("near_PD"),
    }
    frame = {"a": str(given["A"]), "dbl": str(given["DBL"])}
    found = {"distance_pd": [half("measured")]}
    seen = Seen(
        {"frame": frame, "right": ordered, "left": ordered},
        {"pair": {"right": found, "left": found}},
    )
    seen.means(*expected["all_that_fit"])
    slips = {slip.id: slip for slip in SLIPS}
    for words, distance in expected["candidates"].items():
        if words != "as ordered":
            pair = next(iter(slips[ours(words)].predict(seen.sight))).pair
            assert pair.right.pd == pair.left.pd == Decimal(str(distance)) / 2
    in_by = (given["distance_PD"] - given["measured"]) / 2
    assert in_by == expected["each_centre_in_by"]
    each = [prentice(Power(given["F_each"]), eye, in_by, 0.0) for eye in Eye]
    net = imbalance(*each).horizontal
    assert [prism.base_in for prism in each] == pytest.approx(
        [expected["prism_each_in"]] * 2, abs=0.01
    )
    assert abs(net) == pytest.approx(expected["prism_pair"], abs=0.01)
    assert (net > 0) is (expected["direction"] == "base in")


def prism_pattern(given: Given, expected: Given) -> None:
    order, reading = given["order"], given["reading"]
    flat = {"power": power("0")}
    seen = Seen(
        {EYES[side]: flat | {"prism": components(*map(str, order[side]))} for side in EYES},
        {
            EYES[side]: {"prism": [{"prism": components(*map(str, reading[side]))}]}
            for side in EYES
        },
    )
    assert ours(expected["cause"]) in seen.slips
    assert {ours(words) for words in expected["also"]} <= seen.slips
    assert len(seen.suspicions) == 1
    nets = [
        (
            lenses["R"][0] + lenses["L"][0],
            lenses["R"][1] - lenses["L"][1],
        )
        for lenses in (order, reading)
    ]
    assert nets == [tuple(expected["net_ordered"]), tuple(expected["net_read"])]
    for direction, error in zip(("horizontal", "vertical"), expected["net_error"], strict=True):
        finding = seen.findings[f"pair.prism-{direction}"]
        assert (finding.state is State.OUTSIDE) is bool(error)


def addition(given: Given, expected: Given) -> None:
    ADDITIONS[expected["cause"]](given, expected)


def by_surface(given: Given, expected: Given) -> None:
    """Front and back difference, and what is listed when the back was read."""
    form = (given["thickness"], given["n"])
    distance = ThickLens(given["F1"], given["F2"], *form)
    near = ThickLens(given["F1"] + given["ordered_add"], given["F2"], *form)
    front = addition_by_front_vertex(distance, near)
    back = addition_by_back_vertex(distance, near)
    assert front == pytest.approx(expected["front_difference"], abs=0.006)
    assert back == pytest.approx(expected["back_difference"], abs=0.006)
    assert back - front == pytest.approx(expected["excess"], abs=0.006)
    order = {
        "design": "progressive",
        "index": str(given["n"]),
        "right": {
            "power": power(f"{distance.back_vertex_power:.3f}"),
            "add": str(given["ordered_add"]),
            "base_curve": str(given["F1"]),
            "centre_thickness": str(given["thickness"]),
        },
    }
    seen = Seen(order, {"right": {"near": [near_read(f"{back:.3f}")]}})
    if expected["cause"] == "surface does not matter here":
        assert seen.is_within("right.")
        assert seen.suspicions == ()
    else:
        seen.means(expected["cause"])


def beside(given: Given, expected: Given) -> None:
    seen = Seen(
        {
            "design": "progressive",
            "right": {
                "power": power(str(given["order_distance"])),
                "add": str(given["order_add"]),
            },
        },
        {
            "right": {
                "distance": [display(str(given["read_distance"]))],
                "near": [near_read(str(given["read_add"]))],
            }
        },
    )
    seen.means(expected["cause"])
    errors = seen.findings["right.meridian-high"], seen.findings["right.add"]
    distance, add = (float(finding.difference or 0) for finding in errors)
    assert distance == expected["distance_error"]
    assert add == pytest.approx(expected["add_error"])
    assert distance + add == pytest.approx(expected["near_total_error"])


def wrong_mark(given: Given, expected: Given) -> None:
    seen = Seen(
        {
            "design": "progressive",
            "right": {"power": power("0"), "add": str(given["ordered"])},
        },
        {
            "right": {
                "near": [near_read(str(given["read"]))],
                "engraved_add": str(given["engraved"]),
            }
        },
    )
    assert (given["engraved"] == given["read"]) is expected["engraved_equals_read"]
    seen.means(expected["cause"])


def whole_near_power(given: Given, expected: Given) -> None:
    seen = Seen(
        {
            "design": "bifocal",
            "right": {
                "power": power(str(given["order_distance"])),
                "add": str(given["ordered_add"]),
            },
        },
        {"right": {"near": [near_read(str(given["read_add"]), "front")]}},
    )
    seen.means(expected["cause"])
    error = float(seen.findings["right.add"].difference or 0)
    assert error == expected["add_error"]
    assert (error == given["order_distance"]) is expected["equals_distance_sphere"]


ADDITIONS: dict[str, Callable[[Given, Given], None]] = {
    "add read on the back of a front-surface addition": by_surface,
    "surface does not matter here": by_surface,
    "near point read too high or beside the near zone": beside,
    "wrong engraving or engraving code misread": wrong_mark,
    "near total entered as the add": whole_near_power,
}


def heights(given: Given, expected: Given) -> None:
    if "worn_R" in given:
        rolled(given, expected)
        return
    seen = Seen(*heights_of(given))
    seen.means(expected["cause"])
    for side, eye in EYES.items():
        assert seen.findings[f"{eye}.height"].difference == expected[f"{side}_error"]
    read = given["read_R"] + given["read_L"]
    assert (read == given["order_R"] + given["order_L"]) is expected["sum_ok"]


def heights_of(given: Given, cross: Given | None = None) -> tuple[Given, Given]:
    order: Given = {"design": "progressive"}
    layouts = {}
    for side, eye in EYES.items():
        order[eye] = {"power": power("0"), "height": str(given[f"order_{side}"])}
        layouts[eye] = {"height": [str(given[f"read_{side}"])]}
    attempt: Given = {"pair": layouts}
    if cross:
        attempt["fit"] = {"answers": {"cross": {"measured": cross}}}
    return order, attempt


def rolled(given: Given, expected: Given) -> None:
    """The roll itself is within; twice as much is outside, and then it is offered."""
    worn = {side: Decimal(str(given[f"worn_{side}"])) for side in EYES}
    up = {side: worn[side] - given[f"read_{side}"] for side in EYES}
    assert up["L"] - up["R"] == Decimal(str(expected["worn_difference"]))
    assert given["read_L"] - given["read_R"] == expected["bench_difference"]
    for times, listed in ((1, set()), (2, {ours(expected["cause"])})):
        cross = {f"{eye}_up": str(times * up[side]) for side, eye in EYES.items()}
        cross |= {f"{eye}_across": "0" for eye in Eye}
        seen = Seen(*heights_of(given, cross))
        assert seen.is_within("right.height", "left.height", "pair.height")
        assert seen.slips == listed


CALCULATIONS: dict[str, Callable[[Given, Given], None]] = {
    "explain": explain,
    "pair_pattern": pair_pattern,
    "centres": centres,
    "prism_pattern": prism_pattern,
    "addition": addition,
    "heights": heights,
}


@pytest.mark.parametrize("example", EXAMPLES, ids=[one["id"] for one in EXAMPLES])
def test_example(example: Given) -> None:
    CALCULATIONS[example["calc"]](example["inputs"], example["expected"])


def test_all_examples_are_here_and_run() -> None:
    assert len({one["id"] for one in EXAMPLES}) == len(EXAMPLES) == 33
    assert {one["calc"] for one in EXAMPLES} == set(CALCULATIONS)
    assert all(one["known"] for one in EXAMPLES)
    assert set(OURS.values()) <= {slip.id for slip in SLIPS}
