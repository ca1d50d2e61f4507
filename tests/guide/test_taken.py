"""What was read for a prompt, in words."""

from decimal import Decimal
from typing import Any

import pytest

from benchassist.guide.answers import with_answer
from benchassist.guide.guide import Guide
from benchassist.guide.prompts import Kind
from benchassist.guide.taken import NOTHING, has_reading, taken
from benchassist.job.order import Design, PolarPrism
from benchassist.job.readings import DisplayReading, DrumAdd, DrumReading, PrismReading
from tests.guide.jobs import job_for

POWERS = (
    DrumReading(
        sphere_lines=Decimal("-1.00"), cylinder_lines=Decimal("-1.50"), axis_wheel=Decimal(180)
    ),
    DisplayReading(sphere=Decimal("-1.01"), cylinder=Decimal("-0.52"), axis=Decimal(1)),
    DrumReading(sphere_lines=Decimal("-1.00")),
)
UP = PrismReading(prism=PolarPrism(amount=Decimal("1.50"), base=Decimal(90)))
ADD = DrumAdd(distance_lines=Decimal("-2.00"), near_lines=Decimal("0.25"))


@pytest.mark.parametrize(
    ("name", "answer", "words"),
    [
        ("right.distance", POWERS, "−1.00 −0.50 × 180 and −1.01 −0.52 × 1"),
        ("left.distance", (), ""),
        ("left.near", (ADD,), "+2.25 D"),
        ("right.prism", (UP,), "1.50 Δ base up"),
        ("left.engraved-add", Decimal("2.25"), "+2.25 D"),
        ("pair.height", ((Decimal(18), Decimal("17.5")), ()), "right 18.0 mm and 17.5 mm"),
        ("pair.tilt", ((Decimal(-1),), (Decimal(0),)), "right −1° and left 0°"),
        ("pair.base-curve", ((Decimal(4),), ()), "right +4.00 D"),
    ],
)
def test_a_reading_in_words(guide: Guide, name: str, answer: Any, words: str) -> None:
    prompt = guide.prompt(name)
    job = with_answer(job_for(Design.PROGRESSIVE), prompt, answer)
    assert taken(job, prompt) == words
    assert has_reading(job, prompt) == bool(words)
    emptied = with_answer(job, prompt, NOTHING[prompt.kind])
    assert not has_reading(emptied, prompt)
    assert emptied == job_for(Design.PROGRESSIVE)


def test_a_check_holds_no_reading(guide: Guide) -> None:
    for prompt in guide.prompts:
        if prompt.kind in {Kind.CHECK, Kind.SIGN, Kind.FORM}:
            assert taken(job_for(Design.BIFOCAL), prompt) == ""
            assert not has_reading(job_for(Design.BIFOCAL), prompt)
