"""SP147 joined-or-turned-against-the-piece

Severity  error
Checks    no row is joined or turned where the piece says that it is worked otherwise: spiral rounds are never joined, and
          rounds with the right side facing are not turned.
Matters   one joined round in a spiral leaves a step, one turned round turns the fabric over: both show, and the count of
          rounds shifts.
Mend      take the words out, or change `worked:` of the piece.
Source    common practice, no source.

Fires in S, M:
    pieces:
      piece: {gauge: fabric, worked: spiral rounds}
    special_stitches:
      fsc: {name: foundation single crochet, how: Sc made with its own ch.}
    ---
    Rnd 1: Work 20 fsc; do not join. — 20 fsc
    Rnd 2: Sc in each st around, join with sl st in first sc. — 20 sc

Quiet:
    pieces:
      piece: {gauge: fabric, worked: spiral rounds}
    special_stitches:
      fsc: {name: foundation single crochet, how: Sc made with its own ch.}
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
    """Rows joined or turned against the way their piece is worked."""
    for finding, slip in slips_of(WrongCourse, worked):
        report.add(
            row_report(
                PAGE,
                f"{row_words(finding)} is {slip.said}, and the piece is worked in {slip.course}",
                finding,
                slip.at,
                f"{slip.said} here",
                f"`worked: {slip.course}` for {finding.step.piece}",
                worked,
            )
        )


CHECKS = (courses,)
