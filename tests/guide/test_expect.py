"""What to expect at the lens meter, case by case."""

from typing import Any

import pytest

from benchassist.guide.expect import expect
from benchassist.guide.guide import Guide
from benchassist.job.instrument import Speech
from benchassist.job.order import Order

LENS: dict[str, Any] = {"power": {"sphere": "-2.25", "cylinder": "-0.75", "axis": "165"}}


@pytest.fixture
def said(guide: Guide) -> Any:
    """What is expected at a prompt for an order given by its right (and left) lens."""

    def words(prompt: str, speech: Speech, lens: dict[str, Any], **order: Any) -> str:
        whole = Order.model_validate({"right": lens, "left": lens, **order})
        return expect(whole, guide.prompt(prompt), speech)

    return words


def test_power_on_a_drum(said: Any) -> None:
    assert said("right.distance", Speech.DRUM, LENS) == (
        "Coming from plus, the sphere lines get sharp near −2.25 with the axis wheel at 165; "
        "then go on to the cylinder lines near −3.00."
    )


def test_plus_form_on_a_drum_comes_from_plus_all_the_same(said: Any) -> None:
    plus = {"power": {"sphere": "-3.00", "cylinder": "0.75", "axis": "75"}}
    assert said("right.distance", Speech.DRUM, plus) == said(
        "right.distance", Speech.DRUM, LENS
    )


def test_a_sphere_on_a_drum(said: Any) -> None:
    sphere = {"power": {"sphere": "1.125"}}
    assert said("left.distance", Speech.DRUM, sphere) == (
        "Coming from plus, all lines get sharp together near +1.12."
    )


def test_power_on_a_display_is_in_the_form_written(said: Any) -> None:
    plus = {"power": {"sphere": "-3.00", "cylinder": "0.75", "axis": "75"}}
    assert said("right.distance", Speech.DISPLAY, plus) == (
        "The display should settle near −3.00 +0.75 × 75."
    )


def test_the_makers_power_comes_first(said: Any) -> None:
    lens = {
        **LENS,
        "verification": {"power": {"sphere": "-2.12", "cylinder": "-0.62", "axis": "4"}},
    }
    assert said("right.distance", Speech.DISPLAY, lens) == (
        "The display should settle near −2.12 −0.62 × 4 (the maker's verification power)."
    )


def test_addition_of_a_segment_on_the_front(said: Any) -> None:
    lens = {**LENS, "add": "2.00"}
    assert said("right.near", Speech.DRUM, lens, design="bifocal") == (
        "Front surface on the stop: the near lines get sharp about 2.00 D more plus than the "
        "distance lines."
    )
    assert said("right.near", Speech.DISPLAY, lens, design="bifocal") == (
        "Front surface on the stop: the display should give about +2.00 D."
    )


def test_addition_on_the_back_names_both_drum_readings(said: Any) -> None:
    lens = {**LENS, "add": "2.00"}
    assert said("right.near", Speech.DRUM, lens, design="progressive") == (
        "Back surface on the stop: the near sphere lines get sharp near −0.25 where the "
        "distance ones did near −2.25."
    )


def test_the_makers_addition_comes_first(said: Any) -> None:
    lens = {**LENS, "add": "2.00", "verification": {"add": "1.88"}}
    assert "+1.88 D (the maker's verification value)" in said(
        "right.near", Speech.DISPLAY, lens, design="progressive"
    )


def test_intermediate_addition(said: Any) -> None:
    lens = {**LENS, "add": "2.00"}
    assert said("right.intermediate", Speech.DISPLAY, lens, design="trifocal") == (
        "Front surface on the stop: the display should give about +1.00 D (half of the near "
        "addition; none is ordered)."
    )
    ordered = {**lens, "intermediate": "1.25"}
    assert "about +1.25 D." in said("left.intermediate", Speech.DISPLAY, ordered)


@pytest.mark.parametrize(
    ("prompt", "base_in", "base_up", "words"),
    [
        ("right.prism", "1.5", "0", "1½ rings to the right, towards the nose"),
        ("left.prism", "1.5", "0", "1½ rings to the left, towards the nose"),
        ("right.prism", "-0.5", "0", "½ ring to the left, towards the temple"),
        ("left.prism", "-2", "-1", "2 rings to the right, towards the temple and 1 ring down"),
        ("left.prism", "0", "1.3", "1.3 rings up"),
    ],
)
def test_prism_on_the_reticle(
    said: Any, prompt: str, base_in: str, base_up: str, words: str
) -> None:
    lens = {**LENS, "prism": {"form": "components", "base_in": base_in, "base_up": base_up}}
    assert said(prompt, Speech.DRUM, lens) == f"The target should stand {words}."


def test_polar_prism_is_derived_for_its_eye(said: Any) -> None:
    lens = {**LENS, "prism": {"form": "polar", "amount": "2", "base": "0"}}
    assert "2 rings to the right, towards the nose" in said("right.prism", Speech.DRUM, lens)
    assert "2 rings to the right, towards the temple" in said("left.prism", Speech.DRUM, lens)


def test_prism_on_a_display(said: Any) -> None:
    lens = {**LENS, "prism": {"form": "components", "base_in": "1.5", "base_up": "-0.25"}}
    assert said("left.prism", Speech.DISPLAY, lens) == (
        "The display should show about 1.50 Δ base in, 0.25 Δ base down."
    )


def test_no_prism_is_expected_in_the_middle(said: Any) -> None:
    assert said("right.prism", Speech.DRUM, LENS, design="single-vision") == (
        "No prism is ordered: expect the middle of the rings."
    )
    assert "if they were thinned" in said(
        "right.prism", Speech.DISPLAY, LENS, design="progressive"
    )


@pytest.mark.parametrize(
    ("add", "codes"),
    [("2.00", "20"), ("2.25", "225 or 22"), ("1.50", "15"), ("0.75", "75 or 7")],
)
def test_the_engraved_addition_by_its_codes(said: Any, add: str, codes: str) -> None:
    words = said("right.engraved-add", Speech.DRUM, {"add": add})
    assert words == f"The engraving should read {add}, often written {codes}."


@pytest.mark.parametrize("speech", Speech)
@pytest.mark.parametrize(
    "lens", [{}, {"power": {"sphere": "-2", "cylinder": "-1"}, "add": None}]
)
def test_nothing_ordered_is_nothing_expected(said: Any, speech: Speech, lens: Any) -> None:
    for prompt in ("distance", "near", "intermediate", "engraved-add"):
        assert not said(f"right.{prompt}", speech, lens)
    assert not said("right.prism", speech, {})
    assert not said("pair.height", speech, LENS)
    assert not said("right.marks", speech, LENS)
