"""SP156 published-count-wrong

Severity  error
Checks    the count published for a row is the one that the row, worked stitch by stitch, comes to on one of the bases on which
          the trade counts: stitches, stitches and spaces, with or without the starting chain.
Matters   the maker trusts the number at the end of the row.
Mend      correct the count or the row. A basis that the print follows may be told in `convention`.
Source    common practice, no source.

Fires:
    - id: ball
      terms: us
      start: magic ring
      rows:
      - {label: Rnd 1, text: 6 sc in ring, stated: 6}
      - {label: Rnd 2, text: 2 sc in each st around, stated: 13}

Quiet:
    - id: ball
      terms: us
      start: magic ring
      rows:
      - {label: Rnd 1, text: 6 sc in ring, stated: 6}
      - {label: Rnd 2, text: 2 sc in each st around, stated: 12}
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, SumLine
from stitchproof.diagnostics.page import read_page
from stitchproof.sequences.outcomes import WrongCount
from stitchproof.source import Span

PAGE = read_page(__doc__)


def count_wrong(wrong: WrongCount, row: str, size: str, span: Span) -> Diagnostic:
    """row: the row by its name and sequence. size: "" where the sequence has none. span: the text of the row."""
    noun = wrong.noun or "sts"
    return Diagnostic(
        PAGE,
        f"{row} states another count than it makes",
        Excerpt(span, "not what the row makes"),
        sizes=(size,) if size else (),
        sums=(SumLine(size, f"worked {wrong.worked} {noun}, stated {wrong.stated}"),),
    )
