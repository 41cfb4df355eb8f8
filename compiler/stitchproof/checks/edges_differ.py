"""SP094 edges-differ

Severity  error
Checks    edges that are sewn or worked together stitch to stitch (`edge`, `meets` under `must_hold`) have the same
          count in every size. One may be eased into the other by as much as `from` and `to` say.
Matters   stitches are left over at the end of the seam.
Mend      change the stitches of one of the two edges; the values offered have been tried.
Source    common practice, no source.

Fires in M:
    counts:
      back_shoulder: {by_hand: [18, 19], unit: sts}
      front_shoulder: {by_hand: [18, 18], unit: sts}
    must_hold:
      - {edge: front_shoulder, meets: back_shoulder}

Quiet:
    counts:
      back_shoulder: 19 sts
      front_shoulder: 19 sts
      band_sts: 102 sts
      edge_sts: 100 sts
    must_hold:
      - {edge: front_shoulder, meets: back_shoulder}
      - {edge: band_sts, meets: edge_sts, to: 2%}
"""

from __future__ import annotations

from stitchproof.checks.edge_fits import is_misfit, misfit
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.sizing.sized_pattern import SizedPattern

PAGE = read_page(__doc__)


def counted(sized: SizedPattern, report: Report) -> None:
    """Edges that are counted, and do not fit."""
    for claim in sized.claims.edges:
        for size in range(len(sized.sizes)):
            if not claim.edge.is_length and is_misfit(claim, size, sized):
                report.add(misfit(PAGE, claim, size, sized))


CHECKS = (counted,)
