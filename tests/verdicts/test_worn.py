"""The pair as it sits: level, slipping, comfort, power at the eye, prism, zones and acuity."""

from decimal import Decimal
from typing import Any

import pytest

from benchassist.limits.rule import Evidence
from benchassist.limits.table import Band
from benchassist.verdicts.finding import Finding, State
from tests.verdicts.jobs import ANSI, ISO, components, display, plain_limits, power
from tests.verdicts.worn_cases import FRAME, ON_PUPIL, PROGRESSIVE, SINGLE, measured, worn


@pytest.mark.parametrize(
    ("ends", "state"),
    [
        *(("1.0", State.WITHIN), ("-1.0", State.WITHIN), ("1.001", State.CLOSE)),
        *(("2.0", State.CLOSE), ("2.001", State.OUTSIDE), ("-2.001", State.OUTSIDE)),
    ],
)
def test_level_on_its_limit(ends: str, state: State) -> None:
    assert measured(SINGLE, level={"ends": ends})["fit.level"].state is state


def test_a_roll_is_told_by_what_it_does() -> None:
    finding = measured(SINGLE, level={"ends": "3"})["fit.level"]
    # asin(3 / 122) = 1.41 degrees; 64 sin 1.41 = 1.57 mm; 6 x 0.157 = 0.94 prism dioptre.
    assert finding.sentence == (
        "The right end 3.0 mm higher, limit 2.0 mm; a roll of 1.4° carries the centres 1.6 mm "
        "apart, 0.94 Δ between the eyes."
    )
    assert measured(SINGLE, level={"ends": "0"})["fit.level"].sentence.startswith("Both ends")
    for good in ("1", "-1"):
        assert "roll" not in measured(SINGLE, level={"ends": good})["fit.level"].sentence
    without = measured({}, level={"ends": "-3"})["fit.level"]
    assert "The left end 3.0 mm higher" in without.sentence
    assert "between the eyes" not in without.sentence


def test_ends_wider_than_the_front_cannot_be() -> None:
    finding = measured({"frame": {"a": "1", "dbl": "1"}}, level={"ends": "9"})["fit.level"]
    assert finding.state is State.MISSING


@pytest.mark.parametrize(
    ("slip", "state"),
    [
        *(("0", State.WITHIN), ("0.5", State.WITHIN), ("0.501", State.CLOSE)),
        *(("1.0", State.CLOSE), ("1.001", State.OUTSIDE)),
    ],
)
def test_slipping_on_its_limit(slip: str, state: State) -> None:
    assert measured({}, slipping={"slip": slip})["fit.slipping"].state is state


@pytest.mark.parametrize(
    ("right", "state"),
    [
        *(("5", State.WITHIN), ("7", State.WITHIN), ("7.001", State.CLOSE)),
        *(("9", State.CLOSE), ("9.001", State.OUTSIDE)),
    ],
)
def test_face_form_of_both_sides_on_its_limit(right: str, state: State) -> None:
    findings = measured({}, face_form={"right": right, "left": "5"})
    assert findings["fit.face-form"].state is state
    assert findings["fit.face-form.right"].state is State.WITHIN


@pytest.mark.parametrize(
    ("answer", "state", "says"),
    [
        ({"seen": "good", "measured": {"minutes": "5"}}, State.WITHIN, "5 minutes, found good"),
        ({"seen": "good", "measured": {"minutes": "1"}}, State.CLOSE, "1 minute only"),
        ({"measured": {"minutes": "9"}}, State.CLOSE, "say whether"),
        ({"seen": "fault", "measured": {"minutes": "9"}}, State.OUTSIDE, "fault was seen"),
        ({"seen": "good"}, State.WITHIN, "found good"),
    ],
)
def test_comfort_after_some_minutes(answer: dict[str, Any], state: State, says: str) -> None:
    finding = worn({}, {"comfort": answer})["fit.comfort"]
    assert (finding.state, says in finding.sentence) == (state, True), finding.sentence


