from collections.abc import Callable
from typing import Any

from benchassist.optics.eye import Eye
from benchassist.optics.meter import power_from_drum, prism_from_reticle, zero_corrected
from benchassist.optics.near import addition, with_addition
from benchassist.optics.power import (
    Power,
    PowerMatrix,
    PowerVector,
    axis_error_for,
    difference,
    mean_of,
    sum_of,
)

Given = dict[str, Any]


def lens(given: Given) -> Power:
    return Power(given["S"], given["C"], given.get("A"))


def written(power: Power, form: str) -> Given:
    power = power.in_plus_form() if form == "plus" else power.in_minus_form()
    return {"S": power.sphere, "C": power.cylinder, "A": power.axis or "none"}


def named(vector: PowerVector) -> Given:
    return {"M": vector.m, "J0": vector.j0, "J45": vector.j45, "B": vector.length}


def transpose(given: Given) -> Given:
    return written(lens(given).transposed(), given["to"])


def equivalent(given: Given) -> Given:
    return {"SE": Power(given["S"], given["C"], 180.0).spherical_equivalent}


def meridian(given: Given) -> Given:
    return {f"F{angle}": lens(given).along(angle) for angle in given["meridians"]}


def from_vector(given: Given) -> Given:
    vector = PowerVector(given["M"], given["J0"], given["J45"])
    return written(vector.power(), given["to"])


def matrix(given: Given) -> Given:
    ours = lens(given).matrix()
    return {
        "f11": ours.f11,
        "f12": ours.f12,
        "f22": ours.f22,
        "trace": ours.f11 + ours.f22,
        "det": ours.f11 * ours.f22 - ours.f12**2,
    }


def from_matrix(given: Given) -> Given:
    ours = PowerMatrix(given["f11"], given["f12"], given["f22"])
    return written(ours.power(), given["to"])


def crossed(given: Given) -> Given:
    return written(sum_of(Power(*rx) for rx in given["rx"]), given["to"])


def average(given: Given) -> Given:
    mean = mean_of(Power(*rx) for rx in given["rx"])
    return written(mean, "minus") | named(mean.vector())


def differs(given: Given) -> Given:
    apart = difference(Power(*given["measured"]), Power(*given["ordered"]))
    return {"dM": apart.m, "abs_dcyl_vector": apart.cross_cylinder, "B": apart.length}


def drum(given: Given) -> Given:
    power = power_from_drum(given["sphere_lines"], given["cyl_lines"], given["axis_wheel"])
    return {
        f"{form}_{key}": value
        for form in ("minus", "plus")
        for key, value in written(power, form).items()
    }


def rings(given: Given) -> Given:
    eye = {"R": Eye.RIGHT, "L": Eye.LEFT}[given["eye"]]
    prism = prism_from_reticle(given["right"], given["up"], eye)
    return {
        "in_": prism.base_in,
        "up": prism.base_up,
        "amount": prism.amount,
        "base_deg": prism.base(eye),
    }


def zero_error(given: Given) -> Given:
    return written(zero_corrected(lens(given), given["zero_reading"]), "minus")


def axis_for_residual(given: Given) -> Given:
    angle = axis_error_for(given["C"], given["residual_D"])
    return {"angle_deg": angle, "rounded_deg": round(angle)}


def intermediate(given: Given) -> Given:
    return written(with_addition(lens(given), given["add"], given["share"]), "minus")


CALCULATIONS: dict[str, Callable[[Given], Given]] = {
    "transpose": transpose,
    "se": equivalent,
    "meridian": meridian,
    "vector": lambda given: named(lens(given).vector()),
    "from_vector": from_vector,
    "matrix": matrix,
    "from_matrix": from_matrix,
    "sum": crossed,
    "average": average,
    "diff": differs,
    "lensmeter": drum,
    "rings": rings,
    "add_simple": lambda given: {"add": addition(given["distance"], given["near"])},
    "zero_error": zero_error,
    "axis_for_residual": axis_for_residual,
    "intermediate": intermediate,
}


def test_example(example: Given, reproduces: Callable[[Given, Given], None]) -> None:
    reproduces(example, CALCULATIONS[example["calc"]](example["inputs"]))
