"""SP138 repeat-does-not-divide

Severity  error
Checks    a repeat that is worked “across” or “around” goes whole into the stitches that there are for it.
Matters   where the last repeat is cut, the pattern of the fabric breaks at the edge and the count is not the stated one.
Mend      choose a count that the repeat divides, or add edge stitches outside the repeat.
Source    common practice, no source.

Fires in S, M:
    ---
    Ch 22.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 21 sc
    Row 2: Ch 1, *sc in each of next 3 sts, sc2tog; rep from * across, turn.

Quiet:
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc
    Row 2: Ch 1, *sc in each of next 3 sts, sc2tog; rep from * across, turn. — 16 sc
"""

from __future__ import annotations

from stitchproof.checks.likely_causes import causes_note, totals_note
from stitchproof.checks.row_findings import counted, row_report, row_words, slips_of
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.simulation.slips import DoesNotDivide
from stitchproof.simulation.worked_pattern import WorkedPattern

PAGE = read_page(__doc__)


def does_not_divide(worked: WorkedPattern, report: Report) -> None:
    """Repeats that are cut short by the end of the row."""
    for finding, slip in slips_of(DoesNotDivide, worked, report):
        fit = slip.fit
        passes, rest = divmod(fit.room, fit.takes) if fit.takes else (0, fit.room)
        report.add(
            row_report(
                PAGE,
                f"the repeat in {row_words(finding)} does not go whole into its stitches",
                finding,
                slip.at,
                f"one repeat takes {counted(fit.takes, 'st')}",
                f"{fit.room} = {passes} × {fit.takes} + {rest}: {counted(rest, 'st')} left over",
                worked,
                note=causes_note(finding, worked) or totals_note(slip, finding, worked),
            )
        )


CHECKS = (does_not_divide,)
