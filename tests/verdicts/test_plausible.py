from pathlib import Path
from typing import Any

import pytest

from benchassist.job.order import Order
from benchassist.job.upgrade import read
from benchassist.optics.eye import Eye
from benchassist.records.demo import demo_files
from benchassist.verdicts.plausible import CylinderForm, questions
from tests.verdicts.jobs import components, power

SOUND: dict[str, Any] = {
    "design": "progressive",
    "vertex_distance": "12",
    "right": {
        "power": power("-2.00", "-0.75", "90"),
        "add": "2.00",
        "distance_pd": "31.5",
        "near_pd": "29.5",
        "height": "20",
    },
    "left": {
        "power": power("-2.25", "-0.50", "85"),
        "add": "2.00",
        "distance_pd": "32",
        "near_pd": "30",
        "height": "20",
    },
    "frame": {"a": "50", "b": "36", "dbl": "18", "ed": "54"},
}


def asked(right: dict[str, Any] | None = None, **order: Any) -> dict[str, str]:
    """The questions by their ids; `right` changes single fields of the right lens."""
    changed = {**SOUND, "right": {**SOUND["right"], **(right or {})}, **order}
    listed = questions(Order.model_validate(changed))
    assert len({question.id for question in listed}) == len(listed)
    return {question.id: question.sentence for question in listed}


def test_a_sound_order_raises_no_question() -> None:
    assert asked() == {}
    assert questions(Order()) == ()


@pytest.mark.parametrize(
    ("right", "wanted"),
    [
        ({"power": power("-2.00", "-0.75")}, "right.axis-missing"),
        ({"power": power("-2.00", None, "90")}, "right.cylinder-missing"),
        ({"power": power("-2.00", "0", "90")}, "right.cylinder-missing"),
        ({"power": power("-2.10", "-0.75", "90")}, "right.sphere-step"),
        ({"power": power("-2.00", "-0.70", "90")}, "right.cylinder-step"),
        (
            {"verification": {"power": power("-1.93", "-0.7")}},
            "right.verification-axis-missing",
        ),
        ({"power": power("2.25", "-0.50", "90")}, "pair.sign"),
        ({"power": power("-5.00", "-0.50", "90")}, "pair.difference"),
        ({"power": power("-2.75", "0.75", "180")}, "pair.cylinder-form"),
        ({"add": None}, "right.add-missing"),
        ({"add": "0"}, "right.add-missing"),
        ({"add": "4.00"}, "right.add-unusual"),
        ({"add": "0.50"}, "right.add-unusual"),
        ({"add": "2.25"}, "pair.add-unequal"),
        ({"add": "2.10"}, "right.add-step"),
        ({"intermediate": "2.00"}, "right.intermediate-large"),
        ({"prism": components()}, "right.prism-empty"),
        ({"prism": components("2"), "power": {}}, "right.prism-without-power"),
        ({"distance_pd": "63"}, "right.pd-unusual"),
        ({"distance_pd": "23"}, "right.pd-unusual"),
        ({"near_pd": "32"}, "right.near-pd-wide"),
        ({"distance_pd": "25.9"}, "right.decentration"),
        ({"distance_pd": "26"}, "pair.pd-unlike"),
        ({"near_pd": "26"}, "right.near-pd-narrow"),
        ({"distance_pd": "36.1"}, "right.decentration"),
        ({"height": "35"}, "right.height-frame"),
        ({"height": "13"}, "right.height-low"),
        ({"height": "22.5"}, "pair.height-unequal"),
    ],
)
def test_a_slip_in_one_lens_is_asked_about(right: dict[str, Any], wanted: str) -> None:
    sentence = asked(right)[wanted]
    assert sentence.endswith("?")
    assert sentence[0].isupper()


@pytest.mark.parametrize("sphere", ["-2.12", "-2.125", "-2.37", "-2.62", "-1.875", "0"])
def test_eighths_are_steps_whole_or_cut(sphere: str) -> None:
    assert "right.sphere-step" not in asked({"power": power(sphere, "-0.50", "90")})


@pytest.mark.parametrize(
    ("right", "absent"),
    [
        ({"distance_pd": "26"}, "right.decentration"),
        ({"distance_pd": "28"}, "pair.pd-unlike"),
        ({"near_pd": "27"}, "right.near-pd-narrow"),
        ({"distance_pd": "36.0"}, "right.decentration"),
        ({"height": "34"}, "right.height-frame"),
        ({"height": "14"}, "right.height-low"),
        ({"height": "22"}, "pair.height-unequal"),
        ({"power": power("-4.50", "0.00")}, "pair.difference"),
        ({"power": power("0.75", "0.00")}, "pair.sign"),
    ],
)
def test_on_the_bound_nothing_is_asked(right: dict[str, Any], absent: str) -> None:
    assert absent not in asked(right)


@pytest.mark.parametrize(
    ("order", "wanted"),
    [
        ({"design": "single-vision"}, "right.add-unused"),
        ({"vertex_distance": "25"}, "pair.vertex"),
        ({"vertex_distance": "7"}, "pair.vertex"),
        ({"frame": {"a": "50", "b": "36", "dbl": "18", "ed": "70"}}, "frame.ed"),
        ({"frame": {"a": "70", "b": "50", "dbl": "18", "ed": "74"}}, "right.blank"),
    ],
)
def test_a_slip_in_the_rest_is_asked_about(order: dict[str, Any], wanted: str) -> None:
    assert asked(**order)[wanted].endswith("?")


