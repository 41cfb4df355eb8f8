"""SP032 dialect-not-known

Severity  error
Checks    `dialect` in pattern.yaml names a way of writing patterns that this stitchproof reads. It has nothing to do
          with US and UK terms.
Matters   in a later way of writing the same words may mean something else, and the maker would get other rows.
Mend      write `dialect: 1`, or use the stitchproof that the pattern was written for.
Source    how pattern.yaml is written for stitchproof.

Fires:
    dialect: 2
    title: Hat
    sizes: {names: [S]}

Quiet:
    dialect: 1
    title: Hat
    revision: 1
    date: 2026-01-01
    contact: a@example.org
    sizes: {names: [S]}
    pieces: {piece: {worked: rows}}
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.source import Span

PAGE = read_page(__doc__)


def dialect_not_known(span: Span, known: str) -> Diagnostic:
    """known: the dialect that this compiler reads."""
    return Diagnostic(
        PAGE,
        f"this pattern is written in dialect {span.text}, which this compiler does not read",
        Excerpt(span, f"reads dialect {known}"),
        help=(f"write `dialect: {known}`, or use the compiler that the pattern was written for",),
    )
