"""How the fields of the order form map onto an order."""

from decimal import Decimal

from benchassist.job.order import ComponentPrism, Order, PolarPrism, Verification
from benchassist.job.paths import value_at, with_value_at
from benchassist.optics.eye import Eye
from benchassist.optics.prism import Prism

FieldValue = Decimal | str | tuple[str, ...] | None


def field_value(order: Order, path: str) -> FieldValue:
    """What a field of the form shows."""
    if ".prism." in path:
        return _prism_value(order, path)
    value: FieldValue = value_at(order, path)
    return value


def with_field_value(order: Order, path: str, value: FieldValue) -> Order:
    """The order with a field of the form replaced; an emptied part is taken out whole."""
    if ".prism." in path:
        return _with_prism_value(order, path, value)
    if ".verification." in path:
        return _with_verification_value(order, path, value)
    return with_value_at(order, path, value)


def _components(order: Order, eye: Eye) -> ComponentPrism | None:
    """The ordered prism as components, to a hundredth where it was written by direction."""
    prism = order.eye(eye).prism
    if not isinstance(prism, PolarPrism):
        return prism
    exact = Prism.from_polar(float(prism.amount), float(prism.base), eye)
    return ComponentPrism(
        base_in=Decimal(f"{exact.base_in:.2f}"), base_up=Decimal(f"{exact.base_up:.2f}")
    )


def _prism_value(order: Order, path: str) -> Decimal | None:
    eye, _, name = path.split(".")
    components = _components(order, Eye(eye))
    value: Decimal | None = None if components is None else getattr(components, name)
    return value


def _with_prism_value(order: Order, path: str, value: FieldValue) -> Order:
    eye, _, name = path.split(".")
    components = _components(order, Eye(eye)) or ComponentPrism()
    changed = components.with_(**{name: value if value is not None else Decimal(0)})
    is_none = not changed.base_in and not changed.base_up and value is None
    return with_value_at(order, f"{eye}.prism", None if is_none else changed)


def _with_verification_value(order: Order, path: str, value: FieldValue) -> Order:
    eye, _, rest = path.split(".", 2)
    before = order.eye(Eye(eye)).verification or Verification()
    changed = with_value_at(before, rest, value)
    return with_value_at(
        order, f"{eye}.verification", None if changed == Verification() else changed
    )
