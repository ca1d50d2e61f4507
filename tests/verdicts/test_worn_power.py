"""Power and prism of a pair as it sits: tilt, face form, vertex distance, index and limits."""

from decimal import Decimal
from typing import Any

import pytest

from benchassist.verdicts.finding import State
from tests.verdicts.jobs import ANSI, ISO, components, guarded_limits, judged, power
from tests.verdicts.worn_cases import (
    FRAME,
    ON_PUPIL,
    PROGRESSIVE,
    SINGLE,
    UNLIKE,
    measured,
    worn,
)


def test_each_lens_is_worn_with_its_own_face_form() -> None:
    """15 degrees about the upright axis do what they do about the level one, turned by 90."""
    order = {**SINGLE, "right": {"power": power("-8.00")}, "left": {"power": power("-8.00")}}
    order["frame"] = {**FRAME, "face_form": "5"}
    form = {"right": "15", "left": "0"}
    found = measured(order, tilt={"tilt": "0"}, face_form=form)
    right, left = found["fit.tilt.power-right"], found["fit.tilt.power-left"]
    assert "gives the eye −8.19 −0.59 × 90 (tilt 0°, face form 15°)" in right.sentence
    assert right.difference == pytest.approx(Decimal("-0.7729"), abs=Decimal("0.001"))
    assert "gives the eye −8.00 (tilt 0°, face form 0°): as ordered" in left.sentence
    again = {"measured": form, "again_because": ["fit.face-form"]}
    fit: dict[str, Any] = {"tilt": {"measured": {"tilt": "0"}}, "face-form": again}
    assert "face form 5°" in worn(order, fit)["fit.tilt.power-right"].sentence


def test_both_tilts_together_turn_the_lenses_in_mirror_image() -> None:
    """Own derivation by two turns in space: the normal leans by atan(sin t cos w / sin w).

    With 10 and 10 degrees that is 44.6 degrees, and a lens turns square to its lean: 134.6 on
    the right, 45.4 on the left. A minus lens takes up minus cylinder with that axis.
    """
    found = measured(SINGLE, tilt={"tilt": "10"}, face_form={"right": "10", "left": "10"})
    assert "× 135 (tilt 10°" in found["fit.tilt.power-right"].sentence
    assert "× 45 (tilt 10°" in found["fit.tilt.power-left"].sentence


def test_the_index_of_the_order_counts() -> None:
    """(sqrt(1.74^2 - sin^2 15) - cos 15) / 0.74 = 1.01988, over cos^2 15 it is 1.09310."""
    order = {**SINGLE, "index": "1.74", "right": {"power": power("-8.00")}}
    found = measured(order, tilt={"tilt": "15"})["fit.tilt.power-right"]
    assert found.difference == pytest.approx(Decimal("-0.7448"), abs=Decimal("0.001"))


@pytest.mark.parametrize(
    "order",
    [
        PROGRESSIVE,
        {**SINGLE, "right": {**SINGLE["right"], "prism": components("0", "2")}},
        {**SINGLE, "right": {**SINGLE["right"], "prism": components("0", "-2")}},
    ],
)
def test_a_cross_or_a_centre_moved_by_prism_takes_no_tilt_off(order: dict[str, Any]) -> None:
    low = {**ON_PUPIL, "right_up": "-5.739", "left_up": "-5.739"}
    lowered = measured(order, tilt={"tilt": "12"}, cross=low)["fit.tilt.power-right"]
    plain = measured(order, tilt={"tilt": "12"})["fit.tilt.power-right"]
    assert lowered == plain
    assert lowered.difference


def test_a_centre_too_high_takes_no_tilt_off_and_a_far_eye_less() -> None:
    high = measured(SINGLE, tilt={"tilt": "12"}, cross={**ON_PUPIL, "right_up": "3"})
    assert "leaves" not in high["fit.tilt.power-right"].sentence
    low = {**ON_PUPIL, "right_up": "-5.739", "left_up": "-5.739"}
    vertex = {"right": "20", "left": "12"}
    found = measured(SINGLE, tilt={"tilt": "12"}, cross=low, vertex=vertex)
    # 12 - atan(5.739 / 35) = 2.7 degrees, and 12 - atan(5.739 / 27) = 0.
    assert "lowered centre leaves 2.7°" in found["fit.tilt.power-right"].sentence
    assert "lowered centre leaves 0°" in found["fit.tilt.power-left"].sentence


@pytest.mark.parametrize(
    ("order", "up", "found"),
    [
        # 27 tan 12 = 5.739 mm above their place below the pupils: 0.5739 x (-6 + 2).
        (UNLIKE, "0", "-2.2956"),
        (UNLIKE, "-5.739", "0"),
        # A fitting cross belongs before the pupil whatever the tilt is.
        ({**UNLIKE, "design": "progressive"}, "0", "0"),
        ({**UNLIKE, "design": "progressive"}, "1", "-0.4"),
    ],
)
def test_the_tilt_says_where_a_centre_is_no_fitting_error(
    order: dict[str, Any], up: str, found: str
) -> None:
    cross = {**ON_PUPIL, "right_up": up, "left_up": up}
    finding = measured(order, tilt={"tilt": "12"}, cross=cross)["fit.cross.prism-vertical"]
    assert finding.found == pytest.approx(Decimal(found), abs=Decimal("0.0001"))


def test_the_limit_is_that_of_the_meridian_and_of_the_rule_set() -> None:
    """ISO 21987: 0.10 of the power up and down, 0.20 of it along; ANSI Z80.1 as its rows."""
    lens = {"power": power("-2.00", "-4.00", "180"), "distance_pd": "32"}
    toric = {**SINGLE, "right": lens, "left": lens}
    found = measured(toric, cross=ON_PUPIL)
    assert found["fit.cross.prism-vertical"].limit == Decimal("0.6")
    assert found["fit.cross.prism-horizontal"].limit == Decimal("0.67")
    each = measured({**PROGRESSIVE, "rule_set": ANSI}, cross=ON_PUPIL)
    # 1.0 mm for each of two lenses of 6 D.
    assert each["fit.cross.prism-horizontal"].limit == Decimal("1.2")
    weak = {"power": power("-2.70"), "distance_pd": "32"}
    either = measured({**SINGLE, "rule_set": ANSI, "right": weak, "left": weak}, cross=ON_PUPIL)
    # 0.67, or the prism of 2.5 mm where that is more.
    assert either["fit.cross.prism-horizontal"].limit == Decimal("0.675")


def test_so_much_prism_of_the_fitting_error_the_ruler_may_be_wrong() -> None:
    """Half a division of 0.5 mm over a lens of 6 D is 0.15: 0.5 to 1.2 is not all doubt."""
    cross = {**ON_PUPIL, "right_across": "0.5"}
    order, fit = PROGRESSIVE, {"fit": {"answers": {"cross": {"measured": cross}}}}
    found = judged(order, fit, guarded_limits(ISO))["fit.cross.prism-horizontal"]
    assert (found.found, found.state) == (Decimal("-0.3"), State.WITHIN)
