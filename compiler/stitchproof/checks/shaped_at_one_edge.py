"""SP162 shaped-at-one-edge

Severity  error
Checks    two shapings that are worked at the same time, each told in a line of its own, fall on the two edges of the piece.
Matters   a front that was to be mirrored gets neck and armhole on the same edge, and does not look like a front any more.
Mend      change “at the beg of the row” to “at the end of the row”, or the other way round, in one of the two lines.
Source    common practice, no source.

Fires in S, M:
    ---
    Ch 31.
    Row 1 (RS): Sc in 2nd ch from hook and in each ch across, turn. — 30 sc
    Row 2: Ch 1, sc in each st across, turn. — 30 sc
    Count V rows from here.
    Neck: Work sc2tog at the beg of the row on V Row 1 (RS), then every 2nd row 2 more times. — 3 sts dec at neck edge
    Armhole: On V Row 5 (RS), sl st in each of first 4 sts, ch 1, work to end.
    Work even until 8 V rows are complete. Fasten off. — 23 sc

Quiet:
    ---
    Ch 31.
    Row 1 (RS): Sc in 2nd ch from hook and in each ch across, turn. — 30 sc
    Row 2: Ch 1, sc in each st across, turn. — 30 sc
    Count V rows from here.
    Neck: Work sc2tog at the end of the row on V Row 1 (RS), then every 2nd row 2 more times. — 3 sts dec at neck edge
    Armhole: On V Row 5 (RS), sl st in each of first 4 sts, ch 1, work to end.
    Work even until 8 V rows are complete. Fasten off. — 23 sc
"""

from __future__ import annotations

from stitchproof.checks.row_findings import row_report, row_words, slips_of
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.simulation.slips import SameEdge
from stitchproof.simulation.worked_pattern import WorkedPattern

PAGE = read_page(__doc__)


def same_edge(worked: WorkedPattern, report: Report) -> None:
    """Pairs of shapings that fall on the same edge."""
    for finding, slip in slips_of(SameEdge, worked, report):
        first, second = (name.strip(" :").lower() or "the shaping before" for name in (slip.first, slip.second))
        report.add(
            row_report(
                PAGE,
                f"{row_words(finding)} is shaped at the same edge as {first}",
                finding,
                slip.at,
                f"on the edge of {first}",
                f"{first} and {second} fall on the same edge of {finding.step.piece}",
                worked,
                ("one of them belongs to the other end of the row",),
            )
        )


CHECKS = (same_edge,)
