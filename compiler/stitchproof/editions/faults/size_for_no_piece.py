"""SP182 size-for-no-piece

Severity  error
Checks    a size that is asked for by piece (`--size sleeve=6`) names a piece of the pattern.
Matters   a misspelt piece would be printed in the wrong size.
Mend      write the piece by its name under `pieces`.
Source    how sizes are chosen in stitchproof.
"""

from __future__ import annotations

from collections.abc import Sequence

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.source import Span

PAGE = read_page(__doc__)


def size_for_no_piece(span: Span, pieces: Sequence[str], near: str | None) -> Diagnostic:
    """span: the piece as asked for. pieces: those there are. near: the nearest of them."""
    label = f"the nearest piece is `{near}`" if near else ""
    help_text = f"write `{near}`" if near else f"the pieces are: {', '.join(pieces)}"
    return Diagnostic(PAGE, f"`{span.text}` is not a piece of this pattern", Excerpt(span, label), help=(help_text,))
