from decimal import Decimal
from pathlib import Path

import pytest

from benchassist.limits.reading import read_limits_file
from benchassist.limits.rule import Evidence
from benchassist.wrong import BenchError

HEAD = """
id = "house"
kind = "finished spectacles"
title = "House limits"
edition = "House limits 1"
clause = "none"
caution = "Ours."
[sources]
OWN = { title = "Workshop book" }
WEB = { title = "A page", address = "https://example.org" }
"""
ROW = """
[[row]]
id = "H1"
quantities = ["axis"]
title = "Axis"
unit = "°"
evidence = "read"
sources = ["OWN"]
bands = [
  { when.cylinder = "< 0.25", not_judged = "too weak" },
  { when.cylinder = ">= 0.25 <= 1.00", limit = "3" },
  { when.cylinder = "> 1.00", limit = "2", evidence = "memory", sources = ["WEB"] },
]
"""


def written(folder: Path, text: str) -> Path:
    path = folder / "house.toml"
    path.write_text(text, encoding="utf-8")
    return path


def test_a_row_is_read_with_its_sources(tmp_path: Path) -> None:
    file = read_limits_file(written(tmp_path, HEAD + ROW))
    (row,) = file.rows
    weak, middle, strong = row.bands
    assert weak.not_judged == "too weak"
    assert weak.base is None
    assert middle.base == Decimal(3)
    assert middle.rule.evidence is Evidence.READ
    assert [source.title for source in middle.rule.sources] == ["Workshop book"]
    assert strong.rule.evidence is Evidence.MEMORY
    assert strong.rule.sources[0].address == "https://example.org"
    assert (strong.rule.rule_set, strong.rule.row) == ("house", "H1")
    assert strong.rule.edition == "House limits 1"


def test_a_row_may_name_its_own_edition_and_clause(tmp_path: Path) -> None:
    text = HEAD + ROW.replace('unit = "°"', 'unit = "°"\nedition = "Other"\nclause = "5.2"')
    rule = read_limits_file(written(tmp_path, text)).rows[0].bands[0].rule
    assert (rule.edition, rule.clause) == ("Other", "5.2")


@pytest.mark.parametrize(
    ("old", "new", "complaint"),
    [
        ('sources = ["OWN"]\n', "", "row H1 names no source"),
        ('sources = ["OWN"]\n', 'sources = ["X"]\n', "row H1 names the source X"),
        ('title = "Axis"\n', "", "row H1 has no title"),
        ('evidence = "read"\n', "", "row H1 has no evidence"),
        ('evidence = "read"\n', 'evidence = "rumour"\n', "unknown evidence 'rumour'"),
        ('id = "H1"\n', "", r"row \(without id\) has no id"),
        ('unit = "°"\n', 'unit = "deg"\n', "unknown unit 'deg'"),
        ('quantities = ["axis"]\n', "", "which quantities it limits"),
        ('limit = "3"', "limit = 3.0", "needs 'limit' as a figure in quotes"),
        ('limit = "3"', 'limit = "three"', "needs 'limit' as a figure in quotes"),
        ('limit = "3"', 'limit = "-3"', "needs 'limit' as a figure in quotes"),
        ('limit = "3"', 'limit = "NaN"', "needs 'limit' as a figure in quotes"),
        ('limit = "3"', 'limt = "3"', "unknown field limt"),
        ('limit = "3"', 'percent = "3"', "no 'of', or the reverse"),
        ('limit = "3"', 'limit = "3", of = "power"', "no 'of', or the reverse"),
        ('"> 1.00"', '"above 1.00"', "edges 'above 1.00' cannot be understood"),
    ],
)
def test_a_row_that_is_not_whole_is_refused(
    tmp_path: Path, old: str, new: str, complaint: str
) -> None:
    assert old in ROW
    with pytest.raises(BenchError, match=complaint) as refused:
        read_limits_file(written(tmp_path, HEAD + ROW.replace(old, new, 1)))
    assert "house.toml" in refused.value.sentence


def test_a_row_without_bands_is_refused(tmp_path: Path) -> None:
    text = HEAD + ROW[: ROW.index("bands")]
    with pytest.raises(BenchError, match="row H1 has no bands"):
        read_limits_file(written(tmp_path, text))


def test_a_file_without_edition_is_refused(tmp_path: Path) -> None:
    text = HEAD.replace('edition = "House limits 1"\n', "") + ROW
    with pytest.raises(
        BenchError, match=r"house\.toml cannot be used: its head has no edition"
    ):
        read_limits_file(written(tmp_path, text))


def test_a_file_without_caution_is_refused(tmp_path: Path) -> None:
    text = HEAD.replace('caution = "Ours."\n', "") + ROW
    with pytest.raises(BenchError, match="its head has no caution"):
        read_limits_file(written(tmp_path, text))


@pytest.mark.parametrize("content", [b"id = ", b"\xff\xfe"])
def test_a_file_that_is_no_toml_is_refused(tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "cut.toml"
    path.write_bytes(content)
    with pytest.raises(BenchError, match=r"cut\.toml cannot be read"):
        read_limits_file(path)


LIKE = """
[[row]]
id = "H2"
like = "H1"
designs = ["degressive"]
title = "Axis of a degressive"
evidence = "proposed"
note = "By analogy."
"""


def test_a_row_like_another_has_its_bands_and_its_own_evidence(tmp_path: Path) -> None:
    file = read_limits_file(written(tmp_path, HEAD + ROW + LIKE))
    model, copied = file.rows
    assert [band.base for band in copied.bands] == [band.base for band in model.bands]
    assert {band.rule.evidence for band in copied.bands} == {Evidence.PROPOSED}
    assert {band.rule.row for band in copied.bands} == {"H2"}
    assert copied.designs == ("degressive",)


@pytest.mark.parametrize(
    ("old", "new", "complaint"),
    [
        ('like = "H1"', 'like = "H9"', "row H2 is to be like row H9, which is not above it"),
        ('designs = ["degressive"]', "", "row H2 does not say for which designs"),
        ('note = "By analogy."', "", "row H2 has no note"),
    ],
)
def test_a_copied_row_must_say_why(tmp_path: Path, old: str, new: str, complaint: str) -> None:
    with pytest.raises(BenchError, match=complaint):
        read_limits_file(written(tmp_path, HEAD + ROW + LIKE.replace(old, new)))


def test_a_note_needs_a_text(tmp_path: Path) -> None:
    note = '[[note]]\nid = "N1"\ntitle = "Waves"\nevidence = "memory"\nsources = ["OWN"]\n'
    with pytest.raises(BenchError, match="note N1 has no text"):
        read_limits_file(written(tmp_path, HEAD + note))
    file = read_limits_file(written(tmp_path, f'{HEAD}{note}text = "None seen."\n'))
    assert [rule.note for rule in file.notes] == ["None seen."]
