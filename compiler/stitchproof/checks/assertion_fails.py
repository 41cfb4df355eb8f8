"""SP005 assertion-fails

Severity  error
Checks    what the designer says under `must_hold` holds in every size.
Matters   it was written down because the garment does not work without it: a neck that lets the head through, a round that
          can take the stitches it is given.
Mend      change one of the numbers in the sum, or correct the assertion.
Source    the designer's own words.

Fires in L:
    sizes: {names: [S, M, L]}
    body:
      head: {cm: [48, 52, 58]}
    measures:
      neck: [52 cm, 56 cm, 58 cm]
    must_hold:
      - that: neck >= head + 1 cm
        why: the neck passes over the head

Quiet:
    sizes: {names: [S, M, L]}
    body:
      head: {cm: [48, 52, 56]}
    measures:
      neck: [52 cm, 56 cm, 58 cm]
    must_hold:
      - that: neck >= head + 1 cm
        why: the neck passes over the head
"""

from __future__ import annotations

from stitchproof.checks.wrong_counts import formula_follows_from_wrong
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, SumLine
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.formulas.sums import SIGNS, result_text, worked
from stitchproof.formulas.tree import Amount, Comparison, Formula, Name, Node
from stitchproof.sizing.sized_pattern import SizedAssertion, SizedPattern

PAGE = read_page(__doc__)


def assertions(sized: SizedPattern, report: Report) -> None:
    """The designer's assertions that do not hold."""
    for assertion in sized.assertions:
        for size, holds in enumerate(assertion.holds):
            if holds is False and not formula_follows_from_wrong(assertion.formula, size, sized):
                report.add(_report(assertion, size, sized))


def _report(assertion: SizedAssertion, size: int, sized: SizedPattern) -> Diagnostic:
    why = assertion.why.rstrip(".")
    headline = f"this does not hold: {why}" if why else f"`{assertion.formula.text}` does not hold"
    return Diagnostic(
        PAGE,
        headline,
        Excerpt(assertion.formula.span, "not true"),
        sizes=(sized.sizes[size],),
        sums=(SumLine(sized.sizes[size], _sum(assertion, size, sized)),),
        help=("change one of these numbers, or correct the assertion",),
    )


def _sum(assertion: SizedAssertion, size: int, sized: SizedPattern) -> str:
    """Both sides worked out: "58 cm is not ≥ 58 cm + 1 cm = 59 cm"."""
    node = assertion.formula.node
    if not isinstance(node, Comparison):
        return f"{worked(assertion.formula, sized.scope, size)} is not true"
    sides = [_side(side, assertion, size, sized) for side in (node.left, node.right)]
    return f"{sides[0]} is not {SIGNS.get(node.sign, node.sign)} {sides[1]}"


def _side(node: Node, assertion: SizedAssertion, size: int, sized: SizedPattern) -> str:
    result = result_text(node, sized.scope, size)
    if isinstance(node, Name | Amount):
        return result
    return f"{worked(Formula(node.span.text, node, node.span), sized.scope, size)} = {result}"


CHECKS = (assertions,)
