"""What a wearer may be told: nothing without evidence, nothing that evidence denies."""

import re
import shutil
import tomllib
from collections.abc import Callable
from enum import StrEnum
from pathlib import Path
from typing import Any

import pytest

from benchassist.assets import asset
from benchassist.guide.load import load_guide
from benchassist.job.order import (
    Design,
    FrameMaterial,
    FrameOrder,
    LensMaterial,
    Order,
    Rim,
    Treatment,
)
from benchassist.limits.rule import Evidence
from benchassist.records.advice import (
    Section,
    Use,
    languages,
    load_teaching,
)
from benchassist.wrong import BenchError

Edit = Callable[[str, str, str], None]
LANGUAGES = languages()


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    shutil.copytree(asset("handover"), tmp_path / "handover")
    return tmp_path / "handover"


@pytest.fixture
def edit(folder: Path) -> Edit:
    """Replaces the first place of a text in one file."""

    def replace(name: str, old: str, new: str) -> None:
        text = (folder / name).read_text(encoding="utf-8")
        assert old in text
        (folder / name).write_text(text.replace(old, new, 1), encoding="utf-8")

    return replace


def told(order: Order, use: Use = Use.NOT_TOLD) -> set[str]:
    return {one.id for one in load_teaching().for_pair(order, use)}


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ('evidence = "common practice, no source"\n', "", "evidence"),
        ('evidence = "common practice, no source"', 'evidence = "hearsay"', "evidence"),
        ('source = ["falls-new"]\n', "", "names no source"),
        ('source = ["falls-new"]', 'source = ["a-friend"]', "no source 'a-friend'"),
        ("priority = 0\n", "", "priority"),
        ('id = "single-reading"', 'id = "single-far"', "twice"),
        ('for_design = ["single-vision"]', 'for_design = ["monocle"]', "for_design"),
        ('section = "look"', 'section = "price"', "section"),
        ("[[advice]]", "[[advice", "cannot be read"),
    ],
)
def test_an_entry_without_evidence_or_sense_is_refused(
    folder: Path, edit: Edit, old: str, new: str, words: str
) -> None:
    edit("en/advice.toml", old, new)
    with pytest.raises(BenchError) as refused:
        load_teaching(folder=folder)
    assert "advice.toml" in refused.value.sentence
    assert words in refused.value.sentence


def test_every_advice_names_its_publications_or_that_there_are_none() -> None:
    for one in load_teaching().advice:
        if one.evidence is not Evidence.PRACTICE:
            assert all(source.title for source in one.sources)
            assert one.sources


def test_nothing_in_the_files_of_the_wearer_escapes_the_search() -> None:
    folder = asset("handover", "en")
    assert sorted(path.name for path in folder.iterdir()) == ["advice.toml", "words.toml"]


@pytest.mark.parametrize(
    ("file", "key", "claim", "words"),
    [
        ("en/advice.toml", "says", "It blocks harmful blue light.", "in advice '"),
        ("de/advice.toml", "says", "Die Fassung ist nickelfrei.", "in advice '"),
        ("en/words.toml", "title", "Unbreakable.", "in title, "),
    ],
)
def test_a_text_that_claims_what_nothing_supports_is_refused(
    folder: Path, file: str, key: str, claim: str, words: str
) -> None:
    text = (folder / file).read_text(encoding="utf-8")
    text = text.replace(f'{key} = "', f'{key} = "{claim} ', 1)
    (folder / file).write_text(text, encoding="utf-8")
    with pytest.raises(BenchError) as refused:
        load_teaching(file[:2], folder)
    assert refused.value.sentence.startswith(f"The file {file} cannot be used: {words}")
    assert "nothing supports the claim '" in refused.value.sentence


@pytest.mark.parametrize("language", LANGUAGES)
def test_words_are_plain_and_whole(language: str) -> None:
    for one in load_teaching(language).advice:
        sentences = re.split(r"[.:?!]", one.says)
        assert one.says.endswith(".")
        assert max(len(sentence.split()) for sentence in sentences) <= 30, one.says
        assert not re.search(r"[+−]\d|\d[.,]\d|Δ|dioptr", one.says, re.IGNORECASE)


@pytest.mark.parametrize("language", [one for one in LANGUAGES if one != "en"])
def test_a_translation_is_whole_and_says_that_no_native_speaker_has_read_it(
    language: str,
) -> None:
    english, other = load_teaching(), load_teaching(language)
    both = zip(english.advice, other.advice, strict=True)
    assert [one.id for one, same in both if one.says == same.says] == []
    assert english.words != other.words
    for path in asset("handover", language).glob("*.toml"):
        text = path.read_text(encoding="utf-8")
        assert text.startswith("# not yet read by a native speaker\n")
        assert tomllib.loads(text)


@pytest.mark.parametrize(
    ("tag", "language"),
    [("de", "de"), ("de-AT", "de"), ("DE", "de"), ("", "en"), ("fi", "en"), ("..", "en")],
)
def test_an_unknown_language_is_told_in_english(tag: str, language: str) -> None:
    assert load_teaching(tag).language == language


def test_what_a_language_lacks_is_told_in_english(folder: Path) -> None:
    (folder / "de" / "advice.toml").write_text("", encoding="utf-8")
    teaching = load_teaching("de", folder)
    assert [one.says for one in teaching.advice] == [one.says for one in load_teaching().advice]
    assert teaching.words.title != load_teaching().words.title


def test_a_language_may_only_replace_words(folder: Path) -> None:
    more = '[[advice]]\nid = "wash"\npriority = 3\n'
    (folder / "de" / "advice.toml").write_text(more, encoding="utf-8")
    with pytest.raises(BenchError, match="a language may only replace texts"):
        load_teaching("de", folder)


