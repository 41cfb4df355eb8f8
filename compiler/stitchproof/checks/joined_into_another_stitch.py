"""SP233 joined-into-another-stitch

Severity  error
Checks    a round that is joined into its first stitch by name begins with that stitch. “First st”, the top of a chain and the
          first ch are not looked at; after a starting chain that counts, the first of any stitch of the round may be meant.
Matters   a maker who finds no dc in a round of sc looks for her own mistake, and the abbreviations
          list a stitch that is not used.
Mend      name the stitch that the round begins with, or write `first st`.
Source    common practice, no source.

Fires in S, M:
    pieces:
      piece: {gauge: fabric, worked: joined rounds}
    special_stitches:
      fsc: {name: foundation single crochet, how: Sc made with its own ch.}
    ---
    Rnd 1: Work 60 fsc, join with sl st in first fsc. — 60 fsc
    Rnd 2: Ch 1, sc in each st around, join with sl st in first dc. — 60 sc

Fires in S, M:
    pieces:
      piece: {gauge: fabric, worked: joined rounds}
    special_stitches:
      fsc: {name: foundation single crochet, how: Sc made with its own ch.}
    ---
    Rnd 1: Work 60 fsc, join with sl st in first fsc. — 60 fsc
    Rnd 2: Ch 1, [sc in next st, hdc in next st] 30 times, join with sl st in first hdc. — 60 sts

Fires in S, M:
    pieces:
      piece: {gauge: fabric, worked: joined rounds}
    special_stitches:
      fsc: {name: foundation single crochet, how: Sc made with its own ch.}
    ---
    Rnd 1: Work 60 fsc, join with sl st in first fsc. — 60 fsc
    Rnd 2: Ch 3 (counts as dc), dc in each of next 59 sts, join with sl st in first sc. — 60 dc

Fires in S, M:
    pieces:
      piece: {gauge: fabric, worked: joined rounds}
    special_stitches:
      fsc: {name: foundation single crochet, how: Sc made with its own ch.}
      shell: {name: shell, how: Work 5 dc into one place., as: 5 dc in next st}
    ---
    Rnd 1: Work 60 fsc, join with sl st in first fsc. — 60 fsc
    Rnd 2: Ch 1, [sc in next st, sk 2 sts, shell in next st, sk 2 sts] 10 times, join with sl st in first shell. — 10 shells

Quiet:
    pieces:
      piece: {gauge: fabric, worked: joined rounds}
    special_stitches:
      fsc: {name: foundation single crochet, how: Sc made with its own ch.}
      shell: {name: shell, how: Work 5 dc into one place., as: 5 dc in next st}
    ---
    Rnd 1: Work 60 fsc, join with sl st in first fsc. — 60 fsc
    Rnd 2: Ch 3, [shell in next st, sk 2 sts, sc in next st, sk 2 sts] 10 times, join with sl st in first dc. — 10 shells

Quiet:
    pieces:
      piece: {gauge: fabric, worked: joined rounds}
    special_stitches:
      fsc: {name: foundation single crochet, how: Sc made with its own ch.}
    ---
    Rnd 1: Work 60 fsc, join with sl st in first fsc. — 60 fsc
    Rnd 2: Ch 1, [sc in next st, hdc in next st] 30 times, join with sl st in first sc. — 60 sts
    Rnd 3: Ch 1, [sc2tog, sc in next st] 20 times, join with sl st in first sc. — 40 sts
    Rnd 4: Ch 3 (counts as dc), [sc in next st, dc in next st] 19 times, sc in next st, join with sl st in first sc. — 40 sts
    Rnd 5: Ch 3 (counts as dc), dc in each of next 39 sts, join with sl st in top of ch-3. — 40 dc
    Rnd 6: Ch 1, sc in each st around, join with sl st in first st. — 40 sc
"""

from __future__ import annotations

from stitchproof.checks.row_findings import row_report, row_words, slips_of
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.simulation.slips import JoinedElsewhere
from stitchproof.simulation.worked_pattern import WorkedPattern

PAGE = read_page(__doc__)


def joined_elsewhere(worked: WorkedPattern, report: Report) -> None:
    """Rounds joined into a stitch that they do not begin with."""
    entries = worked.written.lexicon.entries

    def called(name: str) -> str:
        return entries[name].abbreviation if name in entries else name

    for finding, slip in slips_of(JoinedElsewhere, worked, report):
        wanted, first = called(slip.wanted), called(slip.first)
        begins = f"a starting chain that counts as {first}" if slip.on_chain else first or "a space"
        place = "top of starting ch" if slip.on_chain else f"first {first or 'st'}"
        report.add(
            row_report(
                PAGE,
                f"{row_words(finding)} is joined into its first {wanted}, and does not begin with it"
                if slip.held
                else f"{row_words(finding)} is joined into its first {wanted}, and has no {wanted}",
                finding,
                slip.at,
                f"the round begins with {begins}",
                f"begins with {begins}; {f'the first {wanted} comes later' if slip.held else f'it has no {wanted}'}",
                worked,
                help_=(f"write `join with sl st in {place}`",),
            )
        )


CHECKS = (joined_elsewhere,)
