"""The prism that a wrong position of the optical centres causes, by Prentice's rule.

For single-vision and multifocal lenses: both errors of both lenses and their whole powers.
"""

from decimal import Decimal

from benchassist.job.order import Design
from benchassist.optics.eye import Eye
from benchassist.optics.prism import Prism, imbalance, prentice
from benchassist.verdicts.case import Case, no_limit
from benchassist.verdicts.centration import distance_found, pair_distance_found
from benchassist.verdicts.exact import ZERO, MinusForm, mean, millionth
from benchassist.verdicts.finding import Finding
from benchassist.verdicts.imbalance import (
    Imbalance,
    Sides,
    displacement,
    judge_imbalance,
)
from benchassist.verdicts.prism import excess, lenses_to_find, powers_along, prism_ordered
from benchassist.verdicts.trust import Trust, together
from benchassist.verdicts.weigh import Subject, Value
from benchassist.verdicts.words import (
    PRISM,
    horizontal_prism,
    millimetres,
    shows,
    vertical_imbalance,
)

_LEVEL = Sides(ZERO, ZERO)


def judge_decentration(case: Case) -> tuple[Finding, ...]:
    """The findings on the prism caused by the position of the optical centres."""
    if case.design is None:
        return ()
    if case.design.varies:
        return _for_information(case)
    return (_horizontal(case), *_vertical(case))


def _for_information(case: Case) -> tuple[Finding, ...]:
    """What the errors in place of lenses of varying power cause, whose places are judged.

    Reckoned with the whole power for distance: it holds at the fitting cross for an eye that
    looks far.
    """
    lenses = lenses_to_find(case)
    if lenses is None or (_distance_errors(case) is None and _height_errors(case) is None):
        return ()
    caused = imbalance(*_caused(case, lenses))
    told: list[Finding] = []
    for direction, amount, words in (
        ("horizontal", caused.horizontal, horizontal_prism),
        ("vertical", caused.vertical, vertical_imbalance),
    ):
        net = millionth(amount)
        if shows(net, PRISM):
            what = f"{direction.capitalize()} prism by centration"
            subject = Subject(f"pair.caused-{direction}", "pair.distance-pd", what)
            sentence = (
                f"{what} {words(net)} for an eye that looks far; for information, the places "
                "of the lenses are judged."
            )
            told.append(subject.none(sentence, Value(found=net, unit=PRISM), is_told=True))
    return tuple(told)


def _horizontal(case: Case) -> Finding:
    subject = Subject(
        "pair.centration-horizontal", "pair.distance-pd", "Horizontal prism by centration"
    )
    errors = _distance_errors(case)
    lenses = lenses_to_find(case)
    if errors is None:
        why = "no distances are ordered yet"
        if case.order.pd is not None:
            why = "the distances are not read yet"
        return subject.missing(f"{subject.what}: {why}.")
    if lenses is None:
        return subject.missing(f"{subject.what}: order both powers first.")
    return _by_prism(case, subject, lenses, errors)


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
    heights, lenses = _height_errors(case), lenses_to_find(case)
    ordered = any(case.ordered(eye).height is not None for eye in Eye)
    if heights is None:
        if not ordered:
            return ()
        return (subject.missing(f"{subject.what}: the heights are not read yet."),)
    if lenses is None:
        return (subject.missing(f"{subject.what}: order both powers first."),)
    return (_by_prism(case, subject, lenses, heights),)


def _distance_errors(case: Case) -> Sides | None:
    """Found minus ordered distances, mm, wider positive; None while one is not known.

    The error of a distance that was measured for both lenses together is shared equally
    between them: which lens carries it is not known. Own decision.
    """
    wanted = [one for eye in Eye if (one := case.ordered(eye).distance_pd) is not None]
    if case.order.pd is None:
        return None
    total = pair_distance_found(case)
    if total is not None:
        half = (total - case.order.pd) / 2
        return Sides(half, half)
    found = [distance_found(case, eye) for eye in Eye]
    read = [distance for distance in found if distance is not None]
    if len(read) < len(found):
        return None
    return Sides(*(at - want for at, want in zip(read, wanted, strict=True)))


