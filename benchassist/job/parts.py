"""The parts of a job in words, for those who read its history."""

from benchassist.job.changes import split

_WORDS = {
    "right": "right lens",
    "left": "left lens",
    "pair": "the pair",
    "surface": "surface and edge",
    "bench": "frame on the bench",
    "fit": "fit on the wearer",
    "handover": "handover",
    "instruments": "lens meters",
    "skipped": "skipped prompts",
    "signoff": "outcome and names",
}


def part_words(path: str) -> str:
    """Which part of a job the path of a change lies in."""
    match split(path):
        case ("attempts", _, field, *_):
            return _WORDS.get(field, field)
        case ("attempts", _):
            return "new attempt"
        case ("order", *_):
            return "order"
        case _:
            return "job begun"
