"""The look can be read: contrast, colour-blind safety, type, and a style for every widget."""

import re
from dataclasses import asdict, fields

import pytest
from PySide6.QtGui import QColor, QFontInfo, QFontMetricsF, QPalette, QRawFont
from PySide6.QtWidgets import QApplication, QLineEdit, QPushButton
from pytestqt.qtbot import QtBot

from benchassist.ui.theme import DARK, LIGHT, Colours, Scheme, Size, Theme
from benchassist.verdicts.finding import State

GROUNDS = ("paper", "panel", "raised")
TEXTS = ("ink", "ink_soft", "accent", "within", "close", "outside", "missing", "none")
OUTLINES = ("outline", "lens_edge", "frame_edge", "caution_bar")

# Linear-light matrices of Machado, Oliveira and Fernandes (2009), severity 1.0.
# https://doi.org/10.1109/TVCG.2009.113 (from memory)
DEUTERANOPIA = (
    (0.367322, 0.860646, -0.227968),
    (0.280085, 0.672501, 0.047413),
    (-0.011820, 0.042940, 0.968881),
)
PROTANOPIA = (
    (0.152286, 1.052583, -0.204868),
    (0.114503, 0.786281, 0.099216),
    (-0.003882, -0.048116, 1.051998),
)


def linear(colour: str) -> tuple[float, float, float]:
    """Linear-light parts of a colour, WCAG 2.2."""
    shares = [int(colour[start : start + 2], 16) / 255 for start in (1, 3, 5)]
    red, green, blue = (
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in shares
    )
    return red, green, blue


def luminance(colour: str) -> float:
    red, green, blue = linear(colour)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """The contrast ratio of WCAG 2.2."""
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def test_contrast_is_computed_as_published() -> None:
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#767676", "#ffffff") == pytest.approx(4.54, abs=0.01)


@pytest.mark.parametrize("colours", [LIGHT, DARK])
@pytest.mark.parametrize("ground", [*GROUNDS, "lens"])
def test_text_can_be_read_on_every_ground(colours: Colours, ground: str) -> None:
    for text in TEXTS:
        assert contrast(getattr(colours, text), getattr(colours, ground)) >= 4.5, text


@pytest.mark.parametrize("colours", [LIGHT, DARK])
@pytest.mark.parametrize("ground", GROUNDS)
def test_outlines_can_be_seen_on_every_ground(colours: Colours, ground: str) -> None:
    for outline in OUTLINES:
        assert contrast(getattr(colours, outline), getattr(colours, ground)) >= 3, outline


@pytest.mark.parametrize("colours", [LIGHT, DARK])
def test_what_stands_on_its_own_ground_can_be_read(colours: Colours) -> None:
    assert contrast(colours.on_accent, colours.accent) >= 4.5
    assert contrast(colours.ink, colours.accent_soft) >= 4.5
    assert contrast(colours.accent, colours.accent_soft) >= 4.5
    assert contrast(colours.ink, colours.caution_ground) >= 4.5
    assert contrast(colours.caution_bar, colours.caution_ground) >= 3
    assert contrast(colours.instrument_line, colours.instrument) >= 4.5
    assert contrast(colours.instrument_soft, colours.instrument) >= 3
    for state in State:
        assert contrast(colours.raised, colours.of_state(state)) >= 4.5, "marks inside discs"


def seen_by(colour: str, matrix: tuple[tuple[float, float, float], ...]) -> tuple[float, ...]:
    parts = linear(colour)
    return tuple(sum(k * part for k, part in zip(row, parts, strict=True)) for row in matrix)


def lab(parts: tuple[float, ...]) -> tuple[float, float, float]:
    """CIE L*a*b* of linear-light sRGB, D65."""
    red, green, blue = (min(max(part, 0.0), 1.0) for part in parts)
    xyz = (
        (0.4124 * red + 0.3576 * green + 0.1805 * blue) / 0.9505,
        0.2126 * red + 0.7152 * green + 0.0722 * blue,
        (0.0193 * red + 0.1192 * green + 0.9505 * blue) / 1.089,
    )
    x, y, z = (v ** (1 / 3) if v > 0.008856 else 7.787 * v + 16 / 116 for v in xyz)
    return 116 * y - 16, 500 * (x - y), 200 * (y - z)