DROPS = plain_limits(ISO).bench.row("centre-drop")


@pytest.mark.parametrize(
    "band", DROPS.bands if DROPS else (), ids=lambda band: str(band.spans[0].high)
)
def test_the_lowered_centre_on_its_limit_by_power(band: Band) -> None:
    high = band.spans[0].high or Decimal(18)
    lens = {"power": power(f"-{high}")}
    order = {**SINGLE, "right": lens, "left": lens, "frame": {**FRAME, "tilt": "0"}}
    limit, good, step = band.base, band.good, Decimal("0.001")
    assert limit is not None
    assert good is not None

    def state(up: Decimal) -> State:
        both = {**ON_PUPIL, "right_up": str(up), "left_up": str(up)}
        finding = measured(order, cross=both)["fit.cross.right-up"]
        assert finding.rule == band.rule
        return finding.state

    assert state(good) is state(-good) is State.WITHIN
    assert state(good + step) is state(limit) is state(-limit) is State.CLOSE
    assert state(limit + step) is state(-limit - step) is State.OUTSIDE


def test_the_measured_tilt_says_where_the_centre_belongs() -> None:
    order = {**SINGLE, "frame": {**FRAME, "tilt": "0"}}
    finding = measured(order, tilt={"tilt": "12"}, cross=ON_PUPIL)["fit.cross.right-up"]
    # 27 tan 12 = 5.74 mm below the pupil.
    assert finding.difference == pytest.approx(Decimal("5.739"), abs=Decimal("0.001"))
    assert finding.state is State.OUTSIDE
    unknown = measured(SINGLE, cross=ON_PUPIL)["fit.cross.right-up"]
    assert unknown.state is State.NONE


def test_power_at_the_eye_through_tilt_and_form() -> None:
    order = {**SINGLE, "right": {"power": power("-8.00")}, "left": {"power": power("8.00")}}
    findings = measured(order, tilt={"tilt": "15"}, face_form={"right": "0", "left": "0"})
    # Exact thin lens of index 1.5: s = (sqrt(2.25 - sin2 15) - cos 15) / 0.5 = 1.02315,
    # t = s / cos2 15 = 1.09661: -8 D gives -8.19 and -8.77 D.
    right, left = findings["fit.tilt.power-right"], findings["fit.tilt.power-left"]
    assert right.difference == pytest.approx(Decimal("-0.7729"), abs=Decimal("0.001"))
    assert left.difference == pytest.approx(Decimal("0.7729"), abs=Decimal("0.001"))
    assert right.state is left.state is State.OUTSIDE
    assert "−8.00 to be found gives the eye −8.19 −0.59 × 180" in right.sentence


def test_a_lowered_centre_takes_the_tilt_off_the_lens() -> None:
    order = {**SINGLE, "frame": {**FRAME, "tilt": "12"}}
    low = {**ON_PUPIL, "right_up": "-5.739", "left_up": "0"}
    findings = measured(order, tilt={"tilt": "12"}, cross=low)
    right, left = findings["fit.tilt.power-right"], findings["fit.tilt.power-left"]
    assert right.difference == pytest.approx(Decimal(0), abs=Decimal("0.001"))
    assert left.difference is not None
    assert abs(left.difference) > Decimal("0.2")
    assert "of which the lowered centre leaves 0°" in right.sentence


