"""The rule sets on offer, and the limits by which one job is judged."""

from dataclasses import dataclass, replace
from decimal import Decimal
from pathlib import Path

from benchassist.assets import asset
from benchassist.limits.house import HouseRuleError, with_house_rules
from benchassist.limits.house_file import place_in_file, read_house_rules, unusable
from benchassist.limits.reading import METER_KIND, LimitsFile, read_limits_file
from benchassist.limits.rule import Evidence, Rule
from benchassist.limits.table import Row, Table
from benchassist.wrong import BenchError

_SPECTACLES = "finished spectacles"


@dataclass(frozen=True, slots=True)
class Decision:
    """How a reading's own uncertainty enters the verdict.

    Attributes:
        guard_factor: how many standard uncertainties a reading must keep from the limit to
            count as within; 0 is plain acceptance, where only the limit itself decides. 1.645
            accepts at most 5 % of lenses that lie on the limit. Source: the guarded
            acceptance of JCGM 106:2012, from memory; the figure as read in laboratory
            statements after ILAC-G8:09/2019.
    """

    guard_factor: Decimal = Decimal("1.645")

    @property
    def title(self) -> str:
        """The rule in words, for screen and record."""
        if not self.guard_factor:
            return (
                "plain acceptance: a reading on the limit is within, its uncertainty left out"
            )
        return (
            f"guarded acceptance: within only from {self.guard_factor} standard uncertainties "
            "inside the limit, nearer to it is read again"
        )


PLAIN_ACCEPTANCE = Decision(Decimal(0))
"""Only the limit decides; a reading's uncertainty is left out."""


@dataclass(frozen=True, slots=True)
class RuleSet:
    """A set of limits for finished spectacles, as the order page offers it.

    Attributes:
        id: the name that an order carries.
        title: what people see.
        edition: the standard and its edition.
        caution: what to know before relying on it.
        evidence: how its rows are known, such as '12 rows read, 9 from memory'.
        notes: requirements that a person judges; each rule's note is its text.
    """

    id: str
    title: str
    edition: str
    caution: str
    evidence: str
    notes: tuple[Rule, ...]


@dataclass(frozen=True, slots=True)
class Limits:
    """All limits by which one job is judged.

    Attributes:
        rule_set: the rule set that the order names.
        rules: its rows.
        bench: proposed limits of the frame on the bench and on the face.
        meter: errors and reading steps of the lens meter and the tools.
        decision: how a reading's uncertainty enters.
    """

    rule_set: RuleSet
    rules: Table
    bench: Table
    meter: Table
    decision: Decision = Decision()


def load_limits(
    rule_set_id: str,
    decision: Decision | None = None,
    folder: Path | None = None,
    house: Path | None = None,
) -> Limits:
    """The limits for a job that names this rule set.

    Args:
        rule_set_id: as in `Order.rule_set`.
        decision: how uncertainty enters; guarded with 1.645 when not given.
        folder: where the files are; the installed resources when not given.
        house: file of the workshop's house rules, see `limits.house`; there need be none.

    Raises:
        BenchError: no such rule set, or a file of limits that cannot be used, or house rules
            of which one would loosen a limit.
    """
    files = _whole_files(folder or asset("limits"))
    if house is not None:
        files = _with_house(files, house)
    asked = files.get(rule_set_id)
    if asked is None or asked.kind != _SPECTACLES:
        known = ", ".join(file.id for file in files.values() if file.kind == _SPECTACLES)
        raise BenchError(
            f"The order names the rule set '{rule_set_id}', which is not installed here. "
            f"Installed are: {known}."
        )
    return Limits(
        rule_set=_rule_set(asked),
        rules=Table(asked.rows),
        bench=Table(_needed(files, "bench").rows),
        meter=Table(_needed(files, "lens-meter").rows),
        decision=decision or Decision(),
    )


def _with_house(files: dict[str, LimitsFile], path: Path) -> dict[str, LimitsFile]:
    house = read_house_rules(path)
    try:
        return with_house_rules(files, house)
    except HouseRuleError as error:
        raise unusable(path, f"{place_in_file(house, error.rule)} {error}") from error


