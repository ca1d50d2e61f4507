"""A cell of a table of limits in words: for which lenses it holds and what it allows."""

from typing import Final

from benchassist.limits.table import Band, Span

_UNITS: Final = {"power": "D", "cylinder": "D", "add": "D", "prism": "Δ"}


def cell_words(band: Band) -> str:
    """For which looked-up values a cell holds: 'power over 3.00 D, up to 6.00 D'."""
    return "; ".join(_span_words(span) for span in band.spans)


def allowed_words(band: Band) -> str:
    """What a cell allows: '0.12 D', '0.33 Δ + 0.20 Δ for each D of power'."""
    if band.base is None:
        return "not judged"
    fixed = f"{band.base} {band.unit}"
    if not band.of:
        return fixed
    grown = f"{band.per.normalize():f} {band.unit} for each {_UNITS[band.of]} of {band.of}"
    return f"{fixed} + {grown}" if band.base else grown


def _span_words(span: Span) -> str:
    unit = _UNITS[span.of]
    edges: list[str] = []
    if span.low is not None:
        edges.append(f"{'from' if span.takes_low else 'over'} {span.low} {unit}")
    if span.high is not None:
        edges.append(f"{'up to' if span.takes_high else 'below'} {span.high} {unit}")
    return f"{span.of} {', '.join(edges)}"