def test_the_lens_read_and_the_vertex_distance_count_too() -> None:
    order = {**SINGLE, "vertex_distance": "12", "right": {"power": power("-10.00")}}
    fit = {
        "tilt": {"measured": {"tilt": "0"}},
        "vertex": {"measured": {"right": "14", "left": "14"}},
    }
    findings = worn(order, fit, right={"distance": [display("-10.25")]})
    finding = findings["fit.tilt.power-right"]
    # -10.25 / (1 + 0.0205) = -10.0441 D at the distance of the refraction.
    assert finding.difference == pytest.approx(Decimal("-0.0441"), abs=Decimal("0.0002"))
    assert "−10.25 read" in finding.sentence
    order["left"] = order["right"]
    apart = {**fit, "vertex": {"measured": {"right": "14", "left": "10"}}}
    right, left = (worn(order, apart)[f"fit.tilt.power-{eye}"] for eye in ("right", "left"))
    # -10 D made for 12 mm: -10 / 1.02 when worn at 14 mm, -10 / 0.98 at 10 mm.
    assert right.difference == pytest.approx(Decimal("0.1961"), abs=Decimal("0.0002"))
    assert left.difference == pytest.approx(Decimal("-0.2041"), abs=Decimal("0.0002"))
    none = measured({}, tilt={"tilt": "9"})["fit.tilt.power-right"]
    assert none.state is State.NONE


@pytest.mark.parametrize(("change", "state"), [("0.25", State.WITHIN), ("0.50", State.CLOSE)])
def test_the_power_at_the_eye_on_its_limit(change: str, state: State) -> None:
    read = str(Decimal(-6) - Decimal(change))
    fit = {"tilt": {"measured": {"tilt": "0"}}}
    found = worn(SINGLE, fit, right={"distance": [display(read)]})["fit.tilt.power-right"]
    more = str(Decimal(read) - Decimal("0.01"))
    past = worn(SINGLE, fit, right={"distance": [display(more)]})["fit.tilt.power-right"]
    assert found.state is state
    assert past.state is (State.CLOSE if state is State.WITHIN else State.OUTSIDE)


def test_prism_by_the_fitting_error_adds_up_for_the_pair() -> None:
    cross = {"right_across": "1", "left_across": "1", "right_up": "1", "left_up": "-1"}
    findings = measured(PROGRESSIVE, cross=cross)
    across, up = findings["fit.cross.prism-horizontal"], findings["fit.cross.prism-vertical"]
    assert (across.found, up.found) == (Decimal("-1.2"), Decimal("-1.2"))
    # On the limit of 1.2 for horizontal prism at 6 D, past that of 0.6 for vertical.
    assert (across.limit, across.state) == (Decimal("1.2"), State.WITHIN)
    assert (up.limit, up.state) == (Decimal("0.6"), State.OUTSIDE)
    assert up.rule is not None
    assert up.rule.evidence is Evidence.PROPOSED
    assert "default" in up.rule.note
    alike = {**cross, "left_across": "-1", "left_up": "1"}
    same = measured(PROGRESSIVE, cross=alike)
    assert same["fit.cross.prism-horizontal"].found == Decimal(0)
    assert same["fit.cross.prism-vertical"].found == Decimal(0)


def test_the_cross_term_of_an_oblique_cylinder_counts() -> None:
    order = {**PROGRESSIVE, "right": {"power": power("-2.50", "5.00", "135"), "add": "2.00"}}
    finding = measured(order, cross={**ON_PUPIL, "right_up": "12"})
    # The power along 90 is nil; the matrix gives 3.00 base in.
    assert finding["fit.cross.prism-horizontal"].found == Decimal(3)
    assert finding["fit.cross.prism-vertical"].found == Decimal(0)


def test_a_limit_in_millimetres_is_taken_as_prism_of_the_stronger_lens() -> None:
    order = {**SINGLE, "rule_set": ANSI, "frame": {**FRAME, "tilt": "0"}}
    found = measured(order, cross={**ON_PUPIL, "right_across": "2.5"})
    finding = found["fit.cross.prism-horizontal"]
    assert finding.limit == Decimal("1.5")
    assert (finding.state, finding.found) == (State.WITHIN, Decimal("-1.5"))
    past = measured(order, cross={**ON_PUPIL, "right_across": "2.501"})
    assert past["fit.cross.prism-horizontal"].state is State.OUTSIDE


