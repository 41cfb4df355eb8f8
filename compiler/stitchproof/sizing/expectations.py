"""What a value typed by hand is held against: a formula beside it (`should_be`), and its own column in inches."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from stitchproof.diagnostics.report import Report
from stitchproof.formulas.faults.function_used_wrongly import function_used_wrongly
from stitchproof.measures.units import CM_PER_INCH
from stitchproof.measures.values import Absent, PerSize, Value
from stitchproof.reading.pattern_source import Column, PatternSource
from stitchproof.sizing.evaluated import in_all
from stitchproof.sizing.faults.wrong_number_of_values import wrong_number_of_values
from stitchproof.sizing.sized_claims import SizedExpectation, Term
from stitchproof.sizing.sized_pattern import PatternScope
from stitchproof.sizing.terms import alike, term_of


def sized_expectations(source: PatternSource, scope: PatternScope, report: Report) -> Iterator[SizedExpectation]:
    """One for each named value that has something to be held against; those with a fault (reported) left out."""
    for definition in source.header.definitions:
        quantity = scope.quantities.get(scope.full_name(definition.name))
        if quantity is None or (definition.should_be is None and definition.inches is None):
            continue
        if quantity.parameter:
            what = f"`{definition.name}` takes a number in brackets, and has no one value that `should_be` something"
            report.add(in_all(function_used_wrongly(definition.span, what, "say it under `must_hold`"), report))
            continue
        formula = next((each for each in quantity.formulas if each), None)
        own = Term(formula, quantity.kind, quantity.values) if formula else None
        expected = term_of(definition.should_be, scope, report)
        if own and expected and not alike(own, (expected,), report):
            expected = None
        inches = _inches(definition.name, definition.inches, own, scope, report) if definition.inches else ()
        if own and (expected or inches):
            yield SizedExpectation(
                quantity.name, expected, inches, definition.inches.span if definition.inches else None
            )


def _inches(name: str, column: Column, own: Term | None, scope: PatternScope, report: Report) -> PerSize:
    """The column in exact centimetres; () where it has too few or too many numbers (reported)."""
    sizes = len(report.names)
    formulas = column.formulas * sizes if len(column.formulas) == 1 else column.formulas
    if len(formulas) != sizes:
        report.add(wrong_number_of_values(name, column.span, len(formulas), report.names))
        return ()
    found: list[Value] = []
    for size, formula in enumerate(formulas):
        term = term_of(formula, scope, report)
        if term is None or (own and not term.kind.is_bare and not alike(own, (term,), report)):
            found.append(Absent.UNKNOWN)
            continue
        value = term.values[size]
        found.append(value * CM_PER_INCH if isinstance(value, Fraction) and term.kind.is_bare else value)
    return tuple(found)
