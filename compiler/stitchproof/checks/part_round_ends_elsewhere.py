"""SP159 part-round-ends-elsewhere

Severity  error
Checks    a round that stops part of the way stops in the stitch that the text names, is not joined, and the next one does not
          begin inside stitches that are left out.
Matters   a half round is there to move the start. Joined to its first stitch it moves nothing and pulls the fabric together;
          stopped a stitch too early or too late, everything that is counted from there is off by as much.
Mend      take out the join, or correct the number of stitches of the round or of the span that it ends with.
Source    common practice, no source.

Fires in S, M:
    pieces:
      piece: {gauge: fabric, worked: joined rounds}
    special_stitches:
      fsc: {name: foundation single crochet, how: Sc made with its own ch.}
    ---
    Rnd 1: Work 40 fsc, join with sl st in first fsc. — 40 fsc
    Half rnd: Ch 1 (does not count as a st), sc in each of next 23 sts, join with sl st in first sc. — 23 sc

Fires in S, M:
    pieces:
      piece: {gauge: fabric, worked: joined rounds}
    special_stitches:
      fsc: {name: foundation single crochet, how: Sc made with its own ch.}
    ---
    Rnd 1: Work 40 fsc, join with sl st in first fsc. — 40 fsc
    Half rnd: Ch 1 (does not count as a st), sc in each of next 22 sts; do not join. — 22 sc
    Marker A in st 1 of the half rnd.
    Marker B in st 21 of the half rnd, counting the st with marker A as st 1.
    Underarm B: the st with marker B and the 2 sts either side of it. — 5 sts
    The half rnd ends with the last st of underarm B.

Quiet:
    pieces:
      piece: {gauge: fabric, worked: joined rounds}
    special_stitches:
      fsc: {name: foundation single crochet, how: Sc made with its own ch.}
    ---
    Rnd 1: Work 40 fsc, join with sl st in first fsc. — 40 fsc
    Half rnd: Ch 1 (does not count as a st), sc in each of next 23 sts; do not join. — 23 sc
    Marker A in st 1 of the half rnd.
    Marker B in st 21 of the half rnd, counting the st with marker A as st 1.
    Underarm B: the st with marker B and the 2 sts either side of it. — 5 sts
    The half rnd ends with the last st of underarm B.
"""

from __future__ import annotations

from stitchproof.checks.row_findings import counted, row_report, row_words, slips_of, span_words
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.simulation.slips import PartRoundEnds, PartRoundJoined, StartsInSpan
from stitchproof.simulation.worked_pattern import WorkedPattern

PAGE = read_page(__doc__)


def joined(worked: WorkedPattern, report: Report) -> None:
    """Part rounds that are joined."""
    for finding, slip in slips_of(PartRoundJoined, worked, report):
        report.add(
            row_report(
                PAGE,
                f"{row_words(finding)} is joined, and it does not end beside its first st",
                finding,
                slip.at,
                "joined here",
                "joined there, the start would not move and the fabric between would be pulled together",
                worked,
                help_=("leave the join out: the next rnd goes on from where this one stops",),
            )
        )


def ends(worked: WorkedPattern, report: Report) -> None:
    """Part rounds that stop in another stitch than they have to."""
    for finding, slip in slips_of(PartRoundEnds, worked, report):
        span = span_words(slip.span)
        inside = slip.ends < slip.due
        report.add(
            row_report(
                PAGE,
                f"{row_words(finding)} does not end with the last st of {span}",
                finding,
                slip.at,
                f"ends at st {slip.ends}",
                f"it ends at st {slip.ends}; {span} (marker {slip.marker.upper()} in st {slip.marked}, {slip.after} after it)"
                f" ends at st {slip.due}",
                worked,
                help_=(
                    f"the next rnd would start {'inside' if inside else counted(slip.ends - slip.due, 'st') + ' after'} {span}",
                ),
            )
        )


def starts(worked: WorkedPattern, report: Report) -> None:
    """Rows that start inside a span that they leave out."""
    for finding, slip in slips_of(StartsInSpan, worked, report):
        span = span_words(slip.span)
        report.add(
            row_report(
                PAGE,
                f"{row_words(finding)} starts inside {span} of {slip.of}",
                finding,
                slip.at,
                "starts here",
                f"{slip.within} of the {slip.number} sts of {span} lie after the start",
                worked,
            )
        )


CHECKS = (joined, ends, starts)