def lens_meter(folder: Path | None = None) -> LimitsFile:
    """What a lens meter may be off, and in which steps it and the bench tools are read.

    Args:
        folder: where the files of limits are; the installed resources when not given.

    Raises:
        BenchError: the file cannot be used; names file and row.
    """
    return read_limits_file((folder or asset("limits")) / "lens-meter.toml")


def tightenable(folder: Path | None = None) -> dict[str, LimitsFile]:
    """The files of limits, by id, that a workshop's house rules may tighten.

    Raises:
        BenchError: a file of limits cannot be used; names file and row.
    """
    files = _whole_files(folder or asset("limits"))
    return {name: file for name, file in files.items() if file.kind != METER_KIND}


def rule_sets(folder: Path | None = None) -> tuple[RuleSet, ...]:
    """The rule sets for finished spectacles, by title.

    Raises:
        BenchError: a file of limits cannot be used; names file and row.
    """
    files = _whole_files(folder or asset("limits")).values()
    sets = (_rule_set(file) for file in files if file.kind == _SPECTACLES)
    return tuple(sorted(sets, key=lambda rule_set: rule_set.title))


def _whole_files(place: Path) -> dict[str, LimitsFile]:
    """Every file of limits by its id, with the rows it takes over from another."""
    read = (read_limits_file(path) for path in sorted(place.glob("*.toml")))
    files = {limits.id: limits for limits in read}
    return {name: _with_inherited(file, files) for name, file in files.items()}


def _needed(files: dict[str, LimitsFile], name: str) -> LimitsFile:
    if name not in files:
        raise BenchError(
            f"The limits file {name}.toml is missing: the installation is damaged. "
            "Install Benchassist again; the jobs are kept in another place and are safe."
        )
    return files[name]


def _with_inherited(file: LimitsFile, files: dict[str, LimitsFile]) -> LimitsFile:
    """The file with the rows it takes over; its own rows replace those of the same id."""
    if not file.inherits:
        return file
    parent = files.get(file.inherits)
    if parent is None or parent.inherits:
        raise BenchError(
            f"The limits file {file.id}.toml cannot be used: it takes over "
            f"'{file.inherits}', which is no complete rule set."
        )
    own = {row.id for row in file.rows}
    taken = tuple(_taken_row(row, file) for row in parent.rows if row.id not in own)
    notes = tuple(_taken_rule(rule, file) for rule in parent.notes)
    return replace(file, rows=(*file.rows, *taken), notes=(*file.notes, *notes))


def _taken_row(row: Row, file: LimitsFile) -> Row:
    bands = tuple(replace(band, rule=_taken_rule(band.rule, file)) for band in row.bands)
    return replace(row, bands=bands)


def _taken_rule(rule: Rule, file: LimitsFile) -> Rule:
    return replace(
        rule,
        rule_set=file.id,
        edition=file.edition,
        evidence=file.inherited_evidence or rule.evidence,
        note=" ".join(part for part in (file.inherited_note, rule.note) if part),
    )


def _rule_set(file: LimitsFile) -> RuleSet:
    return RuleSet(
        id=file.id,
        title=file.title,
        edition=file.edition,
        caution=file.caution,
        evidence=_evidence_summary(file.rows),
        notes=file.notes,
    )


_WORDS = {
    Evidence.READ: "read",
    Evidence.CARRIED: "carried over from another edition",
    Evidence.MEMORY: "from memory",
    Evidence.PROPOSED: "proposed",
    Evidence.PRACTICE: "from common practice",
    Evidence.HOUSE: "tightened by the house",
}


def _evidence_summary(rows: tuple[Row, ...]) -> str:
    """How many rows are known in which way; a row counts by its weakest band."""
    strength = list(_WORDS)
    weakest = [
        max((band.rule.evidence for band in row.bands), key=strength.index) for row in rows
    ]
    counted = ((weakest.count(evidence), words) for evidence, words in _WORDS.items())
    return "Rows: " + ", ".join(f"{count} {words}" for count, words in counted if count)
