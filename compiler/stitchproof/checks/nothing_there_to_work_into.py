"""SP139 nothing-there-to-work-into

Severity  error
Checks    where a row names what it works into, such as a ch-sp, that is what comes next in the row below.
Matters   “sc in next ch-sp” where there is no space makes the maker look for a mistake of her own.
Mend      name what is there, or correct the row below or the place where the row begins.
Source    common practice, no source.

Fires in S, M:
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc
    Row 2: Ch 1, sc in next ch-sp, sc in each st across, turn.

Quiet:
    ---
    Ch 22.
    Row 1: Sc in 2nd ch from hook, [ch 1, sk next ch, sc in next ch] 10 times, turn. — 11 sc, 10 ch-1 sps
    Row 2: Ch 1, sc in next st, [sc in next ch-sp, sc in next sc] 10 times, turn. — 21 sc
"""

from __future__ import annotations

from stitchproof.checks.row_findings import row_report, row_words, slips_of, words_for
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.simulation.slips import Absent
from stitchproof.simulation.worked_pattern import WorkedPattern

PAGE = read_page(__doc__)


def absent(worked: WorkedPattern, report: Report) -> None:
    """Rows that work into something that is not there."""
    for finding, slip in slips_of(Absent, worked, report):
        wanted, found = words_for(slip.wanted), words_for(slip.found)
        told = f"{found} comes next" if slip.found else "nothing is left there"
        report.add(
            row_report(
                PAGE,
                f"{row_words(finding)} works into {wanted} where there is none",
                finding,
                slip.at,
                "not what comes next",
                f"the row wants {wanted}; {told}",
                worked,
            )
        )


CHECKS = (absent,)
