"""The pen measures, wraps and marks."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pypdfium2 import PdfDocument
from reportlab.pdfbase import pdfmetrics

from benchassist.records.ink import BODY, REGULAR, STRONG
from benchassist.records.pen import Pen
from benchassist.verdicts.finding import State

PEN = Pen("title", "author", "subject")
LETTERS = st.text(alphabet="abc déÅ −×°Δ", max_size=120)


@settings(max_examples=60)
@given(LETTERS, st.floats(20, 300))
def test_wrapping_loses_no_letter_and_keeps_to_the_room(text: str, room: float) -> None:
    lines = PEN.wrap(text, BODY, room)
    assert "".join("".join(lines).split()) == "".join(text.split())
    assert all(PEN.width(line, BODY) <= room for line in lines)


def test_a_word_wider_than_the_line_is_cut() -> None:
    lines = PEN.wrap("W" * 100, BODY, 60)
    assert len(lines) > 5
    assert "".join(lines) == "W" * 100


def test_a_number_keeps_its_unit_and_a_power_its_axis() -> None:
    text = "found −2.25 −0.75 × 165, limit ±0.12 D, 1.0 mm (50 %)."
    for room in range(60, 200, 3):
        for line in PEN.wrap(text, BODY, room):
            assert not line.startswith(("×", "D,", "mm", "%"))
            assert not line.endswith("×")


@pytest.mark.parametrize("font", [REGULAR, STRONG])
def test_the_font_has_the_marks_of_the_trade(font: str) -> None:
    glyphs = pdfmetrics.getFont(font).face.charToGlyph
    assert {mark for mark in "−±×°Δ□·–éńŁЖЩΩ" if ord(mark) not in glyphs} == set()


@pytest.mark.parametrize("font", [REGULAR, STRONG])
def test_digits_are_of_one_width(font: str) -> None:
    widths = {pdfmetrics.stringWidth(digit, font, 10) for digit in "0123456789−"}
    assert len(widths) == 1


def test_each_state_has_a_mark_that_black_and_white_tells_apart() -> None:
    pictures = set()
    for state in State:
        pen = Pen("", "", "")
        pen.mark(20, 20, 8, state)
        pen.end_page()
        page = PdfDocument(pen.finish())[0].render(scale=3, grayscale=True).to_pil()
        square = page.crop((30, 30, 90, 90)).point(lambda grey: 255 * (grey > 160))
        pictures.add(square.tobytes())
    assert len(pictures) == len(State)


@pytest.mark.parametrize(("language", "told"), [("", b"(en-GB)"), ("de", b"(de)")])
def test_the_language_of_the_paper_stands_in_it(language: str, told: bytes) -> None:
    pen = Pen("", "", "", language) if language else Pen("", "", "")
    pen.end_page()
    assert told in pen.finish()
