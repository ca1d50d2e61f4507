"""What is offered, in which order and words, and what is never offered."""

from typing import Any

import pytest

from benchassist.job.document import Job
from benchassist.limits.load import Limits
from benchassist.optics.eye import Eye
from benchassist.verdicts.diagnose.diagnose import NOTHING_FITS, diagnose, unexplained
from benchassist.verdicts.diagnose.slips import SLIPS
from benchassist.verdicts.diagnose.suspicion import Suspicion
from benchassist.verdicts.finding import State
from benchassist.verdicts.judge import judge
from tests.verdicts.jobs import (
    components,
    display,
    guarded_limits,
    job_of,
    plain_limits,
    power,
    prism_read,
    shown_add,
)

Part = dict[str, Any]


def seen(job: Job, limits: Limits | None = None) -> tuple[Suspicion, ...]:
    limits = limits or plain_limits()
    return diagnose(job, limits, judge(job, limits))


def pair(ordered: tuple[Part, Part], read: tuple[Part, Part]) -> Job:
    """Both lenses with their powers."""
    order: Part = {"design": "single-vision"}
    attempt: Part = {}
    for eye, lens, reading in zip(Eye, ordered, read, strict=True):
        order[eye], attempt[eye] = {"power": lens}, {"distance": [reading]}
    return job_of(order, attempt)


def one_lens(ordered: Part, *read: Part, **more: Any) -> Job:
    """The right lens alone."""
    order = {"design": "single-vision", "right": {"power": ordered} | more}
    return job_of(order, {"right": {"distance": list(read)}})


def listed(suspicions: tuple[Suspicion, ...]) -> list[tuple[str, str]]:
    return [(suspicion.id, str(suspicion.scope)) for suspicion in suspicions]


def test_every_slip_has_its_own_name_and_asks_something() -> None:
    assert len(SLIPS) >= 20
    for part in ("id", "name"):
        assert len({getattr(slip, part) for slip in SLIPS}) == len(SLIPS)
    for slip in SLIPS:
        assert "?" in slip.question
        assert slip.question.endswith(("?", "."))
        assert slip.name[0].islower()


def test_slips_that_give_the_same_lens_are_named_together() -> None:
    (found,) = seen(one_lens(power("0.50", "1.50", "75"), display("2.00", "-1.50", "75")))
    assert found.slips == ("axis-90", "transposed-axis-kept")
    assert found.names == ("axis 90° off", "transposed without changing the axis")
    assert found.scope is Eye.RIGHT
    assert found.explains == ("right.axis",)
    assert found.reading_would_be == "right +2.00 −1.50 × 75"
    assert found.question.count("?") == 2


def test_the_form_in_which_it_must_have_been_copied_is_named() -> None:
    (found,) = seen(one_lens(power("-1.50", "2.25", "15"), display("-1.50", "-2.25", "15")))
    assert found.names == (
        "sign of the cylinder reversed (plus form)",
        "transposed without changing the sign of the cylinder (minus form)",
    )


@pytest.mark.parametrize(
    ("ordered", "read", "name"),
    [
        (
            power("-2.00", "-1.50", "15"),
            display("-2.00", "-1.50", "150"),
            "digits of the axis in another order (150 for 015, minus form)",
        ),
        (
            power("-4.25", "-0.50", "95"),
            display("-5.25", "-0.50", "95"),
            "sphere one whole dioptre out (−1.00 D)",
        ),
        (
            power("-0.50", "-0.75", "5"),
            display("-5.00", "-0.75", "5"),
            "decimal point of the sphere moved (ten times too strong, minus form)",
        ),
    ],
)
def test_the_way_it_went_is_named(ordered: Part, read: Part, name: str) -> None:
    (found,) = seen(one_lens(ordered, read))
    assert found.names == (name,)


def test_rules_of_the_pair_come_first() -> None:
    """In a pair of mirror images, changed over and mirrored give the same lenses."""
    lenses = power("-2.00", "-1.00", "10"), power("-2.00", "-1.00", "170")
    read = display("-2.00", "-1.00", "170"), display("-2.00", "-1.00", "10")
    (found,) = seen(pair(lenses, read))
    assert (found.id, found.scope) == ("changed-over", "pair")
    assert set(found.slips) > {"turned-opposite", "axis-mirrored"}
    assert found.explains == ("right.axis", "left.axis")
    assert found.reading_would_be == "right −2.00 −1.00 × 170; left −2.00 −1.00 × 10"
    assert found.names[1].endswith("(by about 20°, both outer ends high)")


