"""Checks answered by eye or by measure, on the bench and on the face."""

from dataclasses import replace
from decimal import Decimal
from typing import Any

import pytest

from benchassist.limits.table import Row, Table
from benchassist.optics.eye import Eye
from benchassist.verdicts.answers import MeasuredCheck, subject_of
from benchassist.verdicts.bench import BENCH_CHECKS
from benchassist.verdicts.bench_limits import bench_finding, bench_limit
from benchassist.verdicts.bench_shape import SHAPE_CHECKS
from benchassist.verdicts.case import Case
from benchassist.verdicts.finding import Finding, State
from benchassist.verdicts.fit import FIT_CHECKS
from benchassist.verdicts.weigh import Value
from tests.verdicts.jobs import ANSI, ISO, checked, job_of, judged, plain_limits, power

FRAME: dict[str, Any] = {"a": "52", "b": "40", "dbl": "18"}
ORDER: dict[str, Any] = {
    "design": "progressive",
    "vertex_distance": "12",
    "right": {"power": power("-8.00", "-2.00", "180")},
    "left": {"power": power("-8.00")},
    "frame": FRAME,
}


def bench(name: str, /, **measured: str) -> dict[str, Finding]:
    return bench_for(ORDER, name, **measured)


def bench_for(order: dict[str, Any], name: str, /, **measured: str) -> dict[str, Finding]:
    return checked("bench", name, {"measured": measured}, order)


@pytest.mark.parametrize(
    ("answer", "state", "says"),
    [
        ({"seen": "good"}, State.WITHIN, "Shafts: found good."),
        (
            {"seen": "fault", "remark": "bowed"},
            State.OUTSIDE,
            "Shafts: a fault was seen (bowed).",
        ),
        ({"choice": "tested"}, State.WITHIN, "Shafts: tested."),
        ({"choice": "tested", "seen": "good"}, State.WITHIN, "Shafts: tested."),
        ({"choice": "worse than expected"}, State.OUTSIDE, "Shafts: worse than expected."),
        ({"choice": "not tested"}, State.NONE, "Shafts: not tested."),
        ({"choice": "waived in writing"}, State.NONE, "Shafts: waived in writing."),
        ({"choice": "a word of tomorrow"}, State.NONE, "Shafts: a word of tomorrow."),
        ({"seen": "good", "remark": "Bowed."}, State.WITHIN, "found good (Bowed)."),
        ({"measured": {"length": "3"}}, State.NONE, "measured, without a limit."),
        ({"remark": "later"}, State.MISSING, "Shafts: not answered yet (later)."),
        (
            {"seen": "good", "again_because": "bench.x-ing"},
            State.MISSING,
            "Shafts: check again because a correction may have disturbed it.",
        ),
        ({"seen": "good", "again_because": "bench.shafts"}, State.MISSING, "it was corrected"),
    ],
)
def test_an_answer_by_eye(answer: dict[str, Any], state: State, says: str) -> None:
    finding = checked("bench", "shafts", answer)["bench.shafts"]
    assert finding.state is state
    assert says in finding.sentence
    assert finding.limit is None
    assert finding.rule is None


def test_answers_of_every_step_are_judged() -> None:
    good = {"answers": {"marks": {"seen": "good"}}}
    attempt = dict.fromkeys(("right", "left", "surface", "bench", "fit"), good)
    findings = judged({}, attempt)
    assert findings["right.marks"].eye is Eye.RIGHT
    assert findings["left.marks"].prompt == "left.marks"
    assert {"surface.marks", "bench.marks", "fit.marks"} <= findings.keys()


def test_a_set_of_measures_that_is_not_complete() -> None:
    waiting = bench("skew", right_outer="10", left_inner="10")["bench.skew"]
    assert waiting.state is State.MISSING
    assert "still to be measured: right inner and left outer" in waiting.sentence
    answer = {"seen": "good", "measured": {"right_outer": "10"}}
    by_eye = checked("bench", "skew", answer, ORDER)["bench.skew"]
    assert by_eye.state is State.WITHIN
    assert by_eye.sentence == (
        "Skew: found good; measured right outer 10, not yet right inner, left inner and left "
        "outer: no measure is judged."
    )


def test_an_impossible_measure_is_named() -> None:
    finding = bench("rotation", right_marks="40", left_marks="0", separation="34")
    assert finding["bench.rotation"].state is State.MISSING
    assert "rise 40.0 is larger than the length 34.0" in finding["bench.rotation"].sentence


