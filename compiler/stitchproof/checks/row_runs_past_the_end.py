"""SP137 row-runs-past-the-end

Severity  error
Checks    no row asks for more stitches than the row below has.
Matters   a maker who runs out of stitches has to find out alone which number is wrong.
Mend      correct the number of stitches or of repeats.
Source    common practice, no source.

Fires in S, M:
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc
    Row 2: Ch 1, [sc in each of next 3 sts, sc2tog] 5 times, turn.

Quiet:
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc
    Row 2: Ch 1, [sc in each of next 3 sts, sc2tog] 4 times, turn. — 16 sc
"""

from __future__ import annotations

from stitchproof.checks.likely_causes import causes_note, totals_note
from stitchproof.checks.row_findings import end_sum, ends_of, joined_words, row_report, row_words
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.simulation.slips import PastEnd
from stitchproof.simulation.worked_pattern import WorkedPattern

PAGE = read_page(__doc__)


def past_the_end(worked: WorkedPattern, report: Report) -> None:
    """Rows that go on beyond the row below."""
    for finding, slip in ends_of(PastEnd, worked, report):
        live, total = joined_words(slip.joined)
        report.add(
            row_report(
                PAGE,
                f"{row_words(finding)} needs more stitches than there are",
                finding,
                slip.at,
                "more than there is",
                f"{live}{end_sum(slip)}",
                worked,
                note=total or causes_note(finding, worked) or totals_note(slip, finding, worked),
            )
        )


CHECKS = (past_the_end,)
