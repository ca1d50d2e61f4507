"""Which surface goes on the stop, and what the other one would show."""

from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchassist.job.order import Order, Surface
from benchassist.optics.eye import Eye
from benchassist.verdicts.finding import State
from benchassist.verdicts.form import lens_form
from benchassist.verdicts.near import MATTERS, Proposal, proposal
from tests.job.strategies import jobs
from tests.verdicts.jobs import judged, power, shown_add


def proposed(design: str = "bifocal", carrier: str | None = None, **lens: Any) -> Proposal:
    whole: dict[str, Any] = {
        name: lens.pop(name) for name in ("index", "material", "frame") if name in lens
    }
    order: dict[str, Any] = {"design": design, "addition_surface": carrier, **whole}
    order["right"] = {"power": power("1.00"), "add": "2.00"} | lens
    return proposal(Order.model_validate(order), Eye.RIGHT)


@pytest.mark.parametrize(
    ("design", "carrier", "surface", "reason"),
    [
        ("bifocal", None, Surface.FRONT, "A segment is on the front unless"),
        ("trifocal", None, Surface.FRONT, "A segment is on the front unless"),
        ("progressive", None, Surface.BACK, "does not say which surface carries the addition"),
        ("progressive", "front", Surface.FRONT, "the front surface carries the addition"),
        ("bifocal", "back", Surface.BACK, "the back surface carries the addition"),
    ],
)
def test_the_surface_that_carries_the_addition(
    design: str, carrier: str | None, surface: Surface, reason: str
) -> None:
    found = proposed(design, carrier)
    assert found.surface is surface
    assert found.other is not surface
    assert reason in found.reason
    assert f"take both readings with the {surface.value} surface on the stop" in found.reason


def test_a_published_thick_lens() -> None:
    """Front +12.00, back -2.00, 8 mm, index 1.523, addition 2.50: the back shows 2.89."""
    found = proposed(
        power=power("10.807"), add="2.50", base_curve="12", centre_thickness="8", index="1.523"
    )
    assert found.difference == Decimal("0.39")
    assert found.matters
    assert found.reason.endswith(
        "The back would show 0.39 D too much (mean power +10.81 D, front +12.00 D as ordered, "
        "8.0 mm thick as ordered and index 1.523)."
    )


def test_the_wrong_side_of_an_addition_on_the_back_shows_too_little() -> None:
    found = proposed(
        carrier="back", power=power("-8.00"), base_curve="2", centre_thickness="3", index="1.5"
    )
    # back about -10: 1 / (1 - 0.002 x -10) = 0.980, and 0.984 with the addition
    assert found.difference == Decimal("-0.07")
    assert "The front would show 0.07 D too little" in found.reason


@pytest.mark.parametrize(
    ("sphere", "thickness", "matters"),
    [
        ("-3.00", "2", False),
        ("0.00", "1.5", False),
        ("0.00", "2.2", True),
        ("2.00", "4", True),
        ("8.00", "7", True),
    ],
)
def test_when_the_other_surface_matters(sphere: str, thickness: str, matters: bool) -> None:  # noqa: FBT001  (a parametrised answer)
    found = proposed(power=power(sphere), centre_thickness=thickness)
    assert found.difference is not None
    assert found.matters is matters is (abs(found.difference) >= MATTERS)


def test_what_is_not_ordered_is_assumed_and_said() -> None:
    plain = proposed(power=power("4.00")).reason
    assert "front +10.00 D by Vogel's rule, 4.0 mm thick by assumption" in plain
    assert "index 1.50 assumed" in plain
    known = proposed(power=power("-4.00"), material="polycarbonate").reason
    assert "front +4.00 D by Vogel's rule, 2.0 mm thick by assumption" in known
    assert "index 1.586 as usual for polycarbonate" in known
    thin = proposed(power=power("-4.00"), material="high-index plastic").reason
    assert "1.5 mm thick by assumption" in thin
    framed = proposed(power=power("4.00"), frame={"ed": "40"}).reason
    assert "2.6 mm thick by assumption" in framed


def test_the_makers_power_is_that_of_the_lens() -> None:
    found = proposed(power=power("4.00"), verification={"power": power("3.50")})
    assert "mean power +3.50 D" in found.reason


@pytest.mark.parametrize("lens", [{"power": {}}, {"add": None}])
def test_without_power_or_addition_no_size_can_be_told(lens: dict[str, Any]) -> None:
    found = proposed(**lens)
    assert (found.surface, found.difference, found.matters) == (Surface.FRONT, None, True)


def test_an_impossible_form_is_no_form() -> None:
    lens = {"power": power("20"), "base_curve": "30", "centre_thickness": "60"}
    order = Order.model_validate({"design": "bifocal", "right": lens})
    assert lens_form(order, Eye.RIGHT) is None


@settings(max_examples=25, deadline=None)
@given(jobs, st.sampled_from(Eye))
def test_any_order_has_a_proposal(job: Any, eye: Eye) -> None:
    found = proposal(job.order, eye)
    assert found.reason.endswith(".")
    assert found.surface is not found.other


BIFOCAL = {"design": "bifocal", "right": {"power": power("6.00"), "add": "2.00"}}


def test_the_wrong_surface_alone_is_judged_with_a_remark() -> None:
    finding = judged(BIFOCAL, {"right": {"near": [shown_add("2.25")]}})["right.add"]
    assert finding.state is State.CLOSE
    assert "read with the back surface on the stop, which may show 0." in finding.sentence
    assert finding.sentence.endswith("; turn the lens and read it again.")


def test_an_unread_power_leaves_the_size_open() -> None:
    order = {"design": "bifocal", "right": {"add": "2.00"}}
    finding = judged(order, {"right": {"near": [shown_add("2.00")]}})["right.add"]
    assert "may be off by an amount that cannot be told; turn the lens" in finding.sentence


def test_several_readings_on_the_wrong_side_are_kept() -> None:
    near = [shown_add("2.02", "front"), shown_add("2.4"), shown_add("2.5")]
    finding = judged(BIFOCAL, {"right": {"near": near}})["right.add"]
    assert (finding.found, finding.state) == (Decimal("2.02"), State.WITHIN)
    assert (
        "2 readings with the back surface on the stop kept and not judged" in finding.sentence
    )


def test_the_half_of_an_addition_is_told_where_no_intermediate_is_ordered() -> None:
    order = {"design": "trifocal", "right": {"power": power("1.00"), "add": "2.25"}}
    waiting = judged(order)["right.intermediate"]
    assert waiting.state is State.MISSING
    assert waiting.sentence == (
        "Intermediate addition not read yet; none is ordered, half of the near addition would "
        "be +1.12 D."
    )
    read = {"right": {"intermediate": [shown_add("1.50", "front")]}}
    told = judged(order, read)["right.intermediate"]
    assert (told.state, told.found) == (State.NONE, Decimal("1.50"))
    without = judged({**order, "right": {"power": power("1.00")}})["right.intermediate"]
    assert without.sentence == "Intermediate addition: none is ordered yet."
