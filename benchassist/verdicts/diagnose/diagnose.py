"""The common slips that would explain what is outside: questions to ask, never a cause."""

from collections.abc import Iterable, Sequence

from benchassist.job.document import Job
from benchassist.limits.load import Limits
from benchassist.optics.eye import Eye
from benchassist.verdicts.diagnose.lens import QUANTITIES, Quantity
from benchassist.verdicts.diagnose.sight import Sight, sight_of
from benchassist.verdicts.diagnose.slip import PAIR
from benchassist.verdicts.diagnose.slips import SLIPS
from benchassist.verdicts.diagnose.suspicion import (
    Fit,
    Signature,
    Suspicion,
    scope_of,
    suspicion_of,
)
from benchassist.verdicts.diagnose.trial import changes_of, explained, may_explain
from benchassist.verdicts.finding import Finding

NOTHING_FITS = (
    "No common slip would give these readings. Read them again, then judge the lenses as they "
    "are."
)
"""What is said of findings outside that no suspicion explains."""

_LENS_BY_LENS: frozenset[Quantity] = frozenset({"power", "add", "engraved"})
"""Quantities that are judged on each lens by itself."""


def diagnose(job: Job, limits: Limits, findings: tuple[Finding, ...]) -> tuple[Suspicion, ...]:
    """Every common slip that fits what was read, pair rules first and then the simplest.

    A slip is offered only for a reading outside, when the reading is within the limits of the
    lens that the slip gives and that lens is outside those of the order, by plain acceptance.
    Slips that give the same lens are named together. None is a reason to accept a lens, and
    `findings` stay as they are. Own rule and own collection of slips; how
    often orders go wrong by which of them was asked of laboratories by Pacific University,
    'Enhancing communication between optometrist and the optical lab' (1992),
    https://commons.pacificu.edu/work/sc/46c6c610-783a-4ace-b9be-4ffa0a965274

    Args:
        job: order and readings.
        limits: the limits by which it was judged.
        findings: what judging it gave.
    """
    sight = sight_of(job, limits, findings)
    if not any(_diagnosable(sight)):
        return ()
    groups = _joined(_grouped(_fitting(sight)))
    suspicions = map(suspicion_of, groups.values())
    return tuple(sorted(suspicions, key=_place))


def unexplained(
    job: Job, limits: Limits, findings: tuple[Finding, ...], suspicions: Sequence[Suspicion]
) -> tuple[str, ...]:
    """Keys of the findings outside that slips are looked for and no suspicion explains.

    Where there are some, `NOTHING_FITS` is to be said of them.
    """
    explains = {key for suspicion in suspicions for key in suspicion.explains}
    keys = _diagnosable(sight_of(job, limits, findings))
    return tuple(key for key in dict.fromkeys(keys) if key not in explains)


def _diagnosable(sight: Sight) -> Iterable[str]:
    """Keys of the findings outside of which slips may speak."""
    for eye in Eye:
        for quantity in QUANTITIES:
            yield from sight.outside(quantity, eye)


def _place(suspicion: Suspicion) -> tuple[bool, bool, int, str]:
    of_pair = SLIPS[suspicion.rank].scope == PAIR
    return not of_pair, suspicion.scope != PAIR, suspicion.rank, suspicion.reading_would_be


def _fitting(sight: Sight) -> Iterable[Fit]:
    known: dict[Signature, tuple[str, ...]] = {}
    for rank, slip in enumerate(SLIPS):
        for prediction in slip.predict(sight):
            changes = changes_of(sight, prediction.pair)
            if not may_explain(sight, changes):
                continue
            if changes not in known:
                known[changes] = explained(sight, prediction.pair, changes)
            if known[changes]:
                yield Fit(slip, rank, (prediction.detail,), changes, known[changes])


def _grouped(found: Iterable[Fit]) -> dict[Signature, list[Fit]]:
    """Slips by the lens that they give."""
    groups: dict[Signature, list[Fit]] = {}
    for fit in found:
        groups.setdefault(fit.signature, []).append(fit)
    return groups


def _joined(groups: dict[Signature, list[Fit]]) -> dict[Signature, list[Fit]]:
    """The same groups, with a slip that fits each lens by itself told once for the pair."""
    joined = {signature: list(group) for signature, group in groups.items()}
    right, left = (_on_one_lens(groups, eye) for eye in Eye)
    for slip in right.keys() & left.keys():
        fit = _of_both(right[slip], left[slip])
        joined.setdefault(fit.signature, []).append(fit)
    of_pair = {
        fit.slip.id
        for signature, group in joined.items()
        for fit in group
        if scope_of(signature) == PAIR
    }
    for signature, group in joined.items():
        if scope_of(signature) != PAIR:
            group[:] = [fit for fit in group if fit.slip.id not in of_pair]
    return {signature: group for signature, group in joined.items() if group}


def _on_one_lens(groups: dict[Signature, list[Fit]], eye: Eye) -> dict[str, Fit]:
    """The slips that explain one lens by itself, each with the first lens that it gives."""
    return {
        fit.slip.id: fit
        for signature, group in reversed(groups.items())
        if scope_of(signature) is eye and _is_lens_by_lens(signature)
        for fit in reversed(group)
    }


def _is_lens_by_lens(signature: Signature) -> bool:
    return all(quantity in _LENS_BY_LENS for _, quantity, _ in signature)


def _of_both(right: Fit, left: Fit) -> Fit:
    return Fit(
        right.slip,
        right.rank,
        ("in both lenses", *right.details, *left.details),
        (*right.signature, *left.signature),
        (*right.explains, *left.explains),
    )
