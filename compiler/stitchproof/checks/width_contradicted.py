"""SP097 width-contradicted

Severity  error
Checks    a width typed by hand (for the table of measurements, or as the label of a drawing) prints as the formula beside it
          (`should_be`) gives it: stitches at the gauge, less what the seams take.
Matters   the maker gets another width than the one that is promised; every count is right all the same.
Mend      type the value that the stitches give, or let the formula take its place.
Source    common practice, no source.

Fires in M:
    counts:
      hat_sts: {by_hand: [88, 96], unit: sts}
    measures:
      circumference: {cm: [55, 58], should_be: hat_sts / fabric.stitches}

Quiet:
    counts:
      back_sts: {by_hand: [58, 62], unit: sts}
    measures:
      cross_back: {cm: [36.3, 39], should_be: back_sts / fabric.stitches}
      neck: {in: [11.5, 11.5], should_be: 29 cm}
"""

from __future__ import annotations

from stitchproof.checks.typed_values import contradiction, contradictions, is_by_rows
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.measures.dimension import LENGTH
from stitchproof.sizing.sized_pattern import SizedPattern

PAGE = read_page(__doc__)
WHAT = "width that its stitches give"
MEND = "type what the stitches give, or correct the stitches"


def widths(sized: SizedPattern, report: Report) -> None:
    """Typed lengths that their stitches contradict; those that no gauge gives are judged here as well."""
    for found in contradictions(sized):
        quantity, expectation, _ = found
        if quantity.kind.dimension == LENGTH and not is_by_rows(expectation, sized):
            report.add(
                contradiction(
                    PAGE,
                    found,
                    "width that its stitches give",
                    "type what the stitches give, or correct the stitches",
                    sized,
                )
            )


CHECKS = (widths,)
