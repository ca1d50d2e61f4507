"""What no text for a wearer may claim, and the search for it."""

import re
from pathlib import Path
from typing import Annotated

from pydantic import BeforeValidator, Field

from benchassist.assets import asset
from benchassist.guide.entries import Words
from benchassist.guide.language import read_file
from benchassist.job.base import Deferred

_FILE = "unsupported.toml"


def _compiled(pattern: object) -> object:
    """A pattern that finds its words in any case."""
    if not isinstance(pattern, str):
        return pattern
    try:
        return re.compile(pattern, re.IGNORECASE)
    except re.error as error:
        raise ValueError(f"is no regular expression, {error}") from error


class Claim(Deferred):
    """What no text for a wearer may say, and why.

    Attributes:
        id: its plain name.
        says: the claim.
        patterns: regular expressions that find it, whatever its case.
        examples: sentences that must be found.
        evidence: what is known about it.
        address: where that was read; may be empty.
    """

    id: str
    says: Words
    patterns: Annotated[
        tuple[Annotated[re.Pattern[str], BeforeValidator(_compiled)], ...], Field(min_length=1)
    ]
    examples: Annotated[tuple[str, ...], Field(min_length=1)]
    evidence: Words
    address: str = ""

    def is_in(self, text: str) -> bool:
        """Whether a text makes this claim."""
        return any(pattern.search(text) for pattern in self.patterns)


def load_claims(folder: Path | None = None) -> tuple[Claim, ...]:
    """What no text for a wearer may say.

    Args:
        folder: another folder than resources/handover.

    Raises:
        BenchError: the file cannot be used.
    """
    return read_file((folder or asset("handover")) / _FILE).entries("claim", Claim)


def unsupported(text: str, claims: tuple[Claim, ...]) -> str:
    """What a text claims without support, as the end of a sentence; empty for nothing."""
    found = next((claim for claim in claims if claim.is_in(text)), None)
    return f"nothing supports the claim '{found.says}' {found.evidence}" if found else ""
