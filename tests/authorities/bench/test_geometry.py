"""The frame geometry against every worked example of simple bench measurements."""

import tomllib
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from benchassist.geometry.alignment import (
    AlongFront,
    LeanGaps,
    axis_change,
    fold,
    form_from_depth,
    four_point,
    lens_turn,
    open_angle,
    oversize,
    pantoscopic_angle,
    skew,
    tip_of,
    x_ing,
)
from benchassist.geometry.angles import angle_uncertainty
from benchassist.geometry.on_face import (
    Sides,
    cross_height_difference,
    roll,
    tip_separation,
    yaw,
)
from benchassist.geometry.pads import frontal_angle, way_out
from benchassist.geometry.touch import (
    Gaps,
    rim_gap,
    tip_gap,
    two_way_touch,
    upright_angle,
)
from benchassist.optics.eye import Eye
from benchassist.optics.power import Power, axis_error_cylinder
from benchassist.optics.thick import sag, surface_radius
from benchassist.optics.tilt import PANTOSCOPIC_AXIS, martin_factors, tilted
from benchassist.optics.vertex import power_change

Given = dict[str, Any]
EXAMPLES: list[Given] = tomllib.loads(
    Path(__file__).with_name("geometry.toml").read_text("utf-8")
)["example"]
EYES = {"R": Eye.RIGHT, "L": Eye.LEFT}


def along(given: Given) -> AlongFront:
    ends = ("R_temporal", "R_nasal", "L_nasal", "L_temporal")
    return AlongFront(*(given[end] for end in ends))


def four_heights(given: Given) -> Given:
    rims = Gaps(given["R_rim"], given["L_rim"])
    tips = Gaps(given["R_tip"], given["L_tip"])
    return {"gap_R_tip": tip_gap(rims, tips, given["rim_span"], given["tip_span"])}


def both_ways(given: Given) -> Given:
    upright = Gaps(right=0.0, left=given["upright_left_tip_gap"])
    inverted = Gaps(right=given["inverted_right_gap"], left=0.0)
    found = two_way_touch(upright, given["upright_run"], inverted, given["inverted_run"])
    return {
        "right_temple_lower_deg": found.right_temple_lower,
        "right_tip_extra_drop": found.right_tip_lower,
    }


def edge4(given: Given) -> Given:
    found = four_point(along(given), given["chord"], given["nasal_half_span"])
    return {
        "face_R": found.right_form,
        "face_L": found.left_form,
        "total": found.total,
        "step": found.step,
    }


def heights4(given: Given) -> Given:
    found = skew(along(given), given["width"], given["nasal_half_span"])
    return {"slope_R": found.right_slope, "slope_L": found.left_slope, "step": found.step}


def twist(given: Given) -> Given:
    right = LeanGaps(given["R_top"], given["R_bottom"])
    left = LeanGaps(given["L_top"], given["L_bottom"])
    return {"xing_deg": x_ing(right, left, given["height_apart"])}


def twist_power(given: Given) -> Given:
    each = given["xing_deg"] / 2.0
    worn = tilted(Power(given["F"]), martin_factors(each, given["n"]), PANTOSCOPIC_AXIS)
    sphere = worn.along(180.0)
    return {
        "each_lens_tilt": each,
        "sphere": sphere,
        "induced_cylinder": worn.along(90.0) - sphere,
    }


def turned_front(given: Given) -> Given:
    found = yaw(Sides(given["open_R"], given["open_L"]), given["pd"])
    return {"yaw_deg": found.angle, "right_lens_closer_mm": found.right_closer}


def rolled(given: Given) -> Given:
    found = roll(
        Sides(given["panto_R"], given["panto_L"]),
        given["right_ear_higher"],
        given["hinge_to_ear"],
        given["hinge_separation"],
    )
    return {"right_end_higher_mm": found.right_end_higher, "roll_deg": found.angle}


def temple_tip(given: Given) -> Given:
    found = tip_of(given["length_to_bend"], given["length_of_drop"], given["drop_deg"])
    return {"run": found.run, "drop": found.drop}


