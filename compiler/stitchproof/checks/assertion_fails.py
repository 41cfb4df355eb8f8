"""SP005 assertion-fails

Severity  error
Checks    a test of the designer's own (`that` under `must_hold`) is true in every size. With `for_each: k in 1 to n` it
          is true for every number k from 1 to n; the report names the first for which it is not.
Matters   it was written down because the garment does not work without it: a neck that lets the head through, a round that
          can take the stitches it is given.
Mend      change one of the numbers in the sum, or correct the test.
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

Fires in M:
    counts:
      yoke_sts: {by_hand: [88, 84], unit: sts}
      after(k): {is: after(k - 1) + 8, start: 64 sts}
    must_hold:
      - that: after(k) <= yoke_sts
        for_each: k in 1 to 3
    ---
    Row 1: Sc in each st across. — <after(1)> sc

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

from fractions import Fraction

from stitchproof.checks.claim_sums import side_text
from stitchproof.checks.levers import proposals
from stitchproof.checks.wrong_counts import formula_follows_from_wrong
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, SumLine
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.formulas.evaluation import value_of
from stitchproof.formulas.kind import NUMBER
from stitchproof.formulas.scope import Bound, Scope
from stitchproof.formulas.sums import SIGNS, worked
from stitchproof.formulas.tree import Comparison
from stitchproof.sizing.sized_claims import SizedAssertion
from stitchproof.sizing.sized_pattern import SizedPattern

PAGE = read_page(__doc__)


def assertions(sized: SizedPattern, report: Report) -> None:
    """The designer's assertions that do not hold."""
    for assertion in sized.claims.assertions:
        for size, holds in enumerate(assertion.holds):
            if holds is False and not formula_follows_from_wrong(assertion.formula, size, sized):
                report.add(_report(assertion, size, sized))


def _report(assertion: SizedAssertion, size: int, sized: SizedPattern) -> Diagnostic:
    why = assertion.why.rstrip(".")
    headline = f"this does not hold: {why}" if why else f"`{assertion.formula.text}` does not hold"
    scope = _scope(assertion, size, sized)
    return Diagnostic(
        PAGE,
        headline,
        Excerpt(assertion.formula.span, "not true"),
        sizes=(sized.sizes[size],),
        sums=(
            SumLine(
                sized.sizes[size],
                _first(assertion, size) + _sum(assertion, scope, size),
                note=_how_many(assertion, size),
            ),
        ),
        proposals=proposals([assertion.formula], size, sized, lambda tried: _holds(assertion, tried, size)),
        help=("change one of these numbers, or correct the assertion",),
    )


def _scope(assertion: SizedAssertion, size: int, sized: SizedPattern) -> Scope:
    """The names of the pattern; of an assertion for every k also the first k at which it fails."""
    if not assertion.variable:
        return sized.scope
    return Bound(sized.scope, assertion.variable, NUMBER, Fraction(assertion.failing[size][0]))


def _holds(assertion: SizedAssertion, scope: Scope, size: int) -> bool:
    """Whether it holds by other values, at every k at which it fails as things are."""
    node = assertion.formula.node
    if not assertion.variable:
        return value_of(node, scope, size) is True
    bounds = (Bound(scope, assertion.variable, NUMBER, Fraction(k)) for k in assertion.failing[size])
    return all(value_of(node, bound, size) is True for bound in bounds)


def _first(assertion: SizedAssertion, size: int) -> str:
    return f"at {assertion.variable} = {assertion.failing[size][0]}: " if assertion.variable else ""


def _how_many(assertion: SizedAssertion, size: int) -> str:
    if not assertion.variable:
        return ""
    failing, tried = len(assertion.failing[size]), assertion.tried[size]
    return f"the first of {failing} that fail, of {tried}" if failing > 1 else f"the only one of {tried} that fails"


def _sum(assertion: SizedAssertion, scope: Scope, size: int) -> str:
    """Both sides worked out: "58 cm is not ≥ 58 cm + 1 cm = 59 cm"."""
    node = assertion.formula.node
    if not isinstance(node, Comparison):
        return f"{worked(assertion.formula, scope, size)} is not true"
    sides = [side_text(side, scope, size) for side in (node.left, node.right)]
    return f"{sides[0]} is not {SIGNS.get(node.sign, node.sign)} {sides[1]}"


CHECKS = (assertions,)
