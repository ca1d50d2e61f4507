"""Reading the guide: a malformed file names file and entry; a language lies over English."""

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from benchassist.assets import asset
from benchassist.guide.bends import BENDS_FILE
from benchassist.guide.guide import Guide
from benchassist.guide.load import load_guide
from benchassist.guide.prompts import StepId
from benchassist.wrong import BenchError

Edit = Callable[..., None]


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    shutil.copytree(asset("guide", "en"), tmp_path / "en")
    shutil.copy(asset("guide", BENDS_FILE), tmp_path / BENDS_FILE)
    return tmp_path


@pytest.fixture
def edit(folder: Path) -> Edit:
    """Replaces the first place of a text in one English file."""

    def replace(name: str, old: str, new: str) -> None:
        path = folder / "en" / f"{name}.toml"
        text = path.read_text(encoding="utf-8")
        assert old in text
        path.write_text(text.replace(old, new, 1), encoding="utf-8")

    return replace


def refusal(folder: Path, language: str = "en") -> str:
    with pytest.raises(BenchError) as refused:
        load_guide(language, folder)
    return refused.value.sentence


def lay(folder: Path, text: str, name: str = "bench") -> None:
    (folder / "fi").mkdir(exist_ok=True)
    (folder / "fi" / f"{name}.toml").write_text(text, encoding="utf-8")


def test_the_nine_steps_are_read_in_order(guide: Guide) -> None:
    assert [step.id for step in guide.steps] == list(StepId)
    assert [step.title for step in guide.steps] == [
        *("Order", "Right lens", "Left lens", "The pair", "Surface and edge"),
        *("Frame on the bench", "Fit on the wearer", "Handover", "Record and sign"),
    ]
    assert guide.language == "en"
    assert guide.version


def test_a_copy_reads_the_same(guide: Guide, folder: Path) -> None:
    assert load_guide(folder=folder) == guide


def test_ids_are_unique_and_begin_with_their_step(guide: Guide) -> None:
    ids = [prompt.id for prompt in guide.prompts]
    assert len(set(ids)) == len(ids)
    assert all(prompt.id == f"{prompt.step}.{prompt.name}" for prompt in guide.prompts)


def test_an_unknown_prompt_is_our_fault(guide: Guide) -> None:
    with pytest.raises(KeyError, match=r"no prompt bench\.polish"):
        guide.prompt("bench.polish")


def test_a_missing_file(folder: Path) -> None:
    (folder / "en" / "fit.toml").unlink()
    assert refusal(folder).startswith("The file en/fit.toml cannot be read: ")


def test_a_cut_file(folder: Path, edit: Edit) -> None:
    edit("pair", 'id = "height"', "id = ")
    assert "pair.toml cannot be read" in refusal(folder)


def test_a_file_that_is_not_text(folder: Path) -> None:
    (folder / "en" / "fit.toml").write_bytes(b"\xff\xfe\x00")
    assert "fit.toml cannot be read" in refusal(folder)


MALFORMED = (
    ("bench", 'kind = "check"', 'kind = "look"', "bench.toml screws kind"),
    ("bench", 'kind = "check"', 'kinds = "check"', "bench.toml screws kind"),
    ("bench", "low = -5", 'low = "few"', "bench.toml rotation measurement low"),
    ("order", 'id = "frame"', 'id = "Frame!"', "order.toml Frame!"),
    ("fit", "why = ", 'reason = "x"\nwhy = ', "fit.toml bridge reason"),
    ("pair", 'evidence = ["boxing", ', 'evidence = ["hearsay", ', "hearsay distance-pd"),
    ("surface", "evidence = [", "evidence = []\nview = [", "scratches evidence"),
    ("lens", 'title = "{Eye} lens"\n', "", "lens.toml title"),
    ("bench", 'material = "acetate"\n', "", "bench.toml without material"),
    ("guide", 'version = "2026.1"\n', "", "guide.toml version"),
    ("guide", 'title = "common', 'heading = "common', "guide.toml source practice"),
)


@pytest.mark.parametrize("case", MALFORMED, ids=lambda case: f"{case[0]}: {case[2]!r}")
def test_a_malformed_entry_is_named(
    folder: Path, edit: Edit, case: tuple[str, str, str, str]
) -> None:
    *change, words = case
    edit(*change)
    sentence = refusal(folder)
    for word in words.split():
        assert word in sentence


def test_an_entry_that_is_no_table_is_named(folder: Path) -> None:
    path = folder / "en" / "record.toml"
    path.write_text('title = "Record"\nprompt = ["outcome"]\n', encoding="utf-8")
    assert "prompt 'outcome'" in refusal(folder)


def test_an_unknown_language(folder: Path) -> None:
    assert refusal(folder, "xx") == "There is no guide in the language 'xx'."


def test_a_language_replaces_texts_and_falls_back_to_english(
    guide: Guide, folder: Path
) -> None:
    lay(
        folder,
        """
        title = "Kehys"
        [[prompt]]
        id = "skew"
        ask = "Katso siltaa."
        group = "Silta"
        [[prompt.measurement]]
        name = "right_outer"
        label = "Oikea, ulkoreuna"
        [[prompt.remedy]]
        id = "lift"
        does = "Nosta."
        [[material]]
        material = "acetate"
        never = "Kuumenna."
        """,
    )
    over = load_guide("fi", folder)
    assert over.language == "fi"
    assert over.step(StepId.BENCH).title == "Kehys"
    skew, english = over.prompt("bench.skew"), guide.prompt("bench.skew")
    assert (skew.ask, skew.group) == ("Katso siltaa.", "Silta")
    assert (skew.how, skew.after) == (english.how, english.after)
    assert skew.inputs[0].label == "Oikea, ulkoreuna"
    assert skew.inputs[0].low == english.inputs[0].low
    assert skew.inputs[1:] == english.inputs[1:]
    assert skew.remedy("lift").does == "Nosta."
    assert skew.remedy("lift").disturbs == english.remedy("lift").disturbs
    assert over.prompt("fit.level") == guide.prompt("fit.level")
    notes = {note.material: note for note in over.materials}
    assert notes["acetate"].never == "Kuumenna."
    assert notes["epoxy"] in guide.materials


@pytest.mark.parametrize("view", ['"top"', "3"])
def test_a_language_may_only_replace_texts(folder: Path, view: str) -> None:
    lay(folder, f'[[prompt]]\nid = "skew"\nview = {view}\n')
    assert "fi/bench.toml cannot be used: in prompt 'skew', 'view'" in refusal(folder, "fi")


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ("[heat]", "[warmth]", ("bends.toml", "heat")),
        ('id = "tip"', 'id = "top"', ("bend-tip", "'tip'", "bends.toml")),
        ('"@meter"', '"@metre"', ("no list 'metre'",)),
        ('"fit.tilt"', '"fit.tlt"', ("fit.tlt",)),
        ("[lists]", "[lists", ("bends.toml cannot be read",)),
    ],
)
def test_a_graph_of_corrections_that_does_not_hold_together(
    folder: Path, old: str, new: str, words: tuple[str, ...]
) -> None:
    path = folder / BENDS_FILE
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")
    for word in words:
        assert word in refusal(folder)
