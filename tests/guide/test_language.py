"""Files of texts: read, laid over English and made models; one sentence for each fault."""

from pathlib import Path

import pytest

from benchassist.guide.language import TextFile, read_file, read_texts
from benchassist.job.base import Frozen
from benchassist.wrong import BenchError

ENGLISH = """
title = "Frame"
days = ["Monday", "Tuesday"]
[[prompt]]
id = "skew"
kind = "check"
ask = "Look at the bridge."
size = 0.50
[[prompt.remedy]]
id = "lift"
does = "Lift."
[[prompt]]
id = "fold"
kind = "check"
ask = "Fold it."
"""
WORDS = frozenset({"title", "days", "ask", "does"})


class Remedy(Frozen):
    id: str
    does: str


class Prompt(Frozen):
    id: str
    kind: str
    ask: str
    size: float = 0.0
    remedy: tuple[Remedy, ...] = ()


class Whole(Frozen):
    title: str
    days: tuple[str, ...]
    prompt: tuple[Prompt, ...]


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    for name, text in (("en", ENGLISH), ("fi", "")):
        (tmp_path / name).mkdir()
        (tmp_path / name / "bench.toml").write_text(text, "utf-8")
    return tmp_path


def laid(folder: Path, over: str) -> TextFile:
    (folder / "fi" / "bench.toml").write_text(over, "utf-8")
    return read_texts(folder, "fi", "bench.toml", WORDS)


def refusal(folder: Path, over: str) -> str:
    with pytest.raises(BenchError) as refused:
        laid(folder, over)
    return refused.value.sentence


def misfit(old: str, new: str, folder: Path) -> str:
    """The sentence about an English file in which one text was replaced."""
    assert old in ENGLISH
    (folder / "en" / "bench.toml").write_text(ENGLISH.replace(old, new, 1), "utf-8")
    with pytest.raises(BenchError) as refused:
        read_file(folder / "en" / "bench.toml").entries("prompt", Prompt)
    return refused.value.sentence


def test_a_figure_is_read_as_it_is_written(folder: Path) -> None:
    read = read_texts(folder, "en", "bench.toml", WORDS)
    assert read.name == "en/bench.toml"
    assert str(read.table["prompt"][0]["size"]) == "0.50"


@pytest.mark.parametrize("language", ["en", "fi", "sv"])
def test_what_a_language_lacks_is_english(folder: Path, language: str) -> None:
    english = read_file(folder / "en" / "bench.toml")
    assert read_texts(folder, language, "bench.toml", WORDS).table == english.table


def test_words_are_replaced_entry_by_entry_and_nothing_else(folder: Path) -> None:
    over = """
    title = "Kehys"
    days = ["maanantai", "tiistai"]
    [[prompt]]
    id = "skew"
    ask = "Katso siltaa."
    [[prompt.remedy]]
    id = "lift"
    does = "Nosta."
    """
    read = laid(folder, over)
    assert read.name == "fi/bench.toml"
    whole, english = read.whole(Whole), read_file(folder / "en" / "bench.toml").whole(Whole)
    skew, fold = whole.prompt
    assert (whole.title, whole.days) == ("Kehys", ("maanantai", "tiistai"))
    assert (skew.ask, skew.kind, skew.size) == ("Katso siltaa.", "check", 0.5)
    assert skew.remedy[0].does == "Nosta."
    assert fold == english.prompt[1]


@pytest.mark.parametrize(
    ("over", "words"),
    [
        ('[[prompt]]\nid = "skew"\nkind = "x"\n', "in prompt 'skew', 'kind' is no text"),
        (
            '[[prompt]]\nid = "skew"\n[[prompt.remedy]]\nid = "lift"\ntool = "x"\n',
            "in prompt 'skew' remedy 'lift', 'tool' is no text",
        ),
        ('[[prompt]]\nid = "skewed"\nask = "x"\n', "the English file lacks"),
        ('[[prompt]]\nid = "skew"\n[[prompt]]\nid = "skew"\n', "the same one twice"),
        ('prompt = ["skew"]\n', "the same one twice"),
        ("title = 3\n", "used: 'title' is no text"),
        ('title = ["x"]\n', "used: 'title' is no text"),
        ("days = [1, 2]\n", "the same one twice"),
        ("[title]\nask = 3\n", "used: 'title' is no text"),
        ('heading = "x"\n', "used: 'heading' is no text"),
        ("title = ", "cannot be read: "),
    ],
)
def test_a_language_may_only_replace_words(folder: Path, over: str, words: str) -> None:
    sentence = refusal(folder, over)
    assert sentence.startswith("The file fi/bench.toml cannot be ")
    assert words in sentence
    assert "\n" not in sentence


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ('ask = "Look', 'asks = "Look', "in prompt 'skew', ask: Field required."),
        ("size = 0.50", 'size = "much"', "in prompt 'skew', size: "),
        ('does = "Lift."', "does = 3", "in prompt 'skew', remedy 'lift', does: "),
        ('id = "fold"\n', "", "in prompt 'without a name', id: Field required."),
    ],
)
def test_a_misfit_names_file_entry_and_field(
    folder: Path, old: str, new: str, words: str
) -> None:
    sentence = misfit(old, new, folder)
    assert sentence.startswith("The file en/bench.toml cannot be used: in prompt ")
    assert words in sentence
    assert "\n" not in sentence


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ('prompt = ["skew"]\n', "in prompt 'skew': "),
        ('prompt = "skew"\n', "'prompt' is not written as [[prompt]]."),
    ],
)
def test_a_list_that_is_none(folder: Path, text: str, words: str) -> None:
    (folder / "en" / "bench.toml").write_text(text, "utf-8")
    with pytest.raises(BenchError) as refused:
        read_file(folder / "en" / "bench.toml").entries("prompt", Prompt)
    assert words in refused.value.sentence


def test_the_whole_table_may_not_fit_either(folder: Path) -> None:
    (folder / "en" / "bench.toml").write_text(f"colour = 3\n{ENGLISH}", "utf-8")
    with pytest.raises(BenchError) as refused:
        read_file(folder / "en" / "bench.toml").whole(Whole)
    assert "en/bench.toml cannot be used: in colour: Extra inputs" in refused.value.sentence


def test_a_file_that_is_not_there_or_not_text(folder: Path) -> None:
    path = folder / "en" / "fit.toml"
    for _ in range(2):
        with pytest.raises(BenchError, match=r"The file en/fit\.toml cannot be read: "):
            read_file(path)
        path.write_bytes(b"\xff\xfe\x00")