def test_prisms_that_cancel_are_asked_about() -> None:
    left = {**SOUND["left"], "prism": components("-2", "1")}
    listed = asked({"prism": components("2", "1")}, left=left)
    assert {"pair.prism-same-way", "pair.prism-opposite"} <= listed.keys()
    fine = {**SOUND["left"], "prism": components("2", "-1")}
    assert asked({"prism": components("2", "1")}, left=fine) == {}


def test_prism_thinning_is_not_asked_about() -> None:
    left = {**SOUND["left"], "prism": components("0", "-1")}
    assert asked({"prism": components("0", "-1")}, left=left) == {}
    single = {"design": "single-vision", "left": {**left, "add": None}}
    assert "pair.prism-same-way" in asked(
        {"prism": components("0", "-1"), "add": None}, **single
    )
    assert "pair.prism-same-way" in asked({"prism": components("0", "-1.25")}, left=left)


def made(sphere: str) -> dict[str, str]:
    return asked({"verification": {"power": power(sphere, "-0.75", "90")}})


@pytest.mark.parametrize("sphere", ["-1.25", "-1.75", "-2.75"])
def test_a_makers_power_near_the_order_is_not_asked_about(sphere: str) -> None:
    assert made(sphere) == {}


@pytest.mark.parametrize("sphere", ["-1.24", "-2.76", "2.00"])
def test_a_makers_power_that_no_position_explains_is_asked_about(sphere: str) -> None:
    assert "does it belong to this lens?" in made(sphere)["right.verification-far"]


def test_a_short_distance_is_not_taken_for_that_of_both_eyes() -> None:
    assert "both eyes" not in asked({"distance_pd": "23"})["right.pd-unusual"]
    assert "both eyes" in asked({"distance_pd": "63"})["right.pd-unusual"]


def test_a_frame_that_is_not_whole_is_not_asked_about() -> None:
    short = {"distance_pd": "25", "near_pd": "24"}
    left = {**SOUND["left"], **short}
    assert asked(short, left=left, frame={"a": "50", "dbl": "18"}) == {}
    known = asked(short, left=left, frame={"a": "50", "b": "36", "dbl": "18"})
    assert list(known) == ["right.decentration", "left.decentration"]
    assert (
        "decentred 9.0 mm inwards in this frame, more than 8.0 mm"
        in (known["right.decentration"])
    )


def test_a_frame_without_a_distance_is_not_asked_about() -> None:
    assert asked({"distance_pd": None, "near_pd": None}) == {}


def test_a_confirmed_question_is_still_listed() -> None:
    order = Order.model_validate({**SOUND, "vertex_distance": "25"})
    (question,) = questions(order)
    order = order.with_(confirmed=(question.sentence,))
    (question,) = questions(order)
    assert question.is_confirmed
    (again,) = questions(order.with_(vertex_distance="26"))
    assert not again.is_confirmed
    assert (question.eye, question.field) == (None, "vertex_distance")


def test_a_question_names_its_eye_and_field() -> None:
    order = Order.model_validate({**SOUND, "left": {**SOUND["left"], "height": "35"}})
    question = next(item for item in questions(order) if item.id == "left.height-frame")
    assert (question.eye, question.field) == (Eye.LEFT, "left.height")
    assert question.sentence.startswith("Left: ")


def low(height: str, minimum: str | None, **order: Any) -> str | None:
    return asked({"height": height}, minimum_height=minimum, **order).get("right.height-low")


@pytest.mark.parametrize("design", ["progressive", "degressive", "bifocal", "single-vision"])
def test_a_stated_minimum_height_decides(design: str) -> None:
    assert low("18", "18", design=design) is None
    assert low("17.99", "18", design=design) == (
        "Right: a fitting height of 17.99 mm is below the 18.0 mm that the design needs; is "
        "one a slip?"
    )


def test_a_short_design_may_sit_lower_than_usual() -> None:
    assert low("13", None) is not None
    assert low("13", "13") is None


def test_a_minimum_height_needs_its_frame() -> None:
    assert "frame.minimum-height" not in asked(minimum_height="34")
    assert asked(minimum_height="34.01")["frame.minimum-height"] == (
        "The design needs a height of 34.01 mm, which a lens 36.0 mm high does not have: is "
        "one of them a slip?"
    )


def test_a_trifocal_is_asked_for_its_intermediate_addition() -> None:
    assert "right.intermediate-missing" in asked(design="trifocal")
    assert "right.intermediate-missing" not in asked({"intermediate": "1"}, design="trifocal")
    assert "right.intermediate-missing" not in asked(design="bifocal")


def forms(order: dict[str, Any], usual: CylinderForm | None) -> list[str]:
    listed = questions(Order.model_validate(order), usual)
    return [question.id for question in listed if question.id.endswith("cylinder-form")]


def test_a_workshop_may_have_a_usual_cylinder_form() -> None:
    assert forms(SOUND, None) == []
    assert forms(SOUND, CylinderForm.MINUS) == []
    assert forms(SOUND, CylinderForm.PLUS) == ["right.cylinder-form", "left.cylinder-form"]
    plus = {**SOUND, "right": {**SOUND["right"], "power": power("-2.75", "0.75", "180")}}
    assert forms(plus, CylinderForm.MINUS) == ["pair.cylinder-form", "right.cylinder-form"]
    sphere = {"right": {"power": power("-2.75", "0")}}
    assert forms(sphere, CylinderForm.MINUS) == []


@pytest.mark.parametrize("file", demo_files(), ids=lambda file: file.stem)
def test_the_demo_orders_raise_no_false_alarm(file: Path) -> None:
    order = read(file.read_bytes()).order
    assert [
        one.id for one in questions(order, CylinderForm.MINUS) if not one.is_confirmed
    ] == []
