"""SP029 size-not-known

Severity  error
Checks    the sizes that a passage, part of a row or formula (`hat_sts[Adult]`) names are sizes of the pattern.
Matters   a misspelt size would be left without its row, or its number.
Mend      write the names as they stand under `sizes`, singly, with commas, or as a run: `S to L`.
Source    common practice, no source.

Fires:
    sizes: {names: [S, M, L]}
    ---
    ::: sizes S to XL
    Row 1: Sc in each st across.
    :::

Fires in S, M, L:
    sizes: {names: [S, M, L]}
    counts:
      hat_sts: [64 sts, 72 sts, 80 sts]
      sample_sts: hat_sts[XM]

Quiet:
    sizes: {names: [S, M, L]}
    ---
    ::: sizes S and M
    Row 1: Sc in each st across.
    :::
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.nearest import nearest
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


def size_not_in_pattern(span: Span, names: tuple[str, ...]) -> Diagnostic:
    """span: a size named in a formula or a command. names: the sizes of the pattern; the nearest is offered."""
    near = nearest(span.text, names)
    label = f"the nearest size is `{near}`" if near else ""
    help_text = f"write `{near}`" if near else f"the sizes are: {', '.join(names)}"
    return Diagnostic(PAGE, f"`{span.text}` is not a size of this pattern", Excerpt(span, label), help=(help_text,))
