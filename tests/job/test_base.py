from decimal import Decimal

import pytest
from hypothesis import given
from pydantic import ValidationError

from benchassist.job.checks import Answer
from benchassist.job.order import PolarPrism, WrittenPower
from tests.job.strategies import decimals


@given(decimals("-40", "40", 3))
def test_a_decimal_is_kept_to_the_last_digit_in_any_form(value: Decimal) -> None:
    for given_as in (value, f"{value:f}", f" {value:f}", f"+{value:f}".replace("+-", "-")):
        kept = WrittenPower.model_validate({"sphere": given_as}).sphere
        assert (kept, str(kept)) == (value, f"{value:f}")


@pytest.mark.parametrize("written", ["1E+1", "0E+999999", "-2E+1"])
def test_an_exponent_is_written_out(written: str) -> None:
    power = WrittenPower(sphere=Decimal(written))
    assert power.sphere == Decimal(written)
    assert "E" not in str(power.sphere)
    assert WrittenPower.model_validate_json(power.model_dump_json()) == power


@pytest.mark.parametrize("value", [Decimal("NaN"), Decimal("Infinity"), Decimal("1E+2"), "1_0"])
def test_what_is_no_power_is_refused(value: object) -> None:
    with pytest.raises(ValidationError):
        WrittenPower.model_validate({"sphere": value})


def test_a_base_lies_below_a_full_turn() -> None:
    assert PolarPrism(amount=Decimal(1), base=Decimal("359.9")).base == Decimal("359.9")
    for base in ("-0.1", "360"):
        with pytest.raises(ValidationError):
            PolarPrism(amount=Decimal(1), base=Decimal(base))


def test_the_measures_of_a_check_are_exact_too() -> None:
    assert Answer.model_validate({"measured": {"gap": "1.50"}}).measured["gap"] == Decimal(
        "1.5"
    )
    with pytest.raises(ValidationError, match="a number is expected"):
        Answer.model_validate({"measured": {"gap": "1_0"}})
