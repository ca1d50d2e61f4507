"""Lines of charts and cards, compared."""

import pytest

from benchassist.optics.acuity import is_known, line_size, lines_worse


@pytest.mark.parametrize(
    ("read", "expected"),
    [
        ("6/6", "20/20"),
        ("0.8", "6/7.5"),
        ("1,0", "6/6"),
        ("logMAR 0.0", "1.0"),
        ("logMAR -0.1", "6/4.8"),
        ("logMAR \N{MINUS SIGN}0.1", "logmar -0.1"),
        ("6/9-2", "6/9"),
        ("6/6+", "6/6-"),
        ("20/20 -", "20/20"),
        ("0.1 logMAR", "logMAR 0.1"),
        ("-0.1 logmar", "logMAR -0.1"),
        ("logMAR +0.2", "0.2 logMAR"),
        ("N5-1", "N5"),
        ("0.8p", "0.8 pp"),
        ("20/25 +2", "20/25"),
        ("N5", "n 5"),
        ("0.5 M", "M 0.5"),
        ("J2", "J2"),
    ],
)
def test_the_same_line(read: str, expected: str) -> None:
    assert lines_worse(read, expected) == 0.0


@pytest.mark.parametrize(
    ("worse", "better"),
    [
        *(("6/9", "6/6"), ("20/25", "20/20"), ("0.63", "0.8"), ("logMAR 0.1", "logMAR 0.0")),
        *(
            ("N6", "N5"),
            ("M 0.6", "0.5 M"),
            ("J3", "J2"),
            ("J1", "J1+"),
            ("3/60", "6/60"),
            ("6/7.5", "1.0"),
        ),
    ],
)
def test_a_line_worse_and_back(worse: str, better: str) -> None:
    lost, won = lines_worse(worse, better), lines_worse(better, worse)
    assert lost is not None
    assert won is not None
    assert lost > 0 > won


@pytest.mark.parametrize(
    ("read", "expected"),
    [("N5", "6/6"), ("J2", "N5"), ("", "6/6"), ("6/6", ""), ("counts fingers", "6/60")],
)
def test_what_cannot_be_compared(read: str, expected: str) -> None:
    assert lines_worse(read, expected) is None


@pytest.mark.parametrize(
    "text",
    ["0", "6/0", "0/6", "N0", "6/", "x", "-0.8", "abc", "999", "-1", "6/6000", "J0", "J99"],
)
def test_what_is_no_line(text: str) -> None:
    assert line_size(text) is None
    assert not is_known(text)


@pytest.mark.parametrize("text", ["6/6", "N5", "CF", "hand movements", " NPL "])
def test_what_says_how_an_eye_reads_is_known(text: str) -> None:
    assert is_known(text)
