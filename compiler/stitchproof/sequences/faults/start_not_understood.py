"""SP158 published-start-not-understood

Severity  warning
Checks    the words of `start` tell what the first row is worked into: a chain, a ring, foundation stitches, a number of stitches.
Matters   without it the first row cannot be proved; what comes after is worked from its stated count.
Mend      write for example `start: ch 35`, `start: magic ring`, `start: fsc 120` or `start: 48 sc after Row 8`.
Source    the source dialect of this compiler.

Fires:
    - id: hat
      terms: us
      start: as you like it
      rows:
      - {label: Rnd 1, text: Sc in each st around, stated: 12}

Quiet:
    - id: hat
      terms: us
      start: 12 sts after Row 2
      rows:
      - {label: Rnd 1, text: Sc in each st around, stated: 12}
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.source import Span

PAGE = read_page(__doc__)


def start_not_understood(span: Span, sequence: str) -> Diagnostic:
    """sequence: its id."""
    return Diagnostic(
        PAGE,
        f"what the first row of {sequence} is worked into cannot be told",
        Excerpt(span, "not understood"),
        help=("write for example `ch 35`, `magic ring`, `fsc 120` or `48 sc after Row 8`",),
    )
