"""Judges what the designer says in a formula of her own, in every size and, where she says so, for every k."""

from __future__ import annotations

from fractions import Fraction

from msgspec.structs import replace

from stitchproof.diagnostics.report import Report
from stitchproof.formulas.faults.function_used_wrongly import function_used_wrongly
from stitchproof.formulas.kind import Kind
from stitchproof.formulas.scope import Bound
from stitchproof.measures.dimension import PLAIN
from stitchproof.measures.values import Absent, Value
from stitchproof.reading.claim_entries import Assertion, EveryValue
from stitchproof.sizing.evaluated import evaluated, kind_reported, value_reported
from stitchproof.sizing.sized_claims import SizedAssertion, Term
from stitchproof.sizing.sized_pattern import PatternScope
from stitchproof.sizing.terms import are_counts, term_of

MOST_TRIED = 999
"""How many values of k one assertion is tried at in a size."""


def sized_assertion(entry: Assertion, scope: PatternScope, report: Report) -> SizedAssertion | None:
    """An assertion with what it comes to; None where its `for_each` has a fault (reported)."""
    if entry.for_each is None:
        return SizedAssertion(entry.that, evaluated(entry.that, scope, report, test=True), entry.why)
    first, last = term_of(entry.for_each.first, scope, report), term_of(entry.for_each.last, scope, report)
    if first is None or last is None or not _usable(entry.for_each, first, last, report):
        return None
    bound = Bound(scope, entry.for_each.variable, Kind(PLAIN), Fraction(1))
    if kind_reported(entry.that, bound, report, test=True) is None:
        return None
    found = [_tried(entry, first.at(size), last.at(size), size, scope, report) for size in range(len(report.names))]
    return SizedAssertion(
        entry.that,
        tuple(holds for holds, _, _ in found),
        entry.why,
        entry.for_each.variable,
        tuple(failing for _, failing, _ in found),
        tuple(tried for _, _, tried in found),
        (first, last),
    )


def _usable(for_each: EveryValue, first: Term, last: Term, report: Report) -> bool:
    if not are_counts((first, last), report):
        return False
    for size, name in enumerate(report.names):
        low, high = first.at(size), last.at(size)
        if low is not None and high is not None and high - low >= MOST_TRIED:
            what = f"`{for_each.span.text}` counts to more than {MOST_TRIED}"
            fault = function_used_wrongly(for_each.span, what, "count to a smaller number")
            report.add(replace(fault, sizes=(name,)))
            return False
    return True


def _tried(
    entry: Assertion, first: Fraction | None, last: Fraction | None, size: int, scope: PatternScope, report: Report
) -> tuple[Value, tuple[int, ...], int]:
    """Whether it holds in a size, the k at which it does not, and how many were tried."""
    if first is None or last is None or entry.for_each is None or first.denominator > 1 or last.denominator > 1:
        return Absent.UNKNOWN, (), 0
    failing, holds = [], True
    tried = range(int(first), int(last) + 1)
    for k in tried:
        value = value_reported(
            entry.that, Bound(scope, entry.for_each.variable, Kind(PLAIN), Fraction(k)), size, report
        )
        if value is Absent.UNKNOWN:
            return value, (), 0
        if value is False:
            failing.append(k)
            holds = False
    return holds, tuple(failing), len(tried)