def test_a_slip_in_both_lenses_is_told_once() -> None:
    lenses = power("-2.25", "-0.75", "10"), power("-3.25", "-0.75", "100")
    read = display("2.25", "-0.75", "10"), display("3.25", "-0.75", "100")
    (found,) = seen(pair(lenses, read))
    assert (found.slips, found.scope) == (("sphere-sign",), "pair")
    assert found.names == ("sign of the sphere reversed (in both lenses; minus form)",)
    assert {key.partition(".")[0] for key in found.explains} == {"right", "left"}


def test_two_slips_in_one_pair_are_both_listed() -> None:
    lenses = power("-2.25", "-0.75", "10"), power("-3.25", "-1.75", "110")
    read = display("2.25", "-0.75", "10"), display("-3.25", "-1.75", "20")
    assert listed(seen(pair(lenses, read))) == [("sphere-sign", "right"), ("axis-90", "left")]


def test_where_nothing_fits_it_says_so() -> None:
    job = one_lens(power("-2.00", "-0.75", "60"), display("-2.37", "-0.75", "60"))
    findings = judge(job, plain_limits())
    assert seen(job) == ()
    assert unexplained(job, plain_limits(), findings, ()) == (
        "right.meridian-high",
        "right.meridian-other",
    )
    assert NOTHING_FITS.startswith("No common slip")


def test_what_a_suspicion_explains_is_not_left_over() -> None:
    job = one_lens(power("0.50", "1.50", "75"), display("2.00", "-1.50", "75"))
    findings = judge(job, plain_limits())
    assert unexplained(job, plain_limits(), findings, seen(job)) == ()


def test_read_again_is_no_reason_to_suspect() -> None:
    job = one_lens(power("-2.00"), display("-2.11"))
    findings = judge(job, guarded_limits())
    assert State.CLOSE in {finding.state for finding in findings}
    assert diagnose(job, guarded_limits(), findings) == ()


def test_the_guard_changes_nothing_in_what_fits() -> None:
    job = one_lens(power("-2.25"), display("2.36"))
    assert listed(seen(job, guarded_limits())) == [("sphere-sign", "right")]


def test_without_order_design_or_reading_nothing_is_suspected() -> None:
    assert seen(job_of({})) == ()
    assert seen(job_of({}, {"right": {"distance": [display("-2.00")]}})) == ()
    assert seen(one_lens(power("-2.00"))) == ()


def test_a_slip_that_no_order_can_state_is_not_offered() -> None:
    """Ten times 6.00 D is no lens that anybody makes."""
    job = one_lens(power("6.00"), display("40.00"))
    assert seen(job) == ()


def test_repeats_are_compared_by_their_mean() -> None:
    read = [display("2.12", "-0.75", "11"), display("2.37", "-0.75", "9")]
    assert listed(seen(one_lens(power("-2.25", "-0.75", "10"), *read))) == [
        ("sphere-sign", "right")
    ]


def test_a_known_zero_of_the_meter_is_taken_off_first() -> None:
    read = display("2.50") | {"meter": "M1"}
    order = {"design": "single-vision", "right": {"power": power("-2.00")}}
    meter = {"name": "M1", "speech": "display", "step": "0.01", "zero": "0.50"}
    job = job_of(order, {"right": {"distance": [read]}, "instruments": {"M1": meter}})
    assert listed(seen(job)) == [("sphere-sign", "right")]


def test_the_maker_s_power_is_the_one_that_counts() -> None:
    """A lens made to the order is a slip where the maker states a compensated power."""
    stated = {"power": power("-4.50", "-0.25", "90")}
    job = one_lens(power("-5.00"), display("-5.00"), verification=stated)
    (found,) = seen(job)
    assert found.slips[0] == "as-ordered"


def test_prism_all_in_one_eye_is_no_error() -> None:
    each = {"power": power("-2.00"), "prism": components("1.5", "0")}
    attempt = {
        "right": {"prism": prism_read("3.0", "0")},
        "left": {"prism": prism_read("0", "0")},
    }
    job = job_of({"design": "single-vision", "right": each, "left": each}, attempt)
    assert seen(job) == ()


