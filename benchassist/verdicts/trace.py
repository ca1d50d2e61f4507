"""From which lens meters the readings of a lens came, and whether these were checked."""

from collections import Counter

from benchassist.job.instrument import Instrument
from benchassist.optics.eye import Eye
from benchassist.verdicts.case import Case
from benchassist.verdicts.finding import Finding
from benchassist.verdicts.meters import MeterUsed
from benchassist.verdicts.weigh import Subject
from benchassist.verdicts.words import signed_dioptres

NOT_CHECKED = "meter not checked"


def judge_meters(case: Case) -> tuple[Finding, ...]:
    """One line for each lens that was read: its meters, their checks, what was taken off.

    A meter not checked, or without a known lens at its check, counts with the limits of its
    class.
    """
    return tuple(_one_lens(case, eye) for eye in Eye if case.meters.all_of(case.now.eye(eye)))


def _one_lens(case: Case, eye: Eye) -> Finding:
    subject = Subject(f"{eye}.meter", f"{eye}.distance", "Lens meter", eye)
    used = Counter(_told(meter) for meter in case.meters.all_of(case.now.eye(eye)))
    told = "; ".join(f"{_readings(number)} on {meter}" for meter, number in used.items())
    return subject.none(f"{subject.what}: {told}.")


def _readings(number: int) -> str:
    return "1 reading" if number == 1 else f"{number} readings"


def _told(meter: MeterUsed) -> str:
    if not meter.name:
        return f"a meter not named, {NOT_CHECKED}"
    if meter.checked is None:
        return f"{meter.name}, {NOT_CHECKED}{_zero(meter)}"
    checked = f"{meter.checked.name}, checked {_when(meter.checked)}"
    return f"{checked}{_zero(meter)}{_known_lens(meter.checked)}"


def _when(instrument: Instrument) -> str:
    at = instrument.checked
    return f"{at.day} {at:%B %Y, %H:%M}" if at else ""


def _zero(meter: MeterUsed) -> str:
    return f", zero error of {signed_dioptres(meter.zero)} taken off" if meter.zero else ""


def _known_lens(instrument: Instrument) -> str:
    wrong = instrument.known_lens_error
    if wrong is None:
        return ", no known lens read"
    if not wrong:
        return ", known lens read right"
    return f", known lens read {signed_dioptres(wrong)} wrong"
