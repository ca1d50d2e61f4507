"""What may have happened, in words: always a question, never a cause."""

from benchassist.verdicts.diagnose.suspicion import Suspicion


def slip_sentences(suspicions: tuple[Suspicion, ...]) -> tuple[str, ...]:
    """Each slip that would explain a reading, with the question that tells it apart."""
    return tuple(
        f"{' or: '.join(one.names)}. {one.question} (It would read {one.reading_would_be}.)"
        for one in suspicions
    )
