"""House rules as a TOML file in the data folder, usually `house-rules.toml`.

It is written so, by the window or by hand:

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
"""

from collections.abc import Mapping
from decimal import Decimal, InvalidOperation
from pathlib import Path
from typing import Any, Final

import tomli_w

from benchassist.assets import read_toml
from benchassist.limits.house import HouseRule, HouseRules
from benchassist.limits.reading import read_span, span_text
from benchassist.limits.table import Span
from benchassist.wrong import BenchError

HOUSE_FILE = "house-rules.toml"
"""The usual name of the file, in the folder of the jobs."""

_KINDS = ("tighten", "off")
_TIGHTEN: Final = frozenset({"rule_set", "row", "when", "limit", "unit", "percent", "reason"})
_OFF: Final = frozenset({"rule_set", "row", "reason"})


class _BadEntryError(Exception):
    """What is wrong with an entry, in words."""


def read_house_rules(path: Path) -> HouseRules:
    """The house rules in a file; none where there is no file.

    Raises:
        BenchError: the file cannot be read, or a rule is not whole.
    """
    if not path.exists():
        return HouseRules()
    raw = read_toml(path, f"The house rules in {path}")
    rules: list[HouseRule] = []
    where = "the head"
    try:
        workshop = _text(raw, "workshop")
        _refuse_unknown(raw, frozenset({"workshop", *_KINDS}))
        for kind in _KINDS:
            for number, entry in enumerate(_list(raw, kind), start=1):
                where = f"{kind} number {number}"
                rules.append(_off(entry) if kind == "off" else _tighten(entry))
    except _BadEntryError as error:
        raise unusable(path, f"{where} {error}") from error
    return HouseRules(workshop, tuple(rules))


def unusable(path: Path, words: str) -> BenchError:
    """The sentence about a file of house rules of which none can be used."""
    return BenchError(
        f"The house rules in {path} cannot be used: {words}. None of them is in force."
    )


def place_in_file(house: HouseRules, rule: HouseRule) -> str:
    """Where a rule stands in its file, in words."""
    same = [one for one in house.rules if one.is_off == rule.is_off]
    return f"{_KINDS[rule.is_off]} number {same.index(rule) + 1}"


def house_file_text(house: HouseRules) -> str:
    """The house rules as their file; reading it gives the same rules, those not judged last."""
    entries: dict[str, list[dict[str, Any]]] = {kind: [] for kind in _KINDS}
    for rule in house.rules:
        entries[_KINDS[rule.is_off]].append(_entry(rule))
    written = {kind: found for kind, found in entries.items() if found}
    return tomli_w.dumps({"workshop": house.workshop} | written)


def _entry(rule: HouseRule) -> dict[str, Any]:
    entry: dict[str, Any] = {"rule_set": rule.rule_set, "row": rule.row}
    if rule.spans:
        spans = sorted(rule.spans, key=lambda span: span.of)
        entry["when"] = {span.of: span_text(span) for span in spans}
    if rule.limit is not None:
        entry |= {"limit": str(rule.limit), "unit": rule.unit}
    if rule.percent is not None:
        entry["percent"] = str(rule.percent)
    return entry | {"reason": rule.reason}


def _off(entry: Mapping[str, Any]) -> HouseRule:
    _refuse_unknown(entry, _OFF)
    return HouseRule(_text(entry, "rule_set"), _text(entry, "row"), _text(entry, "reason"))


def _tighten(entry: Mapping[str, Any]) -> HouseRule:
    _refuse_unknown(entry, _TIGHTEN)
    row = _text(entry, "row")
    if ("limit" in entry) == ("percent" in entry):
        raise _BadEntryError(f"on row {row} needs either 'limit' or 'percent'")
    return HouseRule(
        rule_set=_text(entry, "rule_set"),
        row=row,
        reason=_text(entry, "reason"),
        spans=_spans(entry, row),
        limit=_figure(entry, "limit"),
        unit=_text(entry, "unit") if "limit" in entry else "",
        percent=_figure(entry, "percent"),
    )


def _spans(entry: Mapping[str, Any], row: str) -> frozenset[Span]:
    when = entry.get("when", {})
    if not isinstance(when, dict):
        raise _BadEntryError("has 'when' not written as when.power, when.cylinder or the like")
    spans = (read_span(of, str(edges)) for of, edges in when.items())
    known = frozenset(span for span in spans if span is not None)
    if len(known) < len(when):
        raise _BadEntryError(f"on row {row} fits none of its cells")
    return known


def _list(raw: Mapping[str, Any], name: str) -> list[Mapping[str, Any]]:
    entries = raw.get(name, [])
    if not isinstance(entries, list) or not all(isinstance(one, dict) for one in entries):
        raise _BadEntryError(f"has '{name}' not written as [[{name}]]")
    return entries


def _refuse_unknown(entry: Mapping[str, Any], known: frozenset[str]) -> None:
    unknown = entry.keys() - known
    if unknown:
        raise _BadEntryError(f"has the unknown field {min(unknown)}")


def _text(entry: Mapping[str, Any], field: str) -> str:
    value = entry.get(field)
    if not isinstance(value, str) or not value.strip():
        raise _BadEntryError(f"has no {field}")
    return value.strip()


def _figure(entry: Mapping[str, Any], field: str) -> Decimal | None:
    if field not in entry:
        return None
    written = entry[field]
    try:
        figure = Decimal(written) if isinstance(written, str) else None
    except InvalidOperation:
        figure = None
    if figure is None or not figure.is_finite() or figure < 0:
        raise _BadEntryError(f"needs '{field}' as a figure in quotes, not {written!r}")
    return figure
