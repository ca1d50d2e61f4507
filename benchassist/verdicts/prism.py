"""Prism at the reference points: the imbalance of the pair, and each lens for information."""

from collections.abc import Callable
from decimal import Decimal

from benchassist.optics.centration import thinning_prism
from benchassist.optics.eye import Eye
from benchassist.verdicts.case import Case, no_limit
from benchassist.verdicts.exact import ZERO, ExactPrism, MinusForm
from benchassist.verdicts.finding import Finding
from benchassist.verdicts.imbalance import (
    Imbalance,
    Sides,
    displacement,
    judge_imbalance,
    mm_per_prism,
)
from benchassist.verdicts.trust import Trust, together
from benchassist.verdicts.weigh import Subject, compared
from benchassist.verdicts.words import (
    PRISM,
    horizontal_prism,
    limit_size,
    plain,
    prism_amount,
    shows,
    vertical_imbalance,
    vertical_prism,
)


def judge_prisms(case: Case) -> tuple[Finding, ...]:
    """The findings on prism read at the prism reference points."""
    single = [finding for eye in Eye for finding in _one_lens(case, eye)]
    return (*single, _pair(case, "horizontal"), _pair(case, "vertical"))


def _one_lens(case: Case, eye: Eye) -> tuple[Finding, ...]:
    """Each component against the rule for one unmounted lens, where there is one."""
    row, found = case.row("lens-prism"), case.prism_found(eye)
    if row is None or found is None:
        return ()
    ordered = case.prism_to_find(eye)
    bounds = [limit_size(band.base, band.unit) for band in row.bands if band.base is not None]
    parts: tuple[tuple[str, Decimal, Decimal, Callable[[Decimal], str]], ...] = (
        ("horizontal", found.base_in, ordered.base_in, horizontal_prism),
        ("vertical", found.base_up, ordered.base_up, vertical_prism),
    )
    findings = []
    for direction, read, wanted, words in parts:
        subject = Subject(
            f"{eye}.prism-{direction}", f"{eye}.prism", f"{direction.capitalize()} prism", eye
        )
        sentence = (
            f"{subject.what} {words(read)} found, {words(wanted)} ordered; one unmounted lens "
            f"may be off by {' or '.join(bounds)}, the mounted pair is judged together."
        )
        value = compared(read, wanted, row.bands[0].unit)
        findings.append(subject.none(sentence, value, row.bands[0].rule))
    return tuple(findings)


def _pair(case: Case, direction: str) -> Finding:
    subject = Subject(
        f"pair.prism-{direction}",
        f"{_prompt_eye(case)}.prism",
        f"{direction.capitalize()} prism imbalance",
    )
    right, left = case.prism_found(Eye.RIGHT), case.prism_found(Eye.LEFT)
    if right is None or left is None:
        unread = "both lenses" if right is left else "the other lens"
        so_far = _so_far(case, direction)
        return subject.missing(f"{subject.what}: prism not read yet on {unread}.{so_far}")
    lenses = lenses_to_find(case)
    if lenses is None or case.design is None:
        return subject.missing(f"{subject.what}: order both powers and the design first.")
    row = case.row(f"prism-{direction}")
    imbalance = _imbalance(case, direction, (right, left), lenses)
    if row is None:
        return subject.none(f"{imbalance.opening}; {no_limit(case)}.")
    return judge_imbalance(subject, row, imbalance)


def _so_far(case: Case, direction: str) -> str:
    """The one lens that is read beside its order, while the pair cannot be judged."""
    words = horizontal_prism if direction == "horizontal" else vertical_prism
    for eye in Eye:
        found = case.prism_found(eye)
        if found is not None:
            read, wanted = (
                prism.base_in if direction == "horizontal" else prism.base_up
                for prism in (found, case.prism_to_find(eye))
            )
            return f" The {eye} one has {words(read)}, {words(wanted)} ordered."
    return ""


def _prompt_eye(case: Case) -> Eye:
    """The lens still to be read, or the one read last."""
    return Eye.RIGHT if case.prism_found(Eye.RIGHT) is None else Eye.LEFT


def lenses_to_find(case: Case) -> tuple[MinusForm, MinusForm] | None:
    """The powers that both lenses must show, right and left; None while one is not ordered."""
    right, left = (case.power_to_find(eye)[0] for eye in Eye)
    return None if right is None or left is None else (right, left)


def powers_along(lenses: tuple[MinusForm, MinusForm], direction: str) -> Sides:
    """The powers of both lenses in the meridian of this direction, D."""
    right, left = lenses
    if direction == "horizontal":
        return Sides(right.horizontal(), left.horizontal())
    return Sides(right.vertical(), left.vertical())


def prism_ordered(case: Case, direction: str) -> Decimal:
    """The larger ordered component of the two lenses in this direction, prism dioptres."""
    pair = tuple(case.prism_to_find(eye) for eye in Eye)
    return Sides(*_components(pair, direction)).largest


