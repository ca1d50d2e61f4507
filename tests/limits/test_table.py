from decimal import Decimal

import pytest

from benchassist.limits.rule import Evidence, Rule, Source
from benchassist.limits.table import Band, Row, Span, Table

RULE = Rule("set", "R", "Row", "Edition", "clause", Evidence.READ, (Source("A page"),))


@pytest.mark.parametrize(
    ("span", "inside", "outside"),
    [
        (Span("power", high=Decimal(3), takes_high=True), ["0", "3"], ["3.01"]),
        (Span("power", high=Decimal(3)), ["2.99"], ["3", "4"]),
        (Span("power", low=Decimal(3)), ["3.01", "99"], ["3", "2"]),
        (Span("power", low=Decimal(3), takes_low=True), ["3", "99"], ["2.99"]),
        (
            Span("power", Decimal(1), Decimal(2), takes_low=True, takes_high=True),
            ["1", "2"],
            ["0.99", "2.01"],
        ),
    ],
)
def test_a_span_takes_its_edges_as_written(
    span: Span, inside: list[str], outside: list[str]
) -> None:
    assert all(span.holds(Decimal(value)) for value in inside)
    assert not any(span.holds(Decimal(value)) for value in outside)


def test_a_limit_grows_with_the_value_looked_up() -> None:
    band = Band((), "Δ", Decimal("0.33"), RULE, per=Decimal("0.20"), of="power")
    limit = band.limit({"power": Decimal(5)})
    assert limit is not None
    assert limit.value == Decimal("1.33")
    assert limit.unit == "Δ"
    assert limit.rule is RULE


def test_a_band_that_is_not_judged_has_no_limit() -> None:
    assert Band((), "°", None, RULE, not_judged="too weak").limit({}) is None


def test_a_gap_in_a_row_is_our_fault() -> None:
    row = Row("R", ("axis",), (), (Band((Span("cylinder", Decimal(1)),), "°", None, RULE),))
    with pytest.raises(LookupError, match="row R has no band"):
        row.band({"cylinder": Decimal(1)})


def test_a_row_is_found_by_quantity_and_design() -> None:
    for_all = Row("A", ("axis",), (), ())
    for_one = Row("B", ("height",), ("bifocal",), ())
    table = Table((for_all, for_one))
    assert table.row("axis", "progressive") is for_all
    assert table.row("axis") is for_all
    assert table.row("height", "bifocal") is for_one
    assert table.row("height", "progressive") is None
    assert table.row("tilt") is None


def test_a_figure_that_is_not_there_is_our_fault() -> None:
    judged_by_nothing = Row("A", ("axis",), (), (Band((), "°", None, RULE),))
    table = Table((judged_by_nothing,))
    with pytest.raises(LookupError, match="no figure for step"):
        table.figure("step")
    with pytest.raises(LookupError, match="no figure for axis"):
        table.figure("axis")
