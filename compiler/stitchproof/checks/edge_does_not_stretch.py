"""SP091 edge-does-not-stretch

Severity  warning
Checks    a hem, cuff or other edge, stretched as far as it goes, reaches around the hip, hand or arm that passes
          through it (`opening`, `over` under `must_hold`). Where its stretch is not measured, the usual one for what it
          is made of is taken (`of`): firm sc 1.05, mesh 1.15, rib 1.35.
Matters   the garment cannot be put on, or the edge digs in; every count is right all the same.
Mend      put more stitches in that edge, or work it in a stretchier way. The values offered have been tried.
Source    common practice, no source.

Fires in M:
    body:
      hand: {cm: [17, 20]}
    counts:
      cuff_sts: 28 sts
    measures:
      cuff: cuff_sts / fabric.stitches
    must_hold:
      - {opening: cuff, of: firm sc, over: hand}

Quiet:
    body:
      hand: {cm: [17, 20]}
    counts:
      cuff_sts: 28 sts
    measures:
      cuff: cuff_sts / fabric.stitches
    must_hold:
      - {opening: cuff, of: rib, over: hand, spare: 1 cm}
"""

from __future__ import annotations

from stitchproof.checks.openings import is_for_the_head, tight_openings
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.sizing.sized_pattern import SizedPattern

PAGE = read_page(__doc__)


def edges(sized: SizedPattern, report: Report) -> None:
    """Openings that something other than a head passes through."""
    claims = (claim for claim in sized.claims.openings if not is_for_the_head(claim))
    report.extend(tight_openings(claims, PAGE, sized))


CHECKS = (edges,)
