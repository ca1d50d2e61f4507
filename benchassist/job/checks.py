"""Checks answered by eye or by measurement, and the corrections made."""

from decimal import Decimal
from enum import StrEnum
from typing import Annotated

from pydantic import BeforeValidator, Field

from benchassist.job.acuity import Acuity
from benchassist.job.base import Account, Frozen, FrozenMap, Line, Remark, exact
from benchassist.optics.eye import Eye

Measure = Annotated[Decimal, exact("-1000", "1000", 3)]
"""A bench measurement in the unit that its prompt states."""


class Seen(StrEnum):
    """What the eye says."""

    GOOD = "good"
    FAULT = "fault"


def _as_list(causes: object) -> object:
    """A single cause, as it was once written, and a list of a file as a tuple."""
    if isinstance(causes, str):
        return (causes,) if causes else ()
    return tuple(causes) if isinstance(causes, list) else causes


Causes = Annotated[tuple[Line, ...], BeforeValidator(_as_list)]
"""Ids of checks."""


class Answer(Frozen):
    """The answer to one check.

    Attributes:
        seen: judged by eye, or confirmed as done; None when not judged by eye.
        measured: named measurements, mm or degrees as the prompt states.
        choice: the option chosen, for a check that offers options.
        remark: free text.
        acuity: the lines read on a chart or card; None for every check but those of vision.
        again_because: ids of the checks whose corrections may have disturbed this one, in the
            order of the corrections; while there are any the answer no longer counts and the
            check is to be repeated.
    """

    seen: Seen | None = None
    measured: FrozenMap[Measure] = Field(default_factory=dict, validate_default=True)
    choice: Line = ""
    remark: Remark = ""
    acuity: Acuity | None = None
    again_because: Causes = ()


class Correction(Frozen):
    """One correction at the bench or on the wearer.

    Attributes:
        check: id of the check that it put right.
        action: what was done.
        tool: with which tool.
        side: on which side; None for the bridge or both.
        amount: by how much, in `unit`; None where nobody measured it.
        unit: 'mm' or '°'; empty without an amount.
        measured: what was measured before it.
        remark: free text; what was read before it, where readings had to be taken again.
        rereads: ids of the prompts whose readings it set aside, to be taken again.
    """

    check: str
    action: Remark
    tool: Line = ""
    side: Eye | None = None
    amount: Measure | None = None
    unit: Line = ""
    measured: FrozenMap[Measure] = Field(default_factory=dict, validate_default=True)
    remark: Account = ""
    rereads: tuple[str, ...] = ()


class Checks(Frozen):
    """The answers of one step, by the id of the check."""

    answers: FrozenMap[Answer] = Field(default_factory=dict, validate_default=True)


class HandWork(Checks):
    """The answers of a step in which a frame is bent, and the corrections, oldest first."""

    corrections: tuple[Correction, ...] = ()
