"""What the handover says of the pair: only whether the wearer could show the zones back."""

from typing import Any

import pytest

from benchassist.guide.load import load_guide
from benchassist.guide.prompts import StepId
from benchassist.verdicts.finding import State
from tests.verdicts.jobs import checked


@pytest.mark.parametrize(
    ("answer", "state"),
    [
        ({"choice": "taught and shown back"}, State.WITHIN),
        ({"choice": "taught only"}, State.NONE),
        ({"choice": "could not do it", "remark": "tips the head"}, State.OUTSIDE),
    ],
)
def test_a_zone_is_judged_by_what_the_wearer_can_do(
    answer: dict[str, Any], state: State
) -> None:
    finding = checked("handover", "zone-near", answer)["handover.zone-near"]
    assert finding.state is state
    assert answer["choice"] in finding.sentence
    assert answer.get("remark", "") in finding.sentence


@pytest.mark.parametrize(
    "answer", [{"seen": "good"}, {"choice": "in one week"}, {"choice": "worn"}, {}]
)
def test_the_rest_of_the_handover_is_not_judged(answer: dict[str, Any]) -> None:
    assert checked("handover", "care", answer) == {}


def test_every_zone_offers_the_same_answers() -> None:
    handover = load_guide().step(StepId.HANDOVER)
    taught = {
        prompt.options
        for prompt in handover.prompts
        if prompt.name.startswith("zone-") or prompt.name == "stairs"
    }
    assert taught == {("taught and shown back", "taught only", "could not do it")}
