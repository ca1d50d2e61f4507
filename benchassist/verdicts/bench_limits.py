"""A number of the frame beside its proposed limit: good, to be looked at again, put right."""

from dataclasses import replace
from decimal import Decimal

from benchassist.limits.rule import Limit
from benchassist.verdicts.case import Case
from benchassist.verdicts.exact import ZERO
from benchassist.verdicts.finding import Finding
from benchassist.verdicts.weigh import READING_DECIDES, Subject, Value

LOOK_AGAIN = "not good and not yet to be put right: look again"


def bench_finding(case: Case, subject: Subject, name: str, value: Value, said: str) -> Finding:
    """The finding by a proposed bench limit: between good and put right, look again.

    Args:
        case: the job and its limits.
        subject: what is judged.
        name: the row of the bench limits.
        value: the numbers; its difference is judged.
        said: the sentence up to the limit.
    """
    limit, guard = bench_limit(case, name)
    doubt = LOOK_AGAIN if value.doubt == READING_DECIDES else value.doubt
    told = replace(value, unit=limit.unit, doubt=doubt)
    return subject.judged(told, limit, guard, said)


def bench_limit(case: Case, name: str) -> tuple[Limit, Decimal]:
    """A proposed limit (where it is put right) and the width from there down to good.

    Raises:
        LookupError: the bench limits have no such row.
    """
    row = case.limits.bench.row(name)
    limit = row.bands[0].limit({}) if row else None
    if row is None or limit is None:
        raise LookupError(f"the bench limits have no row {name}")
    good = row.bands[0].good
    return limit, ZERO if good is None else limit.value - good