@pytest.mark.parametrize("colours", [LIGHT, DARK])
@pytest.mark.parametrize("matrix", [DEUTERANOPIA, PROTANOPIA])
def test_the_judged_states_differ_for_the_colour_blind(
    colours: Colours, matrix: tuple[tuple[float, float, float], ...]
) -> None:
    """Within, read again and outside stay apart; shape and word say the rest."""
    judged = (State.WITHIN, State.CLOSE, State.OUTSIDE)
    seen = [lab(seen_by(colours.of_state(state), matrix)) for state in judged]
    for number, one in enumerate(seen):
        for other in seen[number + 1 :]:
            apart = sum((p - q) ** 2 for p, q in zip(one, other, strict=True)) ** 0.5
            assert apart >= 12


@pytest.mark.parametrize("colours", [LIGHT, DARK])
def test_every_colour_is_written_in_full(colours: Colours) -> None:
    for field in fields(Colours):
        assert re.fullmatch(r"#[0-9a-f]{6}", getattr(colours, field.name)), field.name


def test_the_two_schemes_share_no_ground() -> None:
    light, dark = asdict(LIGHT), asdict(DARK)
    assert all(light[name] != dark[name] for name in (*GROUNDS, *TEXTS))


@pytest.mark.parametrize("size", Size)
@pytest.mark.parametrize("strong", [False, True])
def test_type_is_the_packaged_family_with_digits_of_one_width(
    light: Theme, size: Size, *, strong: bool
) -> None:
    font = light.font(size, strong=strong)
    assert QFontInfo(font).family() == "Lato"
    assert font.pixelSize() == size
    assert QFontInfo(font).weight() == (600 if strong else 400)
    metrics = QFontMetricsF(font)
    assert len({metrics.horizontalAdvance(digit) for digit in "0123456789"}) == 1


def test_the_family_has_the_signs_of_the_trade(light: Theme) -> None:
    raw = QRawFont.fromFont(light.font())
    for sign in "\N{MINUS SIGN}±×°Δéåøßłžč":
        assert raw.supportsCharacter(ord(sign)), sign


def test_changing_the_scheme_is_announced_once(qtbot: QtBot, light: Theme) -> None:
    with qtbot.waitSignal(light.changed):
        light.set_scheme(Scheme.DARK)
    assert light.colours is DARK
    with qtbot.assertNotEmitted(light.changed):
        light.set_scheme(Scheme.DARK)


def test_the_palette_is_explicit(theme: Theme, qapp: QApplication) -> None:
    palette, colours = qapp.palette(), theme.colours
    assert palette.color(QPalette.ColorRole.Window) == QColor(colours.paper)
    assert palette.color(QPalette.ColorRole.WindowText) == QColor(colours.ink)
    assert palette.color(QPalette.ColorRole.Base) == QColor(colours.raised)
    assert palette.color(QPalette.ColorRole.Highlight) == QColor(colours.accent)
    disabled = palette.color(QPalette.ColorGroup.Disabled, QPalette.ColorRole.Text)
    assert disabled == QColor(colours.none)


def test_the_style_sheet_is_complete_and_understood(theme: Theme) -> None:
    """A name left unfilled would raise; a rule not understood would warn, and warnings fail."""
    sheet = theme.stylesheet()
    assert "$" not in sheet
    labels = ("title", "lead", "caption", "sentence", "error", "unit", "heading")
    frames = ("panel", "strip", "rail", "ask", "hint", "caution", "line")
    for role in (*labels, *frames, "primary", "quiet", "choice", "reading"):
        assert f'[role="{role}"]' in sheet, role


def test_a_reading_is_large_and_a_bad_one_is_marked(theme: Theme, qtbot: QtBot) -> None:
    edit = QLineEdit("-2.25")
    qtbot.addWidget(edit)
    edit.setProperty("role", "reading")
    edit.setProperty("state", "bad")
    edit.ensurePolished()
    edit.resize(160, 56)
    assert QFontInfo(edit.font()).pixelSize() >= 28
    image = edit.grab().toImage()
    assert image.pixelColor(image.width() // 2, 1) == theme.state_colour(State.OUTSIDE)


def test_the_focus_can_be_seen(theme: Theme, qtbot: QtBot) -> None:
    button = QPushButton("Next")
    qtbot.addWidget(button)
    button.show()
    qtbot.waitExposed(button)
    button.setFocus()
    button.activateWindow()
    qtbot.waitUntil(button.hasFocus)
    image = button.grab().toImage()
    assert image.pixelColor(image.width() // 2, 1) == QColor(theme.colours.accent)