def test_a_fault_seen_outweighs_a_good_measure() -> None:
    measured = {"right_gap": "0", "left_gap": "0.2", "run": "128"}
    answer = {"seen": "fault", "measured": measured}
    finding = checked("bench", "table-upright", answer, ORDER)["bench.table-upright"]
    assert finding.state is State.OUTSIDE
    assert "a fault was seen by eye all the same" in finding.sentence
    answer["measured"] = {**measured, "left_gap": "3"}
    outside = checked("bench", "table-upright", answer, ORDER)["bench.table-upright"]
    assert "all the same" not in outside.sentence


def test_rotation_is_an_axis_error_where_there_is_a_cylinder() -> None:
    findings = bench("rotation", right_marks="1", left_marks="-0.5", separation="34")
    right, left = findings["bench.rotation.right"], findings["bench.rotation.left"]
    assert (right.state, right.limit) == (State.CLOSE, Decimal(2))
    assert right.found == pytest.approx(Decimal("-1.685413"), abs=Decimal("0.000001"))
    assert right.sentence.startswith(
        "Lens turned 1.7° ± 0.6° clockwise, limit 2°, our own and tighter than the 3° allowed "
        "as an axis error; it leaves 0.12 D of cylinder; not good"
    )
    assert left.sentence == "Lens turned 0.8° ± 0.6° clockwise, limit 2°."
    assert left.eye is Eye.LEFT


def test_rotation_by_the_tighter_of_two_limits() -> None:
    order = {**ORDER, "rule_set": ANSI}
    straight = bench_for(order, "rotation", right_marks="0", left_marks="0", separation="34")
    assert "limit 2°, that of an axis error" in straight["bench.rotation.right"].sentence
    assert straight["bench.rotation.right"].limit == 2
    assert straight["bench.rotation.right"].sentence.startswith("Not turned")
    weak = {**order, "right": {"power": power("-1.00", "-0.10", "90")}}
    turned = bench_for(weak, "rotation", right_marks="-2", left_marks="0", separation="34")
    assert turned["bench.rotation.right"].state is State.OUTSIDE
    assert turned["bench.rotation.right"].sentence.startswith(
        "Lens turned 3.4° ± 0.6° counter-clockwise, limit 2°; it leaves 0.01 D of cylinder."
    )


def test_skew_by_the_four_ends() -> None:
    heights = {"right_inner": "10", "left_inner": "11.2", "left_outer": "11.2"}
    finding = bench("skew", right_outer="10", **heights)["bench.skew"]
    assert (finding.state, finding.found, finding.limit) == (
        State.OUTSIDE,
        Decimal("1.2"),
        Decimal("1.0"),
    )
    assert finding.sentence == (
        "Skew step 1.2 mm ± 0.2 mm, left side higher, limit 1.0 mm; on these powers 1.08 Δ of "
        "vertical imbalance."
    )
    assert finding.rule is not None
    assert finding.rule.evidence.value == "proposed"
    level = bench("skew", **dict.fromkeys(("right_outer", *heights), "10"))["bench.skew"]
    assert level.sentence == "Skew step 0.0 mm ± 0.2 mm, limit 1.0 mm."


@pytest.mark.parametrize("name", ["skew", "four-point"])
def test_the_frame_sizes_are_needed(name: str) -> None:
    check = next(check for check in BENCH_CHECKS if check.id == f"bench.{name}")
    values = dict.fromkeys(check.needs, "10")
    finding = bench_for({"design": "progressive"}, name, **values)[f"bench.{name}"]
    assert finding.state is State.MISSING
    assert finding.sentence.endswith("but the order does not state the frame's A and DBL.")


def test_x_ing() -> None:
    gaps = {"right_top": "0", "right_bottom": "0", "left_top": "0.3", "left_bottom": "0"}
    finding = bench("x-ing", apart="36", **gaps)["bench.x-ing"]
    assert finding.state is State.WITHIN
    assert (
        "X-ing 0.5° ± 0.4°, the left lens leans further forward at the top" in finding.sentence
    )
    even = bench("x-ing", apart="36", **dict.fromkeys(gaps, "1"))["bench.x-ing"]
    assert even.sentence == "X-ing 0° ± 0.4°, limit 1°."
    other = bench("x-ing", apart="36", **{**gaps, "right_top": "2"})["bench.x-ing"]
    assert (other.state, "the right lens" in other.sentence) == (State.OUTSIDE, True)


