"""How the fields of the order form map onto an order."""

from decimal import Decimal

import pytest

from benchassist.job.order import ComponentPrism, EyeOrder, Order, PolarPrism, Verification
from benchassist.ui.inputs.parsing import NumberSpec, parse
from benchassist.ui.ordering.fields import FormField, sections
from benchassist.ui.ordering.values import FieldValue, field_value, refusal, with_field_value

BOTH = "both.distance_pd"
FIELDS = {field.path: field for part in sections(()) for field in part.fields}
SAMPLES: dict[str, FieldValue] = {
    "both.distance_pd": Decimal(64),
    "both.near_pd": Decimal(60),
}


def order_with(right: str | None = None, left: str | None = None) -> Order:
    """An order with these distances of each eye."""
    each = [
        EyeOrder(distance_pd=None if one is None else Decimal(one)) for one in (right, left)
    ]
    return Order(right=each[0], left=each[1])


def distances(order: Order) -> tuple[Decimal | None, Decimal | None]:
    return order.right.distance_pd, order.left.distance_pd


def sample(field: FormField) -> FieldValue:
    """Something that the field takes."""
    if field.takes is None:
        return "a word"
    if isinstance(field.takes, NumberSpec):
        return SAMPLES.get(field.path, max(Decimal("1.5"), field.takes.low))
    key = field.takes[-1][0] if field.takes else "iso-21987-2017"
    return (key,) if field.is_several else key


@pytest.mark.parametrize("path", FIELDS)
def test_what_is_typed_into_any_field_is_shown_there_and_can_be_taken_out(path: str) -> None:
    value = sample(FIELDS[path])
    filled = with_field_value(Order(), path, value)
    assert field_value(filled, path) == value
    if isinstance(FIELDS[path].takes, NumberSpec):
        assert with_field_value(filled, path, None) == Order()


@pytest.mark.parametrize("eye", ["right", "left"])
def test_the_laboratorys_whole_word_is_entered_for_each_eye(eye: str) -> None:
    order = Order()
    for path, value in (
        ("power.sphere", "-2.125"),
        ("power.cylinder", "-0.625"),
        ("power.axis", "88"),
        ("add", "1.875"),
        ("prism.base_in", "0.5"),
        ("prism.base_up", "-1"),
    ):
        order = with_field_value(order, f"{eye}.verification.{path}", Decimal(value))
    verification = getattr(order, eye).verification
    assert verification.power.cylinder == Decimal("-0.625")
    assert verification.add == Decimal("1.875")
    assert verification.prism == ComponentPrism(base_in=Decimal("0.5"), base_up=Decimal(-1))
    assert getattr(order, eye).prism is None


def test_the_cylinder_of_the_meter_takes_eighths() -> None:
    spec = FIELDS["right.verification.power.cylinder"].takes
    assert isinstance(spec, NumberSpec)
    assert parse("-.62", spec).value == Decimal("-0.625")


def test_prism_by_direction_is_shown_by_components_for_its_own_eye() -> None:
    shown = Verification(prism=PolarPrism(amount=Decimal(2), base=Decimal(0)))
    order = Order(right=EyeOrder(verification=shown), left=EyeOrder(verification=shown))
    path = "verification.prism.base_in"
    right, left = (field_value(order, f"{eye}.{path}") for eye in ("right", "left"))
    assert (right, left) == (Decimal(2), Decimal(-2))


@pytest.mark.parametrize(
    ("order", "total", "expected"),
    [
        (order_with(), "64", ("32", "32")),
        (order_with(), "63.5", ("31.75", "31.75")),
        (order_with(), "63.25", ("31.62", "31.63")),
        (order_with("31"), "64", ("31", "33")),
        (order_with(None, "33.5"), "64", ("30.5", "33.5")),
        (order_with("32", "32"), "66", ("33", "33")),
        (order_with("31.62", "31.63"), "64", ("32", "32")),
    ],
    ids=str,
)
def test_half_goes_to_each_eye_or_the_rest_to_the_other(
    order: Order, total: str, expected: tuple[str, str]
) -> None:
    assert refusal(order, BOTH, Decimal(total)) == ""
    shared = with_field_value(order, BOTH, Decimal(total))
    assert distances(shared) == tuple(map(Decimal, expected))
    assert field_value(shared, BOTH) == Decimal(total)


def test_an_emptied_field_takes_the_halves_out_and_leaves_one_eyes_own() -> None:
    assert distances(with_field_value(order_with("32", "32"), BOTH, None)) == (None, None)
    assert distances(with_field_value(order_with("31"), BOTH, None)) == (Decimal(31), None)


@pytest.mark.parametrize(
    ("order", "total", "words"),
    [
        (order_with("31", "33"), "66", "right 31.0 mm, left 33.0 mm"),
        (order_with("31", "33"), None, "Each eye has its own"),
        (order_with("31"), "100", "69.0 mm is left for the other"),
    ],
    ids=str,
)
def test_distances_stated_for_each_eye_are_not_changed(
    order: Order, total: str | None, words: str
) -> None:
    value = None if total is None else Decimal(total)
    assert words in refusal(order, BOTH, value)


def test_near_distances_are_shared_by_themselves() -> None:
    order = with_field_value(order_with("31", "33"), "both.near_pd", Decimal(60))
    assert (order.right.near_pd, order.left.near_pd) == (Decimal(30), Decimal(30))
    assert distances(order) == (Decimal(31), Decimal(33))
