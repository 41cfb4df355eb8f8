"""SP148 row-called-is-missing

Severity  error
Checks    a row that another line calls for, “Rep Row 2”, “work Dec Row”, is written in the same piece before it is called.
Matters   the maker leafs back and finds no such row.
Mend      write the row, or call for the one that is meant.
Source    common practice, no source.

Fires in S, M:
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc
    Rep Row 2 until there are 14 rows in all.

Quiet:
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc
    Row 2: Ch 1, sc in each st across, turn. — 20 sc
    Rep Row 2 until there are 14 rows in all.
"""

from __future__ import annotations

from stitchproof.checks.row_findings import row_report, row_words, slips_of
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.simulation.slips import NoSuchRow
from stitchproof.simulation.worked_pattern import WorkedPattern

PAGE = read_page(__doc__)


def missing(worked: WorkedPattern, report: Report) -> None:
    """Rows called for that are not there."""
    for finding, slip in slips_of(NoSuchRow, worked, report):
        report.add(
            row_report(
                PAGE,
                f"{row_words(finding)} calls for a row that is not there",
                finding,
                slip.at,
                "no such row before this",
                f"{slip.name or 'the row'} is not written in {finding.step.piece}",
                worked,
            )
        )


CHECKS = (missing,)
