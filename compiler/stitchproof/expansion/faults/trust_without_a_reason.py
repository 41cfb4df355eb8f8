"""SP150 trust-without-a-reason

Severity  error
Checks    rows that are to be taken on trust, without proof, say why.
Matters   whoever edits the pattern next, or reads the proof, has to know whether a row was left out on purpose.
Mend      write the reason after `on trust`: `::: on trust: a cable that the maker places freely`.
Source    common practice, no source.

Fires:
    ---
    ::: on trust
    Row 1: Work the leaves wherever they please you.
    :::

Quiet:
    ---
    ::: on trust: the motif is placed freely
    Row 1: Work the leaves wherever they please you.
    :::
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.source import Span

PAGE = read_page(__doc__)


def trust_without_a_reason(fence: Span) -> Diagnostic:
    """Report: a block of rows on trust, without a reason."""
    return Diagnostic(
        PAGE,
        "rows are to be taken on trust, and no reason is given",
        Excerpt(fence, "why?"),
        help=("write the reason behind it: `::: on trust: …`",),
    )
