"""How the fields of the order form map onto an order."""

from decimal import Decimal

from benchassist.job.order import ComponentPrism, Order, PolarPrism, Verification, WrittenPrism
from benchassist.job.paths import value_at, with_value_at
from benchassist.optics.eye import Eye
from benchassist.optics.prism import Prism
from benchassist.ui.ordering import both

FieldValue = Decimal | str | tuple[str, ...] | None


def field_value(order: Order, path: str) -> FieldValue:
    """What a field of the form shows."""
    if ".prism." in path:
        return _prism_value(order, path)
    if path.startswith(both.PART):
        return both.total(order, path)
    value: FieldValue = value_at(order, path)
    return value


def refusal(order: Order, path: str, value: FieldValue) -> str:
    """Why a field cannot take a value, in a sentence; empty where it can."""
    if path.startswith(both.PART):
        return both.refusal(order, path, _number(value))
    return ""


def with_field_value(order: Order, path: str, value: FieldValue) -> Order:
    """The order with a field of the form replaced; an emptied part is taken out whole."""
    if path.startswith(both.PART):
        return both.with_total(order, path, _number(value))
    if ".prism." in path:
        return _with_prism_value(order, path, value)
    if ".verification." in path:
        return _with_verification_value(order, path, value)
    return with_value_at(order, path, value)


def _number(value: FieldValue) -> Decimal | None:
    return value if isinstance(value, Decimal) else None


def _components(prism: WrittenPrism | None, eye: Eye) -> ComponentPrism | None:
    """A prism as components, to a hundredth where it was written by direction."""
    if not isinstance(prism, PolarPrism):
        return prism
    exact = Prism.from_polar(float(prism.amount), float(prism.base), eye)
    return ComponentPrism(
        base_in=Decimal(f"{exact.base_in:.2f}"), base_up=Decimal(f"{exact.base_up:.2f}")
    )


def _prism_at(order: Order, place: str) -> ComponentPrism | None:
    """The prism at a path such as 'right.prism', as components."""
    prism: WrittenPrism | None = value_at(order, place)
    return _components(prism, Eye(place.partition(".")[0]))


def _prism_value(order: Order, path: str) -> Decimal | None:
    place, _, name = path.rpartition(".")
    components = _prism_at(order, place)
    value: Decimal | None = None if components is None else getattr(components, name)
    return value


def _with_prism_value(order: Order, path: str, value: FieldValue) -> Order:
    place, _, name = path.rpartition(".")
    components = _prism_at(order, place) or ComponentPrism()
    changed = components.with_(**{name: value if value is not None else Decimal(0)})
    is_none = not changed.base_in and not changed.base_up and value is None
    prism = None if is_none else changed
    if ".verification." in place:
        return _with_verification_value(order, place, prism)
    return with_value_at(order, place, prism)


def _with_verification_value(
    order: Order, path: str, value: FieldValue | ComponentPrism
) -> Order:
    eye, _, rest = path.split(".", 2)
    before = order.eye(Eye(eye)).verification or Verification()
    changed = with_value_at(before, rest, value)
    return with_value_at(
        order, f"{eye}.verification", None if changed == Verification() else changed
    )
