"""The power compensated as worn: told with its assumptions, and never judged by."""

from typing import Any

import pytest

from benchassist.optics.eye import Eye
from benchassist.optics.tilt import combined_tilt, given_to_eye
from benchassist.optics.vertex import replaced_at
from benchassist.verdicts.as_worn import as_worn_power
from benchassist.verdicts.case import Case
from benchassist.verdicts.finding import Finding, State
from tests.verdicts.jobs import display, job_of, judged, plain_limits, power

WORN: dict[str, Any] = {
    "design": "single-vision",
    "index": "1.5",
    "vertex_distance": "12",
    "frame": {"tilt": "10", "face_form": "6"},
    "right": {"power": power("-6.00", "-1.00", "30")},
    "left": {"power": power("-6.00", "-1.00", "150")},
}


def told(order: dict[str, Any], attempt: dict[str, Any] | None = None) -> dict[str, Finding]:
    findings = judged(order, attempt)
    return {key: one for key, one in findings.items() if key.endswith(".as-worn")}


def test_both_eyes_in_mirror_image() -> None:
    found = told(WORN)
    right, left = found["right.as-worn"], found["left.as-worn"]
    assert (right.state, right.found, right.prompt) == (State.NONE, None, "right.distance")
    assert right.sentence == (
        "Compensated as worn: −5.72 −1.13 × 36 on the meter (thin lens, index 1.5, tilt 10°, "
        "face form 6°, 12.0 mm); for information, the order is judged."
    )
    assert left.sentence == right.sentence.replace("× 36", "× 144")


@pytest.mark.parametrize("eye", Eye)
def test_the_tilted_lens_gives_what_is_ordered(eye: Eye) -> None:
    case = Case(job_of(WORN), plain_limits())
    shown, ordered = as_worn_power(case, eye), case.ordered_power(eye)
    assert shown is not None
    assert ordered is not None
    given = given_to_eye(shown, combined_tilt(10, 6, eye), 1.5)
    assert given.sphere == pytest.approx(float(ordered.sphere))
    assert given.cylinder == pytest.approx(float(ordered.cylinder))
    assert given.axis == pytest.approx(float(ordered.axis or 0))


def test_a_vertex_distance_measured_on_the_wearer_counts() -> None:
    flat = {**WORN, "frame": {"tilt": "0", "face_form": "0"}}
    fit = {"fit": {"answers": {"vertex": {"measured": {"right": "15", "left": "12"}}}}}
    case = Case(job_of(flat, fit), plain_limits())
    shown, ordered = as_worn_power(case, Eye.RIGHT), case.ordered_power(Eye.RIGHT)
    assert shown is not None
    assert ordered is not None
    moved = replaced_at(ordered.power(), 12, 15)
    assert shown.sphere == pytest.approx(moved.sphere)
    found = told(flat, fit)
    assert "refracted at 12.0 mm and worn at 15.0 mm" in found["right.as-worn"].sentence
    assert "0°, 12.0 mm)" in found["left.as-worn"].sentence


def test_a_sphere_without_tilt_shows_itself() -> None:
    flat = {**WORN, "frame": {"tilt": "0", "face_form": "0"}, "right": {"power": power("2.00")}}
    assert "Compensated as worn: +2.00 on" in told(flat)["right.as-worn"].sentence


@pytest.mark.parametrize(
    "lacking",
    [
        {"vertex_distance": None},
        {"frame": {"tilt": "10"}},
        {"frame": {"face_form": "6"}},
        {"frame": {"tilt": "90", "face_form": "6"}},
        {"right": {}, "left": {}},
    ],
)
def test_where_not_all_is_stated_nothing_is_told(lacking: dict[str, Any]) -> None:
    assert told(WORN | lacking) == {}


def test_the_makers_own_power_leaves_nothing_to_reckon() -> None:
    right = {**WORN["right"], "verification": {"power": power("-5.75", "-1.00", "32")}}
    assert told({**WORN, "right": right}).keys() == {"left.as-worn"}
    half = {**WORN["right"], "verification": {"add": "2.00"}}
    assert told({**WORN, "right": half}).keys() == {"right.as-worn", "left.as-worn"}


def test_no_verdict_uses_it() -> None:
    read = {"right": {"distance": [display("-6.00", "-1.00", "30")]}}
    worn, plain = judged(WORN, read), judged({**WORN, "frame": {}}, read)
    assert {key: worn[key] for key in plain} == plain
