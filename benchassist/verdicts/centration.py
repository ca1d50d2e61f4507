"""Where the lenses sit sideways: the centration distances of each lens and of the pair."""

from decimal import Decimal

from benchassist.optics.eye import Eye
from benchassist.verdicts.case import Case, no_limit
from benchassist.verdicts.exact import ZERO, mean
from benchassist.verdicts.finding import Finding
from benchassist.verdicts.weigh import Subject, compared, off_by
from benchassist.verdicts.words import millimetres


def judge_centration(case: Case) -> tuple[Finding, ...]:
    """The findings on centration distances."""
    lenses = [finding for eye in Eye for finding in _one_lens(case, eye)]
    return (*lenses, *_pair_distance(case))


def distance_found(case: Case, eye: Eye) -> Decimal | None:
    """The mean of the measured centration distances of one lens, mm."""
    read = case.now.pair.eye(eye).distance_pd
    return mean(read) if read else None


def pair_distance_found(case: Case) -> Decimal | None:
    """The mean distance between both optical centres, measured together, mm.

    None where it does not count: a lens that varies needs its own distance, and distances
    read of each lens go before it.
    """
    read = case.now.pair.distance_pd
    if not read or case.design is None or case.design.varies:
        return None
    each = [distance_found(case, eye) for eye in Eye]
    return mean(read) if None in each else None


def _one_lens(case: Case, eye: Eye) -> tuple[Finding, ...]:
    subject = Subject(f"{eye}.centration", "pair.distance-pd", "Centration distance", eye)
    ordered, found = case.ordered(eye).distance_pd, distance_found(case, eye)
    row = case.row("centration")
    if found is None or ordered is None:
        if case.design is None or not case.design.varies:
            return ()
        return (_waiting(case, subject, ordered),)
    value = compared(found, ordered, "mm")
    opening = f"{subject.what} {millimetres(found)} found, {millimetres(ordered)} ordered"
    limit = row.band({}).limit({}) if row else None
    if limit is None:
        return (subject.none(f"{opening}; {_judged_otherwise(case)}.", value),)
    trust = case.doubt.measured(case.now.pair.eye(eye).distance_pd, "step-rule")
    off = off_by(found - ordered, limit, "too wide", "too narrow")
    return (subject.weighed(value, limit, trust, f"{opening}: {off}"),)


def _judged_otherwise(case: Case) -> str:
    if case.design is None or case.design.varies:
        return no_limit(case)
    return "the pair is judged by the prism it causes"


def _waiting(case: Case, subject: Subject, ordered: Decimal | None) -> Finding:
    if ordered is None:
        return subject.missing(f"{subject.what}: none is ordered yet.")
    only_together = (
        f"; both lenses together are not enough, {case.lens} needs its own distance"
        if case.now.pair.distance_pd
        else ""
    )
    sentence = f"{subject.what} not read yet, {millimetres(ordered)} ordered{only_together}."
    return subject.missing(sentence, ordered, "mm")


def _pair_distance(case: Case) -> tuple[Finding, ...]:
    """Both distances together, for information: lens by lens or by prism is judged."""
    expected = case.order.pd
    total, how = _total(case)
    if expected is None or total is None:
        return ()
    value = compared(total, expected, "mm")
    subject = Subject("pair.centration", "pair.distance-pd", "Centration distance of the pair")
    varies = case.design is not None and case.design.varies
    judged = "each lens is judged by itself" if varies else _judged_otherwise(case)
    sentence = (
        f"{subject.what} {millimetres(total)} found{how}, {millimetres(expected)} ordered; "
        f"{judged}."
    )
    return (subject.none(sentence, value),)


def _total(case: Case) -> tuple[Decimal | None, str]:
    """The distance of the pair, mm, and how it was found where the lenses were not read."""
    found = [distance_found(case, eye) for eye in Eye]
    read = [distance for distance in found if distance is not None]
    if len(read) == len(found):
        return sum(read, ZERO), ""
    return pair_distance_found(case), ", measured for both lenses together"
