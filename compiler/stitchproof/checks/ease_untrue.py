"""SP092 ease-untrue

Severity  error
Checks    the ease that the pattern states (`ease`, `over`, `from`, `to` under `must_hold`) is true in every size: the finished
          measurement less the body's, exactly or as it prints. An ease below 0 makes a garment smaller than the body.
Matters   a maker chooses her size by it.
Mend      state the ease that the sizes have, or change the stitches.
Source    common practice, no source.

Fires in M:
    body:
      bust: {cm: [80, 90]}
    counts:
      body_sts: {by_hand: [144, 150], unit: sts}
    measures:
      finished_bust: body_sts / fabric.stitches
    must_hold:
      - {ease: finished_bust, over: bust, from: 9 cm, to: 11 cm, why: the notes promise 10 cm}

Quiet:
    body:
      head: {cm: [52, 56]}
      bust: {cm: [80, 90]}
    measures:
      hat_around: {cm: [49.8, 53]}
      finished_bust: {cm: [90, 100]}
    must_hold:
      - {ease: hat_around, over: head, from: -3 cm, to: -2 cm}
      - {ease: finished_bust, over: bust, from: 10 cm}
"""

from __future__ import annotations

from stitchproof.checks.claim_sums import value_text
from stitchproof.checks.eases import ease_text, is_as_stated, is_caused_elsewhere
from stitchproof.checks.levers import proposals
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, SumLine
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.sizing.sized_claims import SizedEase
from stitchproof.sizing.sized_pattern import SizedPattern

PAGE = read_page(__doc__)


def eases(sized: SizedPattern, report: Report) -> None:
    """Sizes whose ease is another than the one stated."""
    for claim in sized.claims.eases:
        for size in range(len(sized.sizes)):
            if not is_as_stated(claim, sized.scope, size) and not is_caused_elsewhere(claim, size, sized):
                report.add(_report(claim, size, sized))


def _report(claim: SizedEase, size: int, sized: SizedPattern) -> Diagnostic:
    return Diagnostic(
        PAGE,
        f"the ease of `{claim.finished.formula.text}` over `{claim.over.formula.text}` is not the one stated",
        Excerpt(claim.finished.formula.span, "this ease"),
        sizes=(sized.sizes[size],),
        sums=(SumLine(sized.sizes[size], f"{ease_text(claim, size, sized)}, not {_stated(claim, size)}"),),
        proposals=proposals([claim.finished.formula], size, sized, lambda scope: is_as_stated(claim, scope, size)),
        help=("state the ease that the sizes have, or change the stitches",),
    )


def _stated(claim: SizedEase, size: int) -> str:
    if claim.low and claim.high:
        return f"from {value_text(claim.low, size)} to {value_text(claim.high, size)}"
    if claim.low:
        return f"{value_text(claim.low, size)} or more"
    return f"{value_text(claim.high, size)} or less" if claim.high else "the one stated"


CHECKS = (eases,)
