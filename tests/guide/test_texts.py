"""What the texts of the guide must be like, whoever writes them."""

import re
import tomllib

import pytest

from benchassist.assets import asset
from benchassist.guide.conditions import CONDITIONS
from benchassist.guide.guide import Guide
from benchassist.guide.load import load_guide
from benchassist.guide.prompts import Kind, Prompt, StepId
from benchassist.job.order import (
    FrameMaterial,
    FrameOrder,
    LensMaterial,
    Order,
    Rim,
    Treatment,
)

PROMPTS = load_guide().prompts
PICTURES = {
    *("reticle-power", "reticle-prism", "near-surface", "progressive-marks", "centration"),
    *("heights", "segment-tilt", "calliper", "surface-light", "edge", "rotation", "skew"),
    *("x-ing", "planes", "face-form", "four-point", "pads", "open-angle", "pantoscopic"),
    *("table-inverted", "table-upright", "shafts", "temple-bend", "fold", "level", "vertex"),
    *("fitting-cross", "zones", "care", "sign"),
}
SPOTS = {
    *("distance", "near", "intermediate", "prism", "engraving", "centre", "height", "tilt"),
    *("surface", "rim", "endpiece", "temple", "tip"),
}
every_prompt = pytest.mark.parametrize("prompt", PROMPTS, ids=lambda prompt: prompt.id)


def _asks(prompt: Prompt) -> list[str]:
    return [prompt.ask, *(variant.ask for variant in prompt.variants if variant.ask)]


def _sentences(text: str) -> int:
    return len(re.findall(r"[.?!](?= |$)", text))


@every_prompt
def test_ask_is_one_imperative_sentence(prompt: Prompt) -> None:
    for ask in _asks(prompt):
        assert _sentences(ask) == 1
        assert ask.endswith(".")
        assert ask[0].isupper()
        assert len(ask) <= 170
        assert not ask.startswith(("Please", "You ", "The "))


@every_prompt
def test_how_and_why_are_short(prompt: Prompt) -> None:
    for how in (prompt.how, *(variant.how for variant in prompt.variants)):
        assert _sentences(how) <= 4
        assert len(how) <= 420
    for why in (prompt.why, *(variant.why for variant in prompt.variants)):
        assert _sentences(why) <= 2


@every_prompt
def test_every_prompt_says_how_why_and_whence(prompt: Prompt) -> None:
    assert prompt.how
    assert prompt.why
    assert prompt.evidence
    assert prompt.sources


@pytest.mark.parametrize(
    "prompt", [item for item in PROMPTS if item.kind is Kind.CHECK], ids=lambda item: item.id
)
def test_every_check_says_what_a_fault_looks_like(prompt: Prompt) -> None:
    assert prompt.fault


@every_prompt
def test_texts_are_whole(prompt: Prompt) -> None:
    texts = [
        *(prompt.title, prompt.ask, prompt.how, prompt.why, prompt.fault, prompt.caution),
        *(item.label for item in prompt.inputs),
        *(text for item in prompt.remedies for text in (item.does, item.tool, item.caution)),
    ]
    for text in texts:
        assert "{" not in text
        assert "  " not in text
        assert text == text.strip()
    for remedy in prompt.remedies:
        assert remedy.does.endswith(".")
        assert not remedy.caution or remedy.caution.endswith(".")


@every_prompt
def test_picture_and_spots_are_known_to_the_drawings(prompt: Prompt) -> None:
    assert not prompt.picture or prompt.picture in PICTURES
    for spot in prompt.spots:
        eye, _, place = spot.partition(".")
        assert spot in {"bridge", "pads", "front"} or (
            eye in {"right", "left"} and place in SPOTS
        )


def test_every_picture_is_used() -> None:
    assert {prompt.picture for prompt in PROMPTS} - {""} == PICTURES


def test_a_prompt_about_both_sides_has_two_places(guide: Guide) -> None:
    assert guide.prompt("pair.height").spots == ("right.height", "left.height")
    assert guide.prompt("right.near").spots == ("right.near",)
    assert guide.prompt("bench.skew").spots == ("bridge",)


