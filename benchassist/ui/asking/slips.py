"""What may have happened, in words: always a question, never a cause."""

from benchassist.verdicts.diagnose.diagnose import NOTHING_FITS
from benchassist.verdicts.diagnose.suspicion import Suspicion
from benchassist.verdicts.finding import Finding

_LENS_KEYS = ("right.", "left.", "pair.")


def slip_sentences(suspicions: tuple[Suspicion, ...]) -> tuple[str, ...]:
    """Each slip that would explain a reading, with the question that tells it apart."""
    return tuple(
        f"{' or: '.join(one.names)}. {one.question} (It would read {one.reading_would_be}.)"
        for one in suspicions
    )


def unexplained(findings: tuple[Finding, ...]) -> str:
    """That no simple slip explains a lens; nothing for a check of the frame."""
    is_lens = any(one.key.startswith(_LENS_KEYS) for one in findings)
    return NOTHING_FITS if is_lens else ""