def _imbalance(
    case: Case,
    direction: str,
    found: tuple[ExactPrism, ExactPrism],
    lenses: tuple[MinusForm, MinusForm],
) -> Imbalance:
    """The imbalance in prism, and in mm by each lens's own power; the stronger is looked up."""
    ordered = tuple(case.prism_to_find(eye) for eye in Eye)
    wanted, read = (Sides(*_components(pair, direction)) for pair in (ordered, found))
    left_over = Sides(read.right - wanted.right, read.left - wanted.left)
    net = _net(direction)
    powers = powers_along(lenses, direction)
    alone = left_over if direction == "horizontal" else without_thinning(left_over)
    moved, thinning = _moved(alone, powers), _thinning(case, direction, left_over)
    return Imbalance(
        ordered=net(wanted),
        found=net(read),
        per_lens=alone,
        powers=powers,
        prism_ordered=wanted.largest,
        total_mm=abs(net(moved)) if moved else None,
        each_mm=moved.largest if moved else None,
        in_prism=_trust(case, direction, None),
        in_mm=_trust(case, direction, powers),
        opening=_opening(direction, net(read), net(wanted)) + thinning,
        excess=excess(direction, net(left_over)),
        is_told=bool(thinning),
    )


def without_thinning(left_over: Sides) -> Sides:
    """What is left of each vertical prism without what both lenses have alike."""
    common = _common(left_over)
    return Sides(left_over.right - common, left_over.left - common)


def _common(left_over: Sides) -> Decimal:
    """The vertical prism that both lenses have alike, base up positive."""
    if left_over.right * left_over.left <= 0:
        return ZERO
    return min(left_over.right, left_over.left, key=abs)


def _moved(left_over: Sides, powers: Sides) -> Sides | None:
    """How far each centre is off, mm, inwards or upwards; None where one cannot be told."""
    right = displacement(left_over.right, powers.right)
    left = displacement(left_over.left, powers.left)
    if right is None or left is None:
        return None
    return Sides(
        right.copy_sign(left_over.right * powers.right),
        left.copy_sign(left_over.left * powers.left),
    )


def _trust(case: Case, direction: str, powers: Sides | None) -> Trust:
    """The trust in the net prism, or with powers in the net displacement, mm."""
    right, left = (_lens_trust(case, eye, direction) for eye in Eye)
    if powers is not None:
        right, left = _in_mm(right, powers.right), _in_mm(left, powers.left)
    return together([right, left if direction == "horizontal" else left.turned()])


def _in_mm(trust: Trust, power: Decimal) -> Trust:
    scaled = trust.scaled(mm_per_prism(abs(power)))
    return scaled.turned() if power < 0 else scaled


def _components(pair: tuple[ExactPrism, ...], direction: str) -> tuple[Decimal, Decimal]:
    right, left = pair
    if direction == "horizontal":
        return right.base_in, left.base_in
    return right.base_up, left.base_up


def _net(direction: str) -> Callable[[Sides], Decimal]:
    """How two lenses add up: base in with base in, base up against base up."""
    if direction == "horizontal":
        return lambda sides: sides.right + sides.left
    return lambda sides: sides.right - sides.left


def _lens_trust(case: Case, eye: Eye, direction: str) -> Trust:
    doubt = case.doubt
    readings = case.prism_readings(eye)
    values = [read.base_in if direction == "horizontal" else read.base_up for read in readings]
    return doubt.prism(values, reticle=case.on_reticle(eye))


def _opening(direction: str, found: Decimal, ordered: Decimal) -> str:
    words = horizontal_prism if direction == "horizontal" else vertical_imbalance
    return f"{direction.capitalize()} imbalance {words(found)} found, {words(ordered)} ordered"


def _thinning(case: Case, direction: str, left_over: Sides) -> str:
    """What is said of vertical prism that both lenses have alike and nobody ordered.

    Base down on lenses of varying power it is taken for prism thinning.
    """
    common = _common(left_over)
    if direction == "horizontal" or not shows(common, PRISM):
        return ""
    alike = f"{plain(common)} Δ {'base up' if common > 0 else 'base down'} in both lenses"
    if common > 0 or case.design is None or not case.design.varies:
        return f" ({alike} cancels; nobody ordered it: ask the maker)"
    add = max(case.ordered(eye).add or ZERO for eye in Eye)
    customary = Decimal(thinning_prism(float(add)).base_up)
    usual = f", about {plain(customary)} Δ is usual for this addition" if add else ""
    return f" ({alike} cancels, as prism thinning does{usual})"


def excess(direction: str, left_over: Decimal) -> str:
    """What is left after the ordered prism, in words."""
    if not shows(left_over, PRISM):
        return "no difference"
    if direction == "horizontal":
        return f"{horizontal_prism(left_over)} too much"
    return f"{prism_amount(left_over)} apart"
