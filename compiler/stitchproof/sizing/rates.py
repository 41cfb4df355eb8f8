"""The pick-up rates of a pattern, read as numbers."""

from __future__ import annotations

from fractions import Fraction

from stitchproof.diagnostics.report import Report
from stitchproof.formulas.faults.function_used_wrongly import function_used_wrongly
from stitchproof.formulas.faults.mixed_dimensions import mixed_dimensions
from stitchproof.formulas.kind import Kind
from stitchproof.formulas.tree import Formula
from stitchproof.measures.dimension import PLAIN, ROWS, STITCHES
from stitchproof.measures.rate import ENDS_OF, Rate
from stitchproof.reading.pattern_source import Header, RateEntry
from stitchproof.sizing.evaluated import in_all, kind_reported, value_reported
from stitchproof.sizing.faults.word_not_known import word_not_known
from stitchproof.sizing.names import with_kind
from stitchproof.sizing.sized_pattern import PatternScope
from stitchproof.source import Span


def sized_rates(header: Header, scope: PatternScope, report: Report) -> dict[str, Rate]:
    """The rates by name; one with a fault (reported) is left out and its name kept silent."""
    rates = {}
    for entry in header.rates:
        rate = _rate(entry, header, scope, report)
        if rate:
            rates[entry.name] = rate
        else:
            scope.silent.add(entry.name)
    return rates


def _rate(entry: RateEntry, header: Header, scope: PatternScope, report: Report) -> Rate | None:
    if entry.sts is None or entry.per is None:
        return None
    stitches, per = with_kind(entry.sts, Kind(STITCHES, "sts")), entry.per
    stitches_kind, per_kind = kind_reported(stitches, scope, report), kind_reported(per, scope, report)
    if not stitches_kind or not per_kind:
        return None
    if per_kind.is_bare:
        _refuse(per.span, f"`{per.span.text}` does not say of what: a rate is per some ribs or rows", report)
        return None
    if stitches_kind.dimension != STITCHES or per_kind.dimension not in (PLAIN, ROWS):
        report.add(in_all(mixed_dimensions(entry.span, stitches.span, stitches_kind, per.span, per_kind), report))
        return None
    sts, each = value_reported(stitches, scope, 0, report), value_reported(per, scope, 0, report)
    if not isinstance(sts, Fraction) or not isinstance(each, Fraction):
        return None
    if sts <= 0 or each <= 0 or each.denominator > 1:
        _refuse(entry.span, "a rate is some stitches per a whole number of ribs or rows, both above 0", report)
        return None
    left_over = _left_over(entry.left_over, stitches, scope, report)
    if entry.left_over and left_over is None:
        return None
    cm_per_unit = _cm_per_unit(entry, per_kind.noun, header, scope, report)
    noun = per_kind.noun or "rows"
    return Rate(sts, each, left_over, noun, ENDS_OF.get(noun, 1), cm_per_unit)


def _left_over(written: Formula | None, stitches: Formula, scope: PatternScope, report: Report) -> Fraction | None:
    """Stitches for each rib or row beyond whole groups; None where none is given, or where it has a fault (reported)."""
    if written is None:
        return None
    formula = with_kind(written, Kind(STITCHES, "sts"))
    kind = kind_reported(formula, scope, report)
    if kind and kind.dimension != STITCHES and not kind.is_bare:
        mixed = mixed_dimensions(formula.span, stitches.span, Kind(STITCHES, "sts"), formula.span, kind)
        report.add(in_all(mixed, report))
        return None
    value = value_reported(formula, scope, 0, report) if kind else None
    if isinstance(value, Fraction) and value < 0:
        _refuse(formula.span, "what is picked up beyond whole groups cannot be below 0", report)
        return None
    return value if isinstance(value, Fraction) else None


def _refuse(span: Span, why: str, report: Report) -> None:
    report.add(in_all(function_used_wrongly(span, why, "write for example `sts: 5`, `per: 2 ribs`"), report))


def _cm_per_unit(entry: RateEntry, noun: str, header: Header, scope: PatternScope, report: Report) -> Fraction | None:
    """Length of one row or rib along the edge, in cm, where the gauge of the edge is named."""
    if not entry.along:
        return None
    gauge = next((gauge for gauge in header.gauges if gauge.name == entry.along.text.strip()), None)
    if gauge is None:
        report.add(word_not_known(entry.along.span, "a gauge of this pattern", [each.name for each in header.gauges]))
        return None
    return length_of_one(gauge.name, Kind(ROWS if noun != "ribs" else Kind().dimension, noun), scope)


def length_of_one(gauge: str, kind: Kind, scope: PatternScope) -> Fraction | None:
    """Width of a stitch, height of a row, or height of a rib at a gauge, in cm; None where the gauge does not say."""
    if kind.dimension == STITCHES:
        across = scope.value(f"gauges.{gauge}.stitches", 0, None)
        return 1 / across if isinstance(across, Fraction) and across else None
    heights = [scope.value(f"gauges.{gauge}.{word}", 0, None) for word in ("rows", "rounds")]
    per_cm = next((value for value in heights if isinstance(value, Fraction)), None)
    if not isinstance(per_cm, Fraction) or not per_cm:
        return None
    if kind.dimension == ROWS:
        return 1 / per_cm
    rib = scope.value(f"gauges.{gauge}.rows_per_rib", 0, None)
    return rib / per_cm if kind.noun == "ribs" and isinstance(rib, Fraction) else None
