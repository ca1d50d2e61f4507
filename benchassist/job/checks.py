"""Checks answered by eye or by measurement, and the corrections made."""

from decimal import Decimal
from enum import StrEnum
from typing import Annotated

from pydantic import Field

from benchassist.job.base import Account, Frozen, FrozenMap, Line, Remark, exact

Measure = Annotated[Decimal, exact("-1000", "1000", 3)]
"""A bench measurement in the unit that its prompt states."""


class Seen(StrEnum):
    """What the eye says."""

    GOOD = "good"
    FAULT = "fault"


class Answer(Frozen):
    """The answer to one check.

    Attributes:
        seen: judged by eye, or confirmed as done; None when not judged by eye.
        measured: named measurements, mm or degrees as the prompt states.
        choice: the option chosen, for a check that offers options.
        remark: free text.
        again_because: id of the check whose correction may have disturbed this one; while it is
            set the answer no longer counts and the check is to be repeated.
    """

    seen: Seen | None = None
    measured: FrozenMap[Measure] = Field(default_factory=dict, validate_default=True)
    choice: Line = ""
    remark: Remark = ""
    again_because: str = ""


class Correction(Frozen):
    """One correction at the bench.

    Attributes:
        check: id of the check that it put right.
        action: what was done.
        tool: with which tool.
        remark: free text; what was read before it, where readings had to be taken again.
        rereads: ids of the prompts whose readings it set aside, to be taken again.
    """

    check: str
    action: Remark
    tool: Line = ""
    remark: Account = ""
    rereads: tuple[str, ...] = ()


class Checks(Frozen):
    """The answers of one step, by the id of the check."""

    answers: FrozenMap[Answer] = Field(default_factory=dict, validate_default=True)


class BenchWork(Checks):
    """The answers at the bench and the corrections made, oldest first."""

    corrections: tuple[Correction, ...] = ()
