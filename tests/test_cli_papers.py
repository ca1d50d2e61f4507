"""The papers that the shell writes beside the record: the sheet and the return slip."""

from pathlib import Path

import pytest
from pypdfium2 import PdfDocument

from benchassist import cli
from benchassist.records.demo import demo_files
from tests.test_cli import WITHIN, refusal


def test_the_sheet_is_written_with_contact_and_language(tmp_path: Path) -> None:
    paper = tmp_path / "sheet.pdf"
    call = ["sheet", str(WITHIN), "--out", str(paper), "--workshop", "Fernhollow"]
    call += ["--phone", "01632 960 417", "--hours", "Monday 9 to 12", "--hours", "Friday"]
    call += ["--urgent", "01632 960 112", "--at", "2026-11-25T14:05+00:00"]
    assert cli.main(call) == cli.FINE
    first = paper.read_bytes()
    said = PdfDocument(first)[0].get_textpage().get_text_range()
    for words in ("Marit Oduya", "01632 960 417", "Monday 9 to 12, Friday", "01632 960 112"):
        assert words in said
    assert cli.main([*call, "--language", "de"]) == cli.FINE
    assert "Nicht warten" in PdfDocument(paper.read_bytes())[0].get_textpage().get_text_range()
    assert cli.main(call) == cli.FINE
    assert paper.read_bytes() == first


def test_the_slip_is_written_only_of_a_pair_that_goes_back(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    paper = tmp_path / "slip.pdf"
    assert cli.main(["slip", str(demo_files()[2]), "--out", str(paper)]) == cli.FINE
    said = PdfDocument(paper.read_bytes())[0].get_textpage().get_text_range()
    assert "Return slip" in said
    none = tmp_path / "none.pdf"
    assert "'return to lab'" in refusal(["slip", WITHIN, "--out", none], capsys)
    assert not none.exists()


def test_a_contact_that_is_too_long_is_refused(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    paper = tmp_path / "sheet.pdf"
    call: list[str | Path] = ["sheet", WITHIN, "--out", paper, "--phone", "0" * 121]
    assert "--phone is too long" in refusal(call, capsys)
    assert not paper.exists()
