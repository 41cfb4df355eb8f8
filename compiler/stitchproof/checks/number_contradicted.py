"""SP099 number-contradicted

Severity  warning
Checks    a count or weight typed by hand is the one that the formula beside it (`should_be`) gives.
Matters   it may be the designer's wish, or a number that was left behind when another was changed.
Mend      type the value that the formula gives, or accept the difference with a reason (`accept`).
Source    common practice, no source.

Fires in M:
    counts:
      ribs: {by_hand: [29, 32], unit: ribs}
      brim_rows: {by_hand: [58, 65], unit: rows, should_be: ribs * 2 rows per rib}

Quiet:
    counts:
      ribs: {by_hand: [29, 32], unit: ribs}
      brim_rows: {by_hand: [58, 64], unit: rows, should_be: ribs * 2 rows per rib}
"""

from __future__ import annotations

from stitchproof.checks.typed_values import contradiction, contradictions
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.measures.dimension import LENGTH
from stitchproof.sizing.sized_pattern import SizedPattern

PAGE = read_page(__doc__)
WHAT = "number that its formula gives"
MEND = "type what the formula gives, or accept it with a reason"


def numbers(sized: SizedPattern, report: Report) -> None:
    """Typed counts and weights that their formula contradicts."""
    for found in contradictions(sized):
        if found[0].kind.dimension != LENGTH:
            report.add(
                contradiction(
                    PAGE,
                    found,
                    "number that its formula gives",
                    "type what the formula gives, or accept it with a reason",
                    sized,
                )
            )


CHECKS = (numbers,)