def test_four_point_contact_gives_step_and_form() -> None:
    gaps = {"right_temporal": "0", "right_nasal": "4", "left_nasal": "4", "left_temporal": "0"}
    findings = bench("four-point", **gaps)
    assert findings["bench.four-point"].sentence == "Plane step 0.0 mm ± 0.2 mm, limit 1.0 mm."
    form = findings["bench.four-point.form"]
    assert form.state is State.NONE
    assert "none was ordered to compare it with" in form.sentence
    wrapped = {**ORDER, "frame": {**FRAME, "face_form": "8"}}
    form = bench_for(wrapped, "four-point", **gaps)["bench.four-point.form"]
    assert (form.state, form.ordered, form.limit) == (State.OUTSIDE, Decimal(16), Decimal(4))
    for shift, side in (("0.7", "right"), ("-0.7", "left")):
        moved = str(4 + Decimal(shift))
        stepped = {**gaps, "right_nasal": moved, "right_temporal": str(max(0, Decimal(shift)))}
        step = bench("four-point", **stepped)["bench.four-point"]
        assert f"{side} lens further forward" in step.sentence


def test_open_angles_are_compared() -> None:
    out = {"right_out": "8", "right_back": "100", "left_out": "5", "left_back": "100"}
    finding = bench("open-angle", **out)["bench.open-angle"]
    assert finding.state is State.CLOSE
    assert finding.sentence.startswith(
        "Open temple angles 94.6° right and 92.9° left: 1.7° ± 0.4° apart"
    )
    assert "one lens comes 1.0 mm closer at a usual PD of 64.0 mm" in finding.sentence
    assert finding.sentence.endswith("look again (0.5 mm misread is 0.3°).")


def test_pantoscopic_angles_are_compared() -> None:
    finding = bench("pantoscopic", right_offset="5.6", left_offset="4.2")["bench.pantoscopic"]
    assert finding.state is State.OUTSIDE
    no_frame = bench_for(
        {"design": "bifocal"}, "pantoscopic", right_offset="1", left_offset="1"
    )
    assert no_frame["bench.pantoscopic"].sentence == (
        "Pantoscopic: measured, but the order does not state the frame's B."
    )


@pytest.mark.parametrize(
    ("name", "gaps", "says", "state"),
    [
        (
            "table-inverted",
            ("2.5", "0"),
            "right shaft lifts 2.5 mm, as if the right",
            State.OUTSIDE,
        ),
        (
            "table-inverted",
            ("0", "0.5"),
            "left shaft lifts 0.5 mm, as if the left",
            State.WITHIN,
        ),
        (
            "table-upright",
            ("0", "0.8"),
            "left tip lifts 0.8 mm, as if the right temple",
            State.CLOSE,
        ),
        (
            "table-upright",
            ("1.0", "0"),
            "right tip lifts 1.0 mm, as if the left temple",
            State.CLOSE,
        ),
        ("table-upright", ("0", "0"), "Nothing lifts, limit 1.0 mm.", State.WITHIN),
        ("table-upright", ("0.2", "0.2"), "Nothing lifts, limit 1.0 mm.", State.WITHIN),
    ],
)
def test_table_touch(name: str, gaps: tuple[str, str], says: str, state: State) -> None:
    right, left = gaps
    finding = bench(name, right_gap=right, left_gap=left, run="100")[f"bench.{name}"]
    assert says in finding.sentence
    assert finding.state is state


def test_temple_bends_give_two_findings() -> None:
    findings = bench(
        "temple-bend", right_start="100", left_start="102.5", right_drop="45", left_drop="41"
    )
    assert findings["bench.temple-bend"].state is State.OUTSIDE
    assert "2.5 mm ± 0.7 mm apart, limit 2.0 mm" in findings["bench.temple-bend"].sentence
    assert findings["bench.temple-bend.drop"].state is State.WITHIN


POSSIBLE = {
    **dict.fromkeys(("right_gap", "right_temporal", "left_temporal"), "0"),
    **dict.fromkeys(
        ("right_back", "left_back", "run", "width", "separation", "half_width"), "100"
    ),
}
"""Values by which a set of measurements can be."""


@pytest.mark.parametrize(
    "check", [*BENCH_CHECKS, *SHAPE_CHECKS, *FIT_CHECKS], ids=lambda check: check.id
)
def test_every_measured_check_asks_for_numbers_by_their_names(check: MeasuredCheck) -> None:
    step, _, name = check.id.partition(".")
    values = {name: POSSIBLE.get(name, "10") for name in check.needs}
    findings = checked(step, name, {"measured": values}, ORDER)
    assert findings
    assert all(finding.prompt == check.id for finding in findings.values())
    assert all(finding.state is not State.MISSING for finding in findings.values())


