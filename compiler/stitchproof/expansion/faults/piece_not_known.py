"""SP035 piece-not-known

Severity  error
Checks    a heading that names a piece in braces, `## Cuff {cuff}`, names one of `pieces` in pattern.yaml, and each
          piece has one heading.
Matters   the rows below the heading belong to no piece, and cannot be worked or checked.
Mend      correct the name in braces, or add the piece to pattern.yaml.
Source    how the texts of a pattern are written for stitchproof.

Fires:
    pieces:
      cuff: {gauge: fabric, worked: rows}
    ---
    ## Cuff {cuf}
    Row 1: Sc in each st across.

Quiet:
    pieces:
      cuff: {gauge: fabric, worked: rows}
    ---
    ## Cuff {cuff}
    Row 1: Sc in each st across.
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.nearest import nearest
from stitchproof.diagnostics.page import read_page
from stitchproof.source import Span

PAGE = read_page(__doc__)


def piece_not_known(span: Span, name: str, known: tuple[str, ...]) -> Diagnostic:
    """known: the pieces of pattern.yaml."""
    near = nearest(name, known)
    help_text = f"write `{{{near}}}`" if near else f"add `{name}:` under `pieces` in pattern.yaml"
    return Diagnostic(PAGE, f"`{name}` is not a piece of this pattern", Excerpt(span), help=(help_text,))


def piece_begun_twice(span: Span, name: str) -> Diagnostic:
    """A second heading names the same piece."""
    return Diagnostic(
        PAGE,
        f"the piece `{name}` begins a second time",
        Excerpt(span),
        help=("give the second heading no name in braces, or another piece",),
    )
