"""House rules: what a workshop tightens or does not judge, laid over the rule sets.

A figure above that of the table is refused. The errors of the lens meter cannot be changed
here: less of them would pass more lenses. How the rules are written down is in
`limits.house_file`.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from decimal import Decimal

from benchassist.limits.reading import METER_KIND, LimitsFile
from benchassist.limits.rule import Evidence, Rule
from benchassist.limits.table import Band, Row, Span

_WHOLE = Decimal(100)


@dataclass(frozen=True, slots=True)
class HouseRule:
    """One row, or one cell of it, tightened or not judged.

    Without `limit` and `percent` the row is not judged.

    Attributes:
        rule_set: id of a rule set, or 'bench'.
        row: id of the row, as printed with each verdict.
        reason: why the workshop wants it so.
        spans: edges of the one cell that is meant, exactly as the table has them; none for all.
        limit: the figure instead of the table's; never above it.
        unit: the unit of `limit`.
        percent: share of what the table allows, also where that grows with the power.
    """

    rule_set: str
    row: str
    reason: str
    spans: frozenset[Span] = frozenset()
    limit: Decimal | None = None
    unit: str = ""
    percent: Decimal | None = None

    @property
    def is_off(self) -> bool:
        """Whether the row is not judged."""
        return self.limit is None and self.percent is None


@dataclass(frozen=True, slots=True)
class HouseRules:
    """The rules of one workshop, in the order in which they are laid over the tables."""

    workshop: str = ""
    rules: tuple[HouseRule, ...] = ()

    @property
    def words(self) -> str:
        """By whose rule, as verdicts and records say it."""
        return f"house rule of {self.workshop}"

    @property
    def opening(self) -> str:
        """The same at the beginning of a sentence."""
        return f"House rule of {self.workshop}"


class HouseRuleError(Exception):
    """A house rule that cannot be used; its text goes on from 'This rule ...'.

    Attributes:
        rule: the rule that is meant.
    """

    def __init__(self, words: str, rule: HouseRule) -> None:
        super().__init__(words)
        self.rule = rule


def with_house_rules(
    files: Mapping[str, LimitsFile], house: HouseRules
) -> dict[str, LimitsFile]:
    """The files of limits with the house rules laid over them: all of these, or none.

    Raises:
        HouseRuleError: a rule names what does not exist, or would loosen a limit.
    """
    result = dict(files)
    for rule in house.rules:
        file = _file(result, rule)
        result[file.id] = _laid_over(file, rule, house)
    return result


def _file(files: Mapping[str, LimitsFile], rule: HouseRule) -> LimitsFile:
    file = files.get(rule.rule_set)
    if file is None:
        known = ", ".join(name for name, file in files.items() if file.kind != METER_KIND)
        raise HouseRuleError(
            f"names the rule set {rule.rule_set}, which is not installed; there are {known}",
            rule,
        )
    if file.kind == METER_KIND:
        raise HouseRuleError(
            "would change the errors of the lens meter, which is no limit: its daily check "
            "can lessen them",
            rule,
        )
    return file


def _laid_over(file: LimitsFile, rule: HouseRule, house: HouseRules) -> LimitsFile:
    """The file with one of its rows tightened or switched off."""
    row = file.row(rule.row)
    if row is None:
        raise HouseRuleError(
            f"names the row {rule.row}, which {file.title} does not have", rule
        )
    changed = _off(row, rule, house) if rule.is_off else _tightened(row, rule, house)
    rows = tuple(changed if one is row else one for one in file.rows)
    title = file.title
    if house.words not in title:
        title = f"{title}, with {house.words}"
    return replace(file, title=title, rows=rows)


def _off(row: Row, rule: HouseRule, house: HouseRules) -> Row:
    words = f"not judged by {house.words}: {_reason(rule)}"
    bands = (replace(band, rule=replace(band.rule, off=words)) for band in row.bands)
    return replace(row, bands=tuple(bands))


def _tightened(row: Row, rule: HouseRule, house: HouseRules) -> Row:
    chosen = [band for band in row.bands if band.base is not None and _is_meant(band, rule)]
    if not chosen:
        raise HouseRuleError(f"on row {row.id} fits none of its cells", rule)
    bands = (_band(row, band, rule, house) if band in chosen else band for band in row.bands)
    return replace(row, bands=tuple(bands))


def _is_meant(band: Band, rule: HouseRule) -> bool:
    """Whether a cell has the edges, and the unit, that the house rule names."""
    if rule.spans and rule.spans != set(band.spans):
        return False
    return rule.limit is None or band.unit == rule.unit


def _band(row: Row, band: Band, rule: HouseRule, house: HouseRules) -> Band:
    base = band.base or Decimal(0)
    if rule.percent is not None:
        if rule.percent > _WHOLE:
            raise HouseRuleError(
                f"would loosen row {row.id} ({band.rule.title}) to {rule.percent} % of what "
                "it allows",
                rule,
            )
        share = rule.percent / _WHOLE
        new = replace(band, base=base * share, per=band.per * share)
        said = f"{rule.percent.normalize():f} % of what the table allows"
    else:
        limit = rule.limit or Decimal(0)
        if band.of:
            raise HouseRuleError(
                f"on row {row.id} ({band.rule.title}) needs a share in per cent: that limit "
                f"grows with the {band.of}",
                rule,
            )
        if limit > base:
            raise HouseRuleError(
                f"would loosen row {row.id} ({band.rule.title}) from {base} {band.unit} to "
                f"{limit} {band.unit}",
                rule,
            )
        new = replace(band, base=limit)
        said = f"{limit} {band.unit} instead of {base} {band.unit}"
    return replace(
        new, good=_good(new), rule=_rule(new, house, f"{said}, because {_reason(rule)}")
    )


def _good(band: Band) -> Decimal | None:
    """What is good without question is never above the limit."""
    if band.good is None or band.base is None:
        return None
    return min(band.good, band.base)


def _rule(band: Band, house: HouseRules, said: str) -> Rule:
    rule, words = band.rule, house.words
    note = f"{house.opening}: {said}."
    return replace(
        rule,
        title=f"{rule.title} ({words})",
        edition=f"{house.opening}, on {rule.edition}",
        evidence=Evidence.HOUSE,
        note=" ".join(part for part in (note, rule.note) if part),
    )


def _reason(rule: HouseRule) -> str:
    return rule.reason.rstrip(".")
