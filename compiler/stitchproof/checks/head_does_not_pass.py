"""SP090 head-does-not-pass

Severity  warning
Checks    a neck or brim goes over the head (`opening`, `over: head` under `must_hold`). Every round or row that runs
          around it, stretched as far as it goes, is longer than the head, with 1 cm to spare unless `spare` says
          otherwise. Where its stretch is not measured, the usual one for what it is made of is taken (`of`): firm sc
          1.05, mesh 1.15, rib 1.35.
Matters   the maker cannot pull it over her head, though every count is right. Often the tightest place is the plain
          round between fabric and band.
Mend      put more stitches there, or work it in a stretchier way. The values offered have been tried.
Source    common practice, no source.

Fires in S:
    body:
      head: 56 cm
    counts:
      edge_sts: {by_hand: [91, 96], unit: sts}
      pick_up: {by_hand: [82, 90], unit: sts}
    measures:
      neck_edge: edge_sts / 1.8 sts per 1 cm
      neck_round: pick_up / 1.6 sts per 1 cm
    must_hold:
      - {opening: neck_edge, of: mesh, over: head}
      - {opening: neck_round, over: head}

Quiet:
    body:
      head: 56 cm
    counts:
      edge_sts: 91 sts
      ribs: 45 ribs
    measures:
      neck_edge: edge_sts / 1.8 sts per 1 cm
      neckband: {is: ribs / 0.9 ribs per cm, unit: cm}
    must_hold:
      - {opening: neck_edge, stretch: 115%, over: head, spare: 2 cm}
      - {opening: neckband, of: rib, over: head}
"""

from __future__ import annotations

from stitchproof.checks.openings import is_for_the_head, tight_openings
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.sizing.sized_pattern import SizedPattern

PAGE = read_page(__doc__)


def heads(sized: SizedPattern, report: Report) -> None:
    """Openings that a head passes through."""
    claims = (claim for claim in sized.claims.openings if is_for_the_head(claim))
    report.extend(tight_openings(claims, PAGE, sized))


CHECKS = (heads,)
