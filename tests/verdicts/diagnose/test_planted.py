"""Each slip, planted by itself, is among those listed whenever it leaves the pair outside."""

import pytest
from hypothesis import HealthCheck, Phase, assume, given, settings
from hypothesis import strategies as st

from benchassist.verdicts.diagnose.diagnose import diagnose
from benchassist.verdicts.diagnose.slips import SLIPS
from benchassist.verdicts.finding import State
from benchassist.verdicts.judge import judge
from tests.verdicts.diagnose.pairs import pairs
from tests.verdicts.diagnose.plants import PLANTS
from tests.verdicts.jobs import ANSI, ISO, plain_limits


def test_every_slip_is_planted() -> None:
    assert PLANTS.keys() == {slip.id for slip in SLIPS}
    assert len(SLIPS) == len(PLANTS) >= 20


@pytest.mark.parametrize("slip", PLANTS)
@settings(
    max_examples=4,
    deadline=None,
    suppress_health_check=list(HealthCheck),
    phases=(Phase.explicit, Phase.reuse, Phase.generate),
)
@given(data=st.data())
def test_a_planted_slip_is_listed(slip: str, data: st.DataObject) -> None:
    case = PLANTS[slip]
    pair = data.draw(pairs(data.draw(st.sampled_from(case.designs))))
    pair.order["rule_set"] = data.draw(st.sampled_from((ISO, ANSI)))
    case.plant(pair, data)
    job = pair.job()
    limits = plain_limits(pair.order["rule_set"])
    findings = judge(job, limits)
    assume(any(finding.state is State.OUTSIDE for finding in findings))
    listed = diagnose(job, limits, findings)
    assert slip in {each for suspicion in listed for each in suspicion.slips}
