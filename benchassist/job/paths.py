"""Reading and replacing one field of a frozen model by its dotted path."""

from typing import Any, TypeVar

from benchassist.job.base import Frozen

Model = TypeVar("Model", bound=Frozen)


def value_at(model: Frozen, path: str) -> Any:
    """The value at a dotted path such as 'right.power.sphere'; None below a part not yet there.

    Raises:
        AttributeError: no such field.
    """
    value: Any = model
    for name in path.split("."):
        if value is None:
            return None
        value = getattr(value, name)
    return value


def with_value_at(model: Model, path: str, value: Any) -> Model:
    """The model with the value at a dotted path replaced, validated as if it were new.

    Raises:
        AttributeError: no such field, or a part of the path is not there yet.
        pydantic.ValidationError: a value that the field does not take.
    """
    name, _, rest = path.partition(".")
    if rest:
        value = with_value_at(getattr(model, name), rest, value)
    return model.with_(**{name: value})
