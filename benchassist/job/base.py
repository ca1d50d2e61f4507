"""What all parts of a job share: frozen models, exact decimals, frozen maps."""

from collections.abc import Mapping
from decimal import Decimal
from types import MappingProxyType
from typing import Annotated, Any, Self, TypeVar

from pydantic import AfterValidator, BaseModel, ConfigDict, Field, PlainSerializer
from typing_extensions import override

Value = TypeVar("Value")

FrozenMap = Annotated[
    Mapping[str, Value],
    AfterValidator(lambda items: MappingProxyType(dict(sorted(items.items())))),
    PlainSerializer(dict),
]
"""A map from a plain name to a value that cannot be changed, kept in the order of names."""


class Frozen(BaseModel):
    """A part of a job: never changed, only replaced; unknown fields are refused."""

    model_config = ConfigDict(
        frozen=True, extra="forbid", allow_inf_nan=False, str_strip_whitespace=True
    )

    def with_(self, **changes: Any) -> Self:
        """A copy with these fields replaced, validated as if it were new.

        Raises:
            pydantic.ValidationError: a value that its field does not take.
        """
        fields = {name: getattr(self, name) for name in type(self).model_fields}
        return type(self).model_validate(fields | changes)

    @override
    def __copy__(self) -> Self:
        return self

    @override
    def __deepcopy__(self, memo: dict[int, Any] | None = None) -> Self:
        return self


def exact(low: str, high: str, places: int) -> Any:
    """The field rule of an exact decimal within [low, high] with so many decimal places."""
    return Field(ge=Decimal(low), le=Decimal(high), decimal_places=places)


Dioptre = Annotated[Decimal, exact("-40", "40", 3)]
"""A vertex power, D."""

Cylinder = Annotated[Decimal, exact("-20", "20", 3)]
"""A cylindrical power, D, in either form."""

Axis = Annotated[Decimal, exact("0.1", "180", 1)]
"""A cylinder axis, degrees of ISO 8429, above 0 and up to 180: zero is written 180."""

Base = Annotated[Decimal, Field(ge=0, lt=360, decimal_places=1)]
"""The direction of a prism's base, degrees of ISO 8429, from 0 to below 360."""

Addition = Annotated[Decimal, exact("0", "10", 3)]
"""A near or intermediate addition, D."""

ReadAddition = Annotated[Decimal, exact("-10", "10", 3)]
"""An addition as read, D: a slip may make it negative."""

PrismAmount = Annotated[Decimal, exact("0", "40", 3)]
"""An amount of prism, prism dioptres."""

PrismComponent = Annotated[Decimal, exact("-40", "40", 3)]
"""A component of prism, prism dioptres; base in or base up positive."""

Millimetre = Annotated[Decimal, exact("0", "200", 2)]
"""A length on the frame or the lens, mm."""

Angle = Annotated[Decimal, exact("-180", "180", 2)]
"""An angle, degrees."""

Index = Annotated[Decimal, exact("1.3", "2.1", 4)]
"""A refractive index."""
