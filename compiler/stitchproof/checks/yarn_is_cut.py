"""SP149 yarn-is-cut

Severity  error
Checks    after “fasten off” no row follows unless yarn is joined again.
Matters   a maker who has cut the yarn cannot work on, and undoing a fastened end shows.
Mend      take out “fasten off”, or write where to join the yarn.
Source    common practice, no source.

Fires in S, M:
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. Fasten off. — 20 sc
    Row 2: Ch 1, sc in each st across, turn. — 20 sc

Quiet:
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. Fasten off. — 20 sc
    With RS facing, join yarn in first st.
    Row 2: Ch 1, sc in each st across, turn. — 20 sc
"""

from __future__ import annotations

from stitchproof.checks.row_findings import row_report, row_words, slips_of
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.simulation.slips import YarnIsCut
from stitchproof.simulation.worked_pattern import WorkedPattern

PAGE = read_page(__doc__)


def cut(worked: WorkedPattern, report: Report) -> None:
    """Rows worked on after the yarn was fastened off."""
    for finding, slip in slips_of(YarnIsCut, worked, report):
        report.add(
            row_report(
                PAGE,
                f"{row_words(finding)} goes on after the yarn was cut",
                finding,
                slip.at,
                "the yarn is fastened off before this",
                "fastened off, then worked on",
                worked,
            )
        )


CHECKS = (cut,)
