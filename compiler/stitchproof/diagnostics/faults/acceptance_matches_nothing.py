"""SP040 acceptance-matches-nothing

Severity  warning
Checks    every `accept`, in pattern.yaml or in the text, still has a warning to accept.
Matters   an acceptance that is left behind would hide the next fault of its kind, which nobody has looked at.
Mend      take the acceptance out, or correct its code, piece, row or name.
Source    common practice, no source.

Fires:
    accept:
      - {code: passage-serves-nobody, reason: kept for a larger size to come}
    ---
    Row 1: Sc in each st across.

Quiet:
    counts:
      cuff_rows: 12 rows
    accept:
      - {code: passage-serves-nobody, reason: kept for a larger size to come}
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


def acceptance_matches_nothing(span: Span, code: str) -> Diagnostic:
    """span: where the acceptance stands. code: what it accepts."""
    return Diagnostic(
        PAGE,
        f"no warning `{code}` is found here any more that could be accepted",
        Excerpt(span, "matches nothing"),
        help=("take the acceptance out, or correct its code, piece, row or name",),
    )
