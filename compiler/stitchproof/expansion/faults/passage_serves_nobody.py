"""SP030 passage-serves-nobody

Severity  warning
Checks    a passage for some sizes is for at least one of the sizes that reach it. Passages inside a loop are not
          judged.
Matters   the text prints in no size, so no maker ever reads it; most often its test was turned round, > for <.
Mend      correct the test, or take the passage out.
Source    common practice, no source.

Fires:
    counts:
      cuff_rows: 12 rows
    ---
    ::: sizes with cuff_rows > 20
    Row 1: Sc in each st across.
    :::

Quiet:
    counts:
      cuff_rows: [12 rows, 24 rows]
    ---
    ::: sizes with cuff_rows > 20
    Row 1: Sc in each st across.
    :::
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.source import Span

PAGE = read_page(__doc__)


def passage_serves_nobody(span: Span) -> Diagnostic:
    """span: the line that opens the passage."""
    return Diagnostic(
        PAGE,
        "this passage serves no size",
        Excerpt(span, "true in no size"),
        help=("correct the condition, or take the passage out",),
    )
