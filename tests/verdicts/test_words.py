from decimal import Decimal

import pytest

from benchassist.verdicts import words


@pytest.mark.parametrize(
    ("value", "text"),
    [
        ("-1.25", "−1.25 D"),
        ("2", "+2.00 D"),
        ("0", "0.00 D"),
        ("-0.001", "0.00 D"),
        ("-0.125", "−0.12 D"),
        ("1.375", "+1.37 D"),
        ("0.625", "+0.62 D"),
        ("-2.875", "−2.87 D"),
        ("0.135", "+0.14 D"),
        ("2.333333", "+2.33 D"),
    ],
)
def test_signed_dioptres_with_eighths_cut(value: str, text: str) -> None:
    assert words.signed_dioptres(Decimal(value)) == text


def test_sizes_have_no_sign() -> None:
    assert words.dioptres(Decimal("-0.25")) == "0.25 D"
    assert words.size(Decimal(-4), "°") == "4°"
    assert words.size(Decimal("-1.5"), "mm") == "1.5 mm"
    assert words.size(Decimal("-0.5"), "Δ") == "0.50 Δ"
    assert words.size(Decimal(3), "") == "3.00"


@pytest.mark.parametrize(
    ("value", "text"), [("31.5", "31.5 mm"), ("-2", "−2.0 mm"), ("31.25", "31.25 mm")]
)
def test_millimetres(value: str, text: str) -> None:
    assert words.millimetres(Decimal(value)) == text


@pytest.mark.parametrize(
    ("value", "text"), [("94", "94°"), ("-1.69", "−1.7°"), ("0", "0°"), ("180.0", "180°")]
)
def test_degrees(value: str, text: str) -> None:
    assert words.degrees(Decimal(value)) == text


@pytest.mark.parametrize(
    ("value", "limit", "unit", "text"),
    [
        ("0.125", "0.12", "D", "0.125 D"),
        ("0.12", "0.12", "D", "0.12 D"),
        ("0.25", "0.12", "D", "0.25 D"),
        ("2.04", "2", "°", "2.04°"),
        ("-1.001", "1.0", "mm", "1.001 mm"),
        ("1.02223", "1", "°", "1.02°"),
        ("0.99612", "1", "°", "0.996°"),
        ("1.000001", "1", "°", "1.000001°"),
        ("0.1212", "0.12", "D", "0.121 D"),
        ("0.1349", "0.135", "D", "0.13 D"),
    ],
)
def test_a_difference_never_looks_like_a_limit_that_it_is_not(
    value: str, limit: str, unit: str, text: str
) -> None:
    assert words.size_beside(Decimal(value), Decimal(limit), unit) == text


@pytest.mark.parametrize(
    ("limit", "unit", "text"),
    [
        ("0.12", "D", "0.12 D"),
        ("0.135", "D", "0.135 D"),
        ("14", "°", "14°"),
        ("1.0", "mm", "1.0 mm"),
        ("1.125", "°", "1.125°"),
    ],
)
def test_a_limit_keeps_all_its_decimals(limit: str, unit: str, text: str) -> None:
    assert words.limit_size(Decimal(limit), unit) == text


def test_prism_with_base_words() -> None:
    assert words.prism(Decimal("0.5"), Decimal("-0.25")) == "0.50 Δ base in, 0.25 Δ base down"
    assert words.prism(Decimal("-0.5"), Decimal(0)) == "0.50 Δ base out"
    assert words.prism(Decimal(0), Decimal("0.001")) == "none"
    assert words.vertical_prism(Decimal(2)) == "2.00 Δ base up"
    assert words.vertical_imbalance(Decimal("0.5")) == "0.50 Δ base up right"
    assert words.vertical_imbalance(Decimal("-0.5")) == "0.50 Δ base down right"


def test_a_power_on_one_line() -> None:
    assert words.power(Decimal(2), Decimal(-1), Decimal(90)) == "+2.00 −1.00 × 90"
    assert words.power(Decimal(2)) == "+2.00"
    assert words.power(Decimal(2), Decimal(-1)) == "+2.00 −1.00 × ?"


@pytest.mark.parametrize(("names", "text"), [((), ""), (("a",), "a"), (("a", "b"), "a and b")])
def test_names_are_read_out(names: tuple[str, ...], text: str) -> None:
    assert words.listed(names) == text
    assert words.listed((*names, "x", "y")).endswith("x and y")