def _height_errors(case: Case) -> Sides | None:
    """Found minus ordered heights, mm; None where they are not known.

    Without an ordered height both should be level. The height of a multifocal is that of its
    segment and says nothing of its optical centre.
    """
    if case.design is None or case.design.has_segment:
        return None
    found = [mean(read) for eye in Eye if (read := case.now.pair.eye(eye).height)]
    if len(found) < len(Eye):
        return None
    level = mean(found)
    wanted = [case.ordered(eye).height for eye in Eye]
    if None in wanted:
        return Sides(*(height - level for height in found))
    return Sides(*(height - (want or ZERO) for height, want in zip(found, wanted, strict=True)))


def _by_prism(
    case: Case, subject: Subject, lenses: tuple[MinusForm, MinusForm], errors: Sides
) -> Finding:
    """The prism of both lenses by their whole power, in the direction of the subject."""
    direction = subject.key.rpartition("-")[2]
    row = case.row(f"prism-{direction}")
    if row is None:
        return subject.none(f"{subject.what}: {no_limit(case)}.")
    right, left = _caused(case, lenses)
    caused = imbalance(right, left)
    if direction == "horizontal":
        net, total = millionth(caused.horizontal), abs(errors.right + errors.left)
        words, per_lens = horizontal_prism(net), (right.base_in, left.base_in)
        shared = pair_distance_found(case) is not None
    else:
        net, total = millionth(caused.vertical), abs(errors.right - errors.left)
        words, per_lens = vertical_imbalance(net), (right.base_up, left.base_up)
        shared = False
    powers, trust = powers_along(lenses, direction), _mm_trust(case, direction)
    judged = Imbalance(
        ordered=ZERO,
        found=net,
        per_lens=Sides(*map(millionth, per_lens)),
        powers=powers,
        prism_ordered=prism_ordered(case, direction),
        total_mm=_at_least(total, displacement(net, powers.largest)),
        each_mm=errors.largest,
        in_prism=trust.scaled(float(powers.largest) / 10.0),
        in_mm=trust,
        opening=_opening(subject, words, total, shared=shared),
        excess=excess(direction, net),
    )
    return judge_imbalance(subject, row, judged)


def _opening(subject: Subject, words: str, total: Decimal, *, shared: bool) -> str:
    """The sentence up to what is too much."""
    how = " shared equally between both lenses" if shared else ""
    return f"{subject.what} {words}, from an error of {millimetres(total)}{how}"


def _at_least(measured: Decimal, by_prism: Decimal | None) -> Decimal | None:
    """The displacement to judge: the one measured, or the larger one that the prism amounts to.

    An oblique cylinder turns an error of the other direction into prism of this one; the
    measured displacement alone would pass it. None where only the prism can be judged.
    """
    return None if by_prism is None else max(measured, by_prism)


def _caused(case: Case, lenses: tuple[MinusForm, MinusForm]) -> tuple[Prism, Prism]:
    """The prism of each lens; a distance too wide puts the centre outwards."""
    wider = _distance_errors(case) or _LEVEL
    higher = _height_errors(case) or _LEVEL
    right, left = (lens.power() for lens in lenses)
    return (
        prentice(right, Eye.RIGHT, float(-wider.right), float(higher.right)),
        prentice(left, Eye.LEFT, float(-wider.left), float(higher.left)),
    )


def _mm_trust(case: Case, direction: str) -> Trust:
    """How far the pair's error in mm can be trusted: two readings with the rule, or one."""
    doubt = case.doubt
    if direction == "horizontal" and pair_distance_found(case) is not None:
        return doubt.measured(case.now.pair.distance_pd, "step-rule")
    layouts = [case.now.pair.eye(eye) for eye in Eye]
    read = [
        layout.distance_pd if direction == "horizontal" else layout.height for layout in layouts
    ]
    right, left = (doubt.measured(values, "step-rule") for values in read)
    return together([right, left if direction == "horizontal" else left.turned()])
