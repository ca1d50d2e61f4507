"""A limit, and where it is from."""

from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum


class Evidence(StrEnum):
    """How a figure is known."""

    READ = "read"
    MEMORY = "memory"
    CARRIED = "carried over"
    """Read for another edition or standard and applied here from memory."""
    PROPOSED = "proposed"
    """Our own proposal from the optical effect; no published source."""
    PRACTICE = "common practice, no source"
    HOUSE = "house rule"
    """Tightened by the workshop itself, below what the rule set allows."""


@dataclass(frozen=True, slots=True)
class Source:
    """A publication: its title and, where there is one, its address."""

    title: str
    address: str = ""


@dataclass(frozen=True, slots=True)
class Rule:
    """The row of a rule set from which a limit comes.

    Attributes:
        rule_set: id of the rule set that was asked.
        row: id of the row within it.
        title: what the row limits, in words.
        edition: the standard and its edition, as printed on screen and paper.
        clause: clause or table of that edition, or 'not known'.
        evidence: how the figure is known.
        sources: where it was read, or the memory it comes from; never empty.
        note: what a supervisor should know about the row; often empty.
        off: why the workshop has it not judged, in words that end a sentence; else empty.
    """

    rule_set: str
    row: str
    title: str
    edition: str
    clause: str
    evidence: Evidence
    sources: tuple[Source, ...]
    note: str = ""
    off: str = ""


@dataclass(frozen=True, slots=True)
class Limit:
    """The largest difference allowed, and its rule; on the limit is within."""

    value: Decimal
    unit: str
    rule: Rule
