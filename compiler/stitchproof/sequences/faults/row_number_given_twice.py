"""SP157 published-row-number-given-twice

Severity  error
Checks    a row of a published sequence does not carry a number that the label before it has given already.
Matters   the maker cannot tell whether a row is to be worked again or the number is wrong.
Mend      number the row on from the one before.
Source    common practice, no source.

Fires:
    - id: ear
      terms: us
      start: 8 sc after Row 8
      rows:
      - {label: Rows 9-14, text: Sc in each st across, stated: 8}
      - {label: Row 10, text: "Sc2tog, sc in next 4 sts, sc2tog", stated: 6}

Quiet:
    - id: ear
      terms: us
      start: 8 sc after Row 8
      rows:
      - {label: Rows 9-14, text: Sc in each st across, stated: 8}
      - {label: Row 15, text: "Sc2tog, sc in next 4 sts, sc2tog", stated: 6}
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, SumLine
from stitchproof.diagnostics.page import read_page
from stitchproof.sequences.outcomes import WrongLabel
from stitchproof.source import Span

PAGE = read_page(__doc__)


def row_number_given_twice(wrong: WrongLabel, row: str, span: Span) -> Diagnostic:
    """row: the row by its name and sequence. span: its label."""
    return Diagnostic(
        PAGE,
        f"{row} has a number that was given already",
        Excerpt(span, "given already"),
        sums=(SumLine("", f"numbered {wrong.written}, the next is {wrong.due}"),),
        help=(f"number it {wrong.due}",),
    )
