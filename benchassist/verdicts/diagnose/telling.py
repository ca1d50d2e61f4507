"""What may have happened, in words: always a question, never a cause."""

from benchassist.verdicts.diagnose.suspicion import Suspicion


def slip_sentences(suspicions: tuple[Suspicion, ...]) -> tuple[str, ...]:
    """Each slip that would explain a reading, with the question that tells it apart."""
    return tuple(map(_sentence, suspicions))


def _sentence(one: Suspicion) -> str:
    names = " or: ".join(one.names)
    would = f"(It would read {one.reading_would_be}.)"
    return f"{names[:1].upper()}{names[1:]}. {one.question} {would}"