def test_a_bench_limit_that_is_not_there_is_our_fault() -> None:
    limits = replace(plain_limits(ISO), bench=Table(()))
    with pytest.raises(LookupError, match="no row skew"):
        bench_limit(Case(job_of({}), limits), "skew")


def test_a_bench_limit_without_a_good_value_has_no_guard() -> None:
    row = plain_limits(ISO).bench.row("skew")
    assert row is not None
    bare = replace(row, bands=(replace(row.bands[0], good=None),))
    limits = replace(plain_limits(ISO), bench=Table((bare,)))
    limit, guard = bench_limit(Case(job_of({}), limits), "skew")
    assert (limit.value, guard) == (Decimal("1.0"), Decimal(0))


def test_a_prompt_marked_not_applicable_no_longer_waits() -> None:
    order = {**ORDER, "right": {"power": power("-8.00"), "add": "2.00"}}
    skipped = {"right.near": "lens too dark.", "pair.tilt": ""}
    findings = judged(order, {"skipped": skipped})
    assert findings["right.add"].state is State.NONE
    assert findings["right.add"].sentence == "Addition marked not applicable: lens too dark."
    assert findings["left.tilt"].sentence == "Tilt marked not applicable."
    assert findings["left.add"].state is State.MISSING


@pytest.mark.parametrize("row", plain_limits(ISO).bench.rows, ids=lambda row: row.id)
def test_every_bench_limit_just_inside_on_and_just_outside(row: Row) -> None:
    case = Case(job_of({}), plain_limits(ISO))
    band = row.bands[0]
    limit, good, step = band.base, band.good, Decimal("0.001")
    assert limit is not None
    assert good is not None

    def state(difference: Decimal) -> State:
        subject = subject_of("bench.any")
        value = Value(found=difference, difference=difference)
        finding = bench_finding(case, subject, row.id, value, "Any")
        assert finding.rule == band.rule
        assert finding.unit == band.unit
        return finding.state

    assert state(good) is state(-good) is State.WITHIN
    assert state(good + step) is state(limit) is state(-limit) is State.CLOSE
    assert state(limit + step) is state(-limit - step) is State.OUTSIDE


def test_the_face_form_by_its_depth() -> None:
    """A depth of 5.2 mm over 120 mm is 5 degrees each side (atan of twice depth over width)."""
    order = {**ORDER, "frame": {**FRAME, "face_form": "5"}}
    read = {"depth": "5.25", "width": "120"}
    finding = bench_for(order, "face-form", **read)["bench.face-form"]
    assert (finding.state, finding.ordered) == (State.WITHIN, Decimal(10))
    assert "10.0° ± 1° found, 10° ordered (5° for each lens)" in finding.sentence
    flat = bench_for(order, "face-form", depth="0", width="120")["bench.face-form"]
    assert flat.state is State.OUTSIDE
    assert bench("face-form", **read)["bench.face-form"].state is State.NONE


def test_pads_are_compared_in_height_and_distance() -> None:
    read = {
        "right_height": "22",
        "left_height": "20.5",
        "right_stand": "6",
        "left_stand": "6.5",
    }
    findings = bench("pads", **read)
    assert findings["bench.pads.height"].state is State.OUTSIDE
    assert (
        "1.5 mm ± 0.7 mm apart, the right one higher" in findings["bench.pads.height"].sentence
    )
    assert findings["bench.pads.stand"].state is State.WITHIN
    assert "the left one further off" in findings["bench.pads.stand"].sentence
    little = bench("pads", **{**read, "left_height": "21.5", "left_stand": "5.5"})
    assert "0.5 mm ± 0.7 mm apart, the right one higher" in little["bench.pads.height"].sentence
    assert (
        "0.5 mm ± 0.7 mm apart, the right one further off"
        in little["bench.pads.stand"].sentence
    )


def test_a_fold_that_climbs() -> None:
    """4.0 and 1.0 mm over 66 mm differ by 2.6 degrees."""
    finding = bench("fold", right_height="4", left_height="1", half_width="66")["bench.fold"]
    assert finding.state is State.CLOSE
    assert finding.found == pytest.approx(Decimal("2.600"), abs=Decimal("0.01"))
    assert "the right one climbs more" in finding.sentence
