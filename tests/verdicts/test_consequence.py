"""What a fault of the frame does before the eyes, by the figures of the bench limits.

The figures are those that the bench limits give for a fault at its limit, reckoned there at a
centre distance of 64 mm, 95 mm from hinge to ear, 130 mm between the hinges, and 128 mm from
hinge to tip. The frame ordered here has the first three, and 127 mm to the tip. A gap of 1 mm
there is 0.451 degrees, by which the table touch is told.
"""

from decimal import Decimal
from typing import Any

import pytest

from benchassist.optics.eye import Eye
from benchassist.verdicts.case import Case
from benchassist.verdicts.consequence import consequence, turn_leaves
from tests.verdicts.jobs import checked, components, job_of, plain_limits, power

ISO = "iso-21987-2017"
FRAME = {"a": "51", "dbl": "18", "temple_length": "140"}


def case(sphere: str, **order: Any) -> Case:
    lens = {"power": power(sphere), "distance_pd": "32"}
    job = job_of(
        {"design": "single-vision", "right": lens, "left": lens, "frame": FRAME, **order}
    )
    return Case(job, plain_limits(ISO))


@pytest.mark.parametrize(
    ("name", "fault", "sphere", "said"),
    [
        ("skew", "1.0", "-3.00", "; on these powers 0.30 Δ of vertical imbalance"),
        ("skew", "-1.0", "6.00", "; on these powers 0.60 Δ of vertical imbalance"),
        ("plane-step", "1.0", "-8.00", "; worth 0.06 D to one eye"),
        ("x-ing", "1.0", "-3.00", "; it lifts the tip of a temple by about 2.2 mm"),
        ("open-angle", "2.0", "0.00", "; one lens comes 1.1 mm closer"),
        ("table-touch", "0.451", "-6.00", "higher, 0.22 Δ between the eyes"),
        ("table-touch", "0.451", "0.00", "; on the face one lens stands 0.4 mm higher"),
    ],
)
def test_a_fault_at_its_limit(name: str, fault: str, sphere: str, said: str) -> None:
    assert consequence(case(sphere), name, Decimal(fault)).endswith(said)


def test_the_size_does_not_depend_on_the_direction() -> None:
    for name in ("skew", "x-ing", "plane-step", "open-angle", "pantoscopic", "table-touch"):
        one, other = (consequence(case("-5.00"), name, Decimal(fault)) for fault in ("2", "-2"))
        assert one == other
        assert one


def test_nothing_is_said_of_what_has_no_consequence_or_no_size() -> None:
    assert consequence(case("-5.00"), "bend-start", Decimal(3)) == ""
    assert consequence(case("-5.00"), "skew", Decimal(0)) == ""
    assert consequence(case("0.00"), "skew", Decimal(2)) == ""
    nothing_ordered = Case(job_of({}), plain_limits(ISO))
    assert consequence(nothing_ordered, "skew", Decimal(2)) == ""


def test_a_distance_that_is_not_ordered_is_taken_as_usual_and_said() -> None:
    unknown = Case(job_of({"right": {"power": power("-4.00")}}), plain_limits(ISO))
    assert "at a usual PD of 64.0 mm" in consequence(unknown, "pantoscopic", Decimal(2))
    assert "usual" not in consequence(case("-4.00"), "pantoscopic", Decimal(2))


def unlike(right: str, left: dict[str, Any]) -> Case:
    """Two lenses of different power at a centre distance of 64 mm."""
    lenses = {
        "right": {"power": power(right), "distance_pd": "32"},
        "left": {"power": left, "distance_pd": "32"},
    }
    return Case(job_of({"design": "single-vision", **lenses}), plain_limits(ISO))


def test_the_worst_meridian_of_the_worse_eye_is_told() -> None:
    """Own derivation: +20 D focuses at 50 mm; 3 mm closer the focus lies at 53 mm, +18.87 D."""
    told = "; worth 1.13 D to one eye"
    assert consequence(unlike("-1.00", power("20.00")), "plane-step", Decimal(3)) == told
    crossed = power("14.00", "6.00", "70")
    assert consequence(unlike("-1.00", crossed), "plane-step", Decimal(3)) == told
    other = unlike("20.00", power("-1.00"))
    assert consequence(other, "plane-step", Decimal(3)) == told


def test_a_lens_that_comes_closer_is_told_with_its_power() -> None:
    """Own derivation: 64 sin 1 = 1.117 mm, and 10^2 x 0.0011 = 0.11 D."""
    assert consequence(case("-10.00"), "open-angle", Decimal(2)) == (
        "; one lens comes 1.1 mm closer, worth 0.11 D to one eye"
    )


def test_temples_apart_in_degrees_roll_the_front() -> None:
    """Own derivation: 95 tan 2 = 3.32 mm over 130 are 1.46 degrees, 64 sin 1.46 = 1.6 mm."""
    assert consequence(case("-5.00"), "pantoscopic", Decimal(2)) == (
        "; on the face one lens stands 1.6 mm higher, 0.82 Δ between the eyes"
    )


def test_one_angle_has_one_consequence_by_whichever_check() -> None:
    """2.5 mm over 100 mm of shaft are 1.43 degrees, and so are 3.2 mm over 128 mm."""
    frame = {**FRAME, "b": "40"}
    order = {"design": "single-vision", "vertex_distance": "12", "frame": frame}
    order |= {eye: {"power": power("-6.00"), "distance_pd": "32"} for eye in ("right", "left")}
    said = set()
    for name, gap, run in (("table-inverted", "2.5", "100"), ("table-upright", "3.2", "128")):
        read = {"right_gap": gap, "left_gap": "0", "run": run}
        sentence = checked("bench", name, {"measured": read}, order)[f"bench.{name}"].sentence
        said.add(sentence.partition("; ")[2])
    angle = Decimal("1.432096")
    assert said == {
        f"{consequence(Case(job_of(order), plain_limits(ISO)), 'pantoscopic', angle)[2:]}."
    }


@pytest.mark.parametrize(
    ("cylinder", "prism", "turn", "said"),
    [
        ("-2.00", "0", "3", "; it leaves 0.21 D of cylinder"),
        ("-2.00", "0", "-3", "; it leaves 0.21 D of cylinder"),
        (None, "4", "3", "; it moves the ordered prism by 0.21 Δ"),
        (
            "-2.00",
            "4",
            "3",
            "; it leaves 0.21 D of cylinder and moves the ordered prism by 0.21 Δ",
        ),
        (None, "0", "3", ""),
        ("-2.00", "4", "0", ""),
    ],
)
def test_what_a_turned_lens_leaves(
    cylinder: str | None, prism: str, turn: str, said: str
) -> None:
    """Own derivation: 2 x 2.00 x sin 3 = 0.209 D; 2 x 4 x sin 1.5 = 0.209 prism dioptres."""
    axis = "90" if cylinder else None
    lens = {"power": power("-1.00", cylinder, axis), "prism": components("0", prism)}
    one = Case(job_of({"design": "single-vision", "right": lens}), plain_limits(ISO))
    assert turn_leaves(one, Eye.RIGHT, Decimal(turn)) == said


def test_half_a_pd_is_no_pd() -> None:
    right = {"power": power("-4.00"), "distance_pd": "25"}
    one = Case(job_of({"right": right, "left": {"power": power("-4.00")}}), plain_limits(ISO))
    told = consequence(one, "pantoscopic", Decimal(2))
    assert "1.6 mm higher at a usual PD of 64.0 mm" in told
