"""The prism that a wrong position of the optical centres causes, by Prentice's rule.

For single-vision and multifocal lenses: both errors of both lenses and their whole powers.
"""

from benchassist.job.order import Design
from benchassist.optics.eye import Eye
from benchassist.optics.prism import Imbalance as CausedImbalance
from benchassist.optics.prism import imbalance, prentice
from benchassist.optics.uncertainty import combined
from benchassist.verdicts.case import Case, no_limit
from benchassist.verdicts.centration import distance_found
from benchassist.verdicts.exact import ZERO, mean, millionth
from benchassist.verdicts.finding import Finding
from benchassist.verdicts.imbalance import Imbalance, Sides, doubt_in_prism, judge_imbalance
from benchassist.verdicts.prism import excess, powers_of_pair, prism_ordered
from benchassist.verdicts.weigh import Subject
from benchassist.verdicts.words import horizontal_prism, millimetres, vertical_imbalance

_LEVEL = Sides(ZERO, ZERO)


def judge_decentration(case: Case) -> tuple[Finding, ...]:
    """The findings on the prism caused by the position of the optical centres."""
    if case.design is None or case.design.varies:
        return ()
    return (_horizontal(case), *_vertical(case))


def _horizontal(case: Case) -> Finding:
    subject = Subject(
        "pair.centration-horizontal", "pair.distance-pd", "Horizontal prism by centration"
    )
    errors = _distance_errors(case)
    powers = powers_of_pair(case, "horizontal")
    if errors is None:
        ordered = all(case.ordered(eye).distance_pd is not None for eye in Eye)
        why = "the distances are not read yet" if ordered else "no distances are ordered yet"
        return subject.missing(f"{subject.what}: {why}.")
    if powers is None:
        return subject.missing(f"{subject.what}: order both powers first.")
    return _by_prism(case, subject, powers, errors)


def _vertical(case: Case) -> tuple[Finding, ...]:
    """By optical-centre heights; a multifocal's height is that of its segment."""
    subject = Subject("pair.centration-vertical", "pair.height", "Vertical prism by centration")
    if case.design is not Design.SINGLE_VISION:
        return (
            subject.none(
                f"{subject.what}: the height measured is that of the segment; what counts is "
                "the prism at the reference points."
            ),
        )
    heights, powers = _height_errors(case), powers_of_pair(case, "vertical")
    ordered = any(case.ordered(eye).height is not None for eye in Eye)
    if heights is None:
        if not ordered:
            return ()
        return (subject.missing(f"{subject.what}: the heights are not read yet."),)
    if powers is None:
        return (subject.missing(f"{subject.what}: order both powers first."),)
    return (_by_prism(case, subject, powers, heights),)


def _distance_errors(case: Case) -> Sides | None:
    """Found minus ordered distances, mm, wider positive; None while one is not known."""
    errors = []
    for eye in Eye:
        ordered, found = case.ordered(eye).distance_pd, distance_found(case, eye)
        if ordered is None or found is None:
            return None
        errors.append(found - ordered)
    return Sides(*errors)


def _height_errors(case: Case) -> Sides | None:
    """Found minus ordered heights, mm; without an ordered height both should be level."""
    found = [mean(read) for eye in Eye if (read := case.now.pair.eye(eye).height)]
    if len(found) < len(Eye):
        return None
    level = mean(found)
    wanted = [case.ordered(eye).height for eye in Eye]
    if None in wanted:
        return Sides(*(height - level for height in found))
    return Sides(*(height - (want or ZERO) for height, want in zip(found, wanted, strict=True)))


def _by_prism(case: Case, subject: Subject, powers: Sides, errors: Sides) -> Finding:
    """The prism of both lenses by their whole power, in the direction of the subject."""
    direction = subject.key.rpartition("-")[2]
    row = case.row(f"prism-{direction}")
    if row is None:
        return subject.none(f"{subject.what}: {no_limit(case)}.")
    distances, heights = _distance_errors(case), _height_errors(case)
    caused = _caused(case, distances or _LEVEL, heights or _LEVEL)
    if direction == "horizontal":
        net = millionth(caused.horizontal)
        total, words = errors.right + errors.left, horizontal_prism(net)
    else:
        net = millionth(caused.vertical)
        total, words = errors.right - errors.left, vertical_imbalance(net)
    uncertainty = _mm_doubt(case, direction)
    judged = Imbalance(
        ordered=ZERO,
        found=net,
        per_lens=_LEVEL,
        powers=powers,
        prism_ordered=prism_ordered(case, direction),
        total_mm=abs(total),
        each_mm=errors.largest,
        prism_doubt=doubt_in_prism(uncertainty, powers.largest),
        mm_doubt=uncertainty,
        opening=f"{subject.what} {words}, from an error of {millimetres(abs(total))}",
        excess=excess(direction, net),
    )
    return judge_imbalance(case, subject, row, judged)


def _caused(case: Case, distances: Sides, heights: Sides) -> CausedImbalance:
    """The imbalance of the pair; a distance too wide puts the centre outwards."""
    errors = zip(
        Eye, (distances.right, distances.left), (heights.right, heights.left), strict=True
    )
    lenses = []
    for eye, wider, higher in errors:
        power, _ = case.power_to_find(eye)
        if power:
            lenses.append(prentice(power.power(), eye, float(-wider), float(higher)))
    right, left = lenses
    return imbalance(right, left)


def _mm_doubt(case: Case, direction: str) -> float:
    """The standard uncertainty of the pair's error, mm: two readings with the rule."""
    doubt = case.doubt
    layouts = [case.now.pair.eye(eye) for eye in Eye]
    read = [
        layout.distance_pd if direction == "horizontal" else layout.height for layout in layouts
    ]
    return combined(*(doubt.measured(values, "step-rule") for values in read))
