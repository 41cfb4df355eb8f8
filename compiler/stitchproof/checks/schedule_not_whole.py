"""SP102 schedule-not-whole

Severity  error
Checks    a shaping under `must_hold` is worked a whole number of times (0 or more), on whole rows (1 or more), in every
          size. The numbers that `for_each` counts from and to are whole as well.
Matters   half a row cannot be worked, and what is said about it cannot be checked.
Mend      give the number a name with a rounding, or correct it.
Source    common practice, no source.

Fires in M:
    counts:
      rows_in_all: {by_hand: [20, 21], unit: rows}
    must_hold:
      - {shaping: sleeve, from: 60 sts, to: 40 sts, each: -2 sts, then: {every: rows_in_all / 10, times: 10}}

Quiet:
    counts:
      rows_in_all: {by_hand: [20, 21], unit: rows}
    must_hold:
      - {shaping: sleeve, from: 60 sts, to: 40 sts, each: -2 sts, then: {every: "down(rows_in_all / 10)", times: 10}}
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from stitchproof.checks.claim_sums import side_text
from stitchproof.checks.wrong_counts import formula_follows_from_wrong
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, SumLine
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.formulas.tree import names_in
from stitchproof.sizing.sized_claims import Term
from stitchproof.sizing.sized_pattern import SizedPattern

PAGE = read_page(__doc__)


def counts(sized: SizedPattern, report: Report) -> None:
    """Numbers of a schedule that cannot be worked; a named count that is reported for itself stays silent here."""
    for term, least in _counted(sized):
        for size in range(len(sized.sizes)):
            value = term.at(size)
            if value is None or (value.denominator == 1 and value >= least):
                continue
            if not formula_follows_from_wrong(term.formula, size, sized) and not _is_below_zero(term, size, sized):
                report.add(_report(term, least, size, sized))


def _counted(sized: SizedPattern) -> Iterator[tuple[Term, int]]:
    """The numbers that count, and the least that each can be."""
    for assertion in sized.claims.assertions:
        yield from ((bound, 0) for bound in assertion.bounds)
    for claim in sized.claims.shapings:
        yield from ((term, least) for term, least in ((claim.times, 0), (claim.first_on, 1)) if term)
        for step in claim.steps:
            yield from ((step.every, 1), (step.times, 0))


def _is_below_zero(term: Term, size: int, sized: SizedPattern) -> bool:
    values = (sized.scope.value(node.name, size, None) for node in names_in(term.formula.node))
    return any(isinstance(value, Fraction) and value < 0 for value in values)


def _report(term: Term, least: int, size: int, sized: SizedPattern) -> Diagnostic:
    return Diagnostic(
        PAGE,
        f"`{term.formula.text}` does not come to a whole number from {least} up",
        Excerpt(term.formula.span),
        sizes=(sized.sizes[size],),
        sums=(SumLine(sized.sizes[size], side_text(term.formula.node, sized.scope, size)),),
        help=("give it a name with a rounding, or correct it",),
    )


CHECKS = (counts,)
