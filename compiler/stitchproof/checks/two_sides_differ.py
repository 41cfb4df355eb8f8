"""SP164 two-sides-differ

Severity  error
Checks    what belongs together on two sides is equal: two edges that are joined stitch to stitch, and the two halves of an
          underarm on either side of its marker.
Matters   a seam with stitches left over puckers, and a marker off the middle takes all shaping beside it out of its place;
          every count of the rows themselves may still be right.
Mend      correct the number that makes the sides unequal.
Source    common practice, no source.

Fires in S, M:
    ---
    Ch 9.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 8 sc
    Row 2: Ch 1, sc2tog, sc in each st across, turn. — 7 sc
    Row 3: Ch 1, sc in each st across, turn. — 7 sc
    Joining row: Working through foundation ch and last row together, sl st in each st across. — 7 sl sts

Quiet:
    ---
    Ch 9.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 8 sc
    Row 2: Ch 1, sc in each st across, turn. — 8 sc
    Joining row: Working through foundation ch and last row together, sl st in each st across. — 8 sl sts
"""

from __future__ import annotations

from stitchproof.checks.row_findings import row_report, row_words, slips_of
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.simulation.slips import EdgesDiffer, NumberWrong, SidesDiffer
from stitchproof.simulation.worked_pattern import WorkedPattern

PAGE = read_page(__doc__)


def edges(worked: WorkedPattern, report: Report) -> None:
    """Edges joined stitch to stitch that have different numbers of stitches."""
    for finding, slip in slips_of(EdgesDiffer, worked, report):
        headline = f"{row_words(finding)} joins two edges that are not equal"
        sum_ = f"{slip.one} sts along one edge, {slip.other} along the other"
        report.add(row_report(PAGE, headline, finding, slip.at, "stitch to stitch", sum_, worked))


def halves(worked: WorkedPattern, report: Report) -> None:
    """Markers that do not lie in the middle of their underarm."""
    gaps = {(each.step.piece, each.size) for each in worked.findings if isinstance(each.slip, NumberWrong)}
    for finding, slip in slips_of(SidesDiffer, worked, report):
        if (finding.step.piece, finding.size) in gaps:
            continue  # a row is missing there, so that the marker lies in another one
        whole = slip.before + slip.after
        headline = f"a marker of {finding.step.piece} does not lie in the middle of the {slip.what}"
        sum_ = f"the {slip.what} has {whole} sts: {slip.before} before the marker, {slip.after} after it"
        note = f"the middle lies after {whole // 2} sts" if whole % 2 == 0 else ""
        report.add(row_report(PAGE, headline, finding, slip.at, "not the middle", sum_, worked, note=note))


CHECKS = (edges, halves)
