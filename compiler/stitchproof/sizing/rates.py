"""The pick-up rates of a pattern, read as numbers."""

from __future__ import annotations

from fractions import Fraction

from stitchproof.diagnostics.report import Report
from stitchproof.formulas.evaluation import value_of
from stitchproof.formulas.faults.mixed_dimensions import mixed_dimensions
from stitchproof.formulas.kind import Kind
from stitchproof.formulas.scope import Rate
from stitchproof.formulas.tree import Formula
from stitchproof.measures.dimension import ROWS, STITCHES
from stitchproof.reading.pattern_source import Header, RateEntry
from stitchproof.sizing.evaluated import in_all, kind_reported
from stitchproof.sizing.faults.word_not_known import word_not_known
from stitchproof.sizing.names import with_kind
from stitchproof.sizing.sized_pattern import PatternScope


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
    sts, each = value_of(stitches.node, scope, 0), value_of(per.node, scope, 0)
    if not stitches_kind or not per_kind or not isinstance(sts, Fraction) or not isinstance(each, Fraction):
        return None
    if (
        stitches_kind.dimension != STITCHES
        or not per_kind.dimension.is_count
        or min(sts, each) <= 0
        or each.denominator > 1
    ):
        report.add(in_all(mixed_dimensions(entry.span, stitches.span, stitches_kind, per.span, per_kind), report))
        return None
    left_over = _left_over(entry.left_over, scope, report)
    noun = per_kind.noun or "rows"
    return Rate(
        entry.name, sts, each, per_kind.dimension, noun, left_over, _cm_per_unit(entry, noun, header, scope, report)
    )


def _left_over(formula: Formula | None, scope: PatternScope, report: Report) -> Fraction | None:
    if formula is None or not kind_reported(with_kind(formula, Kind(STITCHES, "sts")), scope, report):
        return None
    value = value_of(formula.node, scope, 0)
    return value if isinstance(value, Fraction) else None


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
