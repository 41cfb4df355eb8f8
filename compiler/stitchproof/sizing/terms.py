"""The numbers of a claim: worked out in every size, and held against what they must be to be compared."""

from __future__ import annotations

from msgspec.structs import replace

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.report import Report
from stitchproof.formulas.faults.function_used_wrongly import function_used_wrongly
from stitchproof.formulas.faults.mixed_dimensions import mixed_dimensions, not_a_count
from stitchproof.formulas.kinds import shared_kind
from stitchproof.formulas.scope import Scope
from stitchproof.formulas.tree import Formula
from stitchproof.measures.dimension import PLAIN
from stitchproof.sizing.evaluated import in_all, kind_reported, value_reported
from stitchproof.sizing.sized_claims import Term


def term_of(formula: Formula | None, scope: Scope, report: Report) -> Term | None:
    """A number in every size; None where there is none, or where it has a fault (reported)."""
    kind = kind_reported(formula, scope, report) if formula else None
    if formula is None or kind is None:
        return None
    values = tuple(value_reported(formula, scope, size, report) for size in range(len(report.names)))
    return Term(formula, kind, values)


def alike(first: Term, others: tuple[Term | None, ...], report: Report) -> bool:
    """Whether all the numbers count or measure the same thing (reported if not); a bare number beside counts is one of them."""
    found = [_alike(first, other, report) for other in others if other is not None]
    return all(found)


def _alike(one: Term, two: Term, report: Report) -> bool:
    joined = shared_kind(two.formula.span, one.formula.node, one.kind, two.formula.node, two.kind)
    if not isinstance(joined, Diagnostic):
        return True
    mixed = mixed_dimensions(two.formula.span, one.formula.span, one.kind, two.formula.span, two.kind)
    if joined.page is mixed.page:
        words = f"`{one.formula.text}` is {one.kind.in_words()}, `{two.formula.text}` is {two.kind.in_words()}"
        joined = replace(mixed, headline=f"{words}: they cannot be held against each other")
    elif two.formula.text.endswith("%"):
        joined = replace(joined, help=(f"a percentage is a part of something: write `{two.formula.text} * bust`",))
    report.add(in_all(joined, report))
    return False


def are_plain(terms: tuple[Term | None, ...], report: Report) -> bool:
    """Whether all are plain numbers or percentages (reported if not), as a stretch and a ratio are."""
    wrong = [term for term in terms if term is not None and term.kind.dimension != PLAIN]
    for term in wrong:
        what = f"`{term.formula.text}` is {term.kind.in_words()}, and stands where a plain number should"
        report.add(in_all(function_used_wrongly(term.formula.span, what, "write for example `1.15` or `5%`"), report))
    return not wrong


def are_lengths(terms: tuple[Term, ...], report: Report) -> bool:
    """Whether all are lengths (reported if not)."""
    wrong = [term for term in terms if not term.is_length]
    for term in wrong:
        what = f"`{term.formula.text}` is {term.kind.in_words()}, and stands where a length should"
        help_text = "turn it into a length at a gauge: `sts / fabric.stitches`"
        report.add(in_all(function_used_wrongly(term.formula.span, what, help_text), report))
    return not wrong


def are_counts(terms: tuple[Term | None, ...], report: Report) -> bool:
    """Whether all are counts (reported if not)."""
    wrong = [term for term in terms if term is not None and not term.kind.dimension.is_count]
    for term in wrong:
        report.add(in_all(not_a_count(term.formula.span, term.kind), report))
    return not wrong