def folded(given: Given) -> Given:
    found = fold(
        given["R_height_at_midline"], given["L_height_at_midline"], given["half_width"]
    )
    return {"R_deg": found.right, "L_deg": found.left, "difference": found.difference}


def separation(given: Given) -> Given:
    angles = Sides(given["open_R"], given["open_L"])
    found = tip_separation(angles, given["run"], given["hinge_separation"])
    return {"tip_separation": found}


def marks(given: Given) -> Given:
    rise, apart = given["temporal_minus_nasal"], given["mark_separation"]
    return {"axis_change": lens_turn(EYES[given["eye"]], rise, apart)}


def pad_angle(given: Given) -> Given:
    found = frontal_angle(given["top_separation"], given["bottom_separation"], given["height"])
    return {"each_deg": found}


CALCULATIONS: dict[str, Callable[[Given], Given]] = {
    "tip_gap_to_angle": lambda g: {"angle": upright_angle(Gaps(0.0, g["gap"]), g["run"])},
    "rim_gap_from_tip": lambda g: {
        "rim_gap": rim_gap(g["tip_gap"], g["rim_span"], g["tip_span"])
    },
    "four_heights_to_tip_gap": four_heights,
    "two_way_touch": both_ways,
    "edge4": edge4,
    "xing": twist,
    "xing_power_effect": twist_power,
    "heights4": heights4,
    "axis_change_from_slope": lambda g: {
        "axis_change": axis_change(EYES[g["eye"]], g["temporal_up_deg"])
    },
    "mark_rotation": marks,
    "axis_blur": lambda g: {"residual_cylinder": axis_error_cylinder(g["C"], g["rotation"])},
    "face_from_depth": lambda g: {
        "each_side_deg": form_from_depth(g["depth"], g["front_width"])
    },
    "rim_curve_share": lambda g: {
        "sag": sag(surface_radius(g["base_curve"], g["n"]), g["half_lens"])
    },
    "open_angle": lambda g: {"angle": open_angle(g["outward"], g["back"])},
    "tip_separation": separation,
    "vertex_difference": turned_front,
    "vertex_power": lambda g: {"power_difference": power_change(g["F"], g["mm"])},
    "roll": rolled,
    "cross_height": lambda g: {
        "height_difference": cross_height_difference(g["pd"], g["roll_deg"])
    },
    "panto_from_offset": lambda g: {"angle": pantoscopic_angle(g["offset"], g["depth_B"])},
    "tip": temple_tip,
    "fold": folded,
    "pad_frontal": pad_angle,
    "pad_rise": lambda g: {"rise": way_out(g["each_pad_in"], g["frontal_deg"])},
    "oversize": lambda g: {"diameter_too_large": oversize(g["barrel_gap"])},
    "u_angle": lambda g: {"u_angle": angle_uncertainty(g["u_each_reading"], g["base"])},
}


@pytest.mark.parametrize("example", EXAMPLES, ids=[one["id"] for one in EXAMPLES])
def test_example(example: Given) -> None:
    ours = CALCULATIONS[example["calc"]](example["inputs"])
    expected = example["expected"]
    assert {key: ours[key] for key in expected} == pytest.approx(
        expected, abs=example["tolerance"]
    )


def test_all_examples_are_here_and_run() -> None:
    assert len({one["id"] for one in EXAMPLES}) == len(EXAMPLES) == 41
    assert {one["calc"] for one in EXAMPLES} == set(CALCULATIONS)
    assert all(one["working"] and one["known"] for one in EXAMPLES)


SIMULATED = [one for one in EXAMPLES if "simulated_gap" in one.get("second_method", {})]


@pytest.mark.parametrize("example", SIMULATED, ids=[one["id"] for one in SIMULATED])
def test_a_leaning_frame_agrees_within_6_per_cent(example: Given) -> None:
    """The second method stands a three-dimensional frame on the table."""
    stood = example["second_method"]
    angle = upright_angle(Gaps(0.0, stood["simulated_gap"]), stood["simulated_run"])
    assert angle == pytest.approx(example["expected"]["angle"], rel=0.06)
