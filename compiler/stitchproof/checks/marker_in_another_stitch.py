"""SP160 marker-in-another-stitch

Severity  error
Checks    a marker that is counted from another one hangs in the stitch that the text needs, and the text says whether the stitch
          it counts from is itself counted.
Matters   one stitch more or less shows nowhere in the round; it shows rounds later, where front and back are not alike.
Mend      correct the number, and say “counting the st with marker A as st 1” or “counting from the st after marker A”.
Source    common practice, no source.

Fires in S, M:
    pieces:
      piece: {gauge: fabric, worked: joined rounds}
    special_stitches:
      fsc: {name: foundation single crochet, how: Sc made with its own ch.}
    ---
    Rnd 1: Work 40 fsc, join with sl st in first fsc. — 40 fsc
    Half rnd: Ch 1 (does not count as a st), sc in each of next 23 sts; do not join. — 23 sc
    Marker A in st 1 of the half rnd.
    Marker B in st 20 of the half rnd, counting the st with marker A as st 1.
    Underarm B: the st with marker B and the 2 sts either side of it. — 5 sts
    The half rnd ends with the last st of underarm B.

Fires in S, M:
    pieces:
      piece: {gauge: fabric, worked: joined rounds}
    special_stitches:
      fsc: {name: foundation single crochet, how: Sc made with its own ch.}
    ---
    Rnd 1: Work 40 fsc, join with sl st in first fsc. — 40 fsc
    Marker A in st 1 of the last rnd.
    Marker B in st 21 of the last rnd, counting from marker A.

Quiet:
    pieces:
      piece: {gauge: fabric, worked: joined rounds}
    special_stitches:
      fsc: {name: foundation single crochet, how: Sc made with its own ch.}
    ---
    Rnd 1: Work 40 fsc, join with sl st in first fsc. — 40 fsc
    Half rnd: Ch 1 (does not count as a st), sc in each of next 23 sts; do not join. — 23 sc
    Marker A in st 1 of the half rnd.
    Marker B in st 20 of the half rnd, counting from the st after marker A.
    Underarm B: the st with marker B and the 2 sts either side of it. — 5 sts
    The half rnd ends with the last st of underarm B.
"""

from __future__ import annotations

from stitchproof.checks.row_findings import row_report, slips_of, span_words
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.simulation.slips import CountingUnsaid, MarkerBeyond, MarkerCounted
from stitchproof.simulation.worked_pattern import WorkedPattern

PAGE = read_page(__doc__)


def counted_wrong(worked: WorkedPattern, report: Report) -> None:
    """Markers counted to another stitch than the one opposite."""
    for finding, slip in slips_of(MarkerCounted, worked, report):
        start = slip.counted_from.upper()
        how = f"counting marker {start}’s st as st 1" if slip.counted else f"counting from the st after marker {start}"
        off_by_one = slip.due - slip.nth == (1 if slip.counted else -1)
        other = f"not counting marker {start}’s st" if slip.counted else f"counting marker {start}’s st"
        report.add(
            row_report(
                PAGE,
                f"marker {slip.name.upper()} of {finding.step.piece} is not opposite marker {start}",
                finding,
                slip.at,
                "counted to another st",
                f"{how}, the opposite st of {slip.ring} is st {slip.due}, written {slip.nth};"
                f" {span_words(slip.span)} would end at st {slip.span_ends}, the {slip.words} ends at st {slip.part_ends}",
                worked,
                help_=(f"{slip.nth} is what one gets by {other}",) if off_by_one else (),
            )
        )


def beyond(worked: WorkedPattern, report: Report) -> None:
    """Markers counted to stitches that there are not."""
    for finding, slip in slips_of(MarkerBeyond, worked, report):
        report.add(
            row_report(
                PAGE,
                f"marker {slip.name.upper()} of {finding.step.piece} is counted beyond the last st",
                finding,
                slip.at,
                "no such st",
                f"st {slip.nth}, and the {slip.row} ends at st {slip.last}",
                worked,
            )
        )


def unsaid(worked: WorkedPattern, report: Report) -> None:
    """Countings that do not say whether the marked stitch is counted."""
    for finding, slip in slips_of(CountingUnsaid, worked, report):
        start = slip.counted_from.upper()
        report.add(
            row_report(
                PAGE,
                f"marker {slip.name.upper()} of {finding.step.piece} can be counted to two stitches",
                finding,
                slip.at,
                f"is marker {start}’s st counted?",
                f"{slip.nth - 1} sts after marker {start}’s st where that is st 1, {slip.nth} after it where it is not counted",
                worked,
                help_=(
                    f"write “counting the st with marker {start} as st 1” or “counting from the st after marker {start}”",
                ),
            )
        )


CHECKS = (counted_wrong, beyond, unsaid)