def test_bench_measurements_keep_their_names(guide: Guide) -> None:
    names = {
        prompt.id: {item.name for item in prompt.inputs}
        for prompt in guide.prompts
        if prompt.inputs
    }
    assert names == {
        "bench.rotation": {"right_marks", "left_marks", "separation"},
        "bench.skew": {"right_outer", "right_inner", "left_inner", "left_outer"},
        "bench.x-ing": {"right_top", "right_bottom", "left_top", "left_bottom", "apart"},
        "bench.four-point": {"right_nasal", "right_temporal", "left_nasal", "left_temporal"},
        "bench.open-angle": {"right_out", "right_back", "left_out", "left_back"},
        "bench.pantoscopic": {"right_offset", "left_offset"},
        "bench.table-inverted": {"right_gap", "left_gap", "run"},
        "bench.table-upright": {"right_gap", "left_gap", "run"},
        "bench.face-form": {"depth", "width"},
        "bench.pads": {"right_height", "left_height", "right_stand", "left_stand"},
        "bench.fold": {"right_height", "left_height", "half_width"},
        "bench.temple-bend": {"right_start", "left_start", "right_drop", "left_drop"},
        "surface.transmittance": {"right", "left"},
        "fit.vertex": {"right", "left"},
        "fit.tilt": {"tilt"},
        "fit.face-form": {"right", "left"},
        "fit.level": {"ends"},
        "fit.slipping": {"slip"},
        "fit.comfort": {"minutes"},
        "fit.cross": {"right_across", "right_up", "left_across", "left_up"},
    }


def test_a_measurement_of_one_side_names_its_eye() -> None:
    for prompt in PROMPTS:
        for item in prompt.inputs:
            side = item.name.partition("_")[0]
            assert item.eye == (side if side in {"right", "left"} else None)


def test_right_and_left_lens_ask_the_same(guide: Guide) -> None:
    right = [prompt.name for prompt in guide.step(StepId.RIGHT).prompts]
    assert right == [prompt.name for prompt in guide.step(StepId.LEFT).prompts]
    left = guide.prompt("left.distance")
    assert "left lens" in left.ask
    assert "right" not in left.ask
    assert left.spot == "left.distance"


def test_the_two_touch_tests_keep_their_names(guide: Guide) -> None:
    assert guide.prompt("bench.four-point").title == "Four-point contact"
    assert "straight edge" in guide.prompt("bench.four-point").ask
    for name in ("table-inverted", "table-upright"):
        assert guide.prompt(f"bench.{name}").title.startswith("Table touch")
        assert "flat plate" in guide.prompt(f"bench.{name}").ask


def test_every_frame_material_and_mounting_has_its_note(guide: Guide) -> None:
    named = {note.material for note in guide.materials}
    assert named >= {*FrameMaterial, Rim.RIMLESS, Rim.HALF}
    assert len(named) == len(guide.materials)
    for note in guide.materials:
        assert note.text
        assert note.never
        assert note.evidence


def test_every_source_and_every_condition_is_used() -> None:
    folder = asset("guide", "en")
    listed = tomllib.loads((folder / "guide.toml").read_text(encoding="utf-8"))["source"]
    texts = [path.read_text(encoding="utf-8") for path in folder.glob("*.toml")]
    cited = {
        name
        for text in texts
        for names in re.findall(r"^evidence = \[(.*)\]$", text, re.MULTILINE)
        for name in re.findall(r'"([^"]+)"', names)
    }
    assert {source["id"] for source in listed} == cited
    needed = {name for prompt in PROMPTS for name in prompt.applies.needs}
    assert {condition.name for condition in CONDITIONS} == needed


def test_notes_for_an_order(guide: Guide) -> None:
    from_order = [note.material for note in guide.notes_for(_order())]
    assert from_order == ["acetate", "rimless", "glass", "anti-reflection", "photochromic"]


def test_an_unknown_frame_is_treated_as_brittle(guide: Guide) -> None:
    order = _order().with_(frame=FrameOrder(), material=None, treatments=())
    assert [note.material for note in guide.notes_for(order)] == ["unknown frame"]


def _order() -> Order:
    return Order(
        frame=FrameOrder(material=FrameMaterial.ACETATE, rim=Rim.RIMLESS),
        material=LensMaterial.GLASS,
        treatments=(Treatment.ANTI_REFLECTION, Treatment.PHOTOCHROMIC),
    )


def test_what_is_forbidden_is_told_as_forbidden(guide: Guide) -> None:
    for note in guide.materials:
        assert f" Never: {note.never[0].lower()}{note.never[1:]}" in note.words
