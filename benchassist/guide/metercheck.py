"""The daily check of a lens meter, step by step, as the guide gives it."""

from dataclasses import dataclass
from enum import StrEnum

from benchassist.job.instrument import Speech
from benchassist.limits.rule import Source


class Taken(StrEnum):
    """What a step asks for, by the fields of the log of the lens meters."""

    NOTHING = ""
    EYEPIECE = "eyepiece"
    ZERO = "zero"
    AXIS_LINE = "axis_line"
    KNOWN_LENS = "known_lens"
    """Two powers: what is marked on the lens and what the meter shows of it."""
    ACCEPTED = "accepted"


@dataclass(frozen=True, slots=True)
class MeterStep:
    """One step of the daily check.

    Attributes:
        id: its name, unique within the check.
        title: a few words.
        takes: what the person enters.
        speech: for which meters it is asked; None for all.
        ask: what to do now, in one sentence.
        how, why, fault: hint texts; `fault` says what a fault looks like, and may be empty.
        sources: how we know.
    """

    id: str
    title: str
    takes: Taken
    speech: Speech | None
    ask: str
    how: str
    why: str
    fault: str
    sources: tuple[Source, ...]

    def is_for(self, speech: Speech) -> bool:
        """Whether a meter that speaks like this needs the step."""
        return self.speech in {None, speech}
