"""A number of the frame or of its seat against what is usual: two sides may agree and err.

Two temples splayed alike, or two lenses standing off alike, differ by nothing. Each is also
held against a wide range, therefore, that hardly any pair on sale leaves.
"""

from collections.abc import Mapping
from decimal import Decimal

from benchassist.limits.rule import Limit
from benchassist.optics.eye import Eye
from benchassist.verdicts.bench_limits import LOOK_AGAIN, bench_finding, bench_limit
from benchassist.verdicts.case import Case
from benchassist.verdicts.exact import ZERO
from benchassist.verdicts.finding import Finding
from benchassist.verdicts.weigh import Subject, Value
from benchassist.verdicts.words import degrees, millimetres, size_beside

MIDDLES: Mapping[str, Decimal] = {
    "open-angle-usual": Decimal("92.5"),
    "tilt-usual": Decimal(10),
    "form-usual": Decimal(5),
    "vertex-usual": Decimal(13),
    "fold-level": ZERO,
}
"""The middle of each usual range, degrees or mm, by the row of its limits, in which the sources
of the figures stand."""


def each_side(eye: Eye, name: str, what: str) -> Subject:
    """What is judged of one side of a check of the bench, beside the pair of both."""
    return Subject(f"bench.{name}.{eye}", f"bench.{name}", what, eye)


def usual_finding(
    case: Case, subject: Subject, row: str, measured: Decimal, known: str = ""
) -> Finding:
    """A number against the range that is usual, by how far it lies from the middle.

    Args:
        case: the job and its limits.
        subject: what is judged; its `what` opens the sentence.
        row: the row of the bench limits, one of `MIDDLES`.
        measured: the number, degrees or mm.
        known: how well it is known, such as ' ± 0.3°'; may be empty.
    """
    limit, guard = bench_limit(case, row)
    middle = MIDDLES[row]
    off = measured - middle
    reach = limit.value - guard
    opening = f"{subject.what} {_written(measured, limit)}{known}, usual"
    usual = f"{_written(middle - reach, limit)} to {_written(middle + reach, limit)}"
    value = Value(found=measured, difference=off, doubt=LOOK_AGAIN)
    said = f"{opening} {usual}"
    if abs(off) > reach:
        way = "above" if off > 0 else "below"
        said += f", {size_beside(off, limit.value, limit.unit)} {way} the middle of that"
    return bench_finding(case, subject, row, value, said)


def _written(value: Decimal, limit: Limit) -> str:
    return millimetres(value) if limit.unit == "mm" else degrees(value)
