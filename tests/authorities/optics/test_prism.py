from collections.abc import Callable
from typing import Any

from benchassist.geometry.boxing import Boxing, blank_size
from benchassist.optics.centration import (
    Centre,
    fitting_error_prism,
    imbalance_below,
    split,
    thinning_prism,
    vertical_prism_band,
)
from benchassist.optics.eye import Eye
from benchassist.optics.power import Power
from benchassist.optics.prism import Prism, decentration_for, imbalance, prentice

Given = dict[str, Any]
EYES = {"R": Eye.RIGHT, "L": Eye.LEFT}
WORDS = {"in": (1, 0), "out": (-1, 0), "up": (0, 1), "down": (0, -1)}


def lens(given: Given) -> Power:
    return Power(given["S"], given.get("C", 0.0), given.get("A"))


def one_prism(amount: float, base: str | float, eye: Eye) -> Prism:
    if isinstance(base, str):
        inwards, upwards = WORDS[base]
        return Prism(amount * inwards, amount * upwards)
    return Prism.from_polar(amount, base, eye)


def together(prisms: list[tuple[float, str | float]], eye: Eye) -> Prism:
    return sum((one_prism(amount, base, eye) for amount, base in prisms), start=Prism())


def by_prentice(given: Given) -> Given:
    prism = prentice(lens(given), EYES[given["eye"]], given["oc_in"], given["oc_up"])
    return {"in_": prism.base_in, "up": prism.base_up}


def in_words(given: Given) -> Given:
    prism = prentice(lens(given), EYES[given["eye"]], given["oc_in"], given["oc_up"])
    return {
        "horizontal_prism": abs(prism.base_in),
        "horizontal_base": "in" if prism.base_in > 0.0 else "out",
        "vertical_prism": abs(prism.base_up),
        "vertical_base": "up" if prism.base_up > 0.0 else "down",
    }


def decentred(given: Given) -> Given:
    wanted = Prism(given["in_"], given.get("up", 0.0))
    found = decentration_for(lens(given), wanted, EYES[given["eye"]])
    assert found is not None
    return {"oc_in": found[0], "oc_up": found[1]}


def band(given: Given) -> Given:
    zone = vertical_prism_band(lens(given), given["prism"])
    assert zone is not None
    return {
        "half_width_mm": zone.half_width,
        "inclination": zone.inclination,
        "along_axis_mm": zone.reach(given["A"]),
        "across_axis_mm": zone.reach(given["A"] + 90.0),
    }


def combine(given: Given) -> Given:
    eye = EYES[given["eye"]]
    prism = together(given["prisms"], eye)
    return {
        "in_": prism.base_in,
        "up": prism.base_up,
        "amount": prism.amount,
        "base_deg": prism.base(eye),
    }


def pair(given: Given) -> Given:
    total = imbalance(together(given["R"], Eye.RIGHT), together(given["L"], Eye.LEFT))
    right, left = split(total)
    assert imbalance(right, left) == total
    return {
        "net_in": total.horizontal,
        "net_up_R": total.vertical,
        "each_in": right.base_in,
        "each_up_R": right.base_up,
    }


def at_level(given: Given) -> Given:
    right, left = Power(*given["R"]), Power(*given["L"])
    high: dict[str, float] = {"level_R": given["level"], "level_L": given["level"]} | given
    up_right = prentice(right, Eye.RIGHT, 0.0, high["level_R"])
    up_left = prentice(left, Eye.LEFT, 0.0, high["level_L"])
    return {
        "R_up": up_right.base_up,
        "L_up": up_left.base_up,
        "imbalance": abs(imbalance_below(right, left, given["level"]).vertical),
        "right_vertical_power": right.vertical,
        "left_vertical_power": left.vertical,
    }


def fitting(given: Given) -> Given:
    prisms = {}
    for letter, eye in EYES.items():
        side = given[letter]
        ordered = Centre(side["pd_ordered"], side["height_ordered"])
        measured = Centre(side["pd_measured"], side["height_measured"])
        prisms[eye] = fitting_error_prism(Power(*side["rx"]), eye, ordered, measured)
    total = imbalance(prisms[Eye.RIGHT], prisms[Eye.LEFT])
    return {
        "R_in": prisms[Eye.RIGHT].base_in,
        "R_up": prisms[Eye.RIGHT].base_up,
        "L_in": prisms[Eye.LEFT].base_in,
        "L_up": prisms[Eye.LEFT].base_up,
        "net_in": total.horizontal,
        "net_up_R": total.vertical,
    }


def decentration(given: Given) -> Given:
    dbl = given.get("DBL", 18.0)
    frame = Boxing(given["A"] if "A" in given else given["fpd"] - dbl, 30.0, dbl)
    return {
        "frame_pd": frame.centre_distance,
        "each": frame.decentration_for_pair(given["pd"]),
    }


def blank(given: Given) -> Given:
    return {"mbs": blank_size(given["ED"], given["dec"], given["allowance"])}


def drills(given: Given) -> Given:
    first = prentice(Power(given["power"]), Eye.RIGHT, given["decentration"], 0.0)
    wanted = Prism(given["prism_of_second"])
    second = decentration_for(Power(given["power_of_second"]), wanted, Eye.RIGHT)
    assert second is not None
    of_one_dioptre = prentice(Power(1.0), Eye.RIGHT, given["decentration_of_third"], 0.0)
    return {
        "prism": first.base_in,
        "decentration": abs(second[0]),
        "power": given["prism_of_third"] / of_one_dioptre.base_in,
    }


CALCULATIONS: dict[str, Callable[[Given], Given]] = {
    "prentice": by_prentice,
    "prentice_words": in_words,
    "prentice_drills": drills,
    "decentre_for_prism": decentred,
    "isoprism": band,
    "combine": combine,
    "pair": pair,
    "imbalance": at_level,
    "thinning": lambda given: {"base_down": -thinning_prism(given["add"]).base_up},
    "fit": fitting,
    "decentration": decentration,
    "mbs": blank,
}


def test_example(example: Given, reproduces: Callable[[Given, Given], None]) -> None:
    reproduces(example, CALCULATIONS[example["calc"]](example["inputs"]))
