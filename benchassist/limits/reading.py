"""Files of limits read into tables; a row that does not say where it is from is refused."""

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from decimal import Decimal, InvalidOperation
from pathlib import Path
from typing import Any

from benchassist.assets import read_toml
from benchassist.limits.rule import Evidence, Rule, Source
from benchassist.limits.table import Band, Row, Span
from benchassist.wrong import BenchError

_EDGE = re.compile(r"(<=|>=|<|>)\s*(\d+(?:\.\d+)?)")
_EDGES = re.compile(r"\s*(?:(?:<=|>=|<|>)\s*\d+(?:\.\d+)?\s*){1,2}")
METER_KIND = "lens meter"
"""The kind of file that holds errors of the lens meter, which are no limits."""

UNITS = ("D", "Δ", "mm", "°", "%")
"""The units of limits."""

_BAND_FIELDS = frozenset(
    {"when", "limit", "per", "percent", "of", "good", "unit", "each", "not_judged"}
    | {"evidence", "sources"}
)


class _BadRowError(Exception):
    """What is wrong with a row, in words."""


@dataclass(frozen=True, slots=True)
class LimitsFile:
    """One file of limits as it was read, before anything is inherited.

    Attributes:
        id: the name by which it is asked for.
        kind: what it limits: 'finished spectacles', 'bench' or 'lens meter'.
        title: its title for people.
        edition: the standard and its edition.
        caution: what a person must know before relying on it.
        rows: its own rows.
        notes: requirements that a person judges, as rules with a text.
        inherits: id of the file whose rows it takes over; empty for none.
        inherited_evidence: how inherited figures are known here; None leaves them as they are.
        inherited_note: what is said of every inherited row.
    """

    id: str
    kind: str
    title: str
    edition: str
    caution: str
    rows: tuple[Row, ...]
    notes: tuple[Rule, ...]
    inherits: str = ""
    inherited_evidence: Evidence | None = None
    inherited_note: str = ""

    def row(self, row_id: str) -> Row | None:
        """The row of this id; None where there is none."""
        return next((row for row in self.rows if row.id == row_id), None)


def read_limits_file(path: Path) -> LimitsFile:
    """The limits in one TOML file.

    Raises:
        BenchError: the file cannot be read, or a row is not whole; names file and row.
    """
    raw = read_toml(path, f"The limits file {path.name}")
    named = "its head"
    try:
        head = _Head.of(raw)
        rows: dict[str, Row] = {}
        for entry in raw.get("row", []):
            named = f"row {entry.get('id', '(without id)')}"
            row = _row(entry, head, rows)
            rows[row.id] = row
        notes: list[Rule] = []
        for entry in raw.get("note", []):
            named = f"note {entry.get('id', '(without id)')}"
            notes.append(replace(head.rule(entry), note=_text(entry, "text")))
        named = "its head"
        return _limits_file(raw, tuple(rows.values()), tuple(notes))
    except _BadRowError as error:
        raise BenchError(
            f"The limits file {path.name} cannot be used: {named} {error}."
        ) from error


def _limits_file(
    raw: Mapping[str, Any], rows: tuple[Row, ...], notes: tuple[Rule, ...]
) -> LimitsFile:
    inherits = raw.get("inherits", {})
    return LimitsFile(
        id=_text(raw, "id"),
        kind=_text(raw, "kind"),
        title=_text(raw, "title"),
        edition=_text(raw, "edition"),
        caution=_text(raw, "caution"),
        rows=rows,
        notes=notes,
        inherits=_text(inherits, "from") if inherits else "",
        inherited_evidence=_evidence(inherits) if "evidence" in inherits else None,
        inherited_note=inherits.get("note", ""),
    )


@dataclass(frozen=True, slots=True)
class _Head:
    """What every row of a file shares."""

    id: str
    edition: str
    clause: str
    sources: Mapping[str, Source]

    @classmethod
    def of(cls, raw: Mapping[str, Any]) -> "_Head":
        listed = {
            name: Source(_text(entry, "title"), entry.get("address", ""))
            for name, entry in raw.get("sources", {}).items()
        }
        return cls(_text(raw, "id"), _text(raw, "edition"), _text(raw, "clause"), listed)

    def rule(self, entry: Mapping[str, Any]) -> Rule:
        """The rule of one row or note."""
        return Rule(
            rule_set=self.id,
            row=_text(entry, "id"),
            title=_text(entry, "title"),
            edition=entry.get("edition", self.edition),
            clause=entry.get("clause", self.clause),
            evidence=_evidence(entry),
            sources=self.named(entry),
            note=entry.get("note", ""),
        )

    def named(self, entry: Mapping[str, Any]) -> tuple[Source, ...]:
        """The sources that a row names."""
        names = entry.get("sources", [])
        if not names:
            raise _BadRowError("names no source")
        unknown = [name for name in names if name not in self.sources]
        if unknown:
            raise _BadRowError(f"names the source {unknown[0]}, which the file does not list")
        return tuple(self.sources[name] for name in names)


