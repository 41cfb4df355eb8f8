"""SP147 turned-against-the-piece

Severity  error
Checks    no round is turned where the piece says that its rounds are not: spiral rounds, and joined rounds with the right
          side facing. A spiral that is joined part of the way is SP117.
Matters   one turned round turns the fabric over: it shows, and the next round goes back where it came from.
Mend      take the words out, or change `worked:` of the piece.
Source    common practice, no source.

Fires in S, M:
    pieces:
      piece: {gauge: fabric, worked: spiral rounds}
    special_stitches: {fsc: foundation single crochet}
    ---
    Rnd 1: Work 20 fsc; do not join. — 20 fsc
    Rnd 2: Sc in each st around, turn. — 20 sc
    Rnd 3: Sc in each st around. — 20 sc

Quiet:
    pieces:
      piece: {gauge: fabric, worked: spiral rounds}
    special_stitches: {fsc: foundation single crochet}
    ---
    Rnd 1: Work 20 fsc; do not join. — 20 fsc
    Rnd 2: Sc in each st around. — 20 sc
"""

from __future__ import annotations

from stitchproof.checks.row_findings import row_report, row_words, slips_of
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.simulation.slips import WrongCourse
from stitchproof.simulation.worked_pattern import WorkedPattern

PAGE = read_page(__doc__)


def courses(worked: WorkedPattern, report: Report) -> None:
    """Rounds turned against the way their piece is worked."""
    for finding, slip in slips_of(WrongCourse, worked, report):
        report.add(
            row_report(
                PAGE,
                f"{row_words(finding)} is turned, and the piece is worked in {slip.course}",
                finding,
                slip.at,
                "turned here",
                f"`worked: {slip.course}` for {finding.step.piece}",
                worked,
            )
        )


CHECKS = (courses,)
