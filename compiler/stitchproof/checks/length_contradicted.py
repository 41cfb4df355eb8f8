"""SP098 length-contradicted

Severity  error
Checks    a length typed by hand prints as the formula beside it (`should_be`) gives it: rows or rounds at the gauge.
Matters   one maker counts rows and the other holds up a tape: where the two differ, they make two garments.
Mend      type the value that the rows give, or let the formula take its place.
Source    common practice, no source.

Fires in S, M:
    counts:
      body_rows: 40 rows
    measures:
      body_length: {cm: [40, 40], should_be: body_rows / fabric.rows}

Quiet:
    counts:
      body_rows: 40 rows
    measures:
      body_length: {cm: [33.5, 33.3], should_be: body_rows / fabric.rows}
"""

from __future__ import annotations

from stitchproof.checks.typed_values import contradiction, contradictions, is_by_rows
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.measures.dimension import LENGTH
from stitchproof.sizing.sized_pattern import SizedPattern

PAGE = read_page(__doc__)
WHAT = "length that its rows give"
MEND = "type what the rows give, or correct the rows"


def lengths(sized: SizedPattern, report: Report) -> None:
    """Typed lengths that their rows contradict."""
    for found in contradictions(sized):
        quantity, expectation, _ = found
        if quantity.kind.dimension == LENGTH and is_by_rows(expectation, sized):
            report.add(
                contradiction(
                    PAGE, found, "length that its rows give", "type what the rows give, or correct the rows", sized
                )
            )


CHECKS = (lengths,)
