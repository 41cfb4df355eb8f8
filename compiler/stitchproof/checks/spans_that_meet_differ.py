"""SP161 spans-that-meet-differ

Severity  error
Checks    stitches that are left out of two pieces and sewn to each other stitch to stitch, such as the underarms of body and
          sleeve, are as many on both.
Matters   the seam puckers or leaves a hole, and the piece joins with more or fewer stitches than the joining round takes.
Mend      give both the same number either side of their markers.
Source    common practice, no source.

Fires in S, M:
    pieces:
      bag: {gauge: fabric, worked: joined rounds}
      pouch: {gauge: fabric, worked: joined rounds}
    special_stitches:
      fsc: {name: foundation single crochet, how: Sc made with its own ch.}
    ---
    ## Bag {bag}

    Rnd 1: Work 40 fsc, join with sl st in first fsc. — 40 fsc
    Marker A in st 3 of the last rnd.
    Underarm A: the st with marker A and the 2 sts either side of it. — 5 sts

    ## Pouch {pouch}

    Rnd 1: Work 20 fsc, join with sl st in first fsc. — 20 fsc
    Marker S in st 1 of the last rnd.
    Underarm S: the st with marker S and the 3 sts either side of it. — 7 sts
    Sew underarm S to underarm A, st to st.

Quiet:
    pieces:
      bag: {gauge: fabric, worked: joined rounds}
      pouch: {gauge: fabric, worked: joined rounds}
    special_stitches:
      fsc: {name: foundation single crochet, how: Sc made with its own ch.}
    ---
    ## Bag {bag}

    Rnd 1: Work 40 fsc, join with sl st in first fsc. — 40 fsc
    Marker A in st 3 of the last rnd.
    Underarm A: the st with marker A and the 2 sts either side of it. — 5 sts

    ## Pouch {pouch}

    Rnd 1: Work 20 fsc, join with sl st in first fsc. — 20 fsc
    Marker S in st 1 of the last rnd.
    Underarm S: the st with marker S and the 2 sts either side of it. — 5 sts
    Sew underarm S to underarm A, st to st.
"""

from __future__ import annotations

from stitchproof.checks.row_findings import row_report, slips_of, span_words
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.simulation.slips import SpansDiffer
from stitchproof.simulation.worked_pattern import WorkedPattern

PAGE = read_page(__doc__)


def spans(worked: WorkedPattern, report: Report) -> None:
    """Spans that meet and are not alike."""
    for finding, slip in slips_of(SpansDiffer, worked, report):
        one, other = span_words(slip.one), span_words(slip.other)
        report.add(
            row_report(
                PAGE,
                f"{one} of {slip.of} is not as wide as {other} of {slip.other_of}",
                finding,
                slip.at,
                f"meets {other} st to st",
                f"{slip.of} {slip.number} sts, {slip.other_of} {slip.other_number} sts;"
                f" {slip.of} would have {slip.live} − {slip.number} = {slip.live - slip.number} live sts,"
                f" with {slip.other_number} it has {slip.live - slip.other_number}",
                worked,
            )
        )


CHECKS = (spans,)
