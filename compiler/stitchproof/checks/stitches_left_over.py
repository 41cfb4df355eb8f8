"""SP136 stitches-left-over

Severity  error
Checks    each row works every stitch of the row below, or says that the rest stays unworked.
Matters   a maker who has stitches left at the end does not know whether she or the pattern has miscounted.
Mend      correct the number of stitches or of repeats, or say “leaving rem sts unworked”.
Source    common practice, no source.

Fires in S, M:
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc
    Row 2: Ch 1, [sc in each of next 3 sts, sc2tog] 3 times, turn.

Quiet:
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc
    Row 2: Ch 1, sc in each of next 12 sts, turn, leaving rem sts unworked. — 12 sc
"""

from __future__ import annotations

from stitchproof.checks.likely_causes import causes_note, totals_note
from stitchproof.checks.row_findings import end_sum, ends_of, joined_words, row_report, row_words
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.simulation.slips import LeftOver
from stitchproof.simulation.worked_pattern import WorkedPattern

PAGE = read_page(__doc__)


def left_over(worked: WorkedPattern, report: Report) -> None:
    """Rows that end before the row below does."""
    for finding, slip in ends_of(LeftOver, worked, report):
        live, total = joined_words(slip.joined)
        report.add(
            row_report(
                PAGE,
                f"{row_words(finding)} leaves stitches unworked",
                finding,
                slip.at,
                "stitches are left after this",
                f"{live}{end_sum(slip)}",
                worked,
                note=total or causes_note(finding, worked) or totals_note(slip, finding, worked),
            )
        )


CHECKS = (left_over,)
