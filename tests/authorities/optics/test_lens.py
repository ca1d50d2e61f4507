from collections.abc import Callable
from typing import Any

from benchassist.optics.eye import Eye
from benchassist.optics.near import addition_by_back_vertex, addition_by_front_vertex
from benchassist.optics.power import Power
from benchassist.optics.thick import (
    ThickLens,
    base_curve_by_vogel,
    clocked_index,
    clocked_power,
    edge_thickness,
    power_magnification,
    sag,
    spectacle_magnification,
    surface_power,
    surface_radius,
    thickness_difference,
)
from benchassist.optics.tilt import (
    FACE_FORM_AXIS,
    PANTOSCOPIC_AXIS,
    TiltFactors,
    centre_drop,
    centre_drop_by_rule,
    combined_tilt,
    compensated,
    exact_factors,
    martin_factors,
    prism_from_tilt,
    tilted,
)
from benchassist.optics.uncertainty import (
    acceptance_limits,
    conformance_probability,
    false_acceptance,
    repeats,
)
from benchassist.optics.vertex import effectivity, replaced_at

Given = dict[str, Any]
AXES = {"horizontal": PANTOSCOPIC_AXIS, "vertical": FACE_FORM_AXIS}


def written(power: Power) -> Given:
    return {"S": power.sphere, "C": power.cylinder, "A": power.axis or "none"}


def as_sphere(power: Power, given: Given) -> Given:
    """In the form whose axis is the axis of turn, as tilted spheres are written."""
    same = power.axis is not None and abs(power.axis - AXES[given["about"]]) < 1e-6
    return written(power if same else power.transposed())


def near_add(given: Given) -> Given:
    far = ThickLens(given["F1"], given["F2"], given["t_distance"], given["n"])
    near = ThickLens(given["F1_seg"], given["F2"], given["t_near"], given["n"])
    return {
        "add_back": addition_by_back_vertex(far, near),
        "add_front": addition_by_front_vertex(far, near),
    }


def vertex(given: Given) -> Given:
    return {"F": effectivity(given["F"], given["d_from"] - given["d_to"])}


def vertex_toric(given: Given) -> Given:
    power = Power(given["S"], given["C"], given["A"])
    return written(replaced_at(power, given["d_from"], given["d_to"]))


def factors(given: Given) -> TiltFactors:
    if given["mode"] == "exact":
        return exact_factors(given["tau"], given["n"])
    index = 1.5 if given["mode"] == "martin3" else given["n"]
    return martin_factors(given["tau"], index)


def tilt(given: Given) -> Given:
    axis = AXES[given["about"]]
    return as_sphere(tilted(Power(given["F"]), factors(given), axis), given)


def tilt_comp(given: Given) -> Given:
    axis = AXES[given["about"]]
    return as_sphere(compensated(Power(given["F"]), factors(given), axis), given)


def tilt_rx(given: Given) -> Given:
    power = Power(given["S"], given["C"], given["A"])
    return written(tilted(power, factors(given), AXES[given["about"]]))


def tilt_prism(given: Given) -> Given:
    prism = prism_from_tilt(given["F1"], given["t"], given["n"], 0.0, given["tau"])
    return {"prism": -prism.base_in}


def oc_drop(given: Given) -> Given:
    return {
        "rule": centre_drop_by_rule(given["tau"]),
        "drop": centre_drop(given["tau"], given["cr"]),
    }


def thick(given: Given) -> Given:
    lens = ThickLens(given["F1"], given["F2"], given["t"], given["n"])
    return {
        "bvp": lens.back_vertex_power,
        "fvp": lens.front_vertex_power,
        "nominal": lens.nominal_power,
    }


def surface(given: Given) -> Given:
    if "r" in given:
        return {"F": surface_power(given["r"], given["n"])}
    return {"r": surface_radius(given["F"], given["n"])}


def clock(given: Given) -> Given:
    return {"true": clocked_power(given["readings"][0], given["n"], given["n_clock"])}


def clock_index(given: Given) -> Given:
    front, back = given["readings"]
    return {"n": clocked_index(front, back, given["power"], given["n_clock"])}


def specmag(given: Given) -> Given:
    power = power_magnification(given["Fv"], given["d"])
    if "F1" not in given:
        return {"power": power}
    lens = ThickLens(given["F1"], 0.0, given["t"], given["n"])
    back = given["Fv"] - lens.back_vertex_power
    lens = ThickLens(given["F1"], back, given["t"], given["n"])
    total = spectacle_magnification(lens, given["d"])
    return {"shape": lens.shape_factor, "power": power, "total": total}


def conform(given: Given) -> Given:
    limits = {
        name: given[key]
        for name, key in (("lower", "TL"), ("upper", "TU"))
        if given[key] != "none"
    }
    return {"pc": conformance_probability(given["y"], given["u"], **limits)}


def guard(given: Given) -> Given:
    lower, upper = acceptance_limits(given["TL"], given["TU"], given["w"])
    chance = false_acceptance(given["w"], given["u"])
    return {"A_L": lower, "A_U": upper, "pfa_at_limit": chance}


def repeat(given: Given) -> Given:
    ours = repeats(given["x"])
    return {"mean": ours.mean, "sd": ours.deviation, "u_mean": ours.of_mean}


def edge(given: Given) -> Given:
    return {"edge": edge_thickness(given["t"], given["r1"], given["r2"], given["y"])}


CALCULATIONS: dict[str, Callable[[Given], Given]] = {
    "near_add": near_add,
    "vertex": vertex,
    "vertex_toric": vertex_toric,
    "tilt": tilt,
    "tilt_comp": tilt_comp,
    "tilt_rx": tilt_rx,
    "tilt_both": lambda given: {
        "effective_tilt": combined_tilt(given["panto"], given["wrap"], Eye.RIGHT).angle
    },
    "tilt_prism": tilt_prism,
    "oc_drop": oc_drop,
    "thick": thick,
    "surface": surface,
    "clock": clock,
    "clock_index": clock_index,
    "vogel": lambda given: {"base": base_curve_by_vogel(given["SE"])},
    "edge": edge,
    "sag": lambda given: {"sag": sag(given["r"], given["y"])},
    "thickdiff": lambda given: {
        "diff": thickness_difference(given["F"], given["y"], given["n"])
    },
    "specmag": specmag,
    "conform": conform,
    "guard": guard,
    "repeat": repeat,
}


def test_example(example: Given, reproduces: Callable[[Given, Given], None]) -> None:
    reproduces(example, CALCULATIONS[example["calc"]](example["inputs"]))
