"""SP086 parts-of-a-width

Severity  error
Checks    lengths that must make a longer one, such as two shoulders and the neck across the back, add up to it in every
          size, to half a centimetre, as near as lengths are printed (`parts`, `make` under `must_hold`).
Matters   the pieces do not meet, or the drawing shows a garment that cannot be sewn.
Mend      change a part or the whole; the values offered have been tried.
Source    common practice, no source.

Fires in S:
    measures:
      shoulder: {cm: [12.5, 12.5]}
      neck_width: {cm: [17.5, 17.5]}
      cross_back: {cm: [40, 42.5]}
    must_hold:
      - parts: [shoulder, neck_width, shoulder]
        make: cross_back

Quiet:
    measures:
      shoulder: {cm: [12.5, 13]}
      neck_width: {cm: [17, 17.5]}
      cross_back: {cm: [42, 43.2]}
    must_hold:
      - parts: [2 * shoulder, neck_width]
        make: cross_back
"""

from __future__ import annotations

from stitchproof.checks.part_sums import misses, part_report
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.sizing.sized_pattern import SizedPattern

PAGE = read_page(__doc__)


def widths(sized: SizedPattern, report: Report) -> None:
    """Lengths that are not the sum of their parts."""
    for claim in sized.claims.parts:
        for size in range(len(sized.sizes)):
            if claim.whole.is_length and misses(claim, size, sized):
                report.add(part_report(PAGE, claim, size, sized))


CHECKS = (widths,)
