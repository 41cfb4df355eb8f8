"""SP144 row-number-out-of-order

Severity  error
Checks    the numbers of rows follow each other, and “on yoke rnd 16” is the round that is really next.
Matters   a maker who counts rows finds that the pattern and her counter no longer agree, and cannot tell which is right.
Mend      correct the number, or the number of rows before it.
Source    common practice, no source.

Fires in S, M:
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc
    Row 3: Ch 1, sc in each st across, turn. — 20 sc

Quiet:
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc
    Rows 2–4: Ch 1, sc in each st across, turn. — 20 sc
    Row 5: Ch 1, sc in each st across, turn. — 20 sc
"""

from __future__ import annotations

from stitchproof.checks.row_findings import row_report, row_words, slips_of
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.simulation.slips import NumberWrong
from stitchproof.simulation.worked_pattern import WorkedPattern

PAGE = read_page(__doc__)


def numbers(worked: WorkedPattern, report: Report) -> None:
    """Rows whose number does not follow."""
    for finding, slip in slips_of(NumberWrong, worked, report):
        report.add(
            row_report(
                PAGE,
                f"{row_words(finding)} has a number that is not its turn",
                finding,
                slip.at,
                f"{slip.word} {slip.due} is next",
                f"written {slip.word} {slip.written}, due {slip.word} {slip.due}",
                worked,
            )
        )


CHECKS = (numbers,)
