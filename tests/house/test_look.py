"""One file decides how the window looks."""

import re


def window_files(program: dict[str, str]) -> dict[str, str]:
    """The files of the window but the one that decides."""
    return {
        path: text
        for path, text in program.items()
        if path.startswith("benchassist/ui/") and path != "benchassist/ui/theme.py"
    }


def test_style_sheets_come_from_the_theme(program: dict[str, str]) -> None:
    assert [p for p, text in window_files(program).items() if "setStyleSheet" in text] == []


def test_colours_come_from_the_theme(program: dict[str, str]) -> None:
    colour = re.compile(
        r"[\"']#[0-9a-fA-F]{3,8}[\"']|QColor\(\s*\d|GlobalColor\.(?!transparent|black)"
    )
    found = {
        path: match.group()
        for path, text in window_files(program).items()
        if (match := colour.search(text))
    }
    assert found == {}
