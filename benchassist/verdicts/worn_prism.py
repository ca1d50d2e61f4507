"""The prism that the pair's place before the pupils causes, both eyes together."""

from collections.abc import Mapping
from dataclasses import replace
from decimal import Decimal

from benchassist.job.order import Design
from benchassist.limits.rule import Evidence, Limit
from benchassist.limits.table import Band, Row
from benchassist.optics.eye import Eye
from benchassist.optics.prism import Prism, imbalance, prentice
from benchassist.optics.tilt import centre_drop
from benchassist.verdicts.answers import Measures
from benchassist.verdicts.case import Case, no_limit
from benchassist.verdicts.exact import ZERO, millionth
from benchassist.verdicts.finding import Finding
from benchassist.verdicts.prism import lenses_to_find, powers_along
from benchassist.verdicts.trust import together
from benchassist.verdicts.weigh import Subject, Value
from benchassist.verdicts.words import horizontal_prism, vertical_imbalance
from benchassist.verdicts.worn import worn

_DIRECTIONS = ("horizontal", "vertical")
_DEFAULT = (
    "For the pair on the face nothing is published: the limit of the mounted pair on the lens "
    "meter is taken as a default. Own proposal."
)


def fitting_prism(case: Case, read: Measures) -> tuple[Finding, ...]:
    """The prism between the eyes by the fitting error, beside the rule set's limit.

    The whole power matrix at each eye. A single-vision centre is compared with its place
    below the pupil by the tilt, so that a lowering alike on both sides is no error. Segments
    have no centre to be seen, and prism ordered moves the centres: neither is reckoned.
    """
    lenses = lenses_to_find(case)
    if lenses is None or case.design is None or case.design.has_segment:
        return ()
    right, left = (
        prentice(lens.power(), eye, float(read[f"{eye}_across"]), off_place(case, eye, read))
        for lens, eye in zip(lenses, Eye, strict=True)
    )
    return tuple(_one_way(case, way, right, left) for way in _DIRECTIONS)


def off_place(case: Case, eye: Eye, read: Measures) -> float:
    """How far a mark stands above where it belongs, mm: the pupil, or below it by the tilt."""
    up, tilt = float(read[f"{eye}_up"]), worn(case, eye).tilt
    if case.design is not Design.SINGLE_VISION or tilt is None:
        return up
    return up + centre_drop(float(tilt))


def _one_way(case: Case, way: str, right: Prism, left: Prism) -> Finding:
    what = f"{way.capitalize()} prism by the fitting error"
    subject = Subject(f"fit.cross.prism-{way}", "fit.cross", what)
    both = imbalance(right, left)
    net = millionth(both.horizontal if way == "horizontal" else both.vertical)
    words = horizontal_prism(net) if way == "horizontal" else vertical_imbalance(net)
    said = f"{what}: {words} between the eyes"
    value = Value(found=net, difference=net, unit="Δ", sign="")
    prisms = [case.prism_to_find(eye) for eye in Eye]
    if any(one.base_in if way == "horizontal" else one.base_up for one in prisms):
        return subject.none(f"{what}: prism is ordered and moves the centres.")
    row = case.row(f"prism-{way}")
    limit = _limit(case, way, row) if row else None
    if limit is None:
        return subject.none(f"{said}; {no_limit(case)}.", value)
    lenses = lenses_to_find(case)
    sides = powers_along(lenses, way) if lenses else None
    across = case.doubt.measured((ZERO,), "step-rule")
    each = (sides.right, sides.left) if sides else ()
    trust = together([across.scaled(float(abs(one)) / 10.0) for one in each])
    return subject.weighed(value, limit, trust, said)


def _limit(case: Case, way: str, row: Row) -> Limit | None:
    """The rule set's limit of the mounted pair in prism dioptres, marked as a default.

    A limit in millimetres is the prism that so much gives in the stronger lens, for each lens
    twice that; of a row with several limits the kindest, as on the lens meter.
    """
    lenses = lenses_to_find(case)
    if lenses is None:
        return None
    strongest = powers_along(lenses, way).largest
    looked_up = {"power": strongest, "prism": ZERO}
    chosen = row.band(looked_up)
    bands = row.bands if row.either else (chosen,)
    limits = [limit for band in bands if (limit := _in_prism(band, looked_up)) is not None]
    return max(limits, key=lambda limit: limit.value, default=None)


def _in_prism(band: Band, looked_up: Mapping[str, Decimal]) -> Limit | None:
    limit = band.limit(looked_up)
    if limit is None:
        return None
    size = limit.value
    if band.unit == "mm":
        size = size * looked_up["power"] / 10 * (2 if band.each else 1)
    rule = replace(limit.rule, evidence=Evidence.PROPOSED, note=_DEFAULT)
    return Limit(size, "Δ", rule)
