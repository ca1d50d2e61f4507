"""Numbers, moments and lenses in words."""

from datetime import UTC, datetime, timedelta, timezone
from decimal import Decimal

import pytest

from benchassist.job.order import (
    ComponentPrism,
    Design,
    LensMaterial,
    Order,
    PolarPrism,
    Treatment,
    WrittenPower,
    WrittenPrism,
)
from benchassist.optics.eye import Eye
from benchassist.records import words


@pytest.mark.parametrize(
    ("value", "unit", "text"),
    [
        ("-2.25", "D", "−2.25 D"),
        ("1.125", "D", "+1.12 D"),
        ("0", "D", "0.00 D"),
        ("31.5", "mm", "31.5 mm"),
        ("-0.3", "mm", "−0.3 mm"),
        ("165", "°", "165°"),
        ("-2", "°", "−2°"),
        ("0.5", "Δ", "0.50 Δ"),
        ("-0.004", "Δ", "0.00 Δ"),
        ("-0.004", "mm", "0.00 mm"),
        ("-0.04", "°", "0.0°"),
        ("-0.0", "D", "0.00 D"),
        ("0.127", "D", "+0.13 D"),
    ],
)
def test_an_amount_has_its_unit_and_a_true_minus(value: str, unit: str, text: str) -> None:
    assert words.amount(Decimal(value), unit) == text


def test_what_is_not_there_is_empty() -> None:
    assert words.amount(None, "D") == ""
    assert words.limit_amount(None, "D", "") == ""
    assert words.difference(None, None, "D") == ""
    assert words.percent(None) == ""
    assert words.prism_text(None, Eye.RIGHT) == ""
    assert words.based(None, ("in", "out")) == ""
    assert words.axis_text(WrittenPower()) == ""


def test_a_difference_never_looks_like_the_limit_it_passes() -> None:
    limit = Decimal("0.12")
    assert words.difference(Decimal("0.124"), limit, "D") == "+0.124 D"
    assert words.difference(Decimal("-0.12"), limit, "D") == "−0.12 D"
    assert words.difference(Decimal("-0.001"), limit, "D") == "0.00 D"


def test_a_limit_stands_as_in_its_sentence() -> None:
    limit = Decimal("0.67")
    assert words.limit_amount(limit, "Δ", "0.07 Δ too much, limit 0.67 Δ.") == "0.67 Δ"
    assert words.limit_amount(limit, "Δ", "0.07 Δ stronger, limit ±0.67 Δ.") == "±0.67 Δ"


@pytest.mark.parametrize(
    ("value", "text"),
    [("0.07", "0.07 Δ in"), ("-2.3", "2.30 Δ out"), ("0", "none"), ("-0.001", "none")],
)
def test_prism_of_the_pair_has_its_base(value: str, text: str) -> None:
    assert words.based(Decimal(value), ("in", "out")) == text


def test_prism_of_the_pair_never_looks_like_the_limit_it_passes() -> None:
    said = words.based(Decimal("0.671"), ("in", "out"), Decimal("0.67"))
    assert said == "0.671 Δ in"


@pytest.mark.parametrize(
    ("text", "sentence"), [("", ""), ("One", "One."), ("Two. ", "Two."), ("Three?", "Three?")]
)
def test_a_sentence_ends_once(text: str, sentence: str) -> None:
    assert words.ended(text) == sentence


@pytest.mark.parametrize(
    ("share", "text"),
    [("0", "0 %"), ("1", "100 %"), ("1.001", "101 %"), ("0.991", "100 %"), ("99", "> 999 %")],
)
def test_a_share_is_rounded_up(share: str, text: str) -> None:
    assert words.percent(Decimal(share)) == text


@pytest.mark.parametrize(
    ("prism", "text"),
    [
        (
            ComponentPrism(base_in=Decimal(2), base_up=Decimal("-0.5")),
            "2.00 Δ base in, 0.50 Δ base down",
        ),
        (
            PolarPrism(amount=Decimal("2.06"), base=Decimal(194)),
            "2.06 Δ base 194° (= 2.00 in, 0.50 down)",
        ),
        (PolarPrism(amount=Decimal(0), base=Decimal(90)), "0.00 Δ base 90°"),
        (ComponentPrism(), "none"),
    ],
)
def test_prism_tells_its_base(prism: WrittenPrism, text: str) -> None:
    assert words.prism_text(prism, Eye.LEFT) == text


def test_a_moment_says_its_zone() -> None:
    at = datetime(2026, 3, 1, 14, 5, tzinfo=UTC)
    assert words.moment(at) == "1 March 2026, 14:05 UTC"
    assert words.clock(at.astimezone(timezone(timedelta(hours=1)))) == "15:05 UTC+01:00"
    assert words.clock(at.astimezone(timezone(timedelta(hours=-3.5)))) == "10:35 UTC-03:30"


def test_numbers_take_the_right_noun() -> None:
    assert [words.plural(number, "entry") for number in (0, 1, 2)] == [
        "0 entries",
        "1 entry",
        "2 entries",
    ]
    assert words.plural(2, "reading") == "2 readings"


def test_lenses_and_frame_in_one_line() -> None:
    order = Order(
        design=Design.SINGLE_VISION,
        material=LensMaterial.POLYCARBONATE,
        index=Decimal("1.586"),
        treatments=(Treatment.HARD,),
        tint="brown 20 %",
    )
    assert (
        words.lens_words(order) == "single vision, polycarbonate n 1.586, hard coat, brown 20 %"
    )
    assert words.lens_words(order.with_(index=Decimal("1.5"))).split(", ")[1].endswith("n 1.50")
    assert words.lens_words(Order()) == ""
    assert words.frame_words(Order()) == ""
