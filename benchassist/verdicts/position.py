"""Heights, segments, tilt, thickness, base curve: what is measured on the mounted lenses."""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from benchassist.limits.rule import Limit
from benchassist.optics.eye import Eye
from benchassist.verdicts.case import Case, no_limit
from benchassist.verdicts.exact import ZERO, mean
from benchassist.verdicts.finding import Finding
from benchassist.verdicts.trust import Trust, together
from benchassist.verdicts.weigh import Subject, Value, compared, off_by
from benchassist.verdicts.words import degrees, millimetres, shows, signed_dioptres


@dataclass(frozen=True, slots=True)
class Quantity:
    """One quantity of each lens and how it is spoken of.

    Attributes:
        name: its name in the rule set and in keys of findings.
        what: its name in words.
        prompt: the prompt that asks for it.
        unit: 'mm', '°' or 'D'.
        step: the row of the meter table with the step of its tool.
        more: the word for more than ordered.
        less: the word for less than ordered.
    """

    name: str
    what: str
    prompt: str
    unit: str
    step: str
    more: str
    less: str


HEIGHT = Quantity("height", "Height", "pair.height", "mm", "step-rule", "too high", "too low")
TILT = Quantity(
    "tilt", "Tilt", "pair.tilt", "°", "step-protractor", "counter-clockwise", "clockwise"
)
THICKNESS = Quantity(
    "thickness",
    "Centre thickness",
    "pair.thickness",
    "mm",
    "step-calliper",
    "too thick",
    "too thin",
)
BASE_CURVE = Quantity(
    "base-curve", "Base curve", "pair.base-curve", "D", "step-clock", "too steep", "too flat"
)
WIDTH = Quantity(
    "segment-width",
    "Segment width",
    "pair.segment-width",
    "mm",
    "step-rule",
    "too wide",
    "too narrow",
)
DEPTH = Quantity(
    "segment-depth",
    "Segment depth",
    "pair.segment-depth",
    "mm",
    "step-rule",
    "too deep",
    "too shallow",
)
NEAR = Quantity(
    "segment-distance",
    "Distance between the segments",
    "pair.near-pd",
    "mm",
    "step-rule",
    "too wide",
    "too narrow",
)
_EACH = "segment-distance-lens"
NEAR_EACH = Quantity(
    _EACH, "Near distance of the segment", "pair.near-pd", "mm", "step-rule",
    "too wide", "too narrow",
)  # fmt: skip


def judge_positions(case: Case) -> tuple[Finding, ...]:
    """The findings on everything measured on the mounted lenses but the distances."""
    return (
        *_heights(case),
        *_tilts(case),
        *_when_ordered(case),
        *_segment_sizes(case),
        *_segment_distance(case),
        *_segment_of_each(case),
    )


def _heights(case: Case) -> tuple[Finding, ...]:
    set_by_height = case.design is not None and (case.design.varies or case.design.has_segment)
    findings = []
    for eye in Eye:
        ordered, read = case.ordered(eye).height, case.now.pair.eye(eye).height
        if set_by_height:
            findings.append(_lens(case, HEIGHT, eye, ordered, read))
        elif read and ordered is not None:
            findings.append(_lens(case, HEIGHT, eye, ordered, read, _BY_PRISM))
    if set_by_height:
        wanted = [case.ordered(eye).height for eye in Eye]
        found = [case.now.pair.eye(eye).height for eye in Eye]
        findings.append(_pair(case, HEIGHT, wanted, found))
    return tuple(findings)


_BY_PRISM = "the pair is judged by the prism it causes"


def _tilts(case: Case) -> tuple[Finding, ...]:
    if case.design is None or not (case.design.varies or case.design.has_segment):
        return ()
    return tuple(_lens(case, TILT, eye, ZERO, case.now.pair.eye(eye).tilt) for eye in Eye)


def _when_ordered(case: Case) -> tuple[Finding, ...]:
    """Thickness and base curve, which are judged when somebody ordered them."""
    findings = []
    for eye in Eye:
        ordered, layout = case.ordered(eye), case.now.pair.eye(eye)
        if ordered.centre_thickness is not None:
            findings.append(
                _lens(case, THICKNESS, eye, ordered.centre_thickness, layout.thickness)
            )
        if ordered.base_curve is not None:
            findings.append(_lens(case, BASE_CURVE, eye, ordered.base_curve, layout.base_curve))
    return tuple(findings)


def _segment_sizes(case: Case) -> tuple[Finding, ...]:
    if case.design is None or not case.design.has_segment:
        return ()
    layouts = [case.now.pair.eye(eye) for eye in Eye]
    sizes = (
        (WIDTH, case.order.segment_width, [layout.segment_width for layout in layouts]),
        (DEPTH, case.order.segment_depth, [layout.segment_depth for layout in layouts]),
    )
    findings: list[Finding] = []
    for quantity, ordered, read in sizes:
        if ordered is None:
            continue
        findings += [
            _lens(case, quantity, eye, ordered, values)
            for eye, values in zip(Eye, read, strict=True)
        ]
        findings.append(_pair(case, quantity, [ordered, ordered], read))
    return tuple(findings)


