"""What no file may say."""

import re

import pytest

UNWANTED = {
    "the address of a package registry": r"pypi\.org|pythonhosted\.org|https?://\S+/simple\b",
    "a folder of one person's computer": r"(?<![\w./~])/(home|root|tmp|work|Users|mnt)/\w",
    "a note to self": r"\b(TODO|FIXME|XXX)\b",
    "filling": r"(?i)\b(lorem ipsum|transcript|seed\s+doc\w*)\b",
    "a conflict left by merging": r"(?m)^(<{7}|>{7}) ",
}


@pytest.mark.parametrize("unwanted", UNWANTED.values(), ids=UNWANTED)
def test_no_file_says(unwanted: str, texts: dict[str, str]) -> None:
    here = "tests/house/test_wording.py"
    found = {
        path: match.group()
        for path, text in texts.items()
        if path != here and (match := re.search(unwanted, text))
    }
    assert found == {}


def test_no_translated_text_is_built_before_it_is_looked_up(program: dict[str, str]) -> None:
    built = [path for path, text in program.items() if re.search(r"\btr\(\s*f[\"']", text)]
    assert built == []
