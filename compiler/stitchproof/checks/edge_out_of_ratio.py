"""SP096 edge-out-of-ratio

Severity  warning
Checks    a measurement is the right share of another (`ratio`, `against` under `must_hold`). A ribbed edge, relaxed, is
          between three quarters of the length of the fabric that it finishes and all of it (0.75 to 1), unless `from`
          and `to` say otherwise.
Matters   an edge that is too long flares, one that is too short gathers the fabric.
Mend      change the stitches of the edge, or state the ratio that is meant.
Source    common practice, no source.

Fires in M:
    counts:
      hem_sts: {by_hand: [150, 175], unit: sts}
    measures:
      finished_bust: {cm: [100, 90]}
      hem_relaxed: hem_sts / 18 sts per 10 cm
    must_hold:
      - {ratio: hem_relaxed, against: finished_bust}

Quiet:
    counts:
      hem_sts: {by_hand: [150, 175], unit: sts}
    measures:
      finished_bust: {cm: [100, 90]}
      hem_relaxed: hem_sts / 18 sts per 10 cm
    must_hold:
      - {ratio: hem_relaxed, against: finished_bust, to: 110%}
"""

from __future__ import annotations

from fractions import Fraction

from stitchproof.checks.claim_sums import value_now, value_text
from stitchproof.checks.levers import proposals
from stitchproof.checks.wrong_counts import term_follows_from_wrong
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, SumLine
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.formulas.scope import Scope
from stitchproof.measures.values import rounded_text
from stitchproof.sizing.sized_claims import SizedRatio
from stitchproof.sizing.sized_pattern import SizedPattern

PAGE = read_page(__doc__)
USUAL_LOW, USUAL_HIGH = Fraction(75, 100), Fraction(1)
"""A relaxed rib against the fabric that it finishes. Common practice, no source."""


def ratios(sized: SizedPattern, report: Report) -> None:
    """Ratios that lie outside their bounds."""
    for claim in sized.claims.ratios:
        for size in range(len(sized.sizes)):
            terms = (claim.measure, claim.against, claim.low, claim.high)
            if not _keeps(claim, sized.scope, size) and not term_follows_from_wrong(terms, size, sized):
                report.add(_report(claim, size, sized))


def _keeps(claim: SizedRatio, scope: Scope, size: int) -> bool:
    measure, against = value_now(claim.measure, scope, size), value_now(claim.against, scope, size)
    if measure is None or not against:
        return True
    low, high = _bounds(claim, scope, size)
    return low <= measure / against <= high


def _bounds(claim: SizedRatio, scope: Scope, size: int) -> tuple[Fraction, Fraction]:
    """The bounds as given; one that is not given is the usual one."""
    low, high = value_now(claim.low, scope, size), value_now(claim.high, scope, size)
    return USUAL_LOW if low is None else low, USUAL_HIGH if high is None else high


def _report(claim: SizedRatio, size: int, sized: SizedPattern) -> Diagnostic:
    measure, against = claim.measure.at(size) or Fraction(0), claim.against.at(size) or Fraction(1)
    low, high = _bounds(claim, sized.scope, size)
    kept = f"{rounded_text(low)} to {rounded_text(high)}"
    words = f"{value_text(claim.measure, size)} ÷ {value_text(claim.against, size)} = {rounded_text(measure / against)}"
    usual = "" if claim.low or claim.high else " (usual for a ribbed edge; `from` and `to` state another)"
    return Diagnostic(
        PAGE,
        f"`{claim.measure.formula.text}` does not keep its ratio to `{claim.against.formula.text}`",
        Excerpt(claim.measure.formula.span, "this edge"),
        sizes=(sized.sizes[size],),
        sums=(SumLine(sized.sizes[size], f"{words}, not {kept}"),),
        proposals=proposals([claim.measure.formula], size, sized, lambda scope: _keeps(claim, scope, size)),
        help=(f"it is held to {kept}{usual}",) if usual else ("change the stitches of the edge, or the ratio",),
    )


CHECKS = (ratios,)
