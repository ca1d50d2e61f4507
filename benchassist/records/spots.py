"""What was found at each place of the lenses, in few words, for the drawing."""

from benchassist.guide.answers import answer_to
from benchassist.guide.flow import Standing
from benchassist.guide.prompts import Kind, Prompt
from benchassist.job.document import Job
from benchassist.job.order import WrittenPower
from benchassist.job.readings import AddReading, PowerReading, PrismReading
from benchassist.optics.eye import Eye
from benchassist.records.record import SpotLine
from benchassist.records.words import prism_parts
from benchassist.verdicts import words
from benchassist.verdicts.exact import (
    mean,
    mean_power,
    mean_prism,
    read_power,
    turned,
    written_prism,
)


def spots(stands: Standing) -> tuple[SpotLine, ...]:
    """One line for each reading that the lens meter is asked for."""
    return tuple(
        SpotLine(
            spot=item.prompt.spot,
            eye=item.prompt.eye,
            text=_found(stands.job, item.prompt, item.prompt.eye),
            state=item.state,
        )
        for item in stands.prompts
        if item.prompt.eye and item.prompt.kind in {Kind.POWER, Kind.ADDITION, Kind.PRISM}
    )


def _found(job: Job, prompt: Prompt, eye: Eye) -> str:
    taken = answer_to(job, prompt)
    match prompt.kind:
        case Kind.POWER:
            return _power(taken, job.order.eye(eye).power)
        case Kind.ADDITION:
            return _addition(taken)
        case _:
            return _prism(taken, eye)


def _power(readings: tuple[PowerReading, ...], ordered: WrittenPower) -> str:
    """The mean of the readings in the cylinder form of the order."""
    powers = [power for reading in readings if (power := read_power(reading))]
    if not powers:
        return ""
    found = mean_power(powers)
    if (ordered.cylinder or 0) > 0 and found.axis is not None:
        return words.power(found.across, -found.cylinder, turned(found.axis + 90))
    return words.power(found.sphere, found.cylinder, found.axis)


def _addition(readings: tuple[AddReading, ...]) -> str:
    read = [reading.addition for reading in readings if reading.addition is not None]
    return f"add {words.signed(mean(read))}" if read else ""


def _prism(readings: tuple[PrismReading, ...], eye: Eye) -> str:
    if not readings:
        return ""
    found = mean_prism([written_prism(reading.prism, eye) for reading in readings])
    # The unit once: the room beside a mark on the drawing is small.
    return ", ".join(prism_parts(found)).replace(" ", f" {words.PRISM} ", 1) or "no prism"