def test_ordered_prism_and_segments_are_not_reckoned() -> None:
    prism = {"power": power("-4.00"), "prism": components("2")}
    findings = measured({**SINGLE, "right": prism}, cross=ON_PUPIL)
    assert "prism is ordered" in findings["fit.cross.prism-horizontal"].sentence
    assert findings["fit.cross.prism-horizontal"].state is State.NONE
    assert findings["fit.cross.prism-vertical"].state is State.WITHIN
    bifocal = measured({**PROGRESSIVE, "design": "bifocal"}, cross=ON_PUPIL)
    assert "fit.cross.prism-vertical" not in bifocal


@pytest.mark.parametrize(
    ("design", "up", "says", "told"),
    [
        ("progressive", "0", "at the pupil, far portion", False),
        ("progressive", "3", "for far it should be the far portion: lower the front", True),
        ("progressive", "-4", "for reading it should be the near portion: raise", True),
        ("bifocal", "0", "near portion", False),
        ("bifocal", "6", "for far it should be the far portion", True),
        ("trifocal", "0", "7.0 mm below the pupil, middle portion", False),
        ("progressive", "7", "for reading the lens is too shallow", True),
    ],
)
def test_the_zone_looked_through(design: str, up: str, says: str, *, told: bool) -> None:
    order = {**PROGRESSIVE, "design": design, "frame": {**FRAME, "tilt": "9"}}
    cross = {**ON_PUPIL, "right_up": up, "left_up": up}
    finding = measured(order, cross=cross)["fit.cross.zones"]
    assert finding.state is State.NONE
    assert (says in finding.sentence, finding.is_told) == (True, told), finding.sentence


def test_eyes_that_meet_different_zones_are_told_apart() -> None:
    cross = {**ON_PUPIL, "left_up": "-4"}
    finding = measured(PROGRESSIVE, cross=cross)["fit.cross.zones"]
    assert "right near portion, left corridor" in finding.sentence
    assert "with a usual tilt of 9°" in finding.sentence


def test_unlike_lenses_differ_in_height_at_reading() -> None:
    order = {**SINGLE, "left": {"power": power("-2.00")}, "frame": {**FRAME, "tilt": "0"}}
    finding = measured(order, cross=ON_PUPIL)["fit.cross.zones"]
    # 27 tan 30 = 15.59 mm at 4 D of difference: 6.24 prism dioptres.
    assert "reading, the eyes differ by 6.24 Δ of vertical prism" in finding.sentence
    assert finding.is_told


def seen(**lines: dict[str, str]) -> Finding | None:
    answer = {
        "choice": "as expected",
        "acuity": {"card": "chart 1", "distance": "600", **lines},
    }
    return worn({}, {"distance-vision": answer}).get("fit.distance-vision.lines")


def test_a_line_worse_goes_to_the_prescriber_and_is_not_adjusted() -> None:
    finding = seen(
        right={"read": "6/9", "expected": "6/6"}, both={"read": "6/6", "expected": "6/6"}
    )
    assert finding is not None
    assert finding.state is State.OUTSIDE
    assert finding.sentence == (
        "Lines read, distance on chart 1 at 600 cm: right 6/9 (6/6 expected), both 6/6: right "
        "worse than expected; lenses verified and fit true, it goes to the prescriber and is "
        "nothing to adjust."
    )


@pytest.mark.parametrize(
    ("read", "expected", "state"),
    [("6/6", "6/6", State.WITHIN), ("6/5", "1.0", State.WITHIN), ("6/6", "", State.NONE)],
)
def test_lines_as_expected(read: str, expected: str, state: State) -> None:
    finding = seen(left={"read": read, "expected": expected})
    assert finding is not None
    assert finding.state is state


def test_no_line_read_is_no_finding() -> None:
    assert seen() is None


def test_what_is_to_be_repeated_is_no_longer_reckoned_with() -> None:
    again = {"measured": {"tilt": "12"}, "again_because": ["fit.tilt"]}
    findings = worn(SINGLE, {"tilt": again, "cross": {"measured": ON_PUPIL}})
    assert findings["fit.cross.right-up"].state is State.NONE
