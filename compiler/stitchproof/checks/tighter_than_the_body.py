"""SP093 tighter-than-the-body

Severity  warning
Checks    a finished measurement is larger than the body's by at least the ease that it takes to be worn, such as a
          sleeve around the upper arm (`ease`, `over`, `at_least` under `must_hold`).
Matters   the sleeve does not go over the arm. Upper arms do not grow with the bust, so it shows first in the largest sizes.
Mend      put more stitches there, or state a smaller `at_least` where the fabric stretches.
Source    common practice, no source.

Fires in M:
    body:
      upper_arm: {cm: [30, 40]}
    counts:
      sleeve_sts: {by_hand: [54, 61], unit: sts}
    measures:
      finished_arm: sleeve_sts / fabric.stitches
    must_hold:
      - {ease: finished_arm, over: upper_arm, at_least: 2 cm}

Quiet:
    body:
      upper_arm: {cm: [30, 40]}
    measures:
      finished_arm: {cm: [32, 46]}
    must_hold:
      - {ease: finished_arm, over: upper_arm, at_least: 2 cm}
"""

from __future__ import annotations

from stitchproof.checks.claim_sums import value_text
from stitchproof.checks.eases import ease_text, is_as_stated, is_caused_elsewhere, is_enough
from stitchproof.checks.levers import proposals
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, SumLine
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.sizing.sized_claims import SizedEase
from stitchproof.sizing.sized_pattern import SizedPattern

PAGE = read_page(__doc__)


def least_eases(sized: SizedPattern, report: Report) -> None:
    """Sizes with less ease than can be worn; those whose ease is not the one stated are reported for that."""
    for claim in sized.claims.eases:
        for size in range(len(sized.sizes)):
            if is_enough(claim, sized.scope, size) or not is_as_stated(claim, sized.scope, size):
                continue
            if not is_caused_elsewhere(claim, size, sized):
                report.add(_report(claim, size, sized))


def _report(claim: SizedEase, size: int, sized: SizedPattern) -> Diagnostic:
    least = f"; at least {value_text(claim.at_least, size)} needed" if claim.at_least else ""
    return Diagnostic(
        PAGE,
        f"`{claim.finished.formula.text}` leaves too little room for `{claim.over.formula.text}`",
        Excerpt(claim.finished.formula.span, "too tight"),
        sizes=(sized.sizes[size],),
        sums=(SumLine(sized.sizes[size], ease_text(claim, size, sized) + least),),
        proposals=proposals([claim.finished.formula], size, sized, lambda scope: is_enough(claim, scope, size)),
        help=("make it wider, or ask for less room where the fabric stretches",),
    )


CHECKS = (least_eases,)
