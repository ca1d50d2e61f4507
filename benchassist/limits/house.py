"""House rules: what a workshop tightens or does not judge, laid over the rule sets.

A TOML file in the data folder, usually `house-rules.toml`:

    workshop = "Fernhollow Spectacle Workshop"

    [[tighten]]                   # one cell, by its figure
    rule_set = "iso-21987-2017"   # id of a rule set, or "bench"
    row = "I3"                    # id of the row, as printed with each verdict
    when.cylinder = "> 0.75 <= 1.50"    # the cell, exactly as the table has it; left out: all
    limit = "3"
    unit = "°"
    reason = "axes are remade here from 3 degrees on"

    [[tighten]]                   # the whole row, also a limit that grows with the power
    rule_set = "iso-21987-2017"
    row = "I5-v"
    percent = "80"                # of what the table allows
    reason = "many wearers of strong lenses"

    [[off]]
    rule_set = "iso-21987-2017"
    row = "I9"
    reason = "no calliper at this bench"

A figure above that of the table is refused. The errors of the lens meter cannot be changed
here: less of them would pass more lenses.
"""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, replace
from decimal import Decimal, InvalidOperation
from pathlib import Path
from typing import Any, Final

from benchassist.limits.reading import LimitsFile, read_span
from benchassist.limits.rule import Evidence, Rule
from benchassist.limits.table import Band, Row
from benchassist.wrong import BenchError

HOUSE_FILE = "house-rules.toml"
"""The usual name of the file, in the folder of the jobs."""

_METER = "lens meter"
_TIGHTEN: Final = frozenset({"rule_set", "row", "when", "limit", "unit", "percent", "reason"})
_OFF: Final = frozenset({"rule_set", "row", "reason"})
_WHOLE = Decimal(100)


class _BadRuleError(Exception):
    """What is wrong with a house rule, in words."""


@dataclass(frozen=True, slots=True)
class _House:
    """What all house rules of a file share."""

    name: str

    @property
    def words(self) -> str:
        """By whose rule, as verdicts and records say it."""
        return f"house rule of {self.name}"

    @property
    def opening(self) -> str:
        """The same at the beginning of a sentence."""
        return f"House rule of {self.name}"


def with_house_rules(files: Mapping[str, LimitsFile], path: Path) -> dict[str, LimitsFile]:
    """The files of limits with the house rules laid over them: all of these, or none.

    Raises:
        BenchError: the file cannot be read, a rule is not whole or names what does not exist,
            or it would loosen a limit; names rule, row and figures.
    """
    try:
        raw = tomllib.loads(path.read_text(encoding="utf-8"))
    except (OSError, UnicodeDecodeError, tomllib.TOMLDecodeError) as error:
        raise BenchError(f"The house rules in {path} cannot be read: {error}.") from error
    result, where = dict(files), "the head"
    try:
        house = _House(_text(raw, "workshop"))
        _refuse_unknown(raw, frozenset({"workshop", "tighten", "off"}))
        for kind in ("tighten", "off"):
            for number, entry in enumerate(_list(raw, kind), start=1):
                where = f"{kind} number {number}"
                file = _file(result, entry)
                result[file.id] = _laid_over(file, entry, house, is_off=kind == "off")
    except _BadRuleError as error:
        raise BenchError(
            f"The house rules in {path} cannot be used: {where} {error}. "
            "None of them is in force."
        ) from error
    return result


def _laid_over(
    file: LimitsFile, entry: Mapping[str, Any], house: _House, *, is_off: bool
) -> LimitsFile:
    """The file with one of its rows tightened or switched off."""
    _refuse_unknown(entry, _OFF if is_off else _TIGHTEN)
    name, reason = _text(entry, "row"), _text(entry, "reason").rstrip(".")
    row = next((row for row in file.rows if row.id == name), None)
    if row is None:
        raise _BadRuleError(f"names the row {name}, which {file.title} does not have")
    changed = _off(row, house, reason) if is_off else _tightened(row, entry, house, reason)
    rows = tuple(changed if one is row else one for one in file.rows)
    title = file.title
    if house.words not in title:
        title = f"{title}, with {house.words}"
    return replace(file, title=title, rows=rows)


def _off(row: Row, house: _House, reason: str) -> Row:
    words = f"not judged by {house.words}: {reason}"
    return _with_bands(
        row, [replace(band, rule=replace(band.rule, off=words)) for band in row.bands]
    )


