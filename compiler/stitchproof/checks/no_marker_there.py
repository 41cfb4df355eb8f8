"""SP141 no-marker-there

Severity  error
Checks    a row that works to a marker finds one: it was placed before, and has not been passed or removed.
Matters   a maker cannot work to a marker that no line has told her to place.
Mend      place the marker in an earlier row, or count stitches instead.
Source    common practice, no source.

Fires in S, M:
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc
    Row 2: Ch 1, sc in each st to 1 st before next marker, 2 sc in next st, sc in each st across, turn.

Quiet:
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc
    Row 2: Ch 1, sc in each of next 10 sts, pm, sc in each st across, turn. — 20 sc
"""

from __future__ import annotations

from stitchproof.checks.row_findings import row_report, row_words, slips_of
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.simulation.slips import NoMarker
from stitchproof.simulation.worked_pattern import WorkedPattern

PAGE = read_page(__doc__)


def no_marker(worked: WorkedPattern, report: Report) -> None:
    """Rows that work to a marker that is not placed."""
    for finding, slip in slips_of(NoMarker, worked, report):
        report.add(
            row_report(
                PAGE,
                f"{row_words(finding)} goes to a marker that is not there",
                finding,
                slip.at,
                "no marker is left before the end",
                "no marker ahead in the row below",
                worked,
            )
        )


CHECKS = (no_marker,)
