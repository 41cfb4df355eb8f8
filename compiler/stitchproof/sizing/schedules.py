"""Works out a shaping that is stated: where it begins and ends, and the rows on which it changes."""

from __future__ import annotations

from stitchproof.diagnostics.report import Report
from stitchproof.reading.claim_entries import ShapingEntry, StepEntry
from stitchproof.sizing.sized_claims import SizedShaping, SizedStep, Term
from stitchproof.sizing.sized_pattern import PatternScope
from stitchproof.sizing.terms import alike, are_counts, term_of


def sized_shaping(entry: ShapingEntry, scope: PatternScope, report: Report) -> SizedShaping | None:
    """The shaping with its numbers; None where one has a fault (reported)."""
    start, end, each = (term_of(formula, scope, report) for formula in (entry.start, entry.end, entry.each))
    given = (entry.times, entry.first_on, entry.within, entry.ends_on)
    counted = [term_of(formula, scope, report) for formula in given]
    if start is None or end is None or each is None:
        return None
    steps = [_step(step, start, each, scope, report) for step in entry.steps]
    times, first_on, within, ends_on = counted
    if None in steps or any(formula and not term for formula, term in zip(given, counted, strict=True)):
        return None
    if not alike(start, (end, each), report) or not are_counts((times, first_on, within, ends_on), report):
        return None
    return SizedShaping(
        entry.name,
        start,
        end,
        each,
        times,
        first_on,
        tuple(step for step in steps if step),
        within,
        ends_on,
        entry.mirrors,
        entry.mirrors_span,
        entry.why,
        entry.name_span,
    )


def _step(entry: StepEntry, start: Term, each: Term, scope: PatternScope, report: Report) -> SizedStep | None:
    every, times = term_of(entry.every, scope, report), term_of(entry.times, scope, report)
    own = term_of(entry.each, scope, report) if entry.each else each
    if every is None or times is None or own is None or not are_counts((every, times), report):
        return None
    return SizedStep(every, times, own) if alike(start, (own,), report) else None
