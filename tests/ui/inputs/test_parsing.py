"""What somebody typed, read as the trade writes numbers."""

from dataclasses import replace
from decimal import Decimal

import pytest

from benchassist.ui.inputs import specs
from benchassist.ui.inputs.parsing import NumberSpec, Parsed, parse, plain_text

POWER = specs.dioptre("Sphere")
DRUM = specs.dioptre("Sphere lines", in_eighths=True)
EIGHTHS = replace(POWER, step=Decimal("0.125"))
SIXTEENTHS = replace(POWER, step=Decimal("0.0625"))
AXIS = specs.axis("Axis")
IN_OUT = specs.horizontal_prism("Horizontal")
UP_DOWN = specs.vertical_prism("Vertical")
LENGTH = specs.millimetre("Distance", "10", "60")


@pytest.mark.parametrize(
    ("text", "spec", "value"),
    [
        ("-2.25", POWER, "-2.25"),
        ("−2.25", POWER, "-2.25"),
        ("-2,25", POWER, "-2.25"),
        ("2.25-", POWER, "-2.25"),
        ("-225", POWER, "-2.25"),
        ("225", POWER, "2.25"),
        ("1225", POWER, "12.25"),
        ("-50", POWER, "-0.50"),
        ("-12", POWER, "-12"),
        ("+.5", POWER, "0.5"),
        ("-2.", POWER, "-2"),
        ("-2.25 D", POWER, "-2.25"),
        ("-0", POWER, "0"),
        ("-2.12", DRUM, "-2.125"),
        ("-2.12", POWER, "-2.12"),
        (".37", DRUM, "0.375"),
        ("62", DRUM, "0.625"),
        ("-2.62", EIGHTHS, "-2.625"),
        ("-262", EIGHTHS, "-2.625"),
        ("-2.60", EIGHTHS, "-2.60"),
        ("+.06", SIXTEENTHS, "0.0625"),
        ("-1,93", SIXTEENTHS, "-1.9375"),
        ("-1.9375", SIXTEENTHS, "-1.9375"),
        ("180", AXIS, "180"),
        ("7", AXIS, "7"),
        ("165°", AXIS, "165"),
        ("31,5", LENGTH, "31.5"),
        ("1.5 in", IN_OUT, "1.5"),
        ("1.5o", IN_OUT, "-1.5"),
        ("150 OUT", IN_OUT, "-1.50"),
        ("2 d", UP_DOWN, "-2"),
        ("0", UP_DOWN, "0"),
    ],
)
def test_text_is_read_as_the_trade_writes_it(text: str, spec: NumberSpec, value: str) -> None:
    assert parse(text, spec) == Parsed(value=Decimal(value))


@pytest.mark.parametrize(
    ("text", "spec", "words"),
    [
        ("abc", POWER, "abc is not a number"),
        ("1e9", POWER, "1e9 is not a number"),
        ("nan", POWER, "nan is not a number"),
        ("inf", POWER, "inf is not a number"),
        ("--2", POWER, "is not a number"),
        ("-2-", POWER, "is not a number"),
        ("2.2.5", POWER, "is not a number"),
        ("٣", POWER, "is not a number"),
        ("1000000000", POWER, "Sphere lies from −40.00 to +40.00 D."),
        ("0", AXIS, "An axis of 0 is written 180."),
        ("181", AXIS, "Axis lies from 1 to 180°."),
        ("-5", AXIS, "Axis lies from 1 to 180°."),
        ("2.2512", POWER, "At most 2 decimal places here."),
        ("1.5", IN_OUT, "Say where the base lies: 1.5 in or 1.5 out."),
        ("-2 in", IN_OUT, "Give the amount without a sign: 2 in or 2 out."),
        ("-2.259", DRUM, "At most 2 decimal places here."),
        ("1.5 up", IN_OUT, "Say where the base lies: 1.5 in or 1.5 out."),
        ("9", LENGTH, "Distance lies from 10 to 60 mm."),
    ],
)
def test_what_cannot_be_read_gets_a_sentence(text: str, spec: NumberSpec, words: str) -> None:
    parsed = parse(text, spec)
    assert parsed.value is None
    assert words in parsed.problem


@pytest.mark.parametrize("text", ["", "   ", "D"])
def test_no_text_is_no_value_and_no_problem(text: str) -> None:
    assert parse(text, POWER) == Parsed()


@pytest.mark.parametrize(
    ("value", "spec", "text"),
    [
        ("-2.25", POWER, "−2.25"),
        ("0.5", POWER, "+0.50"),
        ("-2.125", DRUM, "−2.12"),
        ("0", POWER, "+0.00"),
        ("165", AXIS, "165"),
        ("31.50", LENGTH, "31.5"),
        ("30.00", LENGTH, "30"),
        ("-1.5", IN_OUT, "1.50 out"),
        ("2", UP_DOWN, "2.00 up"),
    ],
)
def test_a_value_is_shown_as_it_would_be_written(
    value: str, spec: NumberSpec, text: str
) -> None:
    assert plain_text(Decimal(value), spec) == text


@pytest.mark.parametrize(
    "spec", [POWER, DRUM, AXIS, IN_OUT, UP_DOWN, LENGTH], ids=lambda spec: spec.label
)
@pytest.mark.parametrize("eighths", range(8, 320, 7))
def test_what_is_shown_reads_back_as_the_same_value(spec: NumberSpec, eighths: int) -> None:
    step = Decimal("0.125") if spec.in_eighths else Decimal("0.5")
    value = eighths * step
    if spec.low <= value <= spec.high:
        assert parse(plain_text(value, spec), spec).value == value
