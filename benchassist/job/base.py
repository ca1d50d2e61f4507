"""What all parts of a job share: frozen models, texts, exact decimals, frozen maps."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from types import MappingProxyType
from typing import Annotated, Any, Self, TypeVar

from pydantic import (
    AfterValidator,
    BaseModel,
    BeforeValidator,
    ConfigDict,
    GetCoreSchemaHandler,
    PlainSerializer,
    StringConstraints,
)
from pydantic_core import CoreSchema, PydanticCustomError, core_schema
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


class Deferred(Frozen):
    """Frozen, and its checks are built when the first one is made, not when it is imported.

    For what no start needs: papers, and what is read for them.
    """

    model_config = ConfigDict(defer_build=True)


_UNSEEN = re.compile(
    r"[\x00-\x1f\x7f-\x9f\xad\u061c\u200b\u200e\u200f\u2028-\u202e\u2060-\u2069\ufeff]"
)
"""Controls, marks that turn the direction of writing, and blanks of no width."""


def _visible(value: Any) -> Any:
    return _UNSEEN.sub(" ", value) if isinstance(value, str) else value


_VISIBLE = BeforeValidator(_visible)

LONGEST_LINE = 120
"""Characters of a short text: it fits on one line of the record. Our own bound."""

LONGEST_REMARK = 2000
"""Characters of a remark. Our own bound."""

Line = Annotated[str, StringConstraints(max_length=LONGEST_LINE), _VISIBLE]
"""A short text that a person types; may be empty. What nobody sees in it becomes spaces."""

Name = Annotated[str, StringConstraints(min_length=1, max_length=LONGEST_LINE), _VISIBLE]
"""A name that is never empty."""

Remark = Annotated[str, StringConstraints(max_length=LONGEST_REMARK), _VISIBLE]
"""A remark or a reason that a person types; may be empty."""

Account = Annotated[str, StringConstraints(max_length=20_000), _VISIBLE]
"""A remark that the program carries on with what was there before, so longer than any typed."""

_WRITTEN = re.compile(r"[+-]?[0-9]+(\.[0-9]+)?")


def _decimal(value: Any) -> Any:
    """A decimal of what stands for one; a text only when it is written with digits and a point.

    An exponent is written out, so that the value is written and read in the same form.
    """
    match value:
        case Decimal():
            has_exponent = value.is_finite() and str(value).find("E") > 0
            return Decimal(f"{value:f}") if has_exponent else value
        case int() | float() if not isinstance(value, bool):
            return Decimal(str(value))
        case str() if _WRITTEN.fullmatch(value.strip()):
            return Decimal(value.strip())
        case _:
            raise PydanticCustomError("decimal_parsing", "a number is expected")


@dataclass(frozen=True, slots=True)
class _Exact:
    """The rule of a field that holds an exact decimal."""

    low: Decimal
    high: Decimal
    places: int

    def __get_pydantic_core_schema__(
        self, source: Any, handler: GetCoreSchemaHandler
    ) -> CoreSchema:
        exactly = core_schema.decimal_schema(
            ge=self.low, le=self.high, decimal_places=self.places, allow_inf_nan=False
        )
        return core_schema.no_info_before_validator_function(_decimal, exactly)


def exact(low: str, high: str, places: int) -> Any:
    """The field rule of an exact decimal within [low, high] with so many decimal places."""
    return _Exact(Decimal(low), Decimal(high), places)


Dioptre = Annotated[Decimal, exact("-40", "40", 3)]
"""A vertex power, D."""

Cylinder = Annotated[Decimal, exact("-20", "20", 3)]
"""A cylindrical power, D, in either form."""

Axis = Annotated[Decimal, exact("0.1", "180", 1)]
"""A cylinder axis, degrees of ISO 8429, above 0 and up to 180: zero is written 180."""

Base = Annotated[Decimal, exact("0", "359.9", 1)]
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