def test_thinning_prism_does_not_hide_a_reversed_base() -> None:
    each = {"power": power("1.00"), "add": "2.00", "prism": components("2", "0")}
    read = {"prism": prism_read("-2", "-1.3"), "near": [shown_add("2.00")]}
    attempt = {"right": read, "left": read}
    order = {"design": "progressive", "right": each, "left": each}
    (found,) = seen(job_of(order, attempt))
    assert found.slips == ("horizontal-reversed", "upside-down")
    assert found.reading_would_be == ("right prism 2.00 Δ base out; left prism 2.00 Δ base out")
    flat = order | {"design": "single-vision"}
    assert seen(job_of(flat, attempt)) == ()


def test_two_distances_within_a_millimetre_are_not_told_apart() -> None:
    """Near distance and doubled decentration lie 1 mm apart: both are asked about."""
    each = {"power": power("-5.00"), "distance_pd": "32", "near_pd": "30.5"}
    frame = {"a": "50", "dbl": "18"}
    order = {"design": "single-vision", "frame": frame, "right": each, "left": each}
    attempt = {"pair": {eye: {"distance_pd": ["30.25"]} for eye in Eye}}
    assert listed(seen(job_of(order, attempt))) == [
        ("near-for-distance-pd", "pair"),
        ("double-decentration", "pair"),
    ]


def test_a_turn_of_one_lens_needs_the_other_to_be_told() -> None:
    lens, read = power("-6.00", "-1.00", "180"), display("-6.00", "-1.00", "174")
    assert seen(one_lens(lens, read)) == ()
    level = power("-6.00", "-1.00", "90"), display("-6.00", "-1.00", "90")
    (found,) = seen(pair((lens, level[0]), (read, level[1])))
    assert (found.id, found.scope) == ("turned-alone", Eye.RIGHT)
    assert found.names == ("lens turned in its rim (by about 6° clockwise)",)


def test_beside_a_sphere_a_turned_lens_and_a_turned_frame_look_the_same() -> None:
    lenses = power("-6.00", "-1.00", "180"), power("-6.00")
    (found,) = seen(pair(lenses, (display("-6.00", "-1.00", "174"), display("-6.00"))))
    assert found.slips == ("turned-together", "turned-opposite", "turned-alone")
    assert found.scope is Eye.RIGHT


def test_a_lens_read_from_the_front_shows_its_front_vertex_power() -> None:
    """A front of +11.00 D, 7 mm thick: +8.00 D shows +7.46 D."""
    form = {"base_curve": "11.00", "centre_thickness": "7"}
    job = one_lens(power("8.00"), display("7.46"), **form)
    (found,) = seen(job)
    assert found.id == "from-front"
    assert "front +11.00 D as ordered" in found.names[0]
    assert found.reading_would_be == "right +7.46 D"


def test_the_distance_read_in_the_corridor_keeps_the_near_total() -> None:
    order = {"design": "progressive", "right": {"power": power("1.00"), "add": "2.00"}}
    read = {"distance": [display("1.37")], "near": [shown_add("1.63")]}
    found = seen(job_of(order, {"right": read}))
    assert found[0].id == "low-in-corridor"
    assert found[0].explains == (
        "right.meridian-high",
        "right.meridian-other",
        "right.add",
    )
    assert found[0].reading_would_be == "right +1.37 D, addition +1.63 D"


def test_rank_is_that_of_the_simplest_slip() -> None:
    (found,) = seen(one_lens(power("0.50", "1.50", "75"), display("2.00", "-1.50", "75")))
    assert SLIPS[found.rank].id == found.id == "axis-90"


def test_an_addition_to_be_read_again_on_the_other_surface_is_not_diagnosed() -> None:
    """A segment is on the front: with the back on the stop the lens is to be turned first."""
    lens = {"power": power("7.50"), "add": "2.50", "base_curve": "12", "centre_thickness": "9"}
    order = {"design": "bifocal", "right": lens}
    assert seen(job_of(order, {"right": {"near": [shown_add("3.25")]}})) == ()
    (found,) = seen(job_of(order, {"right": {"near": [shown_add("10.00", "front")]}}))
    assert found.id == "near-total"


def test_a_slip_whose_lens_is_not_the_one_read_is_not_offered() -> None:
    """A lens made 0.40 D too weak and mirrored: no single slip gives that power."""
    job = one_lens(power("-2.00", "-1.00", "30"), display("-1.60", "-1.00", "150"))
    assert seen(job) == ()
    findings = judge(job, plain_limits())
    assert set(unexplained(job, plain_limits(), findings, ())) == {
        *("right.meridian-high", "right.meridian-other", "right.axis"),
    }
