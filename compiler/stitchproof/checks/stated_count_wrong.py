"""SP135 stated-count-wrong

Severity  error
Checks    the count that a row states is the count that the row, worked stitch by stitch, comes to.
Matters   the maker trusts the number at the end of the row: where it is wrong she takes back a right row, or goes on with a
          wrong one.
Mend      correct the count, or the row, whichever is not meant.
Source    common practice, no source.

Fires in S, M:
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc
    Row 2: Ch 1, [sc in each of next 3 sts, sc2tog] 4 times, turn. — 17 sc

Fires in M:
    counts:
      sts: {by_hand: [20, 30], unit: sts}
      stated: {by_hand: [20, 31], unit: sts}
    ---
    Ch <sts + 1>.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — <stated> sc

Quiet:
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc
    Row 2: Ch 1, [sc in each of next 3 sts, sc2tog] 4 times, turn. — 16 sc
"""

from __future__ import annotations

from stitchproof.checks.likely_causes import causes_note, stated_origin
from stitchproof.checks.row_findings import counted, row_report, row_words, slips_of
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.simulation.slips import CountWrong
from stitchproof.simulation.worked_pattern import WorkedPattern

PAGE = read_page(__doc__)


def counts(worked: WorkedPattern, report: Report) -> None:
    """Stated counts that are not what is worked."""
    for finding, slip in slips_of(CountWrong, worked, report):
        noun = slip.noun or "sts"
        if slip.change:
            word = "more" if slip.change > 0 else "fewer"
            headline = f"{row_words(finding)} states another change than it makes"
            sum_ = f"the row has {counted(slip.worked, 'st')} {word} than the one before, stated {slip.stated}"
        else:
            headline = f"{row_words(finding)} states another count than it makes"
            sum_ = f"worked {_sum(slip)}{slip.worked} {noun}, stated {slip.stated}"
        note = "the figures look swapped" if _swapped(slip) else ""
        note = note or causes_note(finding, worked) or stated_origin(finding, slip.worked, slip.at, worked)
        report.add(row_report(PAGE, headline, finding, slip.at, "not what the row makes", sum_, worked, note=note))


def _sum(slip: CountWrong) -> str:
    """What a row that meets several pieces makes on each."""
    return " + ".join(f"{number} of {piece}" for piece, number in slip.parts) + (" = " if slip.parts else "")


def _swapped(slip: CountWrong) -> bool:
    """Whether the count is stated with two neighbouring figures changed over."""
    stated, made = str(slip.stated), str(slip.worked)
    differ = [at for at, (one, other) in enumerate(zip(stated, made, strict=False)) if one != other]
    return (
        len(stated) == len(made) and len(differ) == 2 and differ[1] == differ[0] + 1 and sorted(stated) == sorted(made)
    )


CHECKS = (counts,)
