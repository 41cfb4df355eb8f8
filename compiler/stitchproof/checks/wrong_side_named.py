"""SP145 wrong-side-named

Severity  error
Checks    rows that are turned face the right side and the wrong side by turns, as their labels say.
Matters   shaping that belongs on RS rows slips to WS rows, and left and right change places.
Mend      correct the side, or the number of rows before it.
Source    common practice, no source.

Fires in S, M:
    ---
    Ch 21.
    Row 1 (RS): Sc in 2nd ch from hook and in each ch across, turn. — 20 sc
    Row 2: Ch 1, sc in each st across, turn. — 20 sc
    Row 3 (WS): Ch 1, sc in each st across, turn. — 20 sc

Quiet:
    ---
    Ch 21.
    Row 1 (RS): Sc in 2nd ch from hook and in each ch across, turn. — 20 sc
    Row 2: Ch 1, sc in each st across, turn. — 20 sc
    Row 3 (RS): Ch 1, sc in each st across, turn. — 20 sc
"""

from __future__ import annotations

from stitchproof.checks.row_findings import row_report, row_words, slips_of
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.simulation.slips import SideWrong
from stitchproof.simulation.worked_pattern import WorkedPattern

PAGE = read_page(__doc__)
ARTICLE = {"RS": "an", "WS": "a"}


def sides(worked: WorkedPattern, report: Report) -> None:
    """Labels that name the side that does not face."""
    for finding, slip in slips_of(SideWrong, worked, report):
        report.add(
            row_report(
                PAGE,
                f"{row_words(finding)} names the wrong side",
                finding,
                slip.at,
                f"{slip.due} faces here",
                f"row {slip.number} is {ARTICLE[slip.due]} {slip.due} row by turns, written {slip.written}",
                worked,
            )
        )


CHECKS = (sides,)
