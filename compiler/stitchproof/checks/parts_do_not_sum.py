"""SP085 parts-do-not-sum

Severity  error
Checks    parts that must make a whole, such as back, fronts and underarms, add up to it in every size, to the stitch
          (`parts`, `make` under `must_hold`).
Matters   stitches are left over at the divide or the seam, or the maker runs out of them.
Mend      change a part or the whole; the values offered have been tried.
Source    common practice, no source.

Fires in M:
    counts:
      back: {by_hand: [66, 66], unit: sts}
      front: {by_hand: [66, 67], unit: sts}
      underarm: 10 sts
      body_sts: {by_hand: [152, 152], unit: sts}
    must_hold:
      - parts: [back, front, 2 * underarm]
        make: body_sts
        why: back, front and the two underarms go around the body

Quiet:
    counts:
      back: {by_hand: [66, 67], unit: sts}
      underarm: 10 sts
      body_sts: {by_hand: [152, 154], unit: sts}
    must_hold:
      - parts: [back, back, 2 * underarm]
        make: body_sts
"""

from __future__ import annotations

from stitchproof.checks.part_sums import misses, part_report
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.sizing.sized_pattern import SizedPattern

PAGE = read_page(__doc__)


def parts(sized: SizedPattern, report: Report) -> None:
    """Wholes that are no lengths, and are not the sum of their parts."""
    for claim in sized.claims.parts:
        for size in range(len(sized.sizes)):
            if not claim.whole.is_length and misses(claim, size, sized):
                report.add(part_report(PAGE, claim, size, sized))


CHECKS = (parts,)