def _with_bands(row: Row, bands: list[Band]) -> Row:
    return replace(row, bands=tuple(bands))


def _tightened(row: Row, entry: Mapping[str, Any], house: _House, reason: str) -> Row:
    if ("limit" in entry) == ("percent" in entry):
        raise _BadRuleError(f"on row {row.id} needs either 'limit' or 'percent'")
    chosen = [band for band in row.bands if band.base is not None and _is_meant(band, entry)]
    if not chosen:
        raise _BadRuleError(f"on row {row.id} fits none of its cells")
    return _with_bands(
        row,
        [
            _band(row, band, entry, house, reason) if band in chosen else band
            for band in row.bands
        ],
    )


def _is_meant(band: Band, entry: Mapping[str, Any]) -> bool:
    """Whether a cell has the edges, and the unit, that the house rule names."""
    when = entry.get("when", {})
    if not isinstance(when, dict):
        raise _BadRuleError("has 'when' not written as when.power, when.cylinder or the like")
    named = {read_span(of, str(edges)) for of, edges in when.items()}
    if when and named != set(band.spans):
        return False
    return "limit" not in entry or band.unit == entry.get("unit")


def _band(row: Row, band: Band, entry: Mapping[str, Any], house: _House, reason: str) -> Band:
    base = band.base or Decimal(0)
    if "percent" in entry:
        share = _figure(entry, "percent")
        if share > _WHOLE:
            raise _BadRuleError(
                f"would loosen row {row.id} ({band.rule.title}) to {share} % of what it allows"
            )
        new = replace(band, base=base * share / _WHOLE, per=band.per * share / _WHOLE)
        said = f"{share.normalize():f} % of what the table allows"
    else:
        limit = _figure(entry, "limit")
        if band.of:
            raise _BadRuleError(
                f"on row {row.id} ({band.rule.title}) must say 'percent': that limit grows "
                f"with the {band.of}"
            )
        if limit > base:
            raise _BadRuleError(
                f"would loosen row {row.id} ({band.rule.title}) from {base} {band.unit} to "
                f"{limit} {band.unit}"
            )
        new = replace(band, base=limit)
        said = f"{limit} {band.unit} instead of {base} {band.unit}"
    return replace(new, good=_good(new), rule=_rule(new, house, f"{said}, because {reason}"))


def _good(band: Band) -> Decimal | None:
    """What is good without question is never above the limit."""
    if band.good is None or band.base is None:
        return None
    return min(band.good, band.base)


def _rule(band: Band, house: _House, said: str) -> Rule:
    rule, words = band.rule, house.words
    note = f"{house.opening}: {said}."
    return replace(
        rule,
        title=f"{rule.title} ({words})",
        edition=f"{house.opening}, on {rule.edition}",
        evidence=Evidence.HOUSE,
        note=" ".join(part for part in (note, rule.note) if part),
    )


def _file(files: Mapping[str, LimitsFile], entry: Mapping[str, Any]) -> LimitsFile:
    name = _text(entry, "rule_set")
    file = files.get(name)
    if file is None:
        known = ", ".join(name for name, file in files.items() if file.kind != _METER)
        raise _BadRuleError(
            f"names the rule set {name}, which is not installed; there are {known}"
        )
    if file.kind == _METER:
        raise _BadRuleError(
            "would change the errors of the lens meter, which is no limit: its daily check "
            "can lessen them"
        )
    return file


def _list(raw: Mapping[str, Any], name: str) -> list[Mapping[str, Any]]:
    entries = raw.get(name, [])
    if not isinstance(entries, list) or not all(isinstance(one, dict) for one in entries):
        raise _BadRuleError(f"has '{name}' not written as [[{name}]]")
    return entries


def _refuse_unknown(entry: Mapping[str, Any], known: frozenset[str]) -> None:
    unknown = entry.keys() - known
    if unknown:
        raise _BadRuleError(f"has the unknown field {min(unknown)}")


def _text(entry: Mapping[str, Any], field: str) -> str:
    value = entry.get(field)
    if not isinstance(value, str) or not value.strip():
        raise _BadRuleError(f"has no {field}")
    return value.strip()


def _figure(entry: Mapping[str, Any], field: str) -> Decimal:
    written = entry[field]
    try:
        figure = Decimal(written) if isinstance(written, str) else None
    except InvalidOperation:
        figure = None
    if figure is None or not figure.is_finite() or figure < 0:
        raise _BadRuleError(f"needs '{field}' as a figure in quotes, not {written!r}")
    return figure