def _row(entry: Mapping[str, Any], head: _Head, rows: Mapping[str, Row]) -> Row:
    if "like" in entry:
        return _row_like(entry, rows)
    rule = head.rule(entry)
    bands = tuple(_band(band, rule, head, _unit(entry)) for band in entry.get("bands", []))
    if not bands:
        raise _BadRowError("has no bands")
    quantities = tuple(entry.get("quantities", ()))
    if not quantities:
        raise _BadRowError("does not say which quantities it limits")
    return Row(
        id=rule.row,
        quantities=quantities,
        designs=tuple(entry.get("designs", ())),
        bands=bands,
        either=entry.get("either", False),
        one_lens=_figure(entry, "one_lens") if "one_lens" in entry else None,
    )


def _row_like(entry: Mapping[str, Any], rows: Mapping[str, Row]) -> Row:
    """A row with the bands of an earlier one, for other lenses."""
    model = rows.get(entry["like"])
    if model is None:
        raise _BadRowError(f"is to be like row {entry['like']}, which is not above it")
    if not entry.get("designs"):
        raise _BadRowError("does not say for which designs")

    def own(rule: Rule) -> Rule:
        return replace(
            rule,
            row=_text(entry, "id"),
            title=_text(entry, "title"),
            evidence=_evidence(entry),
            note=_text(entry, "note"),
        )

    bands = tuple(replace(band, rule=own(band.rule)) for band in model.bands)
    return replace(model, id=entry["id"], designs=tuple(entry["designs"]), bands=bands)


def _band(band: Mapping[str, Any], rule: Rule, head: _Head, unit: str) -> Band:
    unknown = band.keys() - _BAND_FIELDS
    if unknown:
        raise _BadRowError(f"has a band with the unknown field {min(unknown)}")
    if "evidence" in band:
        rule = replace(rule, evidence=_evidence(band))
    if "sources" in band:
        rule = replace(rule, sources=head.named(band))
    spans = tuple(_span(of, str(edges)) for of, edges in band.get("when", {}).items())
    not_judged = band.get("not_judged", "")
    base, per = (None, Decimal(0)) if not_judged else _size(band)
    return Band(
        spans=spans,
        unit=_unit(band) if "unit" in band else unit,
        base=base,
        rule=rule,
        per=per,
        of=band.get("of", ""),
        good=_figure(band, "good") if "good" in band else None,
        each=band.get("each", False),
        not_judged=not_judged,
    )


def _size(band: Mapping[str, Any]) -> tuple[Decimal, Decimal]:
    """The fixed part of a limit and what each unit looked up adds."""
    grows = "percent" in band or "per" in band
    if grows != bool(band.get("of")):
        raise _BadRowError("has a band with 'percent' or 'per' but no 'of', or the reverse")
    if "percent" in band:
        return Decimal(0), _figure(band, "percent") / 100
    return _figure(band, "limit"), _figure(band, "per") if grows else Decimal(0)


def _span(of: str, edges: str) -> Span:
    span = read_span(of, edges)
    if span is None:
        raise _BadRowError(f"has a band whose edges '{edges}' cannot be understood")
    return span


def read_span(of: str, edges: str) -> Span | None:
    """The edges of a cell as files write them, '> 3.00 <= 6.00'; None if they are not so.

    Args:
        of: the quantity looked up.
        edges: one or two figures with their signs.
    """
    if not _EDGES.fullmatch(edges):
        return None
    span = Span(of)
    for sign, figure in _EDGE.findall(edges):
        if sign.startswith("<"):
            span = replace(span, high=Decimal(figure), takes_high=sign == "<=")
        else:
            span = replace(span, low=Decimal(figure), takes_low=sign == ">=")
    return span


def span_text(span: Span) -> str:
    """The edges of a cell as `read_span` reads them."""
    edges = []
    if span.low is not None:
        edges.append(f"{'>=' if span.takes_low else '>'} {span.low}")
    if span.high is not None:
        edges.append(f"{'<=' if span.takes_high else '<'} {span.high}")
    return " ".join(edges)


def _text(entry: Mapping[str, Any], field: str) -> str:
    value = entry.get(field)
    if not isinstance(value, str) or not value.strip():
        raise _BadRowError(f"has no {field}")
    return value


def _unit(entry: Mapping[str, Any]) -> str:
    unit = _text(entry, "unit")
    if unit not in UNITS:
        raise _BadRowError(f"has the unknown unit '{unit}'")
    return unit


def _evidence(entry: Mapping[str, Any]) -> Evidence:
    words = _text(entry, "evidence")
    try:
        return Evidence(words)
    except ValueError as error:
        raise _BadRowError(f"has the unknown evidence '{words}'") from error


def _figure(entry: Mapping[str, Any], field: str) -> Decimal:
    written = entry.get(field)
    try:
        figure = Decimal(written) if isinstance(written, str) else None
    except InvalidOperation:
        figure = None
    if figure is None or not figure.is_finite() or figure < 0:
        raise _BadRowError(f"needs '{field}' as a figure in quotes, not {written!r}")
    return figure
