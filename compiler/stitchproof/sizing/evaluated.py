"""A formula in every size, its faults reported once with the sizes they concern."""

from __future__ import annotations

from msgspec.structs import replace

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.report import Report
from stitchproof.formulas.evaluation import evaluate
from stitchproof.formulas.faults.mixed_dimensions import not_a_test, test_for_number
from stitchproof.formulas.kind import Kind
from stitchproof.formulas.kinds import kind_of
from stitchproof.formulas.scope import Scope
from stitchproof.formulas.tree import Formula
from stitchproof.measures.values import Absent, PerSize, Value


def kind_reported(formula: Formula, scope: Scope, report: Report, test: bool = False) -> Kind | None:
    """The kind of a formula, or None where it has a fault (reported). test: whether it must be a test."""
    kind = kind_of(formula, scope)
    if isinstance(kind, Diagnostic):
        report.add(in_all(kind, report))
        return None
    if kind and kind.truth != test:
        report.add(in_all(not_a_test(formula.span) if test else test_for_number(formula.span), report))
        return None
    return kind


def evaluated(formula: Formula, scope: Scope, report: Report, test: bool = False) -> PerSize:
    """A formula in every size; UNKNOWN where it has a fault (reported)."""
    if kind_reported(formula, scope, report, test) is None:
        return (Absent.UNKNOWN,) * len(report.names)
    return tuple(value_reported(formula, scope, size, report) for size in range(len(report.names)))


def value_reported(formula: Formula, scope: Scope, size: int, report: Report) -> Value:
    """A formula in one size; UNKNOWN where it cannot be worked out there (reported)."""
    value = evaluate(formula, scope, size)
    if isinstance(value, Diagnostic):
        report.add(replace(value, sizes=(report.names[size],)))
        return Absent.UNKNOWN
    return value


def in_all(diagnostic: Diagnostic, report: Report) -> Diagnostic:
    """A fault of the formula itself concerns every size."""
    return replace(diagnostic, sizes=report.names)
