"""SP192 late-value-too-early

Severity  error
Checks    an amount of yarn, and what is worked out from one, is used only where nothing is worked by it: in materials,
          notes, tables, `finished` and other values that are only printed.
Matters   yarn is counted from the rows once they are worked. A row, a loop or a claim that hung on it would hang on itself.
Mend      print it in `materials` or a note; give the row, the loop or the claim a number that does not come from the rows.
Source    how formulas are written for stitchproof.

Fires in S, M:
    yarn:
      weights: {sc: 0.02 g}
      ball: 50 g
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc
    Rep Row 1 <yarn.balls> more times.

Fires in S, M:
    yarn:
      weights: {sc: 0.02 g}
      ball: 50 g
    must_hold:
      - that: yarn.grams <= 100 g
        why: two balls are enough

Quiet:
    yarn:
      weights: {sc: 0.02 g}
      ball: 50 g
    counts:
      large_balls: {is: yarn.grams / 100 g, round: up, unit: balls}
    materials: ["Light (category 3) wool, 220 m per 100 g: <yarn.grams>, <yarn.balls> balls of 50 g, or <large_balls> of 100 g"]
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.source import Span

PAGE = read_page(__doc__)


def late_value_too_early(span: Span, name: str, where: str) -> Diagnostic:
    """name: as written. where: what it stands in, such as "a row"."""
    return Diagnostic(
        PAGE,
        f"`{name}` is known only when the rows are worked, and {where} needs it before",
        Excerpt(span, "counted from the rows"),
        help=("print it in `materials`, a note or a table; here, use a number that does not come from the rows",),
    )
