"""SP143 half-a-rib

Severity  error
Checks    ribbing worked sideways has an even number of rows where the pattern counts it in ribs: one rib is two rows.
Matters   with half a rib the seam does not sit in a furrow, and stitches picked up by ribs do not come out.
Mend      take one row more or one fewer.
Source    common practice, no source.

Fires in S, M:
    ---
    Ch 9.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 8 sc
    Row 2: Ch 1, sc in each st across, turn. — 8 sc
    Rep Row 2 until there are 65 rows in all. — 32 ribs

Quiet:
    ---
    Ch 9.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 8 sc
    Row 2: Ch 1, sc in each st across, turn. — 8 sc
    Rep Row 2 until there are 64 rows in all. — 32 ribs
"""

from __future__ import annotations

from stitchproof.checks.row_findings import row_report, row_words, slips_of
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.simulation.slips import HalfRibs
from stitchproof.simulation.worked_pattern import WorkedPattern

PAGE = read_page(__doc__)


def half_ribs(worked: WorkedPattern, report: Report) -> None:
    """Ribs stated over an odd number of rows."""
    for finding, slip in slips_of(HalfRibs, worked, report):
        report.add(
            row_report(
                PAGE,
                f"{row_words(finding)} ends in the middle of a rib",
                finding,
                slip.at,
                "1 rib is 2 rows",
                f"{slip.rows} rows / 2 = {slip.rows / 2} ribs, stated {slip.stated}",
                worked,
                note=f"{slip.rows - 1} or {slip.rows + 1} rows would be whole ribs",
            )
        )


CHECKS = (half_ribs,)