# Warned of by authorities: driving in tints, College of Optometrists, 'Tints and driving',
# https://www.college-optometrists.org/clinical-guidance/guidance/knowledge,-skills-and-
# performance/examining-patients-who-drive/tints-and-driving; the rest is common practice.
@pytest.mark.parametrize(
    ("order", "use", "wanted"),
    [
        (Order(design=Design.SINGLE_VISION), Use.READING, "drive-not steps-other-pair"),
        (Order(design=Design.SINGLE_VISION), Use.SCREEN, "drive-not steps-other-pair"),
        (Order(design=Design.SINGLE_VISION), Use.NOT_TOLD, "drive-perhaps-not"),
        (Order(design=Design.SINGLE_VISION), Use.FAR, "drive-when-right steps-slowly"),
        (Order(), Use.NOT_TOLD, "drive-perhaps-not drive-when-right steps-slowly"),
        (Order(design=Design.DEGRESSIVE), Use.NOT_TOLD, "drive-not steps-other-pair"),
        (Order(design=Design.PROGRESSIVE), Use.NOT_TOLD, "steps-upper-part sideways"),
        (Order(design=Design.BIFOCAL), Use.NOT_TOLD, "steps-upper-part line-jump"),
        (Order(tint="brown 80 %"), Use.NOT_TOLD, "tint-night"),
        (Order(treatments=(Treatment.POLARISED,)), Use.NOT_TOLD, "tint-night polarised"),
        (Order(treatments=(Treatment.PHOTOCHROMIC,)), Use.NOT_TOLD, "photochromic"),
        (Order(treatments=(Treatment.ANTI_REFLECTION,)), Use.NOT_TOLD, "reflections"),
        (Order(treatments=(Treatment.HARD,)), Use.NOT_TOLD, "hard-coat"),
        (Order(material=LensMaterial.POLYCARBONATE), Use.NOT_TOLD, "polycarbonate"),
        (Order(material=LensMaterial.GLASS), Use.NOT_TOLD, "glass"),
        (Order(material=LensMaterial.HIGH_INDEX_PLASTIC), Use.NOT_TOLD, "thin"),
        (Order(frame=FrameOrder(material=FrameMaterial.ACETATE)), Use.ALL, "frame-cream"),
        (Order(frame=FrameOrder(material=FrameMaterial.METAL)), Use.ALL, "skin"),
        (Order(frame=FrameOrder(rim=Rim.RIMLESS)), Use.ALL, "drilled"),
    ],
)
def test_a_pair_is_told_what_belongs_to_it(order: Order, use: Use, wanted: str) -> None:
    assert set(wanted.split()) <= told(order, use)
    assert {"flashes", "flags"} <= told(order, use)


# Signs that do not wait: general triage teaching; common practice, no source.
@pytest.mark.parametrize("language", LANGUAGES)
def test_what_does_not_wait_is_never_left_out(language: str) -> None:
    words = {"en": "jaw lid pupils chemical injury", "de": "Kiefer Lid Pupillen Chemikalie"}
    (flags,) = (one for one in load_teaching(language).advice if one.id == "flags")
    assert flags.priority == 0
    assert all(word in flags.says for word in words[language].split())


def test_the_care_of_a_pair_is_that_of_its_own_materials() -> None:
    frame = FrameOrder(material=FrameMaterial.ACETATE, rim=Rim.FULL)
    order = Order(material=LensMaterial.POLYCARBONATE, frame=frame)
    polycarbonate, acetate = load_teaching().of_materials(order)
    assert "surface is soft" in polycarbonate
    assert "cream" in acetate
    assert load_teaching().of_materials(Order()) == ()


KINDS: tuple[tuple[str, type[StrEnum], Callable[[Any], Order]], ...] = (
    ("for_material", LensMaterial, lambda one: Order(material=one)),
    ("for_frame", FrameMaterial, lambda one: Order(frame=FrameOrder(material=one))),
    ("for_rim", Rim, lambda one: Order(frame=FrameOrder(rim=one))),
    ("for_treatment", Treatment, lambda one: Order(treatments=(one,))),
)


@pytest.mark.parametrize(("kind", "members", "order_of"), KINDS, ids=[one[0] for one in KINDS])
def test_no_pair_is_told_what_belongs_to_another(
    kind: str, members: type[StrEnum], order_of: Callable[[Any], Order]
) -> None:
    """Nobody with plastic lenses reads of glass, nobody with a full rim of drilled ones."""
    bound = [one for one in load_teaching().advice if getattr(one, kind)]
    assert bound
    assert not any(one.suits(Order(), Use.NOT_TOLD) for one in bound)
    for member in members:
        order = order_of(member)
        for one in bound:
            assert one.suits(order, Use.NOT_TOLD) is (member in getattr(one, kind))


@pytest.mark.parametrize("use", [Use.READING, Use.SCREEN])
def test_nobody_is_told_to_drive_in_a_reading_pair(use: Use) -> None:
    assert "drive-when-right" not in told(Order(design=Design.SINGLE_VISION), use)
    assert "drive-when-right" not in told(Order(design=Design.DEGRESSIVE), use)


def test_the_uses_are_the_options_of_the_guide() -> None:
    options = load_guide().prompt("handover.made-for").options
    assert {*options, Use.NOT_TOLD} == set(Use)


def test_every_material_treatment_and_zone_has_its_advice() -> None:
    advice = load_teaching().advice
    named = {one for each in advice for one in (*each.for_material, *each.for_treatment)}
    assert named == {*LensMaterial, *Treatment}
    assert {one for each in advice for one in each.for_frame} == set(FrameMaterial)
    assert {each.section for each in advice} == set(Section)
