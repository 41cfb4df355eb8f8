"""SP146 rows-run-out

Severity  error
Checks    rows that go on up to a stated number are enough for all that is to be worked in them.
Matters   shaping that is not finished when the length is reached leaves the wrong number of stitches.
Mend      give it more rows, shape more often, or begin earlier.
Source    common practice, no source.

Fires in S, M:
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc
    Rows 2–6: Ch 1, sc in each st across, turn. — 20 sc
    Rep Row 6 until there are 4 rows in all.

Quiet:
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc
    Rows 2–6: Ch 1, sc in each st across, turn. — 20 sc
    Rep Row 6 until there are 14 rows in all.
"""

from __future__ import annotations

from stitchproof.checks.row_findings import counted, row_report, row_words, slips_of
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.simulation.slips import RowsRunOut
from stitchproof.simulation.worked_pattern import WorkedPattern

PAGE = read_page(__doc__)


def run_out(worked: WorkedPattern, report: Report) -> None:
    """Stretches with too few rows for what is to be worked in them."""
    for finding, slip in slips_of(RowsRunOut, worked, report):
        report.add(
            row_report(
                PAGE,
                f"the rows of {row_words(finding)} run out",
                finding,
                slip.at,
                "not that many rows are left",
                f"{counted(slip.done, 'row')} are worked or needed, and it is to end at {slip.wanted}",
                worked,
            )
        )


CHECKS = (run_out,)