def _segment_distance(case: Case) -> tuple[Finding, ...]:
    """Both near distances together against the distance between the segments."""
    subject = Subject("pair.segment-distance", NEAR.prompt, NEAR.what)
    read = [case.now.pair.eye(eye).near_pd for eye in Eye]
    found = [mean(values) for values in read if values]
    wanted = [case.ordered(eye).near_pd for eye in Eye]
    ordered = [distance for distance in wanted if distance is not None]
    has_segment = case.design is not None and case.design.has_segment
    if not has_segment:
        if len(found) < len(Eye):
            return ()
        total = millimetres(sum(found, ZERO))
        return (subject.none(f"Near distance {total} found; {case.lens} has no segment."),)
    if len(ordered) < len(Eye):
        return (
            subject.none("No near distance is ordered, so the segments have none to keep."),
        )
    expected = sum(ordered, ZERO)
    if len(found) < len(Eye):
        sentence = f"{NEAR.what} not read yet, {millimetres(expected)} ordered."
        return (subject.missing(sentence, expected, "mm"),)
    doubt = case.doubt
    trust = together([doubt.measured(values, NEAR.step) for values in read])
    return (_judged(case, NEAR, subject, (expected, sum(found, ZERO)), trust),)


def _segment_of_each(case: Case) -> tuple[Finding, ...]:
    """Each near distance by itself where the order is monocular: its eyes are not alike.

    Equal halves may as well be one distance of the pair shared out, which `_segment_distance`
    judges; a step of one segment against the other's is then no fault of either lens.
    """
    by_eye = [case.ordered(eye) for eye in Eye]
    distances = {(lens.distance_pd, lens.near_pd) for lens in by_eye}
    if (
        case.row(_EACH) is None
        or len(distances) == 1
        or None in {lens.near_pd for lens in by_eye}
    ):
        return ()
    return tuple(
        _lens(case, NEAR_EACH, eye, case.ordered(eye).near_pd, case.now.pair.eye(eye).near_pd)
        for eye in Eye
    )


def _lens(  # noqa: PLR0913, PLR0917  (one call for every quantity of a lens)
    case: Case,
    quantity: Quantity,
    eye: Eye,
    ordered: Decimal | None,
    read: Sequence[Decimal],
    instead: str = "",
) -> Finding:
    subject = Subject(f"{eye}.{quantity.name}", quantity.prompt, quantity.what, eye)
    if ordered is None:
        return subject.missing(f"{quantity.what}: none is ordered yet.")
    if not read:
        wanted = _value(ordered, quantity.unit)
        sentence = f"{quantity.what} not read yet, {wanted} ordered."
        return subject.missing(sentence, ordered, quantity.unit)
    found = mean(read)
    if instead:
        opening = _opening(quantity, found, ordered)
        return subject.none(f"{opening}; {instead}.", compared(found, ordered, quantity.unit))
    doubt = case.doubt
    return _judged(
        case, quantity, subject, (ordered, found), doubt.measured(read, quantity.step)
    )


def _pair(
    case: Case,
    quantity: Quantity,
    ordered: Sequence[Decimal | None],
    read: Sequence[Sequence[Decimal]],
) -> Finding:
    """The right lens's error against the left one's."""
    subject = Subject(
        f"pair.{quantity.name}", quantity.prompt, f"{quantity.what}, right against left"
    )
    wanted = [value for value in ordered if value is not None]
    if len(wanted) < len(Eye):
        return subject.missing(f"{subject.what}: not ordered for both lenses yet.")
    if not all(read):
        return subject.missing(f"{subject.what}: not read on both lenses yet.")
    found = [mean(values) for values in read]
    errors = [value - want for value, want in zip(found, wanted, strict=True)]
    row = case.row(f"{quantity.name}-pair")
    value = Value(difference=errors[0] - errors[1], unit=quantity.unit)
    limit = row.band({}).limit({}) if row else None
    if limit is None:
        return subject.none(f"{subject.what}: {no_limit(case)}.", value)
    doubt = case.doubt
    right, left = (doubt.measured(values, quantity.step) for values in read)
    trust = together([right, left.turned()])
    more, less = f"{quantity.more} on the right", f"{quantity.less} on the right"
    off = off_by(errors[0] - errors[1], limit, more, less)
    return subject.weighed(value, limit, trust, f"{subject.what}: {off}")


def _judged(
    case: Case,
    quantity: Quantity,
    subject: Subject,
    pair: tuple[Decimal, Decimal],
    trust: Trust,
) -> Finding:
    ordered, found = pair
    opening = _opening(quantity, found, ordered)
    value = compared(found, ordered, quantity.unit)
    limit = _limit(case, quantity.name)
    if limit is None:
        is_other = shows(found - ordered, quantity.unit)
        said = "not as ordered, ask the maker; " if is_other else ""
        return subject.none(f"{opening}; {said}{no_limit(case)}.", value, is_told=is_other)
    off = off_by(found - ordered, limit, quantity.more, quantity.less)
    return subject.weighed(value, limit, trust, f"{opening}: {off}")


def _limit(case: Case, name: str) -> Limit | None:
    row = case.row(name)
    return row.band({}).limit({}) if row else None


def _opening(quantity: Quantity, found: Decimal, ordered: Decimal) -> str:
    unit = quantity.unit
    return f"{quantity.what} {_value(found, unit)} found, {_value(ordered, unit)} ordered"


def _value(value: Decimal, unit: str) -> str:
    if unit == "D":
        return signed_dioptres(value)
    return degrees(value) if unit == "°" else millimetres(value)
