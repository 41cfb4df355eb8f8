"""SP140 stitches-passed-over

Severity  error
Checks    stitches that a row passes over are skipped in words: “sk next 2 sts”.
Matters   a maker who finds stitches between two instructions does not know whether they are to be worked.
Mend      write “sk next … sts”, or work them.
Source    common practice, no source.

Fires in S, M:
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc
    Row 2: Ch 1, sc in each of next 4 sts, sc in last st, turn.

Quiet:
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc
    Row 2: Ch 1, sc in each of next 4 sts, sk next 15 sts, sc in last st, turn. — 5 sc
"""

from __future__ import annotations

from stitchproof.checks.row_findings import counted, row_report, row_words, slips_of
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.simulation.slips import PassesOver
from stitchproof.simulation.worked_pattern import WorkedPattern

PAGE = read_page(__doc__)


def passed_over(worked: WorkedPattern, report: Report) -> None:
    """Stitches passed over that no word skips."""
    for finding, slip in slips_of(PassesOver, worked, report):
        report.add(
            row_report(
                PAGE,
                f"{row_words(finding)} passes over stitches without a word",
                finding,
                slip.at,
                "stitches lie before this",
                f"{counted(slip.places, 'st')} passed over",
                worked,
                ("write “sk”, or work them",),
            )
        )


CHECKS = (passed_over,)
