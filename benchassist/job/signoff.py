"""How a job ends, and who says so."""

import unicodedata
from enum import StrEnum
from typing import Self

from pydantic import AwareDatetime, model_validator
from pydantic_core import PydanticCustomError

from benchassist.job.base import Frozen, Name, Remark


class Outcome(StrEnum):
    """What becomes of the pair."""

    RELEASE = "release"
    RELEASE_ACCEPTED = "release with accepted deviation"
    RETURN = "return to lab"
    HOLD = "hold"


RELEASED = frozenset({Outcome.RELEASE, Outcome.RELEASE_ACCEPTED})
"""The outcomes with which the wearer gets the pair."""


class Ask(StrEnum):
    """What the lab is asked for with a pair that goes back."""

    REMAKE = "make again"
    RE_EDGE = "edge again"
    REALIGN = "align again"
    EXPLAIN = "explain"
    CREDIT = "credit"


class Role(StrEnum):
    """A trainee prepares, an optician releases, a supervisor countersigns."""

    TRAINEE = "trainee"
    OPTICIAN = "optician"
    SUPERVISOR = "supervisor"


class Person(Frozen):
    """Somebody at the bench."""

    name: Name
    role: Role


def is_same_person(one: Person, other: Person) -> bool:
    """Whether two names are one person's: their letters and digits are the same.

    The role, case, spaces, points, and characters that nobody sees make no difference. The
    vowel signs and accents of a script count as its letters do: they tell names apart.
    """
    return _plain(one) == _plain(other)


def dispensing_fault(person: Person) -> str | None:
    """Why this person cannot decide an outcome; None when the person can."""
    if person.role is Role.TRAINEE:
        return "A trainee prepares a job; an optician decides its outcome and signs."
    return None


def countersigning_fault(
    person: Person, dispensed: Person | None, outcome: Outcome | None
) -> str | None:
    """Why this person cannot countersign what was dispensed; None when the person can."""
    if person.role is not Role.SUPERVISOR:
        return "Only a supervisor countersigns."
    if dispensed is None:
        return "There is nothing to countersign: no optician has signed yet."
    if outcome is Outcome.HOLD:
        return "A pair on hold is not countersigned. It is taken up again first."
    if is_same_person(person, dispensed):
        return "The supervisor must be another person than the one who dispensed."
    return None


def deciding_fault(outcome: Outcome | None, reason: str) -> str | None:
    """Why this outcome cannot be signed as it stands; None when it can."""
    if outcome is None:
        return "An outcome is chosen before it is signed."
    if outcome is not Outcome.RELEASE and not reason.strip():
        return f"The outcome '{outcome.value}' needs a reason."
    return None


class Signature(Frozen):
    """A name put to the job, and when."""

    person: Person
    at: AwareDatetime
    remark: Remark = ""


class SignOff(Frozen):
    """The end of one attempt; one that contradicts itself is refused.

    Times are not compared: a clock that was set back between two signatures makes an honest
    sign-off look wrong, and the journal tells of it.

    Attributes:
        outcome: what becomes of the pair.
        reason: why a deviation is accepted, the pair held or returned.
        prepared: the trainee's name, when a trainee prepared the record.
        dispensed: the dispensing optician's name: the outcome is decided.
        countersigned: the supervisor's name: the record is closed.
        sent_back: the supervisor's remark when the record was sent back instead.
        asks: what the lab is asked for; it counts only while the outcome is a return.
    """

    outcome: Outcome | None = None
    reason: Remark = ""
    prepared: Signature | None = None
    dispensed: Signature | None = None
    countersigned: Signature | None = None
    sent_back: Signature | None = None
    asks: tuple[Ask, ...] = ()

    @model_validator(mode="after")
    def _holds_together(self) -> Self:
        if fault := self._fault():
            raise PydanticCustomError("contradiction", "{fault}", {"fault": fault})
        return self

    def _fault(self) -> str | None:
        back, signed, closed = self.sent_back, self.dispensed, self.countersigned
        if back is not None and back.person.role is Role.TRAINEE:
            return "A trainee does not send a signed job back."
        if signed is not None:
            decided = deciding_fault(self.outcome, self.reason)
            if fault := dispensing_fault(signed.person) or decided:
                return fault
        if closed is not None:
            dispenser = signed.person if signed else None
            return countersigning_fault(closed.person, dispenser, self.outcome)
        return None


_MARKS_UNSEEN = frozenset("\u034f\u17b4\u17b5\u180b\u180c\u180d\u180f")
"""Marks that change nothing one sees, beside the variation selectors.

Source: Unicode Character Database, DerivedCoreProperties, Default_Ignorable_Code_Point,
https://www.unicode.org/Public/UCD/latest/ucd/DerivedCoreProperties.txt (memory).
"""


def _plain(person: Person) -> str:
    folded = unicodedata.normalize("NFKC", person.name).casefold()
    return "".join(sign for sign in unicodedata.normalize("NFKC", folded) if _tells(sign))


def _tells(sign: str) -> bool:
    """Whether a character tells one name from another: a letter, a mark on one, a digit."""
    is_selector = "\ufe00" <= sign <= "\ufe0f" or "\U000e0100" <= sign <= "\U000e01ef"
    is_seen = sign not in _MARKS_UNSEEN and not is_selector
    return is_seen and unicodedata.category(sign)[0] in "LMN"
