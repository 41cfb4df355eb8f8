"""SP029 size-not-known

Severity  error
Checks    the sizes that a passage or part of a row names are sizes of the pattern.
Matters   a misspelt size would be left without its row.
Mend      write the names as they stand under `sizes`, singly, with commas, or as a run: `S to L`.
Source    common practice, no source.

Fires:
    sizes: {names: [S, M, L]}
    ---
    ::: sizes S to XL
    Row 1: Sc in each st across.
    :::

Quiet:
    sizes: {names: [S, M, L]}
    ---
    ::: sizes S and M
    Row 1: Sc in each st across.
    :::
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.source import Span

PAGE = read_page(__doc__)


def size_not_known(span: Span, words: str, names: tuple[str, ...]) -> Diagnostic:
    """words: the sizes as written. names: the sizes of the pattern."""
    if words.strip().lower() == "with":
        return Diagnostic(
            PAGE,
            "`sizes with` does not say which sizes",
            Excerpt(span, "a test is missing"),
            help=("write a test after `with`, such as `sizes with cuff_rows > 3`",),
        )
    help_text = f"the sizes are: {', '.join(names)}"
    if words.lower().startswith("with("):
        help_text = "put a space after `with`"
    return Diagnostic(
        PAGE,
        f"`{words}` does not name sizes of this pattern",
        Excerpt(span),
        help=(help_text,),
    )
