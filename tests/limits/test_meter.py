"""The errors of lens meters and the steps of tools, written by hand beside the table."""

from decimal import Decimal

import pytest

from benchassist.limits.load import load_limits

METER = load_limits("iso-21987-2017").meter


@pytest.mark.parametrize(
    ("power", "error"),
    [
        ("0", "0.06"),
        ("5.00", "0.06"),
        ("5.01", "0.09"),
        ("10.00", "0.09"),
        ("10.01", "0.12"),
        ("15.00", "0.12"),
        ("15.01", "0.18"),
        ("20.00", "0.18"),
        ("20.01", "0.25"),
        ("25.00", "0.25"),
        ("40.00", "0.25"),
    ],
)
def test_the_error_of_vertex_power(power: str, error: str) -> None:
    assert METER.figure("error-power", power=Decimal(power)) == Decimal(error)


@pytest.mark.parametrize(
    ("prism", "error"),
    [
        ("0", "0.1"),
        ("5.00", "0.1"),
        ("5.01", "0.2"),
        ("10.00", "0.2"),
        ("10.01", "0.3"),
        ("15.01", "0.4"),
        ("30", "0.4"),
    ],
)
def test_the_error_of_prism(prism: str, error: str) -> None:
    assert METER.figure("error-prism", prism=Decimal(prism)) == Decimal(error)


@pytest.mark.parametrize(
    ("step", "size"),
    [
        ("axis-marker", "1"),
        ("step-drum", "0.125"),
        ("step-display", "0.01"),
        ("step-axis", "1"),
        ("step-reticle", "0.25"),
        ("step-display-prism", "0.01"),
        ("step-rule", "0.5"),
        ("step-calliper", "0.1"),
        ("step-clock", "0.125"),
        ("step-protractor", "1"),
    ],
)
def test_the_steps_of_the_tools(step: str, size: str) -> None:
    assert METER.figure(step) == Decimal(size)
