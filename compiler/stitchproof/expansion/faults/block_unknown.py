"""SP031 block-unknown

Severity  error
Checks    the words after ::: begin a block that there is: a passage that is repeated, kept to some sizes, or set apart.
Matters   text in an unknown block would be printed for the wrong sizes, or not at all.
Mend      write one of: for each k in 1 to n, for each k of a plan, sizes with a test, sizes S to L, other sizes, all
          sizes, note, caution, make 2, on trust: the reason, accept with a code and a reason.
Source    how the texts of a pattern are written for stitchproof.

Fires:
    title: Hat
    ---
    ::: remark
    Mind the edge.
    :::

Quiet:
    title: Hat
    ---
    ::: note
    Mind the edge.
    :::
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.source import Span

PAGE = read_page(__doc__)
KNOWN = (
    "`for each k in 1 to n`, `sizes with …`, `sizes S to L`, `other sizes`, `all sizes`, `note`, `caution`, `make 2`,"
    " `on trust: …`"
)


def block_unknown(span: Span, words: str) -> Diagnostic:
    """words: what stands after the colons."""
    is_loop = words.lower().startswith("for")
    help_text = (
        "write a loop as `::: for each k in 1 to n`, or `::: for each k of` a plan"
        if is_loop
        else f"the blocks are {KNOWN}"
    )
    return Diagnostic(PAGE, f"`{words[:60]}` is not a block", Excerpt(span), help=(help_text,))
